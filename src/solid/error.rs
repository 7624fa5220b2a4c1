//! Why a part can't be built: a refusal with a reason, never a wrong solid.

use std::fmt;

use crate::design::Fault;
use crate::section::Item;

/// A reason not to build a body.
#[derive(Clone, Debug, PartialEq)]
pub enum BuildError {
    /// The runs do not form one chain: this run does not begin where the one before it ends.
    ChainBroken {
        /// Index of the run.
        run: usize,
    },
    /// No run has the thread's crest diameter within its extent.
    NothingToThread {
        /// The thread.
        thread: Item,
    },
    /// The thread goes on where its own cylinder ends at a wall.
    ThreadRunsIntoWall {
        /// The thread.
        thread: Item,
        /// Where the wall stands.
        z: f64,
    },
    /// Behind a step that is shallower than the thread the outline rises again.
    ThreadCrossesGroove {
        /// The thread.
        thread: Item,
        /// Where it rises.
        z: f64,
    },
    /// Two threads are cut into the same place.
    ThreadsMeet {
        /// The thread that finds another in its way.
        thread: Item,
    },
    /// The ends of the thread pass each other: nothing of it is left at some depth.
    NoLength {
        /// The thread.
        thread: Item,
    },
    /// Crest or root has no flat, or the thread no depth.
    NoForm {
        /// The thread.
        thread: Item,
    },
    /// A rounded run of the outline begins between the thread's crest and root.
    ThreadEndsOnArc {
        /// The thread.
        thread: Item,
        /// Where the thread's cylinder ends.
        z: f64,
    },
    /// A single-point tool is drawn out so slowly that the next groove would begin to end first.
    DrawnOutTooSlowly {
        /// The thread.
        thread: Item,
        /// Over how many turns.
        turns: f64,
        /// Over how many it has to be less.
        most: f64,
    },
    /// More turns than are worth building.
    TooManyTurns {
        /// The thread.
        thread: Item,
        /// How many were asked for.
        turns: f64,
        /// How many are built at most.
        limit: f64,
    },
    /// The faces do not close into one solid. This is a fault of this program, and is refused.
    NotSolid {
        /// What the topology found.
        reason: String,
    },
}

impl BuildError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::ChainBroken { .. } => "solid.chain-broken",
            Self::NothingToThread { .. } => "solid.nothing-to-thread",
            Self::ThreadRunsIntoWall { .. } => "solid.thread-runs-into-wall",
            Self::ThreadCrossesGroove { .. } => "solid.thread-crosses-groove",
            Self::ThreadsMeet { .. } => "solid.threads-meet",
            Self::NoLength { .. } => "solid.thread-has-no-length",
            Self::NoForm { .. } => "solid.thread-has-no-form",
            Self::ThreadEndsOnArc { .. } => "solid.thread-ends-on-arc",
            Self::DrawnOutTooSlowly { .. } => "solid.drawn-out-too-slowly",
            Self::TooManyTurns { .. } => "solid.too-many-turns",
            Self::NotSolid { .. } => "solid.not-closed",
        }
    }
}

impl fmt::Display for BuildError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::ChainBroken { run } => {
                write!(f, "run {run} does not begin where the one before it ends")
            }
            Self::NothingToThread { thread } => {
                write!(f, "no cylinder of the {thread}'s crest diameter lies within its length")
            }
            Self::ThreadRunsIntoWall { thread, z } => {
                write!(f, "the {thread} goes on past the wall at z = {z:.3} mm")
            }
            Self::ThreadCrossesGroove { thread, z } => write!(
                f,
                "the {thread} crosses a groove shallower than itself, which ends at z = {z:.3} mm"
            ),
            Self::ThreadsMeet { thread } => {
                write!(f, "the {thread} runs into another thread")
            }
            Self::NoLength { thread } => {
                write!(f, "chamfers or ends leave no length of the {thread}")
            }
            Self::NoForm { thread } => {
                write!(f, "the {thread} has no depth, or no flat at its crest or root")
            }
            Self::ThreadEndsOnArc { thread, z } => write!(
                f,
                "the {thread} ends on a rounded corner at z = {z:.3} mm; end it on a chamfer, or in a groove"
            ),
            Self::DrawnOutTooSlowly { thread, turns, most } => write!(
                f,
                "the {thread}'s tool is drawn out over {turns:.3} turns; less than {most:.3} can be made"
            ),
            Self::TooManyTurns { thread, turns, limit } => {
                write!(f, "the {thread} has {turns:.0} turns; at most {limit:.0} are built")
            }
            Self::NotSolid { reason } => {
                write!(f, "the faces do not close into a solid ({reason}); nothing is written")
            }
        }
    }
}

impl std::error::Error for BuildError {}

impl From<BuildError> for Fault {
    fn from(error: BuildError) -> Self {
        let fault = Self::new(error.code(), error.to_string());
        match error {
            BuildError::NothingToThread { thread }
            | BuildError::ThreadRunsIntoWall { thread, .. }
            | BuildError::ThreadCrossesGroove { thread, .. }
            | BuildError::ThreadsMeet { thread }
            | BuildError::NoLength { thread }
            | BuildError::NoForm { thread }
            | BuildError::ThreadEndsOnArc { thread, .. }
            | BuildError::DrawnOutTooSlowly { thread, .. }
            | BuildError::TooManyTurns { thread, .. } => fault.about([thread]),
            BuildError::ChainBroken { .. } | BuildError::NotSolid { .. } => fault,
        }
    }
}
