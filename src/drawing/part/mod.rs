//! The drawing that a machinist makes a part from.
//!
//! ```text
//!   Part -> contour -> scheme           what is dimensioned: each size once (level, cones)
//!   sizes -> limits, words -> label     how it is written, with its limits
//!   labels -> rows, flags, columns      where it stands; view, detail: the lines themselves
//!   subject(s), notes, thread_table     what no size says      page   all of it on its sheet
//! ```
//! Coordinates are millimetres of the part, true to size; what a sheet adds is laid out on paper
//! and divided by the scale.

mod clear;
mod columns;
mod cones;
mod contour;
mod detail;
mod flags;
mod format;
mod label;
mod level;
mod limits;
mod notes;
mod page;
mod pen;
mod rows;
mod scheme;
mod subject;
mod subjects;
mod tap_form;
mod tap_order;
mod thread_table;
mod view;
mod views;
mod words;

pub use clear::{crosses, overlap};
pub use format::{Format, NoRoom};
pub use page::page;
pub use scheme::{Contours, Datums, Role, Size, Wall, sizes};
pub use subject::Subject;
pub use subjects::subject;
pub use tap_order::tap_order;
pub use words::{Allowances, Allowed, Units};

use super::Drawing;
use pen::Pen;
use views::{Details, Views};

/// The views of a part with its sizes at a scale, with letters of a height on paper; `scales` are
/// those that details may have, the greatest first.
pub fn views(subject: &Subject, units: Units, scale: f64, height: f64, scales: &[f64]) -> Drawing {
    let contours = Contours::of(subject.part);
    let sizes = sizes(subject.part, &contours, subject.datums());
    Views::new(subject, &contours, &sizes, units).drawn(
        Pen { scale, height },
        scales,
        Details::Stacked,
    )
}
