//! Percentage of thread: how deep two threads overlap, as a share of a full depth.
//!
//! Which depth is 100 % differs in print, so a percentage never goes without its base:
//!
//! ```text
//! base A, of full depth:     5/8 H   100 (D - hole) / (1.082532 P)   ISO and DIN engagement ratio
//! base B, on drill charts:   3/4 H   100 (D - hole) / (1.299038 P)   drill charts, Machinery's Handbook
//! ```
//! Sources: A, a tap maker's catalogue p. 722 (M10, hole 8.5: 92.4 %); B, Machinery's Handbook 31
//! p. 2155 table 2 (#0-80 with 0.0512 in: 54 %).

use std::fmt;

use super::iso68;
use crate::quantity::Length;

/// The depth per side that counts as 100 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base {
    /// A: 5/8 H, the depth that two basic profiles share (ISO 68-1).
    FullDepth,
    /// B: 3/4 H, the base of the trade's drill charts.
    DrillChart,
}

impl Base {
    /// The depth per side that is 100 % of a thread of this pitch.
    pub fn depth(self, pitch: Length) -> Length {
        match self {
            Self::FullDepth => iso68::engagement_depth(pitch),
            Self::DrillChart => iso68::fundamental_height(pitch) * 0.75,
        }
    }

    /// The letter and the depth: `A (5H/8)`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FullDepth => "A (5H/8)",
            Self::DrillChart => "B (3H/4)",
        }
    }
}

/// The percentage that an overlap of so much per side is of a base; 0 or below when there is none.
pub fn of_overlap(overlap_per_side: Length, pitch: Length, base: Base) -> f64 {
    100.0 * (overlap_per_side / base.depth(pitch))
}

/// The percentage of thread that a hole leaves under a major diameter.
pub fn of_hole(major: Length, hole: Length, pitch: Length, base: Base) -> f64 {
    of_overlap((major - hole) / 2.0, pitch, base)
}

/// The hole that gives a percentage of thread.
pub fn hole_for(major: Length, pitch: Length, percent: f64, base: Base) -> Length {
    major - base.depth(pitch) * (2.0 * percent / 100.0)
}

/// One overlap on both bases, so that neither is taken for the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadPercent {
    /// Percent on base A, 5/8 H.
    pub full_depth: f64,
    /// Percent on base B, 3/4 H.
    pub drill_chart: f64,
}

impl ThreadPercent {
    /// The percentage that an overlap of so much per side is, on both bases.
    pub fn of_overlap(overlap_per_side: Length, pitch: Length) -> Self {
        Self {
            full_depth: of_overlap(overlap_per_side, pitch, Base::FullDepth),
            drill_chart: of_overlap(overlap_per_side, pitch, Base::DrillChart),
        }
    }

    /// The percentage of thread that a hole leaves under a major diameter, on both bases.
    pub fn of_hole(major: Length, hole: Length, pitch: Length) -> Self {
        Self::of_overlap((major - hole) / 2.0, pitch)
    }
}

/// As people read it: `92 % of full depth (77 % on drill charts)`.
impl fmt::Display for ThreadPercent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = f.precision().unwrap_or(0);
        write!(
            f,
            "{:.decimals$} % of full depth ({:.decimals$} % on drill charts)",
            self.full_depth, self.drill_chart
        )
    }
}
