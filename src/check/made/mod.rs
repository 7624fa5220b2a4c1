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

/// All findings of this kind.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let leads = [lead::unit(model), lead::barrel(model)];
    reach::check(model)
        .into_iter()
        .chain(leads.into_iter().flatten())
        .chain(die::check(model))
        .collect()
}
