//! The one surface of a section: a line of the half-plane, turned about the axis and climbing.

use std::f64::consts::TAU;

use truck_modeling::{D2, Invertible, ParametricSurface, SPHint2D, SearchParameter};
use truck_modeling::{Point3, Vector3};

use super::{HalfPoint, Meridian, Polar};

/// A screw surface: `S(u, v) = (R cos u, R sin u, Z)` with `R = r(v) + out u` and
/// `Z = z(v) + climb u`, u in radians, (r(v), z(v)) the meridian, v from 0 to 1.
///
/// Without climb it is a plane, a cylinder, a cone or a torus; with climb a thread's flank (a
/// ruled helicoid, or one swept from an arc) or its crest or root band. `out` is only there where
/// a tool is drawn out as it cuts. The normal `S_u x S_v` points out of the material
/// where v follows the walk of [`crate::section::Part`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// What is swept.
    pub meridian: Meridian,
    /// Climb along z per radian, positive for a right-hand thread.
    pub climb: f64,
    /// Growth of the radius per radian.
    pub out: f64,
}

impl Screw {
    /// The surface of a straight line from one point of the half-plane to another.
    pub fn straight(from: HalfPoint, to: HalfPoint, climb: f64) -> Self {
        Self { meridian: Meridian::Line { from, to }, climb, out: 0.0 }
    }

    /// Where a point (or a rate) of the meridian has come to at u.
    pub fn polar(&self, u: f64, [r, z]: HalfPoint) -> Polar {
        Polar { theta: u, r: r + self.out * u, z: z + self.climb * u }
    }

    /// Radius of the meridian at v, where u = 0.
    pub fn r(&self, v: f64) -> f64 {
        self.meridian.at(v)[0]
    }

    /// z of the meridian at v, where u = 0.
    pub fn z(&self, v: f64) -> f64 {
        self.meridian.at(v)[1]
    }

    /// The v of a point of the surface whose angle, counted in the surface's own turns, is u.
    pub fn v_at(&self, u: f64, p: Polar) -> f64 {
        self.meridian.v_of([p.r - self.out * u, p.z - self.climb * u])
    }

    /// Whether this is a thread's flank: a helicoid that is twisted along its rulings.
    pub fn is_flank(&self) -> bool {
        self.climb != 0.0 && self.r(0.0) != self.r(1.0)
    }

    /// The whole turns to add to a point's angle so that the surface passes through it.
    ///
    /// Zero without climb. A band's own width is far under a lead, so the turn nearest to its
    /// middle is the one; a flank passes its point on one turn only (an arc's chord is near enough).
    pub fn turns_to(&self, p: Polar) -> f64 {
        if self.climb == 0.0 {
            return 0.0;
        }
        let ([r0, z0], [r1, z1]) = (self.meridian.at(0.0), self.meridian.at(1.0));
        let (dr, dz) = (r1 - r0, z1 - z0);
        let (r, z) = (p.r - self.out * p.theta, p.z - self.climb * p.theta);
        // How far the chord's line moves past a point in one turn, across itself.
        let passing = self.out * dz - self.climb * dr;
        if passing == 0.0 {
            return ((z - f64::midpoint(z0, z1)) / (self.climb * TAU)).round();
        }
        (((r - r0) * dz - (z - z0) * dr) / (passing * TAU)).round()
    }

    /// `S_u x S_v` at (u, v), in its radial, tangential and axial components.
    pub fn normal(&self, u: f64, v: f64) -> [f64; 3] {
        let (r, [dr, dz]) = (self.r(v) + self.out * u, self.meridian.rate(v));
        [r * dz, self.climb * dr - self.out * dz, -r * dr]
    }

    /// The length of `S_u x S_v` at (u, v): area per du dv.
    pub fn area_density(&self, u: f64, v: f64) -> f64 {
        let [radial, tangential, axial] = self.normal(u, v);
        (radial * radial + tangential * tangential + axial * axial).sqrt()
    }
}

impl ParametricSurface for Screw {
    type Point = Point3;
    type Vector = Vector3;

    fn subs(&self, u: f64, v: f64) -> Point3 {
        self.polar(u, self.meridian.at(v)).point()
    }

    fn uder(&self, u: f64, v: f64) -> Vector3 {
        let ((sin, cos), r) = (libm::sincos(u), self.r(v) + self.out * u);
        Vector3::new(self.out * cos - r * sin, self.out * sin + r * cos, self.climb)
    }

    fn vder(&self, u: f64, v: f64) -> Vector3 {
        let ((sin, cos), [dr, dz]) = (libm::sincos(u), self.meridian.rate(v));
        Vector3::new(dr * cos, dr * sin, dz)
    }

    fn uuder(&self, u: f64, v: f64) -> Vector3 {
        let ((sin, cos), r) = (libm::sincos(u), self.r(v) + self.out * u);
        Vector3::new(-2.0 * self.out * sin - r * cos, 2.0 * self.out * cos - r * sin, 0.0)
    }

    fn uvder(&self, u: f64, v: f64) -> Vector3 {
        let ((sin, cos), [dr, _]) = (libm::sincos(u), self.meridian.rate(v));
        Vector3::new(-dr * sin, dr * cos, 0.0)
    }

    fn vvder(&self, u: f64, v: f64) -> Vector3 {
        let ((sin, cos), [bend_r, bend_z]) = (libm::sincos(u), self.meridian.bend(v));
        Vector3::new(bend_r * cos, bend_r * sin, bend_z)
    }

    fn u_period(&self) -> Option<f64> {
        (self.climb == 0.0).then_some(TAU)
    }
}

impl Invertible for Screw {
    /// Turns the normal over by running the meridian backwards.
    fn invert(&mut self) {
        self.meridian = self.meridian.reversed();
    }
}

impl SearchParameter<D2> for Screw {
    type Point = Point3;

    /// Closed form: no trials are needed, and the hint only picks the turn.
    fn search_parameter<H: Into<SPHint2D>>(
        &self,
        point: Point3,
        hint: H,
        _trials: usize,
    ) -> Option<(f64, f64)> {
        /// truck's own tolerance: a point farther off is not on the surface.
        const ON_SURFACE: f64 = 1e-6;
        let r = libm::hypot(point.x, point.y);
        let near = match hint.into() {
            SPHint2D::Parameter(u, _) => u,
            SPHint2D::Range((from, to), _) => f64::midpoint(from, to),
            SPHint2D::None => 0.0,
        };
        let angle = libm::atan2(point.y, point.x);
        let theta = angle + ((near - angle) / TAU).round() * TAU;
        let polar = Polar { theta, r, z: point.z };
        let u = theta + self.turns_to(polar) * TAU;
        let v = self.v_at(u, polar);
        let off = self.subs(u, v) - point;
        let near = off.x.abs().max(off.y.abs()).max(off.z.abs()) < ON_SURFACE;
        (near && v.is_finite()).then_some((u, v))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck_modeling::InnerSpace;

    /// A flank of P = 0.75 at 10 mm: 30 degrees, 0.4 deep.
    fn flank() -> Screw {
        Screw::straight([4.6, 21.0], [5.0, 21.23], 0.75 / TAU)
    }

    /// The same while the tool is drawn out.
    fn drawn_out() -> Screw {
        Screw { out: 0.3, ..flank() }
    }

    /// Independent route: central differences.
    #[test]
    fn derivatives_agree_with_differences() {
        for s in [flank(), drawn_out()] {
            let (u, v, h) = (7.0, 0.3, 1e-5);
            let du = (s.subs(u + h, v) - s.subs(u - h, v)) / (2.0 * h);
            let dv = (s.subs(u, v + h) - s.subs(u, v - h)) / (2.0 * h);
            assert!((s.uder(u, v) - du).magnitude() < 1e-8);
            assert!((s.vder(u, v) - dv).magnitude() < 1e-8);
            assert!((du.cross(dv).magnitude() - s.area_density(u, v)).abs() < 1e-8);
            let duv = (s.uder(u, v + h) - s.uder(u, v - h)) / (2.0 * h);
            assert!((s.uvder(u, v) - duv).magnitude() < 1e-8);
            let duu = (s.uder(u + h, v) - s.uder(u - h, v)) / (2.0 * h);
            assert!((s.uuder(u, v) - duu).magnitude() < 1e-7);
        }
    }

    #[test]
    fn a_point_is_found_on_its_turn() {
        for s in [flank(), drawn_out()] {
            let (u, v) = s.search_parameter(s.subs(9.5, 0.4), None, 0).unwrap();
            assert!((u - 9.5).abs() < 1e-12 && (v - 0.4).abs() < 1e-12);
            let off = s.subs(9.5, 0.4) + Vector3::new(0.0, 0.0, 0.01);
            assert_eq!(s.search_parameter(off, None, 0), None);
        }
    }
}
