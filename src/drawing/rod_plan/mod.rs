//! A rod plan on a sheet: the rod with its cuts, a table of the pieces, the order of the work.
//!
//! ```text
//!   Rod plan: 5 sections and 1 spare
//!   0     34.35    70.7 ...            figures from the free end
//!   +------+------+------+-----+====+
//!   |  1   |  2   |  3   |     |////|  the rod, free end on the left
//!   +------+------+------+-----+====+
//!   key
//!   table of the pieces     order of the work
//!   care                    (where there is room for it)
//! ```
//! All of it is laid out in millimetres on paper, (0, 0) at the lower left corner of the sheet.

mod key;
mod page;
mod picture;
mod rows;

use std::fmt;

use super::Sheet;
use super::sheet_frame::PaperSize;
use crate::shop::rod::{RodPlan, Shown};

/// The names of a rod plan's files: what is of this list in its folder is ours.
pub const ROD_NAMES: [&str; 2] = ["rod.svg", "rod.pdf"];

/// Heights of the smallest letters on each sheet, in mm, in the order in which they are tried: 2.5
/// and 1.8 of the series of ISO 3098-1 (from memory), and one between, since a whole step loses half
/// of the sheet. Smaller letters are not read at a lathe.
const TRIED: [(PaperSize, f64); 6] = [
    (PaperSize::A4, 2.5),
    (PaperSize::A4, 2.15),
    (PaperSize::A4, 1.8),
    (PaperSize::A3, 2.5),
    (PaperSize::A2, 2.5),
    (PaperSize::A1, 2.5),
];

/// A plan that no sheet holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSheet {
    /// How many pieces it has.
    pub pieces: usize,
}

impl NoSheet {
    /// A stable code.
    pub fn code(self) -> &'static str {
        "rod.no-sheet"
    }
}

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { pieces } = self;
        write!(f, "{pieces} pieces of this rod can't be drawn so that they can be read; ")?;
        write!(f, "ask for fewer, as --sets {}", (pieces / 2).max(1))
    }
}

impl std::error::Error for NoSheet {}

/// Draws a plan: on A4 lying, or on the smallest sheet that holds it.
///
/// # Errors
/// [`NoSheet`] where none holds it.
pub fn sheet(plan: &RodPlan, shown: Shown) -> Result<Sheet, NoSheet> {
    let page = |(size, height): &(PaperSize, f64)| page::page(plan, shown, *size, *height);
    let found = TRIED.iter().find_map(|tried| Some((tried.0.sheet(), page(tried)?)));
    let (paper, drawing) = found.ok_or(NoSheet { pieces: plan.pieces.len() })?;
    let names: Vec<&str> = plan.request.designs.iter().map(|d| d.name.as_str()).collect();
    Ok(Sheet {
        drawing,
        scale: 1.0,
        area: [paper.low, paper.high],
        title: format!("Rod plan: {}", names.join(", ")),
        description: format!(
            "{}, as a picture with its cuts, a table of the pieces and the order of the work: {}.",
            plan.rod(shown),
            plan.gives()
        ),
    })
}
