//! The lathe, and what holds the work in it.

use crate::quantity::Length;
use crate::section::Limit;

/// The tailstock's quill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quill {
    /// How far one turn of its handwheel moves it.
    pub per_turn: Length,
    /// Divisions on the handwheel; none: it has no scale.
    pub divisions: Option<u32>,
}

/// A lathe.
#[derive(Clone, Debug, PartialEq)]
pub struct Lathe {
    /// Its speeds in turns a minute, ascending; none of a lathe that takes any.
    pub speeds: Vec<f64>,
    /// The tailstock's quill, where somebody measured it.
    pub quill: Option<Quill>,
    /// The greatest speed for a drill in the tailstock, in turns a minute.
    pub tailstock_drill: Limit<f64>,
    /// The greatest speed for turning, in turns a minute.
    pub turning: Limit<f64>,
}

impl Lathe {
    /// Turns a minute that a drill in the tailstock is not run over where the rack does not say
    /// otherwise. Common practice, no source: the figures in print are for machining centres, and
    /// a drill that grabs at their speed takes the work with it.
    pub const TAILSTOCK_DRILL: f64 = 600.0;

    /// Turns a minute that small work is not turned over where the rack does not say otherwise
    /// (common practice, no source): above it a piece held by a thread of a few turns shakes.
    pub const TURNING: f64 = 1200.0;

    /// The lathe's fastest speed that is not over a wanted one, in turns a minute; its slowest
    /// where all are; the wanted one of a lathe that takes any.
    pub fn nearest(&self, wanted: f64) -> f64 {
        let slower = self.speeds.iter().copied().filter(|speed| *speed <= wanted);
        let slowest = self.speeds.first().copied().unwrap_or(wanted);
        slower.reduce(f64::max).unwrap_or(slowest)
    }
}

/// What holds the work.
#[derive(Clone, Debug, PartialEq)]
pub struct Holdings {
    /// Sizes of the collets, ascending.
    pub collets: Vec<Length>,
    /// How far a collet closes under its size.
    pub closes: Length,
    /// The chuck, in the maker's words.
    pub chuck: String,
}

impl Holdings {
    /// The collet that holds a diameter: the smallest that it enters and that closes on it.
    pub fn collet(&self, diameter: Length) -> Option<Length> {
        let holds = |size: &Length| *size >= diameter && *size - diameter <= self.closes;
        self.collets.iter().copied().find(holds)
    }
}
