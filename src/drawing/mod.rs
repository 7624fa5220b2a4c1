//! How things are drawn: lines on layers, in millimetres of the part, for every writer.
//!
//! ```text
//!   y ^  radius: the upper half of the part is positive
//!     |
//!     +-----> x = z of the part: the finished front face lies at 0, on the left
//!
//!   shape, entity, layer, text, dimension, ...   the model: no bytes, no format
//!   view                        the lines that all pictures of a part begin with
//!   sheet_frame                 what a sheet has beside its views
//!   part                        the drawing that a part is made from
//!   half_section, profile       to measure and cut from; walls and pairs, to look at
//!   rod_plan, plate_picture     a rod with its cuts; a printer's plate with its pieces
//!   font                        the letters, as wide and high as they are
//! ```
//! Line widths, patterns and what a sheet adds are sizes on paper.

mod dimension;
mod entity;
pub(crate) mod font;
pub mod half_section;
mod layer;
mod line_kind;
pub mod part;
mod placing;
pub mod plate_picture;
mod polyline;
pub mod profile;
pub mod rod_plan;
mod shade;
mod shape;
mod sheet;
pub mod sheet_frame;
mod spread;
mod text;
pub(crate) mod view;
mod wrap;

pub use dimension::{Dimension, Measure};
pub use entity::{Drawing, Entity};
pub use layer::Layer;
pub use line_kind::LineKind;
pub use polyline::{Polyline, Segment};
pub use shade::Shade;
pub use shape::{Point, Shape};
pub use sheet::Sheet;
pub(crate) use spread::spread;
pub use text::{Anchor, CAPITAL_PER_EM, Reads, Text};
pub(crate) use wrap::{letters, wrap, wrap_by};

/// Said wherever somebody might take a computed result for more than it is.
pub const CAUTION: &str = "A computed result is no approval: try it on a print and on an offcut. Keep \
to the instructions of your machine and of the material, to local rules and licensed practice.";
