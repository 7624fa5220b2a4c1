//! What a maker can hold, by the means with which a size is made.

use std::fmt;

use super::Limit;
use crate::quantity::{Length, Limits};

/// How a size is made at the lathe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Means {
    /// A diameter of the outside.
    Turned,
    /// A length of the outside: a shoulder, a chamfer, the width of a groove.
    Faced,
    /// A diameter that is bored or milled, or cut inside with a hook tool.
    Bored,
    /// A hole as wide as its drill leaves it.
    Drilled,
    /// A depth by the scale of the tailstock's quill, or by turns of its handwheel.
    Depth,
    /// A depth by a mark on the drill or tap.
    Mark,
    /// How true a piece runs when it is held anew.
    Holding,
    /// How straight a long hole is drilled.
    LongHole,
}

impl fmt::Display for Means {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Turned => "turned to a diameter",
            Self::Faced => "turned to a length",
            Self::Bored => "bored to a diameter",
            Self::Drilled => "drilled",
            Self::Depth => "to a depth by the quill's scale",
            Self::Mark => "to a depth by a mark on the tool",
            Self::Holding => "held anew",
            Self::LongHole => "drilled long",
        })
    }
}

/// What a maker can hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Maker {
    /// The profile's name.
    pub name: String,
    /// To either side.
    pub turned: Limit<Length>,
    /// To either side.
    pub faced: Limit<Length>,
    /// To either side.
    pub bored: Limit<Length>,
    /// What a drill cuts over its size, least and most.
    pub drilled: Limit<Limits>,
    /// To either side.
    pub depth: Limit<Length>,
    /// To either side.
    pub mark: Limit<Length>,
    /// Off the axis, after a change of holding.
    pub holding: Limit<Length>,
    /// Off the axis, at the end of a long drilled hole.
    pub long_hole: Limit<Length>,
}

impl Maker {
    /// How far a size made by some means may come out under and over what was meant, and where
    /// that comes from. An offset is no less than it is meant to be.
    pub fn holds(&self, means: Means) -> (Limits, &str) {
        let either = |limit: &Limit<Length>| Limits::around(Length::ZERO, limit.value);
        let (limits, source) = match means {
            Means::Turned => (either(&self.turned), &self.turned.source),
            Means::Faced => (either(&self.faced), &self.faced.source),
            Means::Bored => (either(&self.bored), &self.bored.source),
            Means::Drilled => (Some(self.drilled.value), &self.drilled.source),
            Means::Depth => (either(&self.depth), &self.depth.source),
            Means::Mark => (either(&self.mark), &self.mark.source),
            Means::Holding => (Limits::new(Length::ZERO, self.holding.value), &self.holding.source),
            Means::LongHole => {
                (Limits::new(Length::ZERO, self.long_hole.value), &self.long_hole.source)
            }
        };
        // Read as sizes, none under nothing.
        (limits.unwrap_or(Limits::exactly(Length::ZERO)), source)
    }
}
