//! What an offset takes whole.

use std::fmt;

use crate::section::{Feature, Item};

/// Something that the moved surfaces leave no room for.
#[derive(Clone, Debug, PartialEq)]
pub enum Loss {
    /// A line of the half-section is gone; its neighbours meet.
    Surface {
        /// Which one.
        feature: Feature,
        /// How long it was, in millimetres.
        length: f64,
    },
    /// A thread's ridge has become an edge, lower than its crest was to be.
    Crest {
        /// The thread.
        thread: Item,
        /// By how much, per side, in millimetres.
        height: f64,
        /// Its depth as it is now, per side.
        depth: f64,
    },
    /// A thread's groove has become a V, shallower than its root was to be.
    Root {
        /// The thread.
        thread: Item,
        /// By how much, per side, in millimetres.
        height: f64,
        /// Its depth as it is now, per side.
        depth: f64,
    },
    /// Nothing of a thread is left.
    Thread {
        /// The thread.
        thread: Item,
    },
}

impl fmt::Display for Loss {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Surface { feature, length } => write!(
                f,
                "{feature} ({length:.3} mm long) is taken whole; its neighbours meet in an edge"
            ),
            Self::Crest { thread, height, depth } => write!(
                f,
                "the crest of the {thread} becomes an edge, {height:.3} mm lower: {depth:.3} mm of \
                 depth are left"
            ),
            Self::Root { thread, height, depth } => write!(
                f,
                "the root of the {thread} closes to an edge, {height:.3} mm shallower: {depth:.3} mm \
                 of depth are left"
            ),
            Self::Thread { thread } => write!(f, "nothing of the {thread} is left"),
        }
    }
}
