//! Drill sizes: number, letter, fractional inch and metric, by name and by diameter.
//!
//! ```text
//! size = length | "#" n | "no" n | "number" n | "letter" l          7.3 mm  5/16 in  #7  letter F
//! ```
//! Numbers and letters are the twist drill gauge sizes of ASME B94.11M in thousandths of an inch.
//! The table is from memory; tests hold it to two public ones.

mod name;
mod series;
mod size;

pub use name::DrillName;
pub use series::{Series, nearest};
pub use size::{DrillSize, SizeError, parse_size};
