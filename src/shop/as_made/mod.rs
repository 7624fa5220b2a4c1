//! A section as it was really cut: what that breaks, what can save it, and what is left to be done.
//!
//! ```text
//!   what people say -> sizes and the last step done   (said)
//!                   -> section as made, measured      (as_made, measured)
//!                   -> changes of what is to come     (rescue), each measured again
//!                   -> the cuts that are left         (to_come)
//! ```
//! A size that was cut otherwise is set in the section alone, with what is cut by the same tool or
//! measured from the same place ([`SizeId::set`]); nothing else is derived anew. A hole keeps what
//! its tool may cut over its size: a caliper measures it at its mouth, and it may be wider behind.

mod measured;
mod rescue;
mod said;
mod step;
mod to_come;
mod typed;

pub use measured::{Fault, Measured};
pub use rescue::{Remedy, Rescue};
pub use said::{MadeSize, Said, read};
pub use step::word as step_word;
pub use typed::typed;

use crate::quantity::Length;
use crate::scene::{Examination, Scene};
use crate::section::{Cut, LEAST_STEP, Section, Stage};
use crate::size::SizeId;

/// A section as it was really cut.
#[derive(Clone, Debug, PartialEq)]
pub struct AsMade {
    /// What was cut otherwise than drawn, in the order of the part.
    pub sizes: Vec<MadeSize>,
    /// The section with these sizes.
    pub section: Section,
    /// What is done, in the order of the work.
    pub done: Vec<Stage>,
    /// The verdicts as drawn.
    pub drawn: Examination,
    /// The same as made.
    pub made: Measured,
    /// The length that the rod leaves for the grip, or for the tenon, where the other one came out
    /// otherwise and no facing makes up for it; what was measured has the length as drawn.
    pub rod_leaves: Option<(SizeId, Length)>,
    /// What saves it, the smallest change first; none is looked for where nothing is worse.
    pub rescues: Vec<Rescue>,
    /// What is to be cut still, where it is left as it is.
    pub remaining: Vec<Cut>,
}

/// Measures a section as it was cut, and looks for what can save it.
///
/// Expects the scene of a section without [`crate::section::faults`], as it is drawn.
pub fn as_made(scene: &Scene, said: &Said) -> AsMade {
    let drawn = scene.section();
    let done = step::done(drawn, said);
    let before = Examination { findings: scene.findings(), room: Vec::new() };
    let section = with_sizes(drawn, &said.sizes);
    let made = Measured::of(scene, &section);
    let rod_leaves = rod_leaves(drawn, &section, said, &done);
    let mut work = done.clone();
    // Where the rod has nothing to spare for what was said, nothing can be faced off.
    if rod_leaves.is_some() && !work.contains(&Stage::Faced) {
        work.push(Stage::Faced);
    }
    let worse = made.is_worse_than(&before);
    let rescues = if worse { rescue::rescues(scene, &before, &section, &work) } else { Vec::new() };
    let remaining = to_come::to_come(drawn, &section, &work);
    let sizes = said.sizes.clone();
    AsMade { sizes, section, done, drawn: before, made, rod_leaves, rescues, remaining }
}

impl AsMade {
    /// The section to go on with: with the first rescue where there is one, as it was made where there
    /// is none; its facing takes off what the rod has over. Beside it what is done by then, of a face
    /// that is taken back only what lies before it.
    pub fn goes_on(&self, drawn: &Section) -> (Section, Vec<Stage>) {
        let rescue = self.rescues.first();
        let mut done = self.done.clone();
        if self.rod_leaves.is_some() && !done.contains(&Stage::Faced) {
            done.push(Stage::Faced);
        }
        let section = rescue.map_or(&self.section, |rescue| &rescue.section);
        let remaining = rescue.map_or(&self.remaining, |rescue| &rescue.remaining);
        // A face that was faced may have to be faced again.
        let again = |stage: &Stage| remaining.iter().any(|cut| cut.stage() == *stage);
        done.retain(|stage| !again(stage));
        let mut section = to_come::to_face(drawn, section, &self.done);
        if let Some(Cut::Face { off }) = remaining.iter().find(|cut| cut.stage() == Stage::Faced) {
            section.allowance.facing = *off;
        }
        (section, done)
    }
}

/// The section with each size as it was cut.
fn with_sizes(drawn: &Section, sizes: &[MadeSize]) -> Section {
    sizes.iter().fold(drawn.clone(), |section, size| {
        // A size that can't be set so is one that the section's faults tell of: none is lost.
        let to = size.parameter.from_written(drawn, size.made.as_mm());
        size.parameter.set(&section, to).unwrap_or(section)
    })
}

/// Grip and tenon share the rod between its faces: one that came out otherwise takes from the other
/// what it is longer, or leaves it what it is shorter, unless facing makes up for it.
fn rod_leaves(
    drawn: &Section,
    made: &Section,
    said: &Said,
    done: &[Stage],
) -> Option<(SizeId, Length)> {
    let given = |parameter| said.sizes.iter().any(|size| size.parameter == parameter);
    let over = to_come::over(drawn, made, done);
    let (faced, facing) = (done.contains(&Stage::Faced), drawn.allowance.facing);
    let (other, off) = match (given(SizeId::TenonLength), given(SizeId::GripLength)) {
        (true, false) if faced || facing <= LEAST_STEP => (SizeId::GripLength, over),
        (true, false) => (SizeId::GripLength, over.min(Length::ZERO)),
        (false, true) if facing <= LEAST_STEP => (SizeId::TenonLength, over),
        // Faced more, or less: as far as there was something to come off.
        (false, true) if faced => (SizeId::TenonLength, (over + facing).min(Length::ZERO)),
        _ => return None,
    };
    let left = Length::mm(other.get(made)?) + off;
    (off.abs() > LEAST_STEP).then_some((other, left))
}
