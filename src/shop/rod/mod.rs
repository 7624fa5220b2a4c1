//! The rod plan: how many sections a rod gives, where it is parted, and what is left of it.
//!
//! ```text
//!    free end                                                     held
//!   0 |s|   squared   |s|k|s|   squared   |s|k|   left over   |  holding  | length
//!     <----- piece 1 ----->  <---- piece 2 ---->  <------- off-cut ------->
//!     s squaring: comes off each end of a piece      k kerf: goes as dust
//! ```
//! Lengths in millimetres from the free end. The sets stand first, each with its pieces side by
//! side, and the spares behind them.

mod fault;
mod lay;
mod off_cut;
mod piece;
mod remedy;
mod request;
mod shown;
mod words;

pub use fault::RodError;
pub use lay::{RodPlan, plan};
pub use off_cut::OffCut;
pub use piece::Piece;
pub use request::{DEFAULT_HOLDING, DEFAULT_SPARES, DEFAULT_SQUARING, RodRequest, Wanted};
pub use shown::Shown;
pub use words::CUTS_STAND_OUT;

/// Lengths that differ by less, in mm, are one length: a rod that is cut up to its end without a
/// rest is full, whatever the last bits of a sum say. Larger, and a piece is promised that is short
/// by what a caliper shows; smaller, and sums of tenths come to nothing whole.
const NOISE: f64 = 1e-9;
