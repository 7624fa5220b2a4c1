//! How a thread ends where its tool left it.

use crate::quantity::Length;

/// What a tool leaves where it stops cutting within its cylinder.
///
/// Where the outline ends first (a chamfer, a relief, a wider bore), the thread ends there and
/// nothing is left of this.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunOut {
    /// A wall across the axis: the tool's full profile stops here.
    Wall,
    /// The lead of a tap or die: over this length the groove's depth falls from full to nothing.
    Lead(Length),
    /// A single-point tool is drawn out while the work turns on, over so many turns, and leaves
    /// the cylinder at the thread's end.
    Withdrawal {
        /// From full depth to nothing; under one turn over the number of starts.
        turns: f64,
    },
}

impl RunOut {
    /// The axial length over which the groove is not as deep as it is wanted, on a thread that
    /// climbs `lead` per turn.
    pub fn length(self, lead: Length) -> Length {
        match self {
            Self::Wall => Length::ZERO,
            Self::Lead(length) => length,
            Self::Withdrawal { turns } => lead * turns,
        }
    }
}
