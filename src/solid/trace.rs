//! The one curve of a section: affine in (angle, radius, z).

use std::f64::consts::PI;
use std::ops::Bound;

use truck_modeling::{
    BoundedCurve, Invertible, ParameterDivision1D, ParameterRange, ParametricCurve,
};
use truck_modeling::{Point3, Vector3};

/// A point in cylindrical coordinates; the angle (radians) is not reduced to one turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Polar {
    /// Angle about the axis, in radians, growing from x to y; a helix counts its turns.
    pub theta: f64,
    /// Distance from the axis, in millimetres.
    pub r: f64,
    /// Along the axis, in millimetres.
    pub z: f64,
}

impl Polar {
    /// The same point in x, y, z.
    pub fn point(self) -> Point3 {
        let (sin, cos) = libm::sincos(self.theta);
        Point3::new(self.r * cos, self.r * sin, self.z)
    }

    fn lerp(self, to: Self, t: f64) -> Self {
        let mix = |a: f64, b: f64| a + (b - a) * t;
        Self { theta: mix(self.theta, to.theta), r: mix(self.r, to.r), z: mix(self.z, to.z) }
    }
}

/// A curve whose angle, radius and z are all affine in its parameter t, from 0 to 1.
///
/// Circle, helix, Archimedean and conical spiral and straight ruling are all of this one kind,
/// and so is every edge where a plane, cylinder or cone about the axis cuts a straight flank:
/// on the flank z = z(r) + k theta, on the cone z = g(r), both affine, so theta is affine too.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trace {
    /// At t = 0.
    pub from: Polar,
    /// At t = 1.
    pub to: Polar,
}

impl Trace {
    /// The point at t, in cylindrical coordinates.
    pub fn at(&self, t: f64) -> Polar {
        self.from.lerp(self.to, t)
    }

    fn rates(&self) -> (f64, f64, f64) {
        let (a, b) = (self.from, self.to);
        (b.theta - a.theta, b.r - a.r, b.z - a.z)
    }
}

impl ParametricCurve for Trace {
    type Point = Point3;
    type Vector = Vector3;

    fn subs(&self, t: f64) -> Point3 {
        self.at(t).point()
    }

    fn der(&self, t: f64) -> Vector3 {
        let (turn, out, along) = self.rates();
        let p = self.at(t);
        let (sin, cos) = libm::sincos(p.theta);
        Vector3::new(out * cos - p.r * turn * sin, out * sin + p.r * turn * cos, along)
    }

    fn der2(&self, t: f64) -> Vector3 {
        let (turn, out, _) = self.rates();
        let p = self.at(t);
        let (sin, cos) = libm::sincos(p.theta);
        let (radial, tangential) = (-p.r * turn * turn, 2.0 * out * turn);
        Vector3::new(radial * cos - tangential * sin, radial * sin + tangential * cos, 0.0)
    }

    fn parameter_range(&self) -> ParameterRange {
        (Bound::Included(0.0), Bound::Included(1.0))
    }
}

impl BoundedCurve for Trace {}

impl Invertible for Trace {
    fn invert(&mut self) {
        std::mem::swap(&mut self.from, &mut self.to);
    }
}

impl ParameterDivision1D for Trace {
    type Point = Point3;

    /// Even steps in angle whose sagitta at the greater radius is at most `tol`.
    fn parameter_division(&self, (from, to): (f64, f64), tol: f64) -> (Vec<f64>, Vec<Point3>) {
        let radius = self.from.r.max(self.to.r).max(tol);
        let step = 2.0 * libm::acos((1.0 - tol / radius).max(0.0)).min(PI / 4.0);
        let turn = (self.to.theta - self.from.theta).abs() * (to - from).abs();
        let count = (turn / step).ceil().max(1.0);
        let parameters = (0..=count as usize).map(|n| from + (to - from) * n as f64 / count);
        parameters.map(|t| (t, self.subs(t))).unzip()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck_modeling::InnerSpace;

    fn spiral() -> Trace {
        Trace {
            from: Polar { theta: -0.3, r: 4.0, z: 1.0 },
            to: Polar { theta: 2.0, r: 4.5, z: 1.2 },
        }
    }

    /// Independent route: central differences of the points themselves.
    #[test]
    fn derivatives_agree_with_differences() {
        let (curve, t, h) = (spiral(), 0.4, 1e-5);
        let difference = (curve.subs(t + h) - curve.subs(t - h)) / (2.0 * h);
        assert!((curve.der(t) - difference).magnitude() < 1e-8);
        let difference = (curve.der(t + h) - curve.der(t - h)) / (2.0 * h);
        assert!((curve.der2(t) - difference).magnitude() < 1e-8);
    }

    #[test]
    fn the_inverse_runs_backwards() {
        let (there, back) = (spiral(), spiral().inverse());
        assert!((there.subs(0.25) - back.subs(0.75)).magnitude() < 1e-12);
    }
}
