//! A drawing sheet without its views: frame, title block, notes and tables.
//!
//! ```text
//!   +---------------------------------+   trimmed sheet, PaperSize (ISO 5457)
//!   | +-----------------------------+ |   frame round the drawing space (border)
//!   | |          views              | |   what `frame` gives back
//!   | |         +-------------------+ |
//!   | | notes   | title block       | |   notes; title_block (ISO 7200), projection (ISO 5456-2)
//!   | +---------+-------------------+ |
//!   +---------------------------------+
//! ```
//! All of it is laid out in millimetres on paper, (0, 0) at the lower left corner of the trimmed
//! sheet; [`Drawing::placed`] then brings it into a drawing of the part. Words are measured by
//! [`Text::corners`](super::Text::corners) and get smaller letters, then more lines
//! (`fit`), so that none crosses a line or another word, and nothing lies outside the frame but
//! the grid references, which belong there.

mod area;
mod border;
mod column;
mod fit;
mod notes;
mod paper_size;
mod projection;
mod scale;
mod table;
mod title_block;

use std::fmt;

pub use area::Area;
pub(crate) use column::Column;
pub use paper_size::{Lettering, PaperSize, UnknownPaperSize};
pub use scale::{Scale, UnknownScale};
pub use table::{Table, table};
pub use title_block::TitleBlock;

use super::{Drawing, Point};

/// White between frame or title block and views, in mm: the centring marks stay clear.
const CLEAR: f64 = border::MARK + 2.0;
/// White between notes and title block, and the views above them, in mm.
const ABOVE: f64 = 4.0;

/// Notes that leave no room for views.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotesTooLong {
    /// The sheet on which they were to stand.
    pub size: PaperSize,
}

/// Draws everything of a sheet but its views, in mm on paper; gives the area that is left for
/// them.
///
/// # Errors
/// [`NotesTooLong`] where the notes take more than half of the drawing space's height in the
/// smallest letters; nothing is drawn then.
pub fn frame(
    drawing: &mut Drawing,
    size: PaperSize,
    title: &TitleBlock,
    notes: &[String],
) -> Result<Area, NotesTooLong> {
    let space = size.drawing_space();
    let mut own = Drawing::default();
    border::draw(&mut own, size);
    let corner = Point::new(space.high.x, space.low.y);
    let block = title_block::draw(&mut own, size, corner, title);
    let top = notes::draw(&mut own, space, block, size.lettering(), notes);
    let top = top.ok_or(NotesTooLong { size })?.max(block.high.y);
    drawing.entities.append(&mut own.entities);
    let clear = space.inset(CLEAR);
    Ok(Area::new([clear.low.x, top + ABOVE], [clear.high.x, clear.high.y]))
}

impl NotesTooLong {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "export.notes-too-long"
    }
}

impl fmt::Display for NotesTooLong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the notes leave no room for the views on an {} sheet: ", self.size)?;
        match self.size {
            PaperSize::A4 => write!(f, "take A3, or shorter notes"),
            _ => write!(f, "shorten them"),
        }
    }
}

impl std::error::Error for NotesTooLong {}
