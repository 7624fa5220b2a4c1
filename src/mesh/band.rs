//! A face cut along its meridian into bands that are straight enough.

use super::boundary::{Boundary, Corner, Step};
use crate::solid::Screw;

/// One band, by the steps of its rings.
pub(super) enum Band {
    /// Between two rings, at v = 0 (walked by growing angle) and v = 1 (against it).
    Ring(Vec<Step>),
    /// Between one ring and the point of the axis.
    Pole(Vec<Step>, u32),
}

impl Boundary<'_> {
    /// The bands of a face that goes round the axis, in the order of v; rings between them are
    /// made here, on every half-plane.
    pub fn bands(&mut self, surface: &Screw, steps: Vec<Step>) -> Vec<Band> {
        let count = i64::from(self.fan.count);
        let one_turn = |mut step: Step| {
            step.column = step.column.rem_euclid(count);
            step
        };
        let pieces = self.fan.pieces(&surface.meridian);
        let steps = steps.into_iter().map(one_turn);
        let closes = surface.r(0.0) == 0.0 || surface.r(1.0) == 0.0;
        if pieces == 1 && !closes {
            return vec![Band::Ring(steps.collect())];
        }
        let (mut near, far): (Vec<Step>, Vec<Step>) = steps.partition(|step| step.from.v < 0.5);
        let mut bands = Vec::with_capacity(pieces);
        for n in 1..=pieces {
            let v = n as f64 / pieces as f64;
            let last = n == pieces;
            let (back, ahead) =
                if last { (far.clone(), Vec::new()) } else { self.ring(surface, v) };
            bands.push(match (near.is_empty(), back.is_empty()) {
                (false, false) => Band::Ring(near.into_iter().chain(back).collect()),
                (false, true) => Band::Pole(near, self.pole(surface, 1.0)),
                (true, _) => Band::Pole(back, self.pole(surface, 0.0)),
            });
            near = ahead;
        }
        bands
    }

    /// A ring of new points: as the far end of one band, and as the near end of the next.
    fn ring(&mut self, surface: &Screw, v: f64) -> (Vec<Step>, Vec<Step>) {
        let [r, z] = surface.meridian.at(v);
        let first = self.points.len() as u32;
        let count = self.fan.count;
        self.points.extend((0..count).map(|plane| self.fan.point(i64::from(plane), r, z)));
        let steps = (0..count).map(|column| {
            let corner = |x: f64| {
                let plane = (column + x as u32) % count;
                Corner { x, v, index: first + plane }
            };
            let column = i64::from(column);
            (
                Step { column, from: corner(1.0), to: corner(0.0) },
                Step { column, from: corner(0.0), to: corner(1.0) },
            )
        });
        steps.unzip()
    }

    /// The bands of a strip that climbs, in the order of v; where its meridian is an arc, the
    /// helices between them are made here, from the strip's one end to its other.
    pub fn strips(&mut self, surface: &Screw, steps: Vec<Step>) -> Vec<Vec<Step>> {
        let pieces = self.fan.pieces(&surface.meridian);
        if pieces == 1 {
            return vec![steps];
        }
        let mut bands = vec![Vec::new(); pieces];
        for n in 1..pieces {
            let v = n as f64 / pieces as f64;
            // An end is known by its angle over all turns, and by its point.
            let mut ends: Vec<(f64, u32)> = Vec::new();
            for (step, corner) in steps.iter().flat_map(|s| [(s, s.from), (s, s.to)]) {
                if corner.v == v && !ends.iter().any(|end| end.1 == corner.index) {
                    ends.push((step.column as f64 + corner.x, corner.index));
                }
            }
            ends.sort_by(|a, b| a.0.total_cmp(&b.0));
            if let [low, high] = ends[..] {
                let helix = self.helix(surface, v, low, high);
                bands[n].extend(helix.iter().copied());
                let back = |step: &Step| Step { from: step.to, to: step.from, ..*step };
                bands[n - 1].extend(helix.iter().map(back));
            }
        }
        for step in steps {
            let middle = f64::midpoint(step.from.v, step.to.v) * pieces as f64;
            bands[(middle.max(0.0) as usize).min(pieces - 1)].push(step);
        }
        bands
    }

    /// Steps along v from one point to another, by growing angle.
    fn helix(&mut self, surface: &Screw, v: f64, low: (f64, u32), high: (f64, u32)) -> Vec<Step> {
        let mut steps = Vec::new();
        let (mut here, end) = (low, high.0);
        while here.0 < end {
            let plane = here.0.floor() + 1.0;
            let next = if plane < end {
                let at = surface.polar(self.fan.angle(plane as i64), surface.meridian.at(v));
                self.points.push(self.fan.point(plane as i64, at.r, at.z));
                (plane, self.points.len() as u32 - 1)
            } else {
                high
            };
            let column = plane - 1.0;
            let corner = |(at, index): (f64, u32)| Corner { x: at - column, v, index };
            steps.push(Step { column: column as i64, from: corner(here), to: corner(next) });
            here = next;
        }
        steps
    }

    fn pole(&mut self, surface: &Screw, v: f64) -> u32 {
        self.points.push([0.0, 0.0, surface.z(v)]);
        self.points.len() as u32 - 1
    }
}
