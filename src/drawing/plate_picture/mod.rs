//! The picture of a printer's plate: the plate from above with its pieces, and every piece from the
//! side.
//!
//! ```text
//!   title, printer                            lying: the plate on the left, pieces on the right
//!   +------------------+    ____              upright: the plate above, pieces below
//!   | ( o )   ( o )    |   |    |   ______
//!   |  a        b      |   >    <  |      |   from the side, right half cut, standing on a line;
//!   +------------------+   |____|__|______|   under it name, sizes, what it is
//!       ^ front ^            a        b
//!   care
//! ```
//! All of it is laid out in millimetres on paper, (0, 0) at the lower left corner of the sheet. Of
//! all ways to lay it out the best is taken: first the smallest paper, then names on the plate, then
//! the largest pieces.

mod names;
mod page;
mod paper;
mod pieces;
mod plate;
mod side;

use std::fmt;

use super::sheet_frame::{PaperSize, Scale};
use super::{Drawing, Sheet};
use crate::print::{Layout, Piece};
use crate::section::Printer;
use paper::Paper;

/// The greatest and the least scale of the pieces from the side, tried on every paper before the next
/// ones are. A groove is a millimetre wide: under 2:1 its lines run together on A4.
const SIDE_SCALES: [[f64; 2]; 2] = [[5.0, 2.0], [1.0, 0.5]];
/// The greatest and the least scale of the plate from above. Greater, and it is a poster; less, and
/// its pieces are dots.
const PLATE_SCALES: [f64; 2] = [2.0, 0.2];

/// Pieces that no sheet holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSheet {
    /// How many there are.
    pub pieces: usize,
}

impl NoSheet {
    /// A stable code.
    pub fn code(self) -> &'static str {
        "print.no-picture"
    }

    /// What would work.
    pub fn hint(self) -> String {
        "ask for less at once with --what, or fewer --rungs".to_owned()
    }
}

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { pieces } = self;
        write!(f, "a plate of {pieces} pieces can't be drawn so that it can be read")
    }
}

impl std::error::Error for NoSheet {}

/// What is seen.
#[derive(Clone, Copy)]
struct Seen<'a> {
    title: &'a str,
    printer: &'a Printer,
    pieces: &'a [Piece],
    layout: &'a Layout,
}

/// Draws a plate on the smallest sheet that holds it: each piece from above at its place, in the
/// order of the layout, and each different piece from the side. Lengths are those of the files that
/// the printer is given.
///
/// # Errors
/// [`NoSheet`] where no sheet holds it in letters that can be read.
pub fn sheet(
    title: &str,
    printer: &Printer,
    pieces: &[Piece],
    layout: &Layout,
) -> Result<Sheet, NoSheet> {
    let seen = Seen { title, printer, pieces, layout };
    let mut papers =
        SIDE_SCALES.into_iter().flat_map(|side| PaperSize::ALL.map(|size| (size, side)));
    let found = papers.find_map(|(size, side)| best(seen, size, side));
    let (paper, drawing) = found.ok_or(NoSheet { pieces: pieces.len() })?;
    let area = paper.sheet();
    let names: Vec<&str> = pieces.iter().map(|piece| piece.name.as_str()).collect();
    Ok(Sheet {
        drawing,
        scale: 1.0,
        area: [area.low, area.high],
        title: title.to_owned(),
        description: format!(
            "The plate of the printer {} from above, {}, and its pieces from the side: {}.",
            printer.name,
            plate::size(layout),
            names.join(", ")
        ),
    })
}

/// The best of all ways on one size of paper; none where none holds it.
fn best(seen: Seen, size: PaperSize, side: [f64; 2]) -> Option<(Paper, Drawing)> {
    let mut found: Option<([f64; 5], Paper, Drawing)> = None;
    let pairs = || scales(side).flat_map(|side| scales(PLATE_SCALES).map(move |p| (side, p)));
    for paper in Paper::all(size) {
        for (side, plate) in pairs() {
            let Some((naming, drawing)) = page::page(seen, paper, plate, side) else { continue };
            let lies = if paper.upright { 0.0 } else { 1.0 };
            let rank = [naming.rank(), side.factor(), paper.height, plate.factor(), lies];
            if found.as_ref().is_none_or(|(best, ..)| *best < rank) {
                found = Some((rank, paper, drawing));
            }
        }
    }
    found.map(|(_, paper, drawing)| (paper, drawing))
}

/// The scales of ISO 5455 between two, the greatest first.
fn scales([greatest, least]: [f64; 2]) -> impl Iterator<Item = Scale> {
    Scale::ALL.into_iter().filter(move |scale| (least..=greatest).contains(&scale.factor()))
}
