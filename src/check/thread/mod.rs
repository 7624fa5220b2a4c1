//! `thread.*`: two threads screwed together.
//!
//! ```text
//!   unit, tenon, cap   the pairs                      checks   what is asked of each pair
//!   pair               a pair as modelled, loose,     play     its play, and why there is none
//!                      tight; most of its verdicts    told     interference and shear
//!   mating             what one state of it has       overlap  where both would be in one place
//!                                                     strip    the area that would shear
//! ```

mod cap;
mod checks;
#[cfg(test)]
mod fixture;
mod mating;
mod overlap;
mod pair;
mod play;
mod strip;
pub(super) mod tenon;
mod told;
pub(super) mod unit;

use super::bodies::Model;
use super::{CheckInfo, Finding};
use crate::solid::CutThread;
use checks::Checks;
use pair::Pair;

/// Every thread's check, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    let pairs = [&unit::CHECKS, &tenon::CHECKS, &cap::CHECKS].into_iter();
    pairs.flat_map(Checks::list).chain([&cap::CLOSING]).collect()
}

/// The verdicts on the unit's thread.
pub(super) fn of_unit(model: &Model) -> Vec<Finding> {
    unit::pair(model).findings()
}

/// The verdicts on the tenon's thread.
pub(super) fn of_tenon(model: &Model) -> Vec<Finding> {
    tenon::pair(model).findings()
}

/// The verdicts on the cap's thread.
pub(super) fn of_cap(model: &Model) -> Vec<Finding> {
    let pair = cap::pair(model);
    pair.iter().flat_map(Pair::findings).chain(cap::closing(model)).collect()
}

/// What is told of all pairs beside the verdicts.
pub(crate) fn tell(model: &Model) -> Vec<Finding> {
    pairs(model).iter().flat_map(Pair::told).collect()
}

/// The least distance between the flanks of an internal and an external thread, square to them and in
/// millimetres, when they are centred along the axis; negative where they bind. `shift` is z of the
/// internal thread's body at z = 0 of the external one's.
pub fn flank_gap(internal: &CutThread, external: &CutThread, shift: f64) -> f64 {
    mating::mate(internal, external, shift).flank_gap
}

/// Every pair that there is.
fn pairs<'a>(model: &'a Model<'a>) -> Vec<Pair<'a>> {
    [unit::pair(model), tenon::pair(model)].into_iter().chain(cap::pair(model)).collect()
}
