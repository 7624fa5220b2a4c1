//! How a drawing is asked for.

use std::fmt;

use super::words::Units;
use crate::design::Credits;
use crate::design::Fault;
use crate::drawing::sheet_frame::{PaperSize, Scale};

/// How a drawing is asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Format {
    /// The sheet; none takes the smallest on which the part is drawn well.
    pub paper: Option<PaperSize>,
    /// The scale; none takes the greatest that fits.
    pub scale: Option<Scale>,
    /// The unit in which sizes are written.
    pub units: Units,
    /// Who drew it, and when.
    pub credits: Credits,
}

impl Format {
    /// The sheet to try first, and those to try where the part does not fit on it.
    pub(super) fn papers(&self) -> (PaperSize, &'static [PaperSize]) {
        // Most parts have some twenty sizes: A3, which is printed on A4 too.
        let usual = (PaperSize::A3, [PaperSize::A2, PaperSize::A1].as_slice());
        self.paper.map_or(usual, |asked| (asked, &[]))
    }
}

/// A part that does not fit on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct NoRoom {
    /// What was to be drawn.
    pub name: String,
    /// The sheet.
    pub paper: PaperSize,
    /// The room that its views need on paper, at the least scale that was asked for: width and
    /// height in mm.
    pub needs: [f64; 2],
}

impl NoRoom {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "drawing.no-room"
    }
}

impl fmt::Display for NoRoom {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [width, height] = self.needs;
        write!(
            f,
            "the drawing of the {} needs {width:.0} mm x {height:.0} mm, which a sheet of {} has \
             not: ask for a larger sheet (--sheet A3), or a smaller scale (--scale 2:1), or for \
             neither, which takes what fits",
            self.name.to_lowercase(),
            self.paper
        )
    }
}

impl std::error::Error for NoRoom {}

impl From<NoRoom> for Fault {
    fn from(error: NoRoom) -> Self {
        let hint = "without --sheet and --scale it is drawn on what it needs; or --sheet A1";
        Self::new(error.code(), error.to_string()).hint(hint)
    }
}
