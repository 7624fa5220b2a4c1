//! Lengths, angles and tolerances, and how people write them.
//!
//! The border types: what a person writes becomes a [`Length`] or an [`Angle`] here and keeps its
//! unit in its type until the geometry takes raw millimetres.

mod angle;
mod length;
mod limits;
mod parse;
mod tolerance;

pub use angle::Angle;
pub use length::Length;
pub use limits::Limits;
pub use parse::{LengthError, parse_length};
pub use tolerance::Tolerance;
