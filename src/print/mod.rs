//! What a printer does to a part, and what is printed to try a fit.
//!
//! ```text
//!   specimen   what to print: coupons, ladders, a stand-in for the unit, rings, plugs
//!   offset     every surface moved along its normal, on the exact solid
//!   foot       cut back where the first layer spreads
//!   piece      a specimen made right for the printer, standing on the plate
//!   plate      pieces side by side
//! ```

mod foot;
pub mod offset;
mod piece;
mod plate;
pub mod specimen;

pub use foot::{Foot, foot};
pub use piece::{Piece, PieceError, pieces};
pub use plate::{Place, Plate, PlateError, plate};
