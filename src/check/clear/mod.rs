//! `clear.*` and `joint.*`: what goes in without touching what it should not.
//!
//! ```text
//!   unit    the nib unit in the section's bore
//!   joint   the tenon in the barrel
//! ```

mod joint;
mod unit;

use super::bodies::Model;
use super::{CheckInfo, Finding};

/// Every check of this kind, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    unit::CHECKS.into_iter().chain(joint::CHECKS).collect()
}

/// All findings of this kind.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let checks = [unit::check, joint::check];
    checks.into_iter().flat_map(|check| check(model)).collect()
}
