//! The sheet beside the lathe: the plan of the work in words, pictures and boxes, as a page that
//! stands alone (HTML) and as two pages of A4 (PDF).
//!
//! ```text
//!   Plan -> content   rows, tables, pictures, cautions
//!             step      a step in words           numbers   lengths as a caliper reads them
//!             tables    letters, outside, binding figure    bores lettered, template at 1:1
//!        -> html      for a phone, a tablet and a printer
//!        -> pages     laid out on A4 -> pdf
//! ```

mod cautions;
mod content;
mod figure;
mod html;
mod numbers;
mod pages;
mod step;
mod tables;

pub use content::{Block, Content, Line, Row, Table};
pub use html::write as html;
pub use pages::{Paged, pages};

use super::{ExportError, File, SHEET_HTML, SHEET_PDF, pdf};
use crate::drawing::part::Units;
use crate::section::Section;
use crate::shop::{Operation, Plan};
use numbers::Numbers;

/// Some steps of a plan in words, by their numbers.
pub fn rows<'a>(
    plan: &Plan,
    steps: impl IntoIterator<Item = (usize, &'a Operation)>,
    units: Units,
) -> Vec<Row> {
    let numbers = Numbers { units };
    steps.into_iter().map(|(number, step)| step::row(number, step, plan, numbers)).collect()
}

/// The sheet's files: the page for a screen and the two pages to print.
///
/// # Errors
/// [`ExportError::Pdf`] where the library refuses the pages.
pub fn files(design: &Section, plan: &Plan, units: Units) -> Result<Vec<File>, ExportError> {
    let Paged { pages, size, content } = pages(&Content::of(design, plan, units));
    let printed = pdf::write_pages(&pages)?;
    Ok(vec![File::new(SHEET_HTML, html(&content, size)), File::new(SHEET_PDF, printed)])
}
