//! The rectangle round a curve, for leaving out what is too far away to matter.

use super::Curve;
use crate::solid::HalfPoint;

/// The least and the greatest (r, z) of a curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::check) struct Bounds {
    low: HalfPoint,
    high: HalfPoint,
}

impl Bounds {
    /// Round a curve; an arc's extremes lie between its ends.
    pub fn of(curve: &Curve) -> Self {
        let [a, b] = curve.ends();
        let mut bounds = Self { low: a, high: a };
        bounds.take_in(b);
        if let Curve::Arc(arc) = curve {
            for v in arc.line.extremes() {
                bounds.take_in(arc.line.at(v));
            }
        }
        bounds
    }

    fn take_in(&mut self, p: HalfPoint) {
        for (k, value) in p.into_iter().enumerate() {
            self.low[k] = self.low[k].min(value);
            self.high[k] = self.high[k].max(value);
        }
    }

    /// No two points in the rectangles are nearer than this.
    pub fn gap(&self, other: &Self) -> f64 {
        let [r, z] = [0, 1].map(|k| {
            let apart = (other.low[k] - self.high[k]).max(self.low[k] - other.high[k]);
            apart.max(0.0)
        });
        (r * r + z * z).sqrt()
    }

    /// Whether a z lies between the least and the greatest, ends included.
    pub fn holds_z(&self, z: f64) -> bool {
        (self.low[1]..=self.high[1]).contains(&z)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A half circle of radius 1 about (r 5, z 1) reaches r 4; a 3-4-5 triangle leads to its
    /// corner.
    #[test]
    fn an_arc_is_bounded_by_its_bottom() {
        let dip = Bounds::of(&Curve::between([5.0, 0.0], [5.0, 2.0], 1.0));
        assert!((dip.low[0] - 4.0).abs() < 1e-12 && (dip.high[0] - 5.0).abs() < 1e-12);
        let point = Bounds::of(&Curve::between([1.0, 6.0], [1.0, 6.0], 0.0));
        assert!((dip.gap(&point) - 5.0).abs() < 1e-12);
        assert_eq!(dip.gap(&dip), 0.0);
        assert!(dip.holds_z(2.0) && !dip.holds_z(2.1));
    }
}
