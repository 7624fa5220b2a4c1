//! The runs of a part as lines in the half-plane, each with how far it is moved.

use nalgebra::Vector2;

use super::Amounts;
use crate::quantity::Length;
use crate::section::{Part, Run, Shape, Station, Surface};
use crate::solid::Meridian;

/// A point or a direction (r, z), in millimetres.
pub(super) type Point = Vector2<f64>;

/// The sine of the angle up to which two lines run alike (3 degrees): larger, and a joint that has a
/// good mitre is made a step; smaller, and mitres of lines that are moved unequally run far out.
pub(super) const ALIKE: f64 = 0.05;

/// A line of the half-section before it is moved, and how far that is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    pub run: Run,
    /// What kind of surface it sweeps.
    pub surface: Surface,
    /// Into the material, along its normal.
    pub amount: f64,
}

impl Line {
    fn of(run: &Run) -> Self {
        // Material lies to the left of a chain walked counter-clockwise in (r, z).
        let out = run.to.z - run.from.z;
        let surface = if out > Length::ZERO {
            Surface::Outside
        } else if out < Length::ZERO {
            Surface::Bore
        } else {
            Surface::Face
        };
        Self { run: *run, surface, amount: 0.0 }
    }

    pub fn from(&self) -> Point {
        point(self.run.from)
    }

    pub fn to(&self) -> Point {
        point(self.run.to)
    }

    pub fn bulge(&self) -> f64 {
        match self.run.shape {
            Shape::Straight => 0.0,
            Shape::Arc { bulge } => bulge,
        }
    }

    /// The direction in which it is walked, at its beginning or its end, of length 1.
    pub fn direction(&self, at_end: bool) -> Point {
        let [dr, dz] = Meridian::of(&self.run).rate(if at_end { 1.0 } else { 0.0 });
        Point::new(dr, dz).normalize()
    }

    /// How long it is.
    pub fn length(&self) -> f64 {
        Meridian::of(&self.run).length()
    }
}

pub(super) fn point(station: Station) -> Point {
    Point::new(station.radius(), station.z.as_mm())
}

/// Out of the material, square to a direction of the walk.
pub(super) fn outward(direction: Point) -> Point {
    Point::new(direction.y, -direction.x)
}

/// The runs of a part, each with its amount. Neighbours of one kind that run into each other
/// without a corner share one, that at the middle of their diameters, so that they still do.
pub(super) fn lines(part: &Part, amounts: &Amounts) -> Vec<Line> {
    let mut lines: Vec<Line> = part.runs.iter().map(Line::of).collect();
    let alike = |a: &Line, b: &Line| {
        let (a_end, b_start) = (a.direction(true), b.direction(false));
        a.surface == b.surface && a_end.perp(&b_start).abs() < ALIKE && a_end.dot(&b_start) > 0.0
    };
    for stretch in lines.chunk_by_mut(alike) {
        let diameters = || stretch.iter().flat_map(|l| [l.run.from.diameter, l.run.to.diameter]);
        let least = diameters().fold(Length::mm(f64::INFINITY), Length::min);
        let greatest = diameters().fold(Length::ZERO, Length::max);
        let middle = (least + greatest) / 2.0;
        let amount = amounts.at(stretch[0].surface, middle);
        for line in stretch {
            line.amount = amount;
        }
    }
    lines
}
