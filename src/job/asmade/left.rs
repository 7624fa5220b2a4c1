//! The steps that are left to be done, as the sheet has them.

use crate::drawing::part::Units;
use crate::export::lathe_sheet::{Row, rows};
use crate::section::Workshop;
use crate::shop::as_made::{AsMade, Measured};
use crate::shop::{Plan, plan_on};

/// The steps that are left, anew: for the section as it was made, with what saves it; none where
/// there is no such section.
pub(super) fn left(drawn: &Plan, made: &AsMade, workshop: &Workshop) -> Option<Vec<Row>> {
    let saved = !made.rescues.is_empty();
    if !saved && matches!(made.made, Measured::Impossible(_)) {
        return None;
    }
    let (section, done) = made.goes_on(&drawn.section);
    let anew = plan_on(&section, workshop, &done).ok()?;
    let steps = anew.left(&done);
    Some(rows(&anew, steps, Units::Millimetres))
}
