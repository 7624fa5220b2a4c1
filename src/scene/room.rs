//! How far each size may be off before a verdict gets worse, and which of them are critical.
//!
//! One tool is moved in the resolved section and nothing is derived anew, so that the room is that
//! of one size that came out wrong, the others as drawn. To either side the size is moved in
//! steps of 0.05 mm up to 2 mm; between the last step at which no verdict is worse and the first at
//! which one is, the place is found to 0.005 mm by halving. What gets worse and better again within
//! one step is not seen.

use rayon::prelude::*;

use super::{Impossible, Scene, Scores};
use crate::check::Verdict;
use crate::section::{COINCIDENT, Cap, Means, Section, Thread};
use crate::size::SizeId;

/// Steps per millimetre of the search. Fewer, and a thin place between two walls is stepped over;
/// more cost time.
const STEPS_PER_MM: f64 = 20.0;

/// Farthest step to either side: 2 mm. Farther off, a size is another size.
const STEPS: u32 = 40;

/// Halvings of a step, to 0.05 / 2^4 = 0.0032 mm. Fewer, and 0.005 is not reached.
const HALVINGS: u32 = 4;

/// What gets worse first.
#[derive(Clone, Debug, PartialEq)]
pub enum Worse {
    /// A check.
    Verdict {
        /// Its code.
        code: &'static str,
        /// What it was, if it was there.
        from: Verdict,
        /// What it becomes.
        to: Verdict,
    },
    /// The section can't be made so; why, in words.
    Impossible(String),
}

/// Room to one side.
#[derive(Clone, Debug, PartialEq)]
pub struct SideRoom {
    /// By so much nothing gets worse, in millimetres: no more than 0.005 under the true room.
    pub room: f64,
    /// What does a little beyond it; none where nothing does within 2 mm.
    pub then: Option<Worse>,
}

/// How far one size may be off.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// The size.
    pub parameter: SizeId,
    /// Its value as drawn, in millimetres.
    pub value: f64,
    /// Room towards less. An offset is never less than none: it has no such side.
    pub less: Option<SideRoom>,
    /// Room towards more.
    pub more: SideRoom,
    /// How it is made.
    pub means: Means,
    /// How far under and over what was meant it may come out by these means, in millimetres,
    /// beyond what the verdicts allow for already.
    pub held: [f64; 2],
    /// Where that comes from.
    pub held_source: String,
    /// Whether less room is left on a side than can be held.
    pub critical: bool,
}

impl Scene {
    /// The room of every size that is made at the lathe, and of what lies off the axis, in the order
    /// of the part from front to back.
    ///
    /// Expects a section without [`crate::section::faults`].
    pub fn room(&self) -> &[Room] {
        self.room.get_or_init(|| self.room_of(&SizeId::made(self.section())))
    }

    /// As [`Scene::room`], of some sizes alone; those that a tap or die makes are left out.
    pub fn room_of(&self, sizes: &[SizeId]) -> Vec<Room> {
        let before = self.scores();
        let rooms: Vec<_> = sizes.par_iter().map(|size| of(self, &before, *size)).collect();
        rooms.into_iter().flatten().collect()
    }
}

fn of(scene: &Scene, before: &Scores, parameter: SizeId) -> Option<Room> {
    let section = scene.section();
    let value = parameter.get(section)?;
    let means = parameter.means(section)?;
    let side = |sign: f64| side(scene, before, parameter, value, sign);
    let less = (!parameter.is_offset()).then(|| side(-1.0));
    let more = side(1.0);
    let (held, held_source) = held(section, parameter, means);
    let short = |side: &SideRoom, held: f64| side.then.is_some() && side.room < held;
    let critical = less.as_ref().is_some_and(|side| short(side, held[0])) || short(&more, held[1]);
    Some(Room { parameter, value, less, more, means, held, held_source, critical })
}

/// How far under and over a size may come out. What a drill cuts over its size, and offsets as far
/// as the design allows for them, are in every verdict already.
fn held(section: &Section, parameter: SizeId, means: Means) -> ([f64; 2], String) {
    let (limits, source) = section.maker.holds(means);
    let (under, over) = (-limits.min().as_mm(), limits.max().as_mm());
    let allowed = match (means, parameter) {
        (Means::Drilled, SizeId::BoreDiameter(item)) => {
            section.bore(item).map_or([0.0; 2], |bore| {
                let [low, high] = [bore.limits.min(), bore.limits.max()];
                [(bore.diameter - low).as_mm(), (high - bore.diameter).as_mm()]
            })
        }
        (Means::Drilled, SizeId::BarrelHole) => spread(&section.barrel.thread),
        (Means::Drilled, SizeId::CapHole) => {
            section.cap.as_ref().and_then(Cap::thread).map_or([0.0; 2], spread)
        }
        (Means::Holding | Means::LongHole, _) => [0.0, parameter.get(section).unwrap_or(0.0)],
        _ => [0.0; 2],
    };
    ([(under - allowed[0]).max(0.0), (over - allowed[1]).max(0.0)], source.to_owned())
}

/// How far under and over its size the class of an internal thread lets its hole be.
fn spread(thread: &Thread) -> [f64; 2] {
    let (hole, limits) = (thread.form.crest, thread.limits.minor);
    [(hole - limits.min()).as_mm(), (limits.max() - hole).as_mm()]
}

/// Room to one side.
fn side(scene: &Scene, before: &Scores, parameter: SizeId, value: f64, sign: f64) -> SideRoom {
    let at = |off: f64| {
        let to = value + sign * off;
        // A size of a rounding is none.
        let to = if to.abs() < COINCIDENT.as_mm() { 0.0 } else { to };
        worse(before, scene.alone(&[(parameter, to)]))
    };
    let mut good = 0.0;
    for step in 1..=STEPS {
        let off = f64::from(step) / STEPS_PER_MM;
        let Some(mut then) = at(off) else {
            good = off;
            continue;
        };
        let mut bad = off;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(good, bad);
            match at(middle) {
                Some(found) => (bad, then) = (middle, found),
                None => good = middle,
            }
        }
        return SideRoom { room: good, then: Some(then) };
    }
    SideRoom { room: good, then: None }
}

/// The first verdict that is worse than before.
fn worse(before: &Scores, after: Result<Scores, Impossible>) -> Option<Worse> {
    let after = match after {
        Ok(after) => after,
        Err(impossible) => return Some(Worse::Impossible(impossible.to_string())),
    };
    after.worse_than(before).next().map(|now| Worse::Verdict {
        code: now.code,
        from: before.verdict(now.code),
        to: now.verdict,
    })
}
