//! Whether the part is good enough: measured on the solid, judged against the section's criteria.
//!
//! ```text
//!   wall    zones of the wall, the floor             clear    the unit in its bore, the tenon
//!   thread  two threads screwed together                      in the barrel
//!   made    threads as their tools leave them
//!
//!   distance    nearest points of two curves         judge    the one rule for verdicts
//!   bodies      as modelled, least, most             group    which checks look at what
//!   enclosing   cap, converter, barrel, nib          chord    how coarse triangles may be
//!   slide       first contact, gaps along a bore     touch    one body slid into another
//!   fact        all that two sections may differ in
//! ```
//! Every number is measured on bodies that [`crate::solid`] built, in the (r, z) half-plane and
//! in closed form, never on the mesh and never from the design's own formulas. Bodies are
//! measured as modelled, with the least and with the most material that the section's tolerances
//! allow, and with the unit at its readings and at their limits.

mod bodies;
mod catalogue;
mod chord;
mod clear;
mod distance;
mod enclosing;
mod fact;
mod finding;
mod group;
mod judge;
mod made;
mod slide;
mod stretch;
mod thread;
mod touch;
mod wall;

pub(crate) use bodies::{Extremes, Model};
pub use catalogue::{CheckInfo, info, list};
pub use chord::{Chord, Thinnest, chord};
pub(crate) use enclosing::{CapBodies, ConverterBodies};
pub use fact::{Choice, Fact, FactValue, facts};
pub use finding::{
    Advice, Bound, Change, Detail, Finding, Judgement, Place, Series, Spot, Verdict,
};
pub(crate) use group::{GROUPS, Group, Seen};
pub use thread::flank_gap;
pub(crate) use thread::tell;
pub use touch::{Touch, touch};
pub(crate) use wall::add_curves;
pub use wall::{WallAt, WallCurve};

use crate::section::Feature;
use crate::solid::Body;

/// The least wall of a body as it is, from its bores to its outside, in millimetres, with the features
/// on both sides; none where it has no bore.
pub fn least_wall(body: &Body) -> Option<(f64, Feature, Feature)> {
    wall::least_wall(&body.swept())
}
