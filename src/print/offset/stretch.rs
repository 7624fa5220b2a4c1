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

/// The runs of a part as lines, each with its amount. Neighbours of one kind that run into each
/// other without a corner share one, that at the middle of their diameters, so that they still do;
/// round the beginning of a closed chain too.
pub(super) fn lines(part: &Part, amounts: &Amounts) -> Vec<Line> {
    let mut lines: Vec<Line> = part.runs.iter().map(Line::of).collect();
    let count = lines.len();
    let alike = |a: &Line, b: &Line| {
        let (a_end, b_start) = (a.direction(true), b.direction(false));
        let meet = a.run.to == b.run.from && a.surface == b.surface;
        meet && a_end.perp(&b_start).abs() < ALIKE && a_end.dot(&b_start) > 0.0
    };
    // Walked from a corner, so that no stretch is cut by the chain's beginning.
    let corner = |n: &usize| !alike(&lines[(n + count - 1) % count], &lines[*n]);
    let start = (0..count).find(corner).unwrap_or(0);
    lines.rotate_left(start);
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
    lines.rotate_right(start);
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::{Compensation, Facet, Feature, Item, Skin};

    /// A ring whose rounded rim is the chain's end and its beginning: both take one amount, however
    /// the printer's amount grows with the diameter.
    #[test]
    fn a_stretch_goes_on_round_the_chains_beginning() {
        let run = |from: (f64, f64), to: (f64, f64), bulge: f64| {
            let station = |(d, z)| Station::new(Length::mm(d), Length::mm(z));
            let shape = if bulge == 0.0 { Shape::Straight } else { Shape::Arc { bulge } };
            let feature = Feature::new(Item::Grip(1), Facet::Side);
            Run { feature, skin: Skin::Outside, from: station(from), to: station(to), shape }
        };
        let quarter = -libm::tan(std::f64::consts::PI / 8.0);
        let runs = vec![
            run((10.0, 1.0), (10.0, 5.0), 0.0),
            run((10.0, 5.0), (4.0, 5.0), 0.0),
            run((4.0, 5.0), (4.0, 0.0), 0.0),
            run((4.0, 0.0), (8.0, 0.0), 0.0),
            run((8.0, 0.0), (10.0, 1.0), quarter),
        ];
        let boss = Compensation { constant: Length::mm(-0.06), share: 0.01 };
        let amounts = Amounts { boss, ..Amounts::default() };
        let lines = lines(&Part { runs, threads: Vec::new() }, &amounts);
        let own: Vec<f64> = lines.iter().map(|line| line.amount).collect();
        // By hand: at 9, the middle of 8 and 10, a hundredth is 0.09.
        assert!((own[0] - (0.06 - 0.09) / 2.0).abs() < 1e-12, "{own:?}");
        assert_eq!((own[0], own[1], own[3]), (own[4], 0.0, 0.0));
    }
}
