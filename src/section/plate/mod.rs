//! The calibration plate: rings and plugs that are printed as they are, measured with a caliper,
//! and tell what the printer does to holes, pegs and faces.
//!
//! ```text
//!   ring                    plug            z ^   marks: as many grooves as the piece's
//!    ___          ___           __            |   number within its kind; each piece has a thin
//!   |   |        |   |   upper |  | upper     |   and a wide diameter
//!   |   |__    __|   |       __|  |__         |
//!   >      |  |      <      |        | lower  |   at the foot everything is chamfered: the first
//!   >      |  |      <     _|        |_       |   layer's spread stays clear of what is measured
//!    \____/    \____/     >            < base  +--------> r
//!                         \__________/
//! ```
//! Every piece's own axis: z = 0 stands on the printer's plate, z grows upwards. Sizes are those in
//! the file: the plate is printed without compensation. Where its pieces stand is `print`'s.
//!
//! The diameters lie at both ends of what a section has, and pin constant and share: a share is told
//! by sizes far apart and by no others.

mod piece;
mod reading;
mod sizes;

pub use piece::PlatePiece;
pub use reading::{Measurand, PlateReading, PlateValue};
pub use sizes::{PieceKind, PieceSizes};

use super::Printer;

/// The pieces of the plate, for a printer.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Rings first, then plugs, by their marks.
    pub pieces: Vec<PlatePiece>,
}

impl Plate {
    /// The plate of a printer: its marks are as wide as the printer can make them out, its foot is
    /// chamfered for the printer's spread, its heights are whole layers. The diameters are the same
    /// for every printer.
    pub fn new(printer: &Printer) -> Self {
        let pieces = PieceSizes::ALL.into_iter();
        Self { pieces: pieces.map(|sizes| PlatePiece::new(sizes, printer)).collect() }
    }

    /// Everything that is read off the plate, in the order of the pieces, from the foot upwards.
    ///
    /// A diameter is read at right angles near each of its ends: one that came out oval or tapered
    /// is then known by its mean.
    pub fn readings(&self) -> Vec<PlateReading> {
        self.pieces.iter().flat_map(PlatePiece::readings).collect()
    }
}
