//! What is taken off a rod, one thing after the other, until it is the section: each cut with the
//! numbers that a person sets at the lathe, from the face that is there then.

use std::fmt;

use super::{Bore, Depth, Grip, Item, LEAST_STEP, Mouth, Part, Section, Tenon, Thread, Workpiece};
use crate::quantity::Length;
use crate::standard::designation::Hand;

/// One thing that is taken off.
#[derive(Clone, Debug, PartialEq)]
pub enum Cut {
    /// The rod squared at both ends.
    Square {
        /// How long it is then.
        length: Length,
    },
    /// A hole; its depths are from the face by which its tool comes in, as that face is then.
    Bore(Bore),
    /// The tenon turned, with relief, pilot and chamfer.
    Tenon(Tenon),
    /// The thread cut on it; its places are from the finished front face.
    TenonThread(Thread),
    /// The front face taken back.
    Face {
        /// By so much.
        off: Length,
    },
    /// The thread for the unit; its places are from the front face as it is then.
    Tap(Thread),
    /// The outside turned, but for a thread on it.
    Outside(Box<Grip>),
    /// The thread for the cap; its places are from the finished front face.
    CapThread(Thread),
    /// The front face sanded and polished.
    Sand {
        /// By so much.
        off: Length,
    },
}

/// What has been done last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// The rod as it was sawn, where it is longer than it is needed.
    Rod,
    /// The rod squared to the part's length and what is to come off the front.
    Squared,
    /// A hole bored.
    Bored(Item),
    /// The tenon turned, with relief, pilot and chamfer.
    TenonTurned,
    /// The tenon's thread cut.
    TenonThreaded,
    /// The front faced, all but what is sanded off.
    Faced,
    /// The thread for the unit tapped.
    Tapped,
    /// The outside turned.
    OutsideTurned,
    /// The thread for the cap cut.
    CapThreaded,
    /// The front sanded.
    Sanded,
    /// Nothing is left to be done.
    Finished,
}

impl Cut {
    /// What has been done with it.
    pub fn stage(&self) -> Stage {
        match self {
            Self::Square { .. } => Stage::Squared,
            Self::Bore(bore) => Stage::Bored(bore.item),
            Self::Tenon(_) => Stage::TenonTurned,
            Self::TenonThread(_) => Stage::TenonThreaded,
            Self::Face { .. } => Stage::Faced,
            Self::Tap(_) => Stage::Tapped,
            Self::Outside(_) => Stage::OutsideTurned,
            Self::CapThread(_) => Stage::CapThreaded,
            Self::Sand { .. } => Stage::Sanded,
        }
    }
}

impl fmt::Display for Stage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rod => f.write_str("the rod as sawn"),
            Self::Squared => f.write_str("squared to length"),
            Self::Bored(item) => write!(f, "{item} bored"),
            Self::TenonTurned => f.write_str("tenon turned"),
            Self::TenonThreaded => f.write_str("tenon threaded"),
            Self::Faced => f.write_str("front faced"),
            Self::Tapped => f.write_str("unit thread tapped"),
            Self::OutsideTurned => f.write_str("outside turned"),
            Self::CapThreaded => f.write_str("cap thread cut"),
            Self::Sanded => f.write_str("front sanded"),
            Self::Finished => f.write_str("finished"),
        }
    }
}

/// Which end is finished first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sequence {
    /// The tenon first; then the section is held by it, in a bushing threaded in place, until it
    /// is done: bores, thread and outside share the bushing's axis.
    TenonFirst,
    /// The bores first, the rod held by its outside; then the tenon, turned about the bores.
    BoresFirst(Why),
}

/// Why the section can't be held by its tenon.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A left-hand thread: the cut would screw it out of its bushing.
    LeftHand,
    /// A thread of too few turns to be held by.
    FewTurns,
    /// A shoulder without a face to be seated by.
    NoShoulder,
}

/// Turns of full thread that a section is held by at least (common practice, no source): fewer,
/// and a tool that digs in tears them out.
const HELD_BY: f64 = 3.0;

impl Section {
    /// Which end is finished first.
    pub fn sequence(&self) -> Sequence {
        let thread = &self.tenon.thread;
        let turns = thread.full_length() / thread.form.lead();
        if thread.form.hand == Hand::Left {
            Sequence::BoresFirst(Why::LeftHand)
        } else if turns < HELD_BY {
            Sequence::BoresFirst(Why::FewTurns)
        } else if self.bushing().is_none() {
            Sequence::BoresFirst(Why::NoShoulder)
        } else {
            Sequence::TenonFirst
        }
    }

    /// Everything that is taken off the rod, in the order in which it is done.
    ///
    /// Common practice, no source: the rod is squared and drilled through; where it can then be
    /// held by its tenon, that is made first and everything else about it; holes from each face
    /// the narrowest first, its reliefs last, a countersink at the front into the finished face.
    /// A hole that another one has taken away by then is not cut.
    pub fn cuts(&self) -> Vec<Cut> {
        let Allowances { facing, sanding } = self.to_come();
        let mut cuts = vec![Cut::Square { length: self.squared_length() }];
        let through = |bore: &&Bore| bore.depth == Depth::Through;
        let back = |bore: &&Bore| bore.mouth == Mouth::Back && !through(bore);
        let late = |bore: &&Bore| bore.item == Item::Countersink(Mouth::Front);
        let front = |bore: &&Bore| bore.mouth == Mouth::Front && !through(bore) && !late(bore);
        let bores = |which: &dyn Fn(&&Bore) -> bool| self.in_order(which);
        let tenon = [
            bores(&back),
            vec![Cut::Tenon(self.tenon.clone()), Cut::TenonThread(self.tenon.thread.clone())],
        ]
        .concat();
        let mut from_front = Vec::new();
        if facing > LEAST_STEP {
            from_front.push(Cut::Face { off: facing });
        }
        let before_sanding = |cut| match cut {
            Cut::Bore(bore) => Cut::Bore(bore.deeper(sanding)),
            other => other,
        };
        from_front.extend(bores(&front).into_iter().map(before_sanding));
        from_front.push(Cut::Tap(moved(&self.unit_thread, sanding)));
        cuts.extend(bores(&through));
        match self.sequence() {
            Sequence::TenonFirst => cuts.extend([tenon, from_front].concat()),
            Sequence::BoresFirst(_) => cuts.extend([from_front, tenon].concat()),
        }
        cuts.push(Cut::Outside(Box::new(self.grip.clone())));
        let cap = self.grip.thread.as_ref();
        cuts.extend(cap.map(|cap| Cut::CapThread(cap.thread.clone())));
        if sanding > LEAST_STEP {
            cuts.push(Cut::Sand { off: sanding });
        }
        cuts.extend(bores(&late));
        self.that_cut(cuts)
    }

    /// What is to come off the front; less than a step is nothing.
    fn to_come(&self) -> Allowances {
        let whole = |off: Length| if off > LEAST_STEP { off } else { Length::ZERO };
        let allowance = self.allowance;
        Allowances { facing: whole(allowance.facing), sanding: whole(allowance.sanding) }
    }

    /// Some of the holes, the narrowest first and reliefs last.
    fn in_order(&self, which: &dyn Fn(&&Bore) -> bool) -> Vec<Cut> {
        let mut order: Vec<&Bore> = self.bores.iter().filter(|bore| which(bore)).collect();
        let place = |bore: &Bore| matches!(bore.depth, Depth::Between(..));
        order.sort_by(|a, b| {
            let size = a.diameter.as_mm().total_cmp(&b.diameter.as_mm());
            place(a).cmp(&place(b)).then(size)
        });
        order.into_iter().cloned().map(Cut::Bore).collect()
    }

    /// The cuts without holes that change nothing.
    fn that_cut(&self, cuts: Vec<Cut>) -> Vec<Cut> {
        let mut piece = Workpiece::rod(self);
        let mut kept = Vec::new();
        for cut in cuts {
            let before = piece.hole();
            piece.take(&cut);
            let idle = matches!(cut, Cut::Bore(_)) && piece.hole() == before;
            if !idle {
                kept.push(cut);
            }
        }
        kept
    }

    /// Every stage of making, in order, with the part as it is then; each holds less material
    /// than the one before it, and the last is [`Section::part`].
    pub fn stages(&self) -> Vec<(Stage, Part)> {
        let mut piece = Workpiece::rod(self);
        let mut stages = Vec::new();
        if self.blank.length - self.squared_length() > LEAST_STEP {
            stages.push((Stage::Rod, piece.part()));
        }
        for cut in self.cuts() {
            piece.take(&cut);
            stages.push((cut.stage(), piece.part()));
        }
        if let Some((last, _)) = stages.last_mut() {
            *last = Stage::Finished;
        }
        stages
    }
}

struct Allowances {
    facing: Length,
    sanding: Length,
}

/// A thread whose places count from a face that lies so much before the other one.
pub(super) fn moved(thread: &Thread, by: Length) -> Thread {
    Thread { from: thread.from + by, to: thread.to + by, ..thread.clone() }
}
