//! What is printed to try a fit before anything dear is cut.
//!
//! ```text
//!   cut        a part between two planes       ladder   coupons whose threads open step by step
//!   coupon     the section's front or back     stand_in the unit, with something to turn it by
//!   kind       which of them there are
//! ```

mod coupon;
mod cut;
mod kind;
mod ladder;
mod stand_in;

pub use coupon::{back_coupon, front_coupon};
pub use cut::between;
pub(crate) use kind::too_fine;
pub use kind::{Specimen, SpecimenKind, Stands, least_pitch, specimens};
pub(crate) use ladder::flank_clearance;
pub use ladder::{Ladder, LadderError, MOST_RUNGS, Mated, Rung};
