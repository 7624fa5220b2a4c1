//! The common fan of half-planes, and how far a mesh cut along it lies from the surface.

use std::f64::consts::TAU;

use crate::solid::{Body, Screw};

/// Fewest half-planes: with fewer a bore no longer looks or measures round.
const FEWEST: u32 = 24;

/// A corner this close to a half-plane (in columns) lies on it: rounding of an angle is some
/// 1e-13 columns, and the nearest corner that is not meant to lie there is kept farther off by
/// the choice of the fan.
const ON_PLANE: f64 = 1e-9;

/// Corners that are not on a half-plane shall keep this far from it, in columns, so that no
/// triangle is a needle: less makes needles, more makes larger fans be tried for nothing.
const CLEAR: f64 = 0.02;

/// Larger fans that are tried to keep corners clear, as a share of the least one.
const LARGER: f64 = 0.15;

/// Evenly spaced half-planes through the axis, the first at angle 0.
#[derive(Clone, Debug)]
pub(super) struct Fan {
    /// How many.
    pub count: u32,
    /// (cos, sin) of each.
    rays: Vec<[f64; 2]>,
    /// The bound on the distance between mesh and surface, both ways, in millimetres.
    pub deviation: f64,
}

impl Fan {
    /// The least fan for a chord error, or one up to [`LARGER`] larger that keeps the body's
    /// corners clear of its half-planes; `attempt` asks for the next best of those.
    pub fn new(body: &Body, chord: f64, attempt: usize) -> Self {
        let surfaces: Vec<Screw> = body.faces().map(|(face, _)| face.surface()).collect();
        let within = |n: u32| deviation(&surfaces, n) <= chord;
        let mut least = FEWEST;
        while !within(least) {
            least = (f64::from(least) * 1.25).ceil() as u32;
            least += least % 2;
        }
        while least > FEWEST && within(least - 2) {
            least -= 2;
        }
        let mut corners: Vec<f64> = Vec::new();
        for edge in body.solid().edge_iter() {
            let trace = edge.curve();
            corners.extend([trace.from.theta, trace.to.theta].map(|theta| theta / TAU));
        }
        let most = (f64::from(least) * (1.0 + LARGER)) as u32;
        let mut fans: Vec<(u32, f64)> =
            (least..=most).step_by(2).map(|n| (n, clearance(&corners, n))).collect();
        let good = fans.iter().position(|(_, gap)| *gap >= CLEAR);
        if attempt == 0
            && let Some(first) = good
        {
            return Self::of(fans[first].0, &surfaces);
        }
        fans.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        Self::of(fans[attempt.min(fans.len() - 1)].0, &surfaces)
    }

    fn of(count: u32, surfaces: &[Screw]) -> Self {
        let ray = |n: u32| {
            let (sin, cos) = libm::sincos(TAU * f64::from(n) / f64::from(count));
            [cos, sin]
        };
        Self { count, rays: (0..count).map(ray).collect(), deviation: deviation(surfaces, count) }
    }

    /// An angle in columns from angle 0, exactly whole where it lies on a half-plane.
    pub fn columns(&self, theta: f64) -> f64 {
        let columns = theta / TAU * f64::from(self.count);
        let whole = columns.round();
        if (columns - whole).abs() < ON_PLANE { whole } else { columns }
    }

    /// The angle of a half-plane, which may be counted over many turns.
    pub fn angle(&self, plane: i64) -> f64 {
        TAU * plane as f64 / f64::from(self.count)
    }

    /// The point of a half-plane at r and z.
    pub fn point(&self, plane: i64, r: f64, z: f64) -> [f64; 3] {
        let [cos, sin] = self.rays[plane.rem_euclid(i64::from(self.count)) as usize];
        [r * cos, r * sin, z]
    }
}

/// The least distance of a corner from a half-plane of n that it does not lie on, in columns.
fn clearance(corners: &[f64], n: u32) -> f64 {
    let gap = |turns: &f64| {
        let columns = turns * f64::from(n);
        (columns - columns.round()).abs()
    };
    corners.iter().map(gap).filter(|gap| *gap >= ON_PLANE).fold(0.5, f64::min)
}

/// How far a mesh of n columns may lie from these surfaces, and they from it.
fn deviation(surfaces: &[Screw], n: u32) -> f64 {
    let step = TAU / f64::from(n);
    surfaces.iter().map(|surface| deviation_of(surface, step)).fold(0.0, f64::max)
}

/// A bound for one surface, cut in columns of `step` radians.
///
/// Without climb the piece in a column is flat, and off by the sagitta at the larger radius.
/// With climb, the ruled quadrilateral between two rulings is off the surface by r step^2 / 8
/// towards the axis (linear interpolation of the helices), and its two triangles part from it by
/// a quarter of its twist, along the circle. Of each only the share along the normal counts; the
/// two may add up, depending on the diagonal.
fn deviation_of(surface: &Screw, step: f64) -> f64 {
    /// Terms of the third order in the step, which the shares leave out: under a thousandth at
    /// the fewest columns there may be.
    const HIGHER_ORDER: f64 = 1.02;
    let radius = surface.from[0].max(surface.to[0]);
    if surface.climb == 0.0 {
        return radius * (1.0 - libm::cos(step / 2.0));
    }
    let twist = libm::sin(step / 2.0) * surface.dr().abs() / 2.0;
    let at = |v: f64| {
        let normal = surface.area_density(v);
        let inwards =
            surface.r(v) * step * step / 8.0 * (surface.r(v) * surface.dz() / normal).abs();
        inwards + twist * (surface.climb * surface.dr() / normal).abs()
    };
    at(0.0).max(at(1.0)) * HIGHER_ORDER
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck_base::cgmath64::InnerSpace;
    use truck_geotrait::ParametricSurface;

    /// Independent route: the distance of sampled surface points from the two triangles of a
    /// column, by vector algebra, for a steep thread (six starts of 1 mm at radius 6.5).
    #[test]
    fn the_bound_holds_on_a_twisted_strip() {
        let surface = Screw { from: [5.96, 0.0], to: [6.5, 0.3125], climb: 6.0 / TAU };
        let step = 0.0248;
        let corner = |u: f64, v: f64| surface.subs(u, v);
        let (a, b, c, d) =
            (corner(0.0, 0.0), corner(step, 0.0), corner(step, 1.0), corner(0.0, 1.0));
        let mut worst: f64 = 0.0;
        for i in 0..=40 {
            for j in 0..=40 {
                let (s, v) = (f64::from(i) / 40.0, f64::from(j) / 40.0);
                let p = surface.subs(step * s, v);
                let (e, f) = if v < s { (b - a, c - a) } else { (c - a, d - a) };
                worst = worst.max(((p - a).dot(e.cross(f).normalize())).abs());
                let (e, f) = if v < 1.0 - s { (b - a, d - a) } else { (d - c, b - c) };
                let corner = if v < 1.0 - s { a } else { c };
                worst = worst.max(((p - corner).dot(e.cross(f).normalize())).abs());
            }
        }
        let bound = deviation_of(&surface, step);
        assert!(worst <= bound, "{worst} {bound}");
        assert!(worst > bound / 1.5, "the bound is not idle: {worst} {bound}");
    }
}
