//! The line that a surface is swept from: straight, or a circular arc, in the half-plane.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use crate::section::{Run, Shape};

/// A point (r, z) of the half-plane, in millimetres.
pub type HalfPoint = [f64; 2];

/// A generatrix in the (r, z) half-plane, with a parameter v from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meridian {
    /// Affine in v.
    Line {
        /// At v = 0.
        from: HalfPoint,
        /// At v = 1.
        to: HalfPoint,
    },
    /// `z = centre z + radius cos a, r = centre r + radius sin a`, the angle a affine in v.
    Arc {
        /// Of the circle; its r may be negative (a slight bow has its centre beyond the axis).
        centre: HalfPoint,
        /// Of the circle.
        radius: f64,
        /// The angle a at v = 0, in radians.
        start: f64,
        /// How far a goes: positive from z towards r.
        sweep: f64,
    },
}

impl Meridian {
    /// A line, or, where `bulge` is not zero, an arc between two points.
    ///
    /// The bulge is the tangent of a quarter of the sweep, as DXF has it: positive where the arc
    /// turns left with z drawn to the right and r upwards; 1 is a half circle.
    pub fn between(from: HalfPoint, to: HalfPoint, bulge: f64) -> Self {
        if bulge == 0.0 {
            return Self::Line { from, to };
        }
        let (dz, dr) = (to[1] - from[1], to[0] - from[0]);
        // Along the chord's left normal from its middle.
        let off = (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre =
            [f64::midpoint(from[0], to[0]) + dz * off, f64::midpoint(from[1], to[1]) - dr * off];
        Self::Arc {
            centre,
            radius: libm::hypot(from[0] - centre[0], from[1] - centre[1]),
            start: libm::atan2(from[0] - centre[0], from[1] - centre[1]),
            sweep: 4.0 * libm::atan(bulge),
        }
    }

    /// The line of a run.
    pub fn of(run: &Run) -> Self {
        let [from, to] = [run.from, run.to].map(|s| [s.radius(), s.z.as_mm()]);
        match run.shape {
            Shape::Straight => Self::between(from, to, 0.0),
            Shape::Arc { bulge } => Self::between(from, to, bulge),
        }
    }

    /// The point at v.
    pub fn at(&self, v: f64) -> HalfPoint {
        match *self {
            Self::Line { from, to } => {
                [from[0] + (to[0] - from[0]) * v, from[1] + (to[1] - from[1]) * v]
            }
            Self::Arc { centre, radius, start, sweep } => {
                let (sin, cos) = libm::sincos(start + sweep * v);
                [centre[0] + radius * sin, centre[1] + radius * cos]
            }
        }
    }

    /// (dr/dv, dz/dv) at v.
    pub fn rate(&self, v: f64) -> [f64; 2] {
        match *self {
            Self::Line { from, to } => [to[0] - from[0], to[1] - from[1]],
            Self::Arc { radius, start, sweep, .. } => {
                let (sin, cos) = libm::sincos(start + sweep * v);
                [radius * sweep * cos, -radius * sweep * sin]
            }
        }
    }

    /// (d2r/dv2, d2z/dv2) at v.
    pub fn bend(&self, v: f64) -> [f64; 2] {
        match *self {
            Self::Line { .. } => [0.0, 0.0],
            Self::Arc { radius, start, sweep, .. } => {
                let (sin, cos) = libm::sincos(start + sweep * v);
                [-radius * sweep * sweep * sin, -radius * sweep * sweep * cos]
            }
        }
    }

    /// The same line, walked backwards.
    #[must_use]
    pub fn reversed(self) -> Self {
        match self {
            Self::Line { from, to } => Self::Line { from: to, to: from },
            Self::Arc { centre, radius, start, sweep } => {
                Self::Arc { centre, radius, start: start + sweep, sweep: -sweep }
            }
        }
    }

    /// The v of a point of the line, or of its nearest point on a straight one's longer axis.
    pub fn v_of(&self, p: HalfPoint) -> f64 {
        match *self {
            Self::Line { from, to } => {
                let [dr, dz] = [to[0] - from[0], to[1] - from[1]];
                if dr.abs() >= dz.abs() { (p[0] - from[0]) / dr } else { (p[1] - from[1]) / dz }
            }
            Self::Arc { centre, start, sweep, .. } => {
                let angle = libm::atan2(p[0] - centre[0], p[1] - centre[1]);
                // The turn of the angle that lies nearest to the arc's middle.
                let middle = start + sweep / 2.0;
                let angle = angle + ((middle - angle) / TAU).round() * TAU;
                (angle - start) / sweep
            }
        }
    }

    /// How fast v changes where a point of the line moves by (dr, dz).
    pub fn v_rate(&self, v: f64, [dr, dz]: [f64; 2]) -> f64 {
        match *self {
            Self::Line { from, to } => {
                let along = [to[0] - from[0], to[1] - from[1]];
                if along[0].abs() >= along[1].abs() { dr / along[0] } else { dz / along[1] }
            }
            Self::Arc { radius, start, sweep, .. } => {
                let (sin, cos) = libm::sincos(start + sweep * v);
                (dr * cos - dz * sin) / (radius * sweep)
            }
        }
    }

    /// Length along the line.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Line { from, to } => libm::hypot(to[0] - from[0], to[1] - from[1]),
            Self::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// How far the line turns, in radians; 0 for a straight one.
    pub fn sweep(&self) -> f64 {
        match *self {
            Self::Line { .. } => 0.0,
            Self::Arc { sweep, .. } => sweep.abs(),
        }
    }

    /// The v, ends included, at which r or z may be least or greatest.
    pub fn extremes(&self) -> Vec<f64> {
        let mut found = vec![0.0, 1.0];
        if let Self::Arc { start, sweep, .. } = *self {
            let (low, high) = (start.min(start + sweep), start.max(start + sweep));
            let first = (low / FRAC_PI_2).ceil();
            let quarters = (0..5).map(|n| (first + f64::from(n)) * FRAC_PI_2);
            found.extend(quarters.take_while(|a| *a < high).map(|a| (a - start) / sweep));
        }
        found
    }

    /// The v inside an arc at which it runs along a line of this slope dz/dr; none on a straight
    /// line.
    pub fn parallel_to(&self, slope: f64) -> impl Iterator<Item = f64> + use<> {
        let (start, sweep) = match *self {
            Self::Line { .. } => (0.0, 0.0),
            Self::Arc { start, sweep, .. } => (start, sweep),
        };
        // z' / r' = -tan a.
        let angle = libm::atan(-slope);
        let turns = (start.min(start + sweep) - angle) / PI;
        let found =
            (0..3).map(move |n| (angle + (turns.ceil() + f64::from(n)) * PI - start) / sweep);
        found.filter(|v| *v > 0.0 && *v < 1.0)
    }

    /// The greatest distance from the axis.
    pub fn widest(&self) -> f64 {
        self.extremes().into_iter().map(|v| self.at(v)[0]).fold(0.0, f64::max)
    }

    /// Straight pieces in which an arc is cut so that none is off by more than `sagitta`.
    pub fn pieces(&self, sagitta: f64) -> usize {
        match *self {
            Self::Line { .. } => 1,
            Self::Arc { radius, sweep, .. } => {
                let step = 2.0 * libm::acos((1.0 - sagitta / radius).clamp(-1.0, 1.0));
                (sweep.abs() / step).ceil().max(1.0) as usize
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: plane geometry. A half circle from (r 5, z 0) to (r 5, z 2), bulge 1, turns left
    /// and so dips towards the axis; bulge -1 rises.
    #[test]
    fn bulge_turns_left() {
        let dip = Meridian::between([5.0, 0.0], [5.0, 2.0], 1.0);
        assert!((dip.at(0.5)[0] - 4.0).abs() < 1e-12 && (dip.at(0.5)[1] - 1.0).abs() < 1e-12);
        let rise = Meridian::between([5.0, 0.0], [5.0, 2.0], -1.0);
        assert!((rise.at(0.5)[0] - 6.0).abs() < 1e-12);
        assert!((rise.widest() - 6.0).abs() < 1e-12);
    }

    /// Independent route: differences; and the ends are the points it was made from.
    #[test]
    fn rates_agree_with_differences() {
        let arc = Meridian::between([5.0, 0.0], [6.0, 3.0], -0.3);
        for (v, end) in [(0.0, [5.0, 0.0]), (1.0, [6.0, 3.0])] {
            let at = arc.at(v);
            assert!((at[0] - end[0]).abs() < 1e-12 && (at[1] - end[1]).abs() < 1e-12);
        }
        let (v, h) = (0.4, 1e-5);
        for k in 0..2 {
            let slope = (arc.at(v + h)[k] - arc.at(v - h)[k]) / (2.0 * h);
            assert!((arc.rate(v)[k] - slope).abs() < 1e-8);
            let slope = (arc.rate(v + h)[k] - arc.rate(v - h)[k]) / (2.0 * h);
            assert!((arc.bend(v)[k] - slope).abs() < 1e-8);
        }
        assert!((arc.v_of(arc.at(v)) - v).abs() < 1e-12);
        assert!((arc.reversed().v_of(arc.at(v)) - (1.0 - v)).abs() < 1e-12);
    }
}
