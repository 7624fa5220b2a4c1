//! Numbers of published standards, each with its clause and source.
//!
//! ```text
//!   iso68, iso724   profile and basic sizes from diameter and pitch
//!   iso2904         profile and basic sizes of trapezoidal threads
//!   iso261          which diameters and pitches belong together
//!   iso2768         general tolerances
//!   iso965          tolerance classes and limits of size       engagement: its lengths S, N, L
//!   iso2857         the limits of taps
//!   iso237          shanks and squares      iso6411: centre holes
//!   designation     M10x0.75-6g, read and written
//!   percent         how much of the depth two threads share    tap_drill: a hole for a thread
//!   drill           inch and metric drill sizes                pitch_series: pitches a reading allows
//! ```
//! Pitches and diameters that no standard lists are computed by the standard's own formulas, and
//! what is not in a standard says so. "From memory" marks a number no source was at hand for.

pub mod designation;
pub mod drill;
pub mod engagement;
pub mod iso237;
pub mod iso261;
pub mod iso2768;
pub mod iso2857;
pub mod iso6411;
pub mod iso68;
pub mod iso2904;
pub mod iso724;
pub mod iso965;
pub mod percent;
pub mod pitch_series;
mod r40;
pub mod tap_drill;

pub use designation::{DesignationError, Hand, System, ThreadDesignation};
pub use drill::{DrillName, DrillSize, Series, SizeError, parse_size};
pub use iso965::{ExternalLimits, InternalLimits, ToleranceClass, ToleranceError};
pub use iso2768::GeneralClass;
pub use percent::ThreadPercent;
pub use tap_drill::{TapDrill, tap_drill};
