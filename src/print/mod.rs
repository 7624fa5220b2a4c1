//! What a printer does to a part, and what is printed to try a fit.
//!
//! ```text
//!   specimen   what to print: coupons, ladders, a stand-in for the unit, rings, plugs
//!   offset     every surface moved along its normal, on the exact solid
//!   foot       cut back where the first layer spreads
//!   piece      a specimen made right for the printer, standing on the plate
//!   layout     pieces side by side on the plate
//!   calibrate  from the readings of a calibration plate to a printer's profile
//! ```

pub mod calibrate;
mod foot;
mod layout;
pub mod offset;
mod piece;
pub mod specimen;

pub use foot::{Foot, foot};
pub use layout::{Layout, LayoutError, Place, layout};
pub use piece::{Piece, PieceError, calibration_pieces, pieces};
