//! Holes: each a tool that comes in by one face, and the upper envelope that all of them leave.

mod envelope;
mod rules;
mod tool;

pub use envelope::{EnvelopeRun, envelope};
pub(super) use rules::{faults, tool_diameter_at};
pub use tool::{Bore, CentrePilot, Depth, Mouth, Point};
