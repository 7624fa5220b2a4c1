//! What is to be cut still.

use crate::quantity::Length;
use crate::section::{Cut, LEAST_STEP, Section, Stage};

/// How much longer the rod is, when it has been squared and what is done has been done, than a
/// section with what is still to come off its front; less than nothing where it is too short.
pub(super) fn over(drawn: &Section, section: &Section, done: &[Stage]) -> Length {
    let squared = drawn.squared_length();
    let to_face = if done.contains(&Stage::Faced) { drawn.allowance.facing } else { Length::ZERO };
    squared - to_face - section.length() - section.allowance.sanding
}

/// A section whose facing takes off what the rod is longer than it, where that is not done yet.
pub(super) fn to_face(drawn: &Section, section: &Section, done: &[Stage]) -> Section {
    let mut section = section.clone();
    if !done.contains(&Stage::Faced) {
        let over = over(drawn, &section, done);
        section.allowance.facing = if over > LEAST_STEP { over } else { Length::ZERO };
    }
    section
}

/// The cuts of a section that are not done, in order; what the rod is longer than it comes off with
/// the facing.
pub(super) fn to_come(drawn: &Section, section: &Section, done: &[Stage]) -> Vec<Cut> {
    let mut cuts = to_face(drawn, section, done).cuts();
    cuts.retain(|cut| !done.contains(&cut.stage()));
    cuts
}
