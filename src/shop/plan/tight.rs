//! Which sizes of a step are critical, and why: the room of each, as [`crate::scene::room`] has it.

use crate::check::{Verdict, info};
use crate::scene::{Room, SideRoom, Worse};
use crate::size::SizeId;

/// A size of a step that has less room than can be held, or more room to one side.
#[derive(Clone, Debug, PartialEq)]
pub struct Tight {
    /// The size.
    pub parameter: SizeId,
    /// Its value in the section, in millimetres; depths from the finished face.
    pub value: f64,
    /// Room to either side, in millimetres; none where nothing gets worse within 2 mm.
    pub less: Option<f64>,
    /// The same to the other side.
    pub more: Option<f64>,
    /// Whether less room is left on a side than can be held by the means it is made with.
    pub critical: bool,
    /// What bites first, and on which side: -1 for less, +1 for more.
    pub bites: Option<(f64, Bite)>,
}

/// What gets worse.
#[derive(Clone, Debug, PartialEq)]
pub struct Bite {
    /// The check's title, or why the section becomes impossible.
    pub what: String,
    /// Whether it breaks; else it is close.
    pub breaks: bool,
}

impl Tight {
    /// A room as a step tells it; `held` is how far under and over what was meant the size may come
    /// out.
    pub fn of(room: &Room, held: [f64; 2]) -> Self {
        // A run that carries a thread, or ends at one, is as wide as the thread: that no other width can
        // be drawn says nothing of what may be cut.
        let drawn_so = matches!(room.parameter, SizeId::GripDiameter(_) | SizeId::FrontDiameter);
        let counts = |side: &SideRoom| {
            let impossible = matches!(side.then, Some(Worse::Impossible(_)));
            side.then.is_some() && !(drawn_so && impossible)
        };
        let bound = |side: &SideRoom| counts(side).then_some(side.room);
        let sides = [(-1.0, room.less.as_ref(), held[0]), (1.0, Some(&room.more), held[1])];
        let ends = sides.iter().filter_map(|(sign, side, held)| {
            let side = (*side).filter(|side| counts(side))?;
            Some((side.room - held, *sign, side.then.as_ref()?))
        });
        let critical = sides
            .iter()
            .any(|(_, side, held)| side.is_some_and(|side| counts(side) && side.room < *held));
        let tightest = ends.reduce(|a, b| if b.0 < a.0 { b } else { a });
        Self {
            parameter: room.parameter,
            value: room.value,
            less: room.less.as_ref().and_then(bound),
            more: bound(&room.more),
            critical,
            bites: tightest.map(|(_, sign, worse)| (sign, Bite::of(worse))),
        }
    }

    /// Which way it is better off, where one side has at least so many times the room of the other
    /// that a maker should lean there: +1 for more, -1 for less.
    pub fn leans(&self) -> Option<f64> {
        /// Under twice, the middle is as good a place to aim at.
        const LEAN: f64 = 2.0;
        let room = |side: Option<f64>| side.unwrap_or(f64::INFINITY);
        let (less, more) = (room(self.less), room(self.more));
        match (less, more) {
            (less, more) if less.is_infinite() && more.is_infinite() => None,
            (less, more) if more >= LEAN * less => Some(1.0),
            (less, more) if less >= LEAN * more => Some(-1.0),
            _ => None,
        }
    }
}

impl Bite {
    fn of(worse: &Worse) -> Self {
        match worse {
            Worse::Verdict { code, to, .. } => {
                let title = info(code).map_or(*code, |check| check.title);
                Self { what: title.to_lowercase(), breaks: *to == Verdict::Breaks }
            }
            Worse::Impossible(why) => Self { what: why.clone(), breaks: true },
        }
    }
}
