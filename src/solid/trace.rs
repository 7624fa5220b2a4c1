//! The curves of a section: affine in (angle, radius, z), or where a cut meets a rounded flank.

use std::f64::consts::PI;
use std::ops::Bound;

use truck_modeling::{
    BoundedCurve, Invertible, ParameterDivision1D, ParameterRange, ParametricCurve,
};
use truck_modeling::{Point3, Vector3};

use super::{Meridian, Screw};

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

/// An edge, with a parameter t from 0 to 1.
///
/// Circle, helix, Archimedean and conical spiral and straight ruling are all affine in (angle,
/// radius, z), and so is every edge where a plane, cylinder or cone about the axis cuts a
/// straight flank: on the flank z = z(r) + k theta, on the cone z = g(r), both affine, so theta
/// is affine too. Only where it cuts a rounded flank is an edge of another kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Trace {
    /// Angle, radius and z are all affine in t.
    Affine {
        /// At t = 0.
        from: Polar,
        /// At t = 1.
        to: Polar,
    },
    /// Where a plane, cylinder or cone about the axis, or a half-plane through it, cuts a surface.
    Cut(Cut),
}

/// The line on a screw surface, from one v to another, on which `r, z` and `theta` satisfy the
/// linear equation of the cutting surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// What is cut.
    pub surface: Screw,
    /// v at t = 0 and at t = 1.
    pub v: [f64; 2],
    /// What cuts.
    pub by: Cutter,
}

/// A surface that cuts: `r * radius + z * along + theta * turn = level`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutter {
    /// Share of the radius.
    pub radius: f64,
    /// Share of z.
    pub along: f64,
    /// Share of the angle.
    pub turn: f64,
    /// What they come to.
    pub level: f64,
}

impl Cutter {
    /// The plane, cylinder or cone that is swept by the line through two points (r, z).
    pub fn through(a: [f64; 2], b: [f64; 2]) -> Self {
        let [radius, along] = [b[1] - a[1], a[0] - b[0]];
        Self { radius, along, turn: 0.0, level: radius * a[0] + along * a[1] }
    }

    /// The half-plane at an angle.
    pub fn half_plane(theta: f64) -> Self {
        Self { radius: 0.0, along: 0.0, turn: 1.0, level: theta }
    }
}

impl Cut {
    /// The angle at which the cutter meets the point (r, z) of the meridian as it goes round,
    /// for the meridian's own point and for its derivatives (without `level`).
    fn angle_of(&self, [r, z]: [f64; 2], level: f64) -> f64 {
        let Cutter { radius, along, turn, .. } = self.by;
        let rate = radius * self.surface.out + along * self.surface.climb + turn;
        (level - radius * r - along * z) / rate
    }

    /// The t at which the cut passes from one of so many equal pieces of the surface's meridian
    /// to the next, ascending.
    pub fn between(&self, pieces: usize) -> impl Iterator<Item = f64> + use<> {
        /// A piece that ends this close to the cut's own end, ends there.
        const AT_END: f64 = 1e-9;
        let [from, to] = self.v;
        let inner = (1..pieces).map(move |n| (n as f64 / pieces as f64 - from) / (to - from));
        let mut found: Vec<f64> = inner.filter(|t| *t > AT_END && *t < 1.0 - AT_END).collect();
        found.sort_by(f64::total_cmp);
        found.into_iter()
    }

    fn at(&self, t: f64) -> Polar {
        let p = self.surface.meridian.at(self.v[0] + (self.v[1] - self.v[0]) * t);
        let theta = self.angle_of(p, self.by.level);
        self.surface.polar(theta, p)
    }

    /// How fast a derivative (dr, dz) of the meridian's point moves the cut's.
    fn moves(&self, d: [f64; 2]) -> Polar {
        let theta = self.angle_of(d, 0.0);
        self.surface.polar(theta, d)
    }

    /// First and second derivatives of (theta, r, z) by t.
    fn rates(&self, t: f64) -> [Polar; 2] {
        let span = self.v[1] - self.v[0];
        let v = self.v[0] + span * t;
        let scaled = |d: [f64; 2], by: f64| self.moves(d.map(|x| x * by));
        let meridian = &self.surface.meridian;
        [scaled(meridian.rate(v), span), scaled(meridian.bend(v), span * span)]
    }
}

impl Trace {
    /// The affine edge between two points.
    pub fn straight(from: Polar, to: Polar) -> Self {
        Self::Affine { from, to }
    }

    /// The edge in which a cutter meets a surface between two v; affine where it can be.
    pub fn cut(surface: Screw, v: [f64; 2], by: Cutter) -> Self {
        let cut = Cut { surface, v, by };
        match surface.meridian {
            Meridian::Line { .. } => Self::straight(cut.at(0.0), cut.at(1.0)),
            Meridian::Arc { .. } => Self::Cut(cut),
        }
    }

    /// The point at t, in cylindrical coordinates.
    pub fn at(&self, t: f64) -> Polar {
        match self {
            Self::Affine { from, to } => from.lerp(*to, t),
            Self::Cut(cut) => cut.at(t),
        }
    }

    /// The point at t = 0.
    pub fn from(&self) -> Polar {
        self.at(0.0)
    }

    /// The point at t = 1.
    pub fn to(&self) -> Polar {
        match self {
            Self::Affine { to, .. } => *to,
            Self::Cut(_) => self.at(1.0),
        }
    }

    /// First and second derivatives of (theta, r, z) by t.
    pub fn rates(&self, t: f64) -> [Polar; 2] {
        match self {
            Self::Affine { from: a, to: b } => [
                Polar { theta: b.theta - a.theta, r: b.r - a.r, z: b.z - a.z },
                Polar { theta: 0.0, r: 0.0, z: 0.0 },
            ],
            Self::Cut(cut) => cut.rates(t),
        }
    }

    /// The t at which the edge passes an angle between those of its ends.
    ///
    /// The angle of every edge only grows or only falls: a cut is ended where it would turn back.
    pub fn t_at(&self, theta: f64) -> f64 {
        let (a, b) = (self.from().theta, self.to().theta);
        let linear = (theta - a) / (b - a);
        let Self::Cut(cut) = self else { return linear };
        // Newton's steps, kept between the ends by bisection.
        let (mut low, mut high, mut t) = (0.0, 1.0, linear.clamp(0.0, 1.0));
        for _ in 0..60 {
            let off = (cut.at(t).theta - theta) * (b - a).signum();
            if off > 0.0 {
                high = t;
            } else {
                low = t;
            }
            let step = (cut.at(t).theta - theta) / cut.rates(t)[0].theta;
            let next = t - step;
            let next = if next > low && next < high { next } else { f64::midpoint(low, high) };
            if (next - t).abs() < 1e-15 {
                break;
            }
            t = next;
        }
        t
    }
}

impl ParametricCurve for Trace {
    type Point = Point3;
    type Vector = Vector3;

    fn subs(&self, t: f64) -> Point3 {
        self.at(t).point()
    }

    fn der(&self, t: f64) -> Vector3 {
        let (p, [d, _]) = (self.at(t), self.rates(t));
        let (sin, cos) = libm::sincos(p.theta);
        let tangential = p.r * d.theta;
        Vector3::new(d.r * cos - tangential * sin, d.r * sin + tangential * cos, d.z)
    }

    fn der2(&self, t: f64) -> Vector3 {
        let (p, [d, dd]) = (self.at(t), self.rates(t));
        let (sin, cos) = libm::sincos(p.theta);
        let radial = dd.r - p.r * d.theta * d.theta;
        let tangential = 2.0 * d.r * d.theta + p.r * dd.theta;
        Vector3::new(radial * cos - tangential * sin, radial * sin + tangential * cos, dd.z)
    }

    fn parameter_range(&self) -> ParameterRange {
        (Bound::Included(0.0), Bound::Included(1.0))
    }
}

impl BoundedCurve for Trace {}

impl Invertible for Trace {
    fn invert(&mut self) {
        match self {
            Self::Affine { from, to } => std::mem::swap(from, to),
            Self::Cut(cut) => cut.v.reverse(),
        }
    }
}

impl ParameterDivision1D for Trace {
    type Point = Point3;

    /// Even steps in t whose sagitta at the greater radius is at most `tol`.
    fn parameter_division(&self, (from, to): (f64, f64), tol: f64) -> (Vec<f64>, Vec<Point3>) {
        let (a, b) = (self.from(), self.to());
        let radius = a.r.max(b.r).max(tol);
        let step = 2.0 * libm::acos((1.0 - tol / radius).max(0.0)).min(PI / 4.0);
        let turn = (b.theta - a.theta).abs() * (to - from).abs();
        let count = (turn / step).ceil().max(1.0);
        let parameters = (0..=count as usize).map(|n| from + (to - from) * n as f64 / count);
        parameters.map(|t| (t, self.subs(t))).unzip()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;
    use truck_modeling::InnerSpace;

    fn spiral() -> Trace {
        Trace::straight(Polar { theta: -0.3, r: 4.0, z: 1.0 }, Polar { theta: 2.0, r: 4.5, z: 1.2 })
    }

    /// A chamfer of 45 degrees over the rounded root of a thread of P = 0.75.
    fn rounded() -> Trace {
        let meridian = Meridian::between([4.7, 20.0], [4.6, 20.1], 0.3);
        let surface = Screw { meridian, climb: 0.75 / TAU, out: 0.0 };
        Trace::cut(surface, [0.0, 0.4], Cutter::through([5.0, 21.0], [4.5, 21.5]))
    }

    /// Independent route: central differences of the points themselves.
    #[test]
    fn derivatives_agree_with_differences() {
        for curve in [spiral(), rounded()] {
            let (t, h) = (0.4, 1e-5);
            let difference = (curve.subs(t + h) - curve.subs(t - h)) / (2.0 * h);
            assert!((curve.der(t) - difference).magnitude() < 1e-8);
            let difference = (curve.der(t + h) - curve.der(t - h)) / (2.0 * h);
            assert!((curve.der2(t) - difference).magnitude() < 1e-7);
        }
    }

    #[test]
    fn the_inverse_runs_backwards() {
        for curve in [spiral(), rounded()] {
            assert!((curve.subs(0.25) - curve.inverse().subs(0.75)).magnitude() < 1e-12);
        }
    }

    /// On both surfaces at once, and found again by its angle.
    #[test]
    fn a_cut_lies_on_what_it_cuts() {
        let curve = rounded();
        let Trace::Cut(cut) = curve else { panic!("not rounded") };
        for n in 0..=8 {
            let t = f64::from(n) / 8.0;
            let p = curve.at(t);
            assert!((p.r + p.z - 26.0).abs() < 1e-12, "on the cone: {p:?}");
            let v = cut.surface.v_at(p.theta, p);
            assert!((v - 0.4 * t).abs() < 1e-12, "on the flank: {v}");
            assert!((curve.t_at(p.theta) - t).abs() < 1e-12);
        }
    }
}
