//! The lines of bore and outside, and the least distance between some of them.

use super::zone::own_zone;
use crate::check::bodies::{Built, Extremes, wanders};
use crate::check::distance::{Bounds, Curve, Nearest, nearest, nearest_off_axis};
use crate::check::{Place, Spot};
use crate::section::{Feature, Item, Section, Skin, Zone};
use crate::solid::{HalfPoint, Swept};

/// A line of a skin, with what is asked of it again and again.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    pub feature: Feature,
    pub ends: [HalfPoint; 2],
    pub curve: Curve,
    pub bounds: Bounds,
    /// Of a bore: how far it may lie off the outside's axis.
    pub offset: f64,
    /// Of a bore: its zone.
    pub own: Option<Zone>,
    /// Of the outside: whether it lies in the shoulder's plane.
    pub in_shoulder: bool,
}

/// Bore and outside of one body.
#[derive(Debug)]
pub(super) struct Pair {
    pub bore: Vec<Line>,
    pub outside: Vec<Line>,
}

/// Bore and outside as modelled, and with the least material.
#[derive(Debug)]
pub(super) struct Skins {
    pub drawn: Pair,
    pub least: Pair,
}

/// The two points of a wall, and how thick it is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wall {
    /// From skin to skin, on one axis.
    pub distance: f64,
    /// The same where the bore is off by its offset; less than nothing where no wall is left.
    pub at_worst: f64,
    /// That offset.
    pub offset: f64,
    pub place: Place,
    /// The points at the worst, that of the bore where it lies then.
    pub worst_place: Place,
}

impl Line {
    fn of(section: &Section, line: &Swept) -> Self {
        let curve = Curve::of(line);
        let bore = line.skin == Skin::Bore;
        let shoulder = section.grip.length().as_mm();
        Self {
            feature: line.feature,
            ends: [line.from, line.to],
            curve,
            bounds: Bounds::of(&curve),
            offset: if bore { offset(section, line.feature.item) } else { 0.0 },
            own: bore.then(|| own_zone(section, line.feature)).flatten(),
            in_shoulder: line.from[1] == shoulder && line.to[1] == shoulder,
        }
    }

    /// The line's points at a z between its ends: one, or all of a plane's.
    pub fn level(&self, z: f64) -> [HalfPoint; 2] {
        let [a, b] = self.ends;
        if a[1] == b[1] {
            return self.ends;
        }
        let share = (z - a[1]) / (b[1] - a[1]);
        // The ends as they are, without rounding.
        let r = match share {
            0.0 => a[0],
            1.0 => b[0],
            _ => a[0] + (b[0] - a[0]) * share,
        };
        [[r, z]; 2]
    }

    fn spot(&self, [r, z]: HalfPoint) -> Spot {
        Spot { feature: self.feature, r, z }
    }
}

impl Pair {
    fn of(section: &Section, body: &Built) -> Self {
        let on = |skin| {
            let lines = body.lines.iter().filter(move |line| line.skin == skin);
            lines.map(|line| Line::of(section, line)).collect()
        };
        Self { bore: on(Skin::Bore), outside: on(Skin::Outside) }
    }

    /// The wall that is least by `measure`, among the pairs of lines that `of` picks; `slack` is
    /// how much less than the lines' distance a measure may be.
    fn thinnest(
        &self,
        of: impl Fn(&Line, &Line) -> bool,
        measure: fn(&Line, &Line) -> Wall,
        slack: fn(&Line) -> f64,
    ) -> Option<Wall> {
        let mut best: Option<Wall> = None;
        for bore in &self.bore {
            for outside in self.outside.iter().filter(|outside| of(bore, outside)) {
                let least = bore.bounds.gap(&outside.bounds) - slack(bore);
                if best.is_some_and(|best| least >= best.at_worst) {
                    continue;
                }
                let wall = measure(bore, outside);
                if best.is_none_or(|best| wall.at_worst < best.at_worst) {
                    best = Some(wall);
                }
            }
        }
        best
    }
}

impl Skins {
    /// Of the section's bodies.
    pub fn of(section: &Section, part: &Extremes) -> Self {
        let of = |body| Pair::of(section, body);
        Self { drawn: of(&part.drawn), least: of(&part.least) }
    }

    /// The least wall among some pairs of surfaces: as modelled, then at the worst.
    pub fn walls(&self, of: impl Fn(&Line, &Line) -> bool) -> Option<[Wall; 2]> {
        let drawn = self.drawn.thinnest(&of, on_axis, |_| 0.0)?;
        let least = self.least.thinnest(&of, off_axis, |bore| bore.offset)?;
        Some([drawn, least])
    }
}

/// The least wall of any body, from its bores to its outside, with the features on both sides.
pub(in crate::check) fn least_wall(lines: &[Swept]) -> Option<(f64, Feature, Feature)> {
    let on = |skin| lines.iter().filter(move |line| line.skin == skin);
    let pairs = on(Skin::Bore).flat_map(|bore| on(Skin::Outside).map(move |out| (bore, out)));
    let walls = pairs.map(|(bore, outside)| {
        let found = nearest(&Curve::of(bore), &Curve::of(outside));
        (found.distance, bore.feature, outside.feature)
    });
    walls.reduce(|best, next| if next.0 < best.0 { next } else { best })
}

/// A wall on one axis.
fn on_axis(bore: &Line, outside: &Line) -> Wall {
    let found = nearest(&bore.curve, &outside.curve);
    let (distance, place) = (found.distance, place(bore, outside, &found));
    Wall { distance, at_worst: distance, offset: 0.0, place, worst_place: place }
}

/// A wall with the bore off the axis.
fn off_axis(bore: &Line, outside: &Line) -> Wall {
    let on_axis = on_axis(bore, outside);
    let offset = bore.offset;
    let worst = match bore.curve {
        Curve::Segment(ends) => nearest_off_axis(ends, &outside.curve, offset),
        // No tool leaves an arc in a bore. It would lose the whole offset: safe, if too much.
        Curve::Arc(_) => {
            let found = nearest(&bore.curve, &outside.curve);
            Nearest { distance: found.distance - offset, ..found }
        }
    };
    let worst_place = place(bore, outside, &worst);
    Wall { at_worst: worst.distance, offset, worst_place, ..on_axis }
}

fn place(bore: &Line, outside: &Line, found: &Nearest) -> Place {
    Place { inner: bore.spot(found.on_first), outer: outside.spot(found.on_second) }
}

/// How far a bore may lie off the outside's axis: the change of holding between them and, for a
/// long hole, its wander; the sum, since either may point the same way.
pub(super) fn offset(section: &Section, bore: Item) -> f64 {
    section.criteria.offsets.holding.as_mm() + wander(section, bore)
}

/// How far a long hole's drill wanders; nothing for any other hole.
pub(super) fn wander(section: &Section, bore: Item) -> f64 {
    if wanders(section, bore) { section.criteria.offsets.long_hole.as_mm() } else { 0.0 }
}
