//! The half-section: above the axis the part is cut, below it is seen from outside.
//!
//! ```text
//!          _______________________
//!         |// hatched ///////|////|____    cut (ISO 128-3: a half section shows one side of
//!         |___ / / / / / / / |_ /|/ / /|    the axis cut and the other from outside)
//!         |   |______________|__________|   bore, with the edges seen behind the cut
//!   - - - | - |- - - - - - - | - - - - -| - axis
//!         |                  |          |
//!         |                  |      ____|   outside
//!         |__________________|_____|
//! ```
//! The cut half lies above, so that it is the (r, z) half-plane of the geometry and of the
//! report; the nib lies on the left, z growing to the right.
//!
//! Threads are drawn by ISO 6410-1:1993, but true to size: the line of the root lies at the
//! modelled root, not 0.7 mm from the crest as the standard wants for a small drawing, for this
//! one is measured.

mod label;
mod legend;
mod pair;
mod sheet;
mod walls;

pub(crate) use label::letter;
pub use pair::{PairRow, sheet as pair_sheet};
pub use sheet::sheet;
pub(crate) use sheet::{Paper, lettered};
pub use walls::sheet as walls_sheet;

use super::Drawing;
use super::view::chain::Chain;
use super::view::{axis, halves};
use crate::section::Section;

/// The geometry alone, true to size.
///
/// The axis ends at the faces, so that the drawing's extents are the part's: x from 0 to the
/// length, y to the greatest radius on both sides.
pub fn geometry(section: &Section) -> Drawing {
    let part = section.part();
    let outside = Chain::outside(&part);
    let mut drawing = halves(&outside, &Chain::bore(&part), &part.threads);
    axis(&mut drawing, &outside, 0.0);
    drawing
}
