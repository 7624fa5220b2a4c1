//! From the readings of a calibration plate to what a printer does to holes, pegs and faces.
//!
//! ```text
//!   Plate -> form -> readings.toml, filled in by hand -> design::load_readings -> PlateValue
//!   PlateValue -> contradiction   a robust line; what it does not explain is refused by name
//!              -> fit             least squares of what is left whole, with its errors
//!              -> profile, table  the printer's new profile; residuals and changes for people
//! ```
//! In the terms of [`Printer`]: `in the file = wanted + constant + share x wanted`. What comes out
//! of the printer is read, and what was in the file is known, so the line that is fitted is
//! `read = a + b x in the file`, with `share = 1 / b - 1` and `constant = -a / b`, exactly.
//!
//! A caliper does not reach the flanks of a thread: a printer's `thread` stays as it was.

mod calibration;
mod contradiction;
mod fault;
mod fit;
mod form;
mod line;
mod profile;
mod table;

pub use crate::section::{Measurand, Plate, PlatePiece, PlateReading, PlateValue, Printer};
pub use calibration::{Calibration, calibrate};
pub use contradiction::{Against, Contradiction};
pub use fault::CalibrationFault;
pub use fit::{Added, DiameterFit, FaceFit, Residual};
pub use form::form;
pub use profile::{Change, changes, profile};
pub use table::{changes_table, residuals_table};
