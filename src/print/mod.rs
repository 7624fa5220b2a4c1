//! What a printer does to a part, and what is printed to try a fit.
//!
//! ```text
//!   specimen   what to print: coupons, ladders, a stand-in for the unit, rings, plugs
//!   offset     every surface moved along its normal, on the exact solid
//!   foot       cut back where the first layer spreads
//!   piece      a specimen made right for the printer, standing on the plate
//!   layout     pieces side by side on the plate
//!   proof      what a print can tell of each check
//!   tried      from a ladder that was tried to the printer's flanks, or the thread's
//!   calibrate  from the readings of a calibration plate to a printer's profile
//! ```

pub mod calibrate;
mod foot;
mod layout;
pub mod offset;
mod piece;
mod proof;
pub mod specimen;
mod tried;

pub use foot::{Foot, foot};
pub use layout::{Layout, LayoutError, Place, layout};
pub use piece::{Piece, PieceError, calibration_pieces, pieces};
pub use proof::{Proof, ProofError, Tells, as_printed, proofs};
pub use tried::{Found, Mate, Tried, TriedError, Turned, found, read_tried};
