//! A face that goes round the axis, cut along its meridian into bands that are straight enough.

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
    /// The bands of a face, in the order of v; rings between them are made here, on every
    /// half-plane. Within a band v runs from 0 to 1.
    pub fn bands(&mut self, surface: &Screw, steps: Vec<Step>) -> Vec<Band> {
        let count = i64::from(self.fan.count);
        let one_turn = |mut step: Step| {
            step.column = step.column.rem_euclid(count);
            step
        };
        let (mut near, far): (Vec<Step>, Vec<Step>) =
            steps.into_iter().map(one_turn).partition(|step| step.from.v < 0.5);
        let pieces = self.fan.pieces(&surface.meridian);
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
            let corner = |x: f64, v: f64| {
                let plane = (column + x as u32) % count;
                Corner { x, v, index: first + plane }
            };
            let column = i64::from(column);
            (
                Step { column, from: corner(1.0, 1.0), to: corner(0.0, 1.0) },
                Step { column, from: corner(0.0, 0.0), to: corner(1.0, 0.0) },
            )
        });
        steps.unzip()
    }

    fn pole(&mut self, surface: &Screw, v: f64) -> u32 {
        self.points.push([0.0, 0.0, surface.z(v)]);
        self.points.len() as u32 - 1
    }
}
