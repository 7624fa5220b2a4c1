//! The plate's pieces and their diameters, the same for every printer.

use super::reading::{Measurand, PlateReading};
use crate::quantity::Length;

/// What sort of piece it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PieceKind {
    /// Its holes are read.
    Ring,
    /// Its pegs are read.
    Plug,
}

/// A piece by its diameters in the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceSizes {
    /// `ring-3`, `plug-5`: which the form and every message call it.
    pub name: &'static str,
    /// Ring or plug.
    pub kind: PieceKind,
    /// Its turned grooves: its number within its kind, from 1.
    pub marks: u8,
    /// Diameter of the lower hole or peg: the thin one of a ring, the wide one of a plug, so that
    /// nothing overhangs.
    pub lower: Length,
    /// Diameter of the upper hole or peg.
    pub upper: Length,
}

/// Pieces of one kind. Fewer, and a printer that scatters from piece to piece is not known; more,
/// and the sizes at each end of the range reach towards the middle, where they tell less.
const OF_A_KIND: usize = 5;

/// Readings of each diameter: two at right angles near its one end, and two near its other. Fewer,
/// and the noise of a caliper (0.02 to either side) does not come under 0.01 in what is added; more,
/// and nobody reads them all.
const TIMES: usize = 4;

/// The least of the thin and of the wide diameters, in tenths of a millimetre: at the ends of what a
/// section has. Lower, and a caliper's jaws do not enter; nearer to each other, and the share is not
/// told.
const LEAST: [u32; 2] = [40, 122];

/// Tenths of a millimetre between neighbours: less, and a reading that was put in its neighbour's
/// place looks like noise.
const APART: u32 = 2;

const RINGS: [&str; OF_A_KIND] = ["ring-1", "ring-2", "ring-3", "ring-4", "ring-5"];
const PLUGS: [&str; OF_A_KIND] = ["plug-1", "plug-2", "plug-3", "plug-4", "plug-5"];

impl PieceSizes {
    /// All pieces: rings first, by their marks.
    pub const ALL: [Self; 2 * OF_A_KIND] = all();

    /// The readings of its two diameters, the lower one first.
    pub fn diameters(&self) -> [PlateReading; 2] {
        let kind = match self.kind {
            PieceKind::Ring => Measurand::Hole,
            PieceKind::Plug => Measurand::Boss,
        };
        [("lower", self.lower, self.upper), ("upper", self.upper, self.lower)].map(
            |(size, in_file, other)| {
                let wide = in_file > other;
                PlateReading { piece: self.name, size, kind, in_file, wide, times: TIMES }
            },
        )
    }
}

const fn all() -> [PieceSizes; 2 * OF_A_KIND] {
    let mut pieces = [piece(PieceKind::Ring, 0); 2 * OF_A_KIND];
    let mut n = 0;
    while n < OF_A_KIND {
        pieces[n] = piece(PieceKind::Ring, n);
        pieces[OF_A_KIND + n] = piece(PieceKind::Plug, n);
        n += 1;
    }
    pieces
}

/// Piece `n` of its kind, from 0.
const fn piece(kind: PieceKind, n: usize) -> PieceSizes {
    let (thin, wide) = (tenths(LEAST[0], n), tenths(LEAST[1], n));
    let (name, lower, upper) = match kind {
        PieceKind::Ring => (RINGS[n], thin, wide),
        PieceKind::Plug => (PLUGS[n], wide, thin),
    };
    PieceSizes { name, kind, marks: n as u8 + 1, lower, upper }
}

/// A whole number of tenths: 4.6, and not 4.6000000000000005.
const fn tenths(least: u32, n: usize) -> Length {
    Length::mm((least + APART * n as u32) as f64 / 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The readings can be told apart: sizes by 0.2, pieces by their marks.
    #[test]
    fn no_two_pieces_are_taken_for_one_another() {
        for kind in [PieceKind::Ring, PieceKind::Plug] {
            let pieces: Vec<_> = PieceSizes::ALL.into_iter().filter(|p| p.kind == kind).collect();
            let mut sizes: Vec<f64> =
                pieces.iter().flat_map(|p| [p.lower.as_mm(), p.upper.as_mm()]).collect();
            sizes.sort_by(f64::total_cmp);
            assert_eq!((sizes.len(), sizes[0], sizes[9]), (10, 4.0, 13.0));
            assert!(sizes.windows(2).all(|w| w[1] - w[0] > 0.2 - 1e-9), "{sizes:?}");
            let marks: Vec<u8> = pieces.iter().map(|p| p.marks).collect();
            assert_eq!(marks, [1, 2, 3, 4, 5]);
        }
    }
}
