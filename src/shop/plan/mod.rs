//! The operations in their order: the section's cuts, each with what holds the work, what it is
//! measured from and how it is verified, and between them the steps that take nothing off.
//!
//! ```text
//!   planner   walks the cuts              operation   a step with what has to be known of it
//!   depth, pin, trial_fit, tapping, outside, speed, tight, binding   what a step says
//!   body      tools and pins to be slid   boxes       what is read at the bench, read back
//! ```

mod binding;
mod body;
mod boxes;
mod depth;
mod error;
mod operation;
mod outside;
mod pin;
mod planner;
mod speed;
mod tapping;
mod tight;
mod trial_fit;

pub use binding::Binding;
pub use depth::{Depths, Handwheel};
pub use error::PlanError;
pub use operation::{BoreWork, Holding, Measured, Operation, TenonWork, ThreadWork, Work};
pub use outside::{Outside, Taper};
pub use pin::PinReading;
pub use speed::{Speed, SpeedCap, rpm};
pub use tapping::Tapping;
pub use tight::{Bite, Tight};
pub use trial_fit::TrialFit;

use super::choose::{Choice, choose};
use crate::scene::{Examination, Scene};
use crate::section::{Item, Part, Section, Stage, Workpiece, Workshop};
use crate::solid::build;
use planner::Planner;

/// The work on a section, planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The section as the tools at hand leave it; where they leave just what the design asks for,
    /// the design's own.
    pub section: Section,
    /// What was chosen for each hole, the narrowest first.
    pub choices: Vec<Choice>,
    /// The steps, from the rehearsal on.
    pub operations: Vec<Operation>,
    /// What the checks find of the section as it will be.
    pub found: Examination,
    /// What each kind of binding would look like.
    pub binding: Binding,
    /// The finished outside.
    pub outside: Outside,
    /// What is at hand.
    pub workshop: Workshop,
}

/// How far the volume that the operations leave may be off the section's, as a share of it: sums
/// of decimals round so much. Larger, and a hole a few micrometres too deep would pass.
const SAME_VOLUME: f64 = 1e-9;

/// Plans the work: chooses the tools, sets up every step, and proves on the solid that the steps
/// end in the section.
///
/// # Errors
/// [`PlanError`] where the workpiece can't be built at some step, or the steps do not make the
/// section.
pub fn plan(scene: &Scene, workshop: &Workshop) -> Result<Plan, PlanError> {
    plan_from(scene, workshop, &[])
}

/// Plans the work on a section of which some is done already: what is done stays as it is.
///
/// # Errors
/// As [`plan()`].
pub fn plan_on(section: &Section, workshop: &Workshop, done: &[Stage]) -> Result<Plan, PlanError> {
    plan_from(&Scene::of(section)?, workshop, done)
}

fn plan_from(scene: &Scene, workshop: &Workshop, done: &[Stage]) -> Result<Plan, PlanError> {
    let bored = done.iter().filter_map(|stage| match stage {
        Stage::Bored(item) => Some(*item),
        _ => None,
    });
    let (changed, choices) = choose(scene, workshop, &bored.collect::<Vec<_>>())?;
    let scene = changed.as_ref().unwrap_or(scene);
    let fitted = scene.section().clone();
    let found = Examination { findings: scene.findings(), room: Vec::new() };
    let binding = Binding::of(scene, &found);
    let planner = Planner { section: &fitted, choices: &choices, workshop, rooms: scene.room() };
    let operations = planner.operations()?;
    proves(&fitted, &operations)?;
    Ok(Plan {
        outside: Outside::of(&fitted, fitted.allowance.sanding),
        operations,
        found,
        binding,
        choices,
        workshop: workshop.clone(),
        section: fitted,
    })
}

impl Plan {
    /// The workpiece after each step that takes something off, from the rod as it was sawn on.
    pub fn stages(&self) -> Vec<Part> {
        let mut piece = Workpiece::rod(&self.section);
        let rod = piece.part();
        let cuts = self.operations.iter().filter_map(|operation| operation.cut.as_ref());
        let after = cuts.map(|cut| {
            piece.take(cut);
            piece.part()
        });
        let after: Vec<Part> = after.collect();
        [vec![rod], after].concat()
    }

    /// The steps that are left when some of the cuts are done, with their numbers: those whose cut
    /// is not done, and what belongs to them.
    pub fn left(&self, done: &[Stage]) -> Vec<(usize, &Operation)> {
        let is_done =
            |step: &Operation| step.cut.as_ref().is_some_and(|cut| done.contains(&cut.stage()));
        let behind = self.operations.iter().rposition(is_done).map_or(0, |last| last + 1);
        let numbered = self.operations.iter().enumerate();
        numbered
            .filter(|(n, step)| *n >= behind || (step.cut.is_some() && !is_done(step)))
            .collect()
    }

    /// What was chosen for a hole.
    pub fn choice(&self, item: Item) -> Option<&Choice> {
        self.choices.iter().find(|choice| choice.item == item)
    }
}

/// Holds what the operations leave against the section.
///
/// # Errors
/// [`PlanError::NotTheSection`] where the volumes differ.
pub fn proves(section: &Section, operations: &[Operation]) -> Result<(), PlanError> {
    let mut piece = Workpiece::rod(section);
    for cut in operations.iter().filter_map(|operation| operation.cut.as_ref()) {
        piece.take(cut);
    }
    let [made, meant] =
        [piece.part(), section.part()].map(|part| build(&part).map(|body| body.measures().volume));
    let (made, meant) = (made?, meant?);
    if (made - meant).abs() > SAME_VOLUME * meant {
        return Err(PlanError::NotTheSection { made, meant });
    }
    Ok(())
}
