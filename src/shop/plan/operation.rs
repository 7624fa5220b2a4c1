//! One step of the work, with everything that whoever does it has to know.

use super::{Depths, Outside, PinReading, Speed, Tapping, Tight, TrialFit};
use crate::quantity::{Length, Limits};
use crate::section::{
    Bore, Bushing, Cut, Depth, Item, LipPlug, Mouth, Tenon, Thread, ToolKind, Why,
};
use crate::shop::choose::{Choice, Taken};

/// What holds the work.
#[derive(Clone, Debug, PartialEq)]
pub enum Holding {
    /// An offcut of the rod.
    Offcut,
    /// The rod by its outside: in a collet of this size, or in the chuck.
    Rod {
        /// The rod's diameter.
        diameter: Length,
        /// The collet that holds it; none: the chuck.
        collet: Option<Length>,
        /// The chuck, in the maker's words.
        chuck: String,
    },
    /// The rod by its outside, end for end, set true to its bore: no collet can be.
    RodReversed {
        /// The chuck, in the maker's words.
        chuck: String,
    },
    /// By its tenon in a bushing that was bored and threaded in place, seated on its shoulder.
    Bushing,
    /// By its tenon in a split bushing without a thread, with the tailstock's centre: nothing goes
    /// through it that a mandrel could.
    SplitBushing {
        /// Diameter of the bushing's hole.
        bore: Length,
    },
    /// On a mandrel through its bore, with the tailstock's centre.
    Mandrel {
        /// Diameter of the mandrel: the least that the bore may be.
        diameter: Length,
    },
}

/// A face that depths are measured from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The face.
    pub face: Mouth,
    /// How much of the front is still to come off after this step; nothing at the back.
    pub to_come: Length,
}

/// A step.
#[derive(Clone, Debug, PartialEq)]
pub struct Operation {
    /// What is done.
    pub work: Work,
    /// What holds the work.
    pub holding: Holding,
    /// Whether the work is held anew for it.
    pub held_anew: bool,
    /// The face that its lengths are measured from.
    pub measured: Measured,
    /// How fast the work turns; none where it stands still or nothing is cut.
    pub speed: Option<Speed>,
    /// Its sizes with the room that they have, the critical ones first.
    pub tight: Vec<Tight>,
    /// What it takes off; none where it takes nothing.
    pub cut: Option<Cut>,
}

/// What is done in a step.
#[derive(Clone, Debug, PartialEq)]
pub enum Work {
    /// Drills, tap and unit are tried on an offcut of the same material.
    Rehearse,
    /// The rod is squared at both ends.
    Square {
        /// How long it is then.
        length: Length,
        /// What it is cut from, where that is longer.
        rod: Option<Length>,
    },
    /// A face is spotted for the first drill.
    Spot {
        /// Which.
        mouth: Mouth,
        /// The drill's diameter: the spot is no wider.
        within: Length,
    },
    /// A hole.
    Bore(Box<BoreWork>),
    /// The tenon is turned.
    Tenon(Box<TenonWork>),
    /// The tenon's thread is cut.
    TenonThread(Box<ThreadWork>),
    /// A bushing is bored and threaded in place, and the work screwed in to its shoulder.
    Seat(Box<Bushing>),
    /// The work is reversed, its bores done first since it can't be held by its tenon.
    Reverse(Why),
    /// The front is faced.
    Face {
        /// By so much.
        off: Length,
        /// From the shoulder (where it is turned) or the back face to the front, then.
        leaves: Length,
        /// Whether that is measured from the shoulder.
        from_shoulder: bool,
    },
    /// The unit is tried in its bores before they are tapped.
    TryUnit(TrialFit),
    /// The unit's thread is tapped.
    Tap(Box<Tapping>),
    /// The unit is screwed in.
    TryAgain(TrialFit),
    /// The lip is supported.
    LipPlug(Box<LipPlug>),
    /// The outside is turned.
    Outside(Box<Outside>),
    /// The cap's thread is cut.
    CapThread(Box<ThreadWork>),
    /// The front is sanded and polished.
    Sand {
        /// By so much.
        off: Length,
    },
    /// The last look.
    Finish,
}

/// A hole about to be cut.
#[derive(Clone, Debug, PartialEq)]
pub struct BoreWork {
    /// The hole; its depths are from the face as it is.
    pub bore: Bore,
    /// The tool, and what others would have cost.
    pub choice: Choice,
    /// How deep.
    pub depths: Depths,
    /// How its depth is proved.
    pub pin: Option<PinReading>,
    /// The tool is drawn out and cleared each time it has gone so far.
    pub peck: Length,
    /// The hole that is there, where a drill opens it by little: it grabs and is pulled in.
    pub opens: Option<Length>,
    /// It breaks through.
    pub breaks_through: bool,
}

/// Whether a hole is cut by a bar or hook tool, from the slide.
pub(super) fn is_turned(bore: &Bore, taken: &Taken) -> bool {
    let bar = matches!(taken, Taken::Tool(tool) if tool.kind == ToolKind::BoringBar);
    bar || matches!(bore.depth, Depth::Between(..))
}

impl BoreWork {
    /// Whether it is cut by a bar or hook tool, from the slide.
    pub fn is_turned(&self) -> bool {
        is_turned(&self.bore, &self.choice.taken)
    }

    /// Whether a drill cuts it: its lips can be eased.
    pub fn is_drilled(&self) -> bool {
        let Taken::Tool(tool) = &self.choice.taken else { return false };
        matches!(tool.kind, ToolKind::Drill | ToolKind::StepDrill)
    }

    /// Whether its depth is set from the part, and not by going through.
    pub fn has_depth(&self) -> bool {
        self.bore.depth != Depth::Through
    }
}

/// The tenon about to be turned; lengths are from the back face.
#[derive(Clone, Debug, PartialEq)]
pub struct TenonWork {
    /// Its sizes.
    pub tenon: Tenon,
    /// To which the cylinder for its thread is turned, and between which it must come out.
    pub turn_to: Length,
    /// The limits of its class on the major diameter.
    pub major: Limits,
}

/// A thread about to be cut on the outside.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadWork {
    /// The thread.
    pub thread: Thread,
    /// Between which its full form runs, from the face that the step names.
    pub full: [Length; 2],
}

impl Operation {
    /// The hole that it cuts.
    pub fn bore(&self) -> Option<&BoreWork> {
        match &self.work {
            Work::Bore(bore) => Some(bore),
            _ => None,
        }
    }

    /// What it cuts inside.
    pub fn item(&self) -> Option<Item> {
        match &self.work {
            Work::Bore(bore) => Some(bore.bore.item),
            Work::Tap(_) => Some(Item::UnitThread),
            _ => None,
        }
    }
}
