//! Pieces side by side on a printer's plate.

use std::fmt;

use super::Piece;
use crate::section::Printer;

/// Between neighbours, and to the plate's edge, in millimetres (common practice, no source): nearer,
/// and a brim, or a blade that lifts one off, meets the next.
const SPACE: f64 = 5.0;

/// A place on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The axis, from the plate's lower left corner, in millimetres.
    pub at: [f64; 2],
    /// The piece's greatest radius.
    pub radius: f64,
}

/// A plate with its pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Width and depth of the printer's plate, in millimetres.
    pub size: [f64; 2],
    /// A place for each piece, in their order.
    pub places: Vec<Place>,
}

/// Why pieces do not go onto a plate.
#[derive(Clone, Debug, PartialEq)]
pub enum LayoutError {
    /// A piece is higher than the printer builds.
    TooHigh {
        /// The piece.
        name: String,
        /// Its height in millimetres.
        height: f64,
        /// The printer's.
        most: f64,
    },
    /// They do not lie side by side.
    Full {
        /// How many there are.
        pieces: usize,
        /// How many of them, in their order, go onto one plate.
        fit: usize,
    },
}

/// Lays pieces out in rows, in their order, from the lower left corner.
///
/// # Errors
/// [`LayoutError`], everything that is too high or too much.
pub fn layout(pieces: &[Piece], printer: &Printer) -> Result<Layout, Vec<LayoutError>> {
    let [width, depth, height] = printer.build.map(crate::quantity::Length::as_mm);
    let too_high = pieces.iter().filter(|piece| piece.height().as_mm() > height);
    let mut wrong: Vec<LayoutError> = too_high
        .map(|piece| LayoutError::TooHigh {
            name: piece.name.clone(),
            height: piece.height().as_mm(),
            most: height,
        })
        .collect();
    let mut places = Vec::with_capacity(pieces.len());
    let (mut left, mut low, mut row) = (SPACE, SPACE, 0.0_f64);
    for piece in pieces {
        // Whole tenths, so that a place reads as it is.
        let wide = (piece.radius() * 20.0).ceil() / 10.0;
        if left + wide + SPACE > width && left > SPACE {
            (left, low, row) = (SPACE, low + row + SPACE, 0.0);
        }
        if left + wide + SPACE > width || low + wide + SPACE > depth {
            wrong.push(LayoutError::Full { pieces: pieces.len(), fit: places.len() });
            break;
        }
        let at = [left + wide / 2.0, low + wide / 2.0];
        places.push(Place { at, radius: piece.radius() });
        left += wide + SPACE;
        row = row.max(wide);
    }
    if wrong.is_empty() { Ok(Layout { size: [width, depth], places }) } else { Err(wrong) }
}

impl LayoutError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::TooHigh { .. } => "print.too-high",
            Self::Full { .. } => "print.plate-full",
        }
    }

    /// What would work.
    pub fn hint(&self) -> String {
        match self {
            Self::TooHigh { .. } => "--what coupon prints the front and the back alone".to_owned(),
            Self::Full { fit: 0, .. } => {
                "not one of them does: the printer's `build` is too small".to_owned()
            }
            Self::Full { fit, .. } => {
                format!("{fit} of them do: ask for less at once with --what, or fewer --rungs")
            }
        }
    }
}

impl fmt::Display for LayoutError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooHigh { name, height, most } => {
                write!(f, "{name} stands {height:.1} mm high; the printer builds {most:.1} mm")
            }
            Self::Full { pieces, .. } => {
                write!(f, "{pieces} pieces do not go onto the printer's plate side by side")
            }
        }
    }
}

impl std::error::Error for LayoutError {}
