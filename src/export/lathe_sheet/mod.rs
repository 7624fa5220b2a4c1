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
pub use pages::{TooLong, pages};
