//! A section as it was really cut: what that breaks, what can save it, and what is left to be done.
//!
//! ```text
//!   what people say -> sizes and the last step done   (said)
//!                   -> section as made, measured      (as_made, measured)
//!                   -> changes of what is to come     (rescue), each measured again
//!                   -> the cuts that are left         (to_come)
//! ```
//! A size that was cut otherwise is set in the section alone, with what is cut by the same tool or
//! measured from the same place ([`Parameter::set`]); nothing else is derived anew. A hole keeps what
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

use crate::check::{Examination, Parameter, verdicts};
use crate::quantity::Length;
use crate::section::{Cut, LEAST_STEP, Section, Stage};
use crate::solid::BuildError;

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
    /// The grip's length that the rod leaves, where the tenon took or left some of it and no
    /// facing is to come that makes up for it; in what was measured the grip is as long as said.
    pub grip_left: Option<Length>,
    /// What saves it, the smallest change first; none is looked for where nothing is worse.
    pub rescues: Vec<Rescue>,
    /// What is to be cut still, where it is left as it is.
    pub remaining: Vec<Cut>,
}

/// Measures a section as it was cut, and looks for what can save it.
///
/// Expects a section without [`crate::section::faults`].
///
/// # Errors
/// [`BuildError`]: the section as drawn can't be built.
pub fn as_made(drawn: &Section, said: &Said) -> Result<AsMade, BuildError> {
    let done = step::done(drawn, said);
    let before = verdicts(drawn)?;
    let section = with_sizes(drawn, &said.sizes);
    let made = Measured::of(&section);
    let worse = made.is_worse_than(&before);
    let rescues =
        if worse { rescue::rescues(drawn, &before, &section, &done)? } else { Vec::new() };
    let remaining = to_come::to_come(drawn, &section, &done);
    let grip_left = grip_left(drawn, &section, said, &done);
    let sizes = said.sizes.clone();
    Ok(AsMade { sizes, section, done, drawn: before, made, grip_left, rescues, remaining })
}

/// The section with each size as it was cut.
fn with_sizes(drawn: &Section, sizes: &[MadeSize]) -> Section {
    sizes.iter().fold(drawn.clone(), |section, size| {
        // A size that can't be set so is one that the section's faults tell of: none is lost.
        size.parameter.set(&section, size.made.as_mm()).unwrap_or(section)
    })
}

/// Another tenon takes from the grip what it is longer, or leaves it what it is shorter, unless
/// that still comes off the front.
fn grip_left(drawn: &Section, made: &Section, said: &Said, done: &[Stage]) -> Option<Length> {
    let given = |parameter| said.sizes.iter().any(|size| size.parameter == parameter);
    if !given(Parameter::TenonLength) || given(Parameter::GripLength) {
        return None;
    }
    let over = to_come::over(drawn, made, done);
    let faced = done.contains(&Stage::Faced) || drawn.allowance.facing <= LEAST_STEP;
    let off = if faced || over < Length::ZERO { over } else { Length::ZERO };
    (off.abs() > LEAST_STEP).then(|| made.grip.length() + off)
}
