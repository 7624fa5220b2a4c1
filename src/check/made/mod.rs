//! `made.*`: whether the threads come out as they are needed from the tools that cut them.
//!
//! ```text
//!   reach   full thread of the section where the unit's is     lead   room for the tap's lead
//!   die     the tenon's incomplete thread at the shoulder
//! ```

mod die;
mod lead;
mod reach;

use super::bodies::Model;
use super::{CheckInfo, Finding};

/// Every check of this kind, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    vec![&reach::REACH, &lead::UNIT, &lead::BARREL, &die::DIE]
}

/// Whether the unit's thread finds full thread.
pub(super) fn of_reach(model: &Model) -> Vec<Finding> {
    reach::check(model).into_iter().collect()
}

/// Room for the lead of the section's tap.
pub(super) fn of_unit(model: &Model) -> Vec<Finding> {
    lead::unit(model).into_iter().collect()
}

/// Room for the lead of the barrel's tap.
pub(super) fn of_barrel(model: &Model) -> Vec<Finding> {
    lead::barrel(model).into_iter().collect()
}

/// Room for what the die leaves incomplete.
pub(super) fn of_die(model: &Model) -> Vec<Finding> {
    die::check(model).into_iter().collect()
}
