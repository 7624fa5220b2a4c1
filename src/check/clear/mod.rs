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

pub(super) use cap::check as of_cap;
pub(super) use converter::check as of_converter;
pub(super) use joint::check as of_joint;
pub(super) use nib::check as of_nib;
pub(super) use unit::check as of_unit;

use super::CheckInfo;

/// Every check of this kind, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    let unit = unit::CHECKS.into_iter().chain(converter::CHECKS);
    let cap = cap::CHECKS.into_iter().chain(nib::CHECKS);
    unit.chain(cap).chain(joint::CHECKS).collect()
}
