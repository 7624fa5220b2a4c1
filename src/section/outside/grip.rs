//! The grip as it is asked for: runs with their curves, corners, beads, grooves and a thread.

use crate::quantity::Length;
use crate::section::{Item, Station, Thread};

/// How a run of the grip gets to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Curve {
    /// A cylinder, a taper or, where it ends at the z where it begins, a plane step.
    Straight,
    /// A hollow arc of this radius.
    Concave(Length),
    /// A rounded arc of this radius.
    Convex(Length),
    /// The arc through this point.
    Through(Station),
    /// The arc that goes on in the direction of the run before (of the front face, for the first).
    TangentBefore,
    /// The arc that ends in the direction of the run behind (of the shoulder, for the last).
    TangentAfter,
}

/// What becomes of the corner between two runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Corner {
    /// It stays.
    Sharp,
    /// Rounded by an arc of this radius, tangent to both.
    Fillet(Length),
    /// Cut straight between a point of the run before and one of the run behind.
    Chamfer {
        /// From the corner to the point before, in a straight line.
        before: Length,
        /// From the corner to the point behind.
        after: Length,
    },
}

/// One turned run of the grip: it begins where the one before it ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GripRun {
    /// Where it ends, before its corner is cut.
    pub to: Station,
    /// How it gets there.
    pub curve: Curve,
    /// The corner at its end.
    pub corner: Corner,
}

impl GripRun {
    /// A straight run with a sharp corner.
    pub const fn straight(to: Station) -> Self {
        Self { to, curve: Curve::Straight, corner: Corner::Sharp }
    }
}

/// The form of a raised or sunk ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingForm {
    /// Raised, an arc.
    Bead,
    /// Sunk, an arc.
    RoundGroove,
    /// Sunk, walls square to the axis and a cylinder as floor.
    SquareGroove,
    /// Sunk, two cones.
    VeeGroove,
}

/// A bead or groove laid over one straight run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// [`Item::Bead`] or [`Item::Groove`].
    pub item: Item,
    /// Its form.
    pub form: RingForm,
    /// z of its middle.
    pub at: Length,
    /// Along the axis.
    pub width: Length,
    /// Out of the run or into it, square to the axis, at its middle; always positive.
    pub height: Length,
}

/// A thread that takes the cap.
#[derive(Clone, Debug, PartialEq)]
pub struct CapThread {
    /// The run that carries it from end to end, counted from 0. The run is as wide as the
    /// thread's crest.
    pub run: usize,
    /// The thread.
    pub thread: Thread,
}

/// The grip, from the front face to the shoulder.
#[derive(Clone, Debug, PartialEq)]
pub struct Grip {
    /// Diameter at the front face, before its corner is cut.
    pub front: Length,
    /// The corner between the front face and the first run.
    pub rim: Corner,
    /// Runs in the order of z; the last one ends at the shoulder.
    pub runs: Vec<GripRun>,
    /// Beads and grooves.
    pub rings: Vec<Ring>,
    /// The cap's thread, if the grip carries one.
    pub thread: Option<CapThread>,
}

impl Grip {
    /// A grip of runs alone.
    pub const fn plain(front: Length, runs: Vec<GripRun>) -> Self {
        Self { front, rim: Corner::Sharp, runs, rings: Vec::new(), thread: None }
    }

    /// Distance from the front face to the shoulder.
    pub fn length(&self) -> Length {
        self.runs.last().map_or(Length::mm(0.0), |run| run.to.z)
    }

    /// Diameter at the shoulder, before its corner is cut.
    pub fn back(&self) -> Length {
        self.runs.last().map_or(self.front, |run| run.to.diameter)
    }

    /// The station where a run begins, counted from 0; the front for the first.
    pub fn start(&self, run: usize) -> Station {
        let front = Station::new(self.front, Length::ZERO);
        run.checked_sub(1).and_then(|before| self.runs.get(before)).map_or(front, |run| run.to)
    }
}
