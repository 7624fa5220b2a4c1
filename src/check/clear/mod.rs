//! `clear.*` and `joint.*`: what goes in without touching what it should not.
//!
//! ```text
//!   unit        the nib unit in the section's bore
//!   converter   the converter behind it, in the section and in the barrel
//!   cap         the grip in the cap
//!   nib         nib and feed in the closed cap
//!   joint       the tenon in the barrel
//! ```

mod cap;
mod converter;
mod joint;
mod nib;
mod radial;
mod unit;

use super::bodies::Model;
use super::{CheckInfo, Finding};

/// Every check of this kind, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    let unit = unit::CHECKS.into_iter().chain(converter::CHECKS);
    let cap = cap::CHECKS.into_iter().chain(nib::CHECKS);
    unit.chain(cap).chain(joint::CHECKS).collect()
}

/// All findings of this kind.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let checks = [unit::check, converter::check, cap::check, nib::check, joint::check];
    checks.into_iter().flat_map(|check| check(model)).collect()
}

/// The findings of this kind that the cap has a part in.
pub(super) fn of_cap(model: &Model) -> Vec<Finding> {
    [cap::check, nib::check].into_iter().flat_map(|check| check(model)).collect()
}
