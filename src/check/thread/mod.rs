//! `thread.*`: two threads screwed together.
//!
//! ```text
//!   unit, tenon   the pairs                      checks   what is asked of each pair
//!   pair          a pair as modelled, loose, tight; its verdicts
//!   mating        what one state of it has       overlap  where both would be in one place
//!   strip         the area that would shear
//! ```

mod checks;
mod mating;
mod overlap;
mod pair;
mod strip;
pub(super) mod tenon;
pub(super) mod unit;

use super::bodies::Model;
use super::{CheckInfo, Finding};
use checks::Checks;
use pair::Pair;

/// Every thread's check, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    [&unit::CHECKS, &tenon::CHECKS].into_iter().flat_map(Checks::list).collect()
}

/// The verdicts on all pairs of threads.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let pairs = [unit::pair(model), tenon::pair(model)];
    pairs.iter().flat_map(Pair::findings).collect()
}

/// What is told of all pairs beside the verdicts.
pub(super) fn tell(model: &Model) -> Vec<Finding> {
    let pairs = [unit::pair(model), tenon::pair(model)];
    pairs.iter().flat_map(Pair::told).collect()
}
