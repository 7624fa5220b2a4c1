//! A straight line or an arc of the outside, as it is drawn.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::plane::Vector;
use crate::section::{Run, Shape};

/// Rounding of an angle in radians: an arc that ends square to the axis does not turn back.
const SQUARE: f64 = 1e-9;

/// A line or an arc from one point to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::section) struct Stroke {
    pub from: Vector,
    pub to: Vector,
    /// As [`Shape::Arc`] has it; 0 for a straight line.
    pub bulge: f64,
}

/// The circle that an arc is a part of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::section) struct Circle {
    pub centre: Vector,
    pub radius: f64,
}

impl Stroke {
    pub fn straight(from: Vector, to: Vector) -> Self {
        Self { from, to, bulge: 0.0 }
    }

    /// The line of a run.
    pub fn of(run: &Run) -> Self {
        let bulge = match run.shape {
            Shape::Straight => 0.0,
            Shape::Arc { bulge } => bulge,
        };
        Self { from: Vector::of(run.from), to: Vector::of(run.to), bulge }
    }

    pub fn shape(&self) -> Shape {
        if self.bulge == 0.0 { Shape::Straight } else { Shape::Arc { bulge: self.bulge } }
    }

    pub fn chord(&self) -> Vector {
        self.to - self.from
    }

    /// How far the direction turns, positive to the left, in radians.
    pub fn sweep(&self) -> f64 {
        4.0 * libm::atan(self.bulge)
    }

    /// The circle of an arc; none for a straight line.
    pub fn circle(&self) -> Option<Circle> {
        if self.bulge == 0.0 {
            return None;
        }
        let off = (1.0 - self.bulge * self.bulge) / (4.0 * self.bulge);
        let centre = (self.from + self.to) * 0.5 + self.chord().left() * off;
        Some(Circle { centre, radius: (self.from - centre).length() })
    }

    /// Length along the stroke.
    pub fn length(&self) -> f64 {
        self.circle().map_or_else(|| self.chord().length(), |c| c.radius * self.sweep().abs())
    }

    /// The point at a share of the stroke's length, from 0 to 1.
    pub fn at(&self, share: f64) -> Vector {
        match self.circle() {
            _ if share == 0.0 => self.from,
            _ if share == 1.0 => self.to,
            None => self.from + self.chord() * share,
            Some(c) => c.centre + (self.from - c.centre).turned(self.sweep() * share),
        }
    }

    /// The direction at a share of the stroke's length, one millimetre long.
    pub fn direction(&self, share: f64) -> Vector {
        self.chord().unit().turned(self.sweep() * (share - 0.5))
    }

    /// The share of the stroke's length at which a point of its line or circle lies: under 0
    /// before its beginning, over 1 behind its end.
    pub fn share(&self, point: Vector) -> f64 {
        let Some(circle) = self.circle() else {
            return (point - self.from).dot(self.chord()) / self.chord().dot(self.chord());
        };
        let sweep = self.sweep();
        let angle = (self.from - circle.centre).angle_to(point - circle.centre);
        // The turn that lies nearest to the arc's middle.
        (angle + ((sweep / 2.0 - angle) / TAU).round() * TAU) / sweep
    }

    /// The part of it between two shares of its length.
    pub fn part(&self, from: f64, to: f64) -> Self {
        let bulge = if self.bulge == 0.0 || (from == 0.0 && to == 1.0) {
            self.bulge
        } else {
            libm::tan(self.sweep() * (to - from) / 4.0)
        };
        Self { from: self.at(from), to: self.at(to), bulge }
    }

    /// Whether z never goes back along it: what a tool from outside can turn.
    pub fn advances(&self) -> bool {
        let chord = self.chord();
        let slope = libm::atan2(chord.r.abs(), chord.z);
        slope + self.sweep().abs() / 2.0 <= FRAC_PI_2 + SQUARE
    }

    /// The shares, ends included, at which it runs in a direction or against it.
    pub fn parallel_to(&self, direction: Vector) -> Vec<f64> {
        let sweep = self.sweep();
        let mut found = vec![0.0, 1.0];
        if sweep != 0.0 {
            let start = self.direction(0.0);
            let ways = [direction, direction * -1.0];
            found.extend(ways.map(|way| start.angle_to(way) / sweep));
            found.retain(|share| (0.0..=1.0).contains(share));
        }
        found
    }

    /// The points at which r may be least or greatest: its ends, and an arc's top or bottom.
    pub fn extremes(&self) -> Vec<Vector> {
        let shares = self.parallel_to(Vector::new(1.0, 0.0));
        shares.into_iter().map(|share| self.at(share)).collect()
    }

    /// The least r at a z within it.
    pub fn r_at(&self, z: f64) -> Option<f64> {
        let (low, high) = (self.from.z.min(self.to.z), self.from.z.max(self.to.z));
        if z < low || z > high {
            return None;
        }
        if low == high {
            return Some(self.from.r.min(self.to.r));
        }
        let t = (z - self.from.z) / (self.to.z - self.from.z);
        Some(match self.circle() {
            None => self.from.r + (self.to.r - self.from.r) * t,
            // Walked to the back, an arc that turns left is the lower half of its circle.
            Some(Circle { centre, radius }) => {
                let off = (radius * radius - (z - centre.z) * (z - centre.z)).max(0.0).sqrt();
                let left = (self.bulge > 0.0) == (self.to.z > self.from.z);
                if left { centre.r - off } else { centre.r + off }
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarter() -> Stroke {
        // A convex quarter of radius 2 from the front face to a cylinder.
        let bulge = -libm::tan(FRAC_PI_2 / 4.0);
        Stroke { from: Vector::new(0.0, 3.0), to: Vector::new(2.0, 5.0), bulge }
    }

    /// Expectations: plane geometry of a quarter circle.
    #[test]
    fn a_quarter_circle() {
        let arc = quarter();
        let circle = arc.circle().unwrap();
        assert!((circle.centre - Vector::new(2.0, 3.0)).length() < 1e-12);
        assert!((circle.radius - 2.0).abs() < 1e-12);
        assert!((arc.length() - std::f64::consts::PI).abs() < 1e-12);
        assert!((arc.direction(0.0) - Vector::new(0.0, 1.0)).length() < 1e-12);
        assert!((arc.direction(1.0) - Vector::new(1.0, 0.0)).length() < 1e-12);
        let middle = arc.at(0.5);
        assert!((arc.share(middle) - 0.5).abs() < 1e-12);
        assert!((arc.r_at(middle.z).unwrap() - middle.r).abs() < 1e-12);
        let half = arc.part(0.0, 0.5);
        assert!((half.circle().unwrap().centre - circle.centre).length() < 1e-12);
        assert!(arc.advances());
    }

    /// Limiting cases: a half circle just advances, more than one turns back.
    #[test]
    fn a_half_circle_is_the_most_that_advances() {
        let of = |bulge| Stroke { from: Vector::new(0.0, 5.0), to: Vector::new(2.0, 5.0), bulge };
        assert!(of(1.0).advances() && of(-1.0).advances());
        assert!(!of(1.001).advances());
        let lowest = of(1.0).extremes().into_iter().map(|p| p.r).fold(f64::MAX, f64::min);
        assert!((lowest - 4.0).abs() < 1e-12);
        assert!((of(1.0).r_at(1.0).unwrap() - 4.0).abs() < 1e-12);
        assert!((of(-1.0).r_at(1.0).unwrap() - 6.0).abs() < 1e-12);
    }
}
