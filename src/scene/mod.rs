//! What holds if a size were another one: the one question that all advice asks.
//!
//! ```text
//!   Scene      a section and all that it meets, built once       bodies   what is built of them
//!   score      every check's verdict and margin                  examine  all that is found
//!
//!   advice     a change that makes a check hold      opening   by which tool a thread is opened
//!   room       how far a size may be off             saving    a change that saves what came out
//!   allot      tolerances for the drawing                      wrong
//!                                                    exchange  two pens, one barrel and cap
//! ```
//! **Two ways to change a size.** Written into the design's file, with everything anew that the
//! file leaves out ([`Scene::at`]): what advice promises comes true when it is typed. Or alone, as
//! when one tool came out otherwise ([`Scene::alone`]): what is left is as drawn.
//!
//! **A change costs what it touches.** A body is built anew where the part that it is made of is
//! another one, and a group of checks measures again where something that it looks at is another
//! one. Neither is declared size by size, and a test holds every size against all measured anew.

mod advice;
mod allot;
mod bodies;
mod examine;
mod exchange;
mod opening;
mod room;
mod saving;
mod score;

pub use allot::{Allotment, AllottedAngle, AllottedSize, allot, corner};
pub use examine::{Examination, examine, verdicts};
pub use exchange::{
    Adjusted, Fit, Step, Unfit, adjust_mates, adjust_outside, adjust_section, fit, same_outside,
};
pub use room::{Room, SideRoom, Worse};
pub use score::{Score, Scores};

use std::fmt;
use std::sync::{Arc, OnceLock};

use crate::check::{Finding, GROUPS};
use crate::design::{Resolved, Values, Write};
use crate::diagnostic::Diagnostic;
use crate::section::{Section, SectionError, faults};
use crate::size::SizeId;
use crate::solid::BuildError;
use bodies::Bodies;

/// A section and what it meets, built and measured, ready to be changed.
#[derive(Debug)]
pub struct Scene {
    section: Section,
    values: Option<Arc<Values>>,
    bodies: Bodies,
    /// What each group of checks finds.
    found: Vec<Vec<Finding>>,
    /// The scores of the same.
    scores: Vec<Scores>,
    /// How many faults the section has anyway.
    faults: usize,
    /// Worked out when it is asked for.
    room: OnceLock<Vec<Room>>,
}

/// Why a changed section can't be measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Impossible {
    /// It has no such size, or a size that is none.
    NoSize,
    /// What is written so is no design: everything that is wrong.
    Written(Vec<Diagnostic>),
    /// The section would be wrong.
    Fault(SectionError),
    /// Its solid, or one of those that it meets, can't be built.
    Solid(BuildError),
}

impl Impossible {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::NoSize => "size.none",
            Self::Written(wrong) => wrong.first().map_or("size.none", |wrong| wrong.code),
            Self::Fault(fault) => fault.code(),
            Self::Solid(error) => error.code(),
        }
    }
}

impl fmt::Display for Impossible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSize => f.write_str("there would be none left"),
            Self::Written(wrong) => {
                let first = wrong.first().map_or("it can't be written", |wrong| &wrong.message);
                f.write_str(first)
            }
            Self::Fault(fault) => fault.fmt(f),
            Self::Solid(error) => error.fmt(f),
        }
    }
}

impl Scene {
    /// A section by itself: no file says its sizes.
    ///
    /// # Errors
    /// [`BuildError`]: section, unit, barrel, cap or converter can't be built, as modelled or at an
    /// end of its tolerances.
    pub fn of(section: &Section) -> Result<Self, BuildError> {
        let bodies = Bodies::of(section)?;
        let model = bodies.model(section);
        let found: Vec<_> = GROUPS.iter().map(|group| (group.check)(&model)).collect();
        let scores = found.iter().map(|found| Scores::of(found)).collect();
        let faults = faults(section).len();
        let (section, room) = (section.clone(), OnceLock::new());
        Ok(Self { section, values: None, bodies, found, scores, faults, room })
    }

    /// The section of a design.
    ///
    /// # Errors
    /// As [`Scene::of`].
    pub fn of_design(design: &Resolved) -> Result<Self, BuildError> {
        Ok(Self { values: Some(Arc::clone(&design.values)), ..Self::of(&design.section)? })
    }

    /// The section as it is.
    pub fn section(&self) -> &Section {
        &self.section
    }

    /// What to write into the design's files so that a size has a value; none where no file says
    /// the section, or no key the size.
    pub fn writes(&self, size: SizeId, value: f64) -> Option<Vec<Write>> {
        self.values.as_ref()?.writes(&self.section, size, value)
    }

    /// Its scores.
    pub fn scores(&self) -> Scores {
        self.scores.iter().flatten().copied().collect()
    }

    /// Every verdict on it, in the order of [`crate::check::list`].
    pub fn findings(&self) -> Vec<Finding> {
        self.found.concat()
    }

    /// The scores with some sizes at other values, in millimetres or degrees: as if they were
    /// written into the design's files. Where no file says the section, as [`Scene::alone`].
    ///
    /// # Errors
    /// [`Impossible`].
    pub fn at(&self, changes: &[(SizeId, f64)]) -> Result<Scores, Impossible> {
        let Some(values) = &self.values else { return self.alone(changes) };
        let changed = values.with(&self.section, changes).map_err(|wrong| {
            if wrong.is_empty() { Impossible::NoSize } else { Impossible::Written(wrong) }
        })?;
        self.score(&changed)
    }

    /// The scores with some sizes moved alone, nothing derived anew ([`Section::with`]).
    ///
    /// # Errors
    /// [`Impossible`].
    pub fn alone(&self, changes: &[(SizeId, f64)]) -> Result<Scores, Impossible> {
        self.score(&self.section.with(changes).ok_or(Impossible::NoSize)?)
    }

    /// The scores of a section that differs from this one.
    ///
    /// # Errors
    /// [`Impossible`]: it has faults that this one has not, or can't be built.
    pub fn score(&self, section: &Section) -> Result<Scores, Impossible> {
        self.sound(section)?;
        self.measure(section).map_err(Impossible::Solid)
    }

    /// Every verdict on a section that differs from this one, in words too: the same as of a scene
    /// of its own.
    ///
    /// # Errors
    /// As [`Scene::score`].
    pub fn find(&self, section: &Section) -> Result<Vec<Finding>, Impossible> {
        self.sound(section)?;
        let of = |n: usize, found: Option<Vec<Finding>>| found.unwrap_or(self.found[n].clone());
        Ok(self.groups(section, of).map_err(Impossible::Solid)?.concat())
    }

    fn sound(&self, section: &Section) -> Result<(), Impossible> {
        let mut wrong = faults(section);
        if wrong.len() > self.faults {
            return Err(wrong.pop().map_or(Impossible::NoSize, Impossible::Fault));
        }
        Ok(())
    }

    /// As [`Scene::score`], whatever faults the section has.
    ///
    /// # Errors
    /// As [`Scene::of`].
    pub fn measure(&self, section: &Section) -> Result<Scores, BuildError> {
        let of = |n: usize, found: Option<Vec<Finding>>| match found {
            Some(found) => Scores::of(&found),
            None => self.scores[n].clone(),
        };
        Ok(self.groups(section, of)?.into_iter().flatten().collect())
    }

    /// For every group of checks what `of` makes of what it finds; none where nothing that it
    /// looks at has changed.
    fn groups<T>(
        &self,
        section: &Section,
        of: impl Fn(usize, Option<Vec<Finding>>) -> T,
    ) -> Result<Vec<T>, BuildError> {
        let bodies = self.bodies.with(&self.section, section)?;
        let moved = self.bodies.moved(&self.section, (&bodies, section));
        let model = bodies.model(section);
        let groups = GROUPS.iter().enumerate();
        let found =
            groups.map(|(n, group)| of(n, moved.concerns(group).then(|| (group.check)(&model))));
        Ok(found.collect())
    }
}
