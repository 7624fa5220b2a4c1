//! Exact volume, area, centroid and bounds, by the divergence theorem, face by face.
//!
//! Each integral over a face becomes one round its boundary in (u, v): integrands are integrated
//! in closed form along u, and by Gauss and Legendre along the edges. Along an edge the volume's
//! integrand is a polynomial of degree 4, for which the rule is exact; area and the centroid's x
//! and y are analytic, and the rule, cut into short steps of angle, reaches rounding error.

use std::f64::consts::FRAC_PI_2;

use super::unroll::unroll_face;
use super::{Body, Screw, UvEdge};

/// Steps of angle in which an edge is integrated: larger steps cost digits of the centroid's x
/// and y, smaller ones only time.
const STEP: f64 = 0.5;

/// Points (and weights) of the rule of Gauss and Legendre with 8 points on [-1, 1].
/// Source: Abramowitz and Stegun, table 25.4, n = 8.
const GAUSS: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
];

/// The least box along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Least x, y, z.
    pub min: [f64; 3],
    /// Greatest x, y, z.
    pub max: [f64; 3],
}

/// What can be said of a body exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// In cubic millimetres.
    pub volume: f64,
    /// In square millimetres.
    pub area: f64,
    /// x, y, z in millimetres.
    pub centroid: [f64; 3],
    /// In millimetres.
    pub bounds: Bounds,
}

impl Body {
    /// Exact volume, area, centroid and bounds.
    pub fn measures(&self) -> Measures {
        let mut sums = [0.0; 5];
        let mut bounds = Bounds { min: [f64::MAX; 3], max: [f64::MIN; 3] };
        for (face, _) in self.faces() {
            let polygon = unroll_face(face);
            let surface = face.surface();
            for edge in &polygon {
                integrate(&surface, edge, &mut sums);
            }
            stretch(&mut bounds, &surface, &polygon);
        }
        let [volume, area, mx, my, mz] = sums;
        Measures { volume, area, centroid: [mx / volume, my / volume, mz / volume], bounds }
    }
}

/// Adds an edge's share of volume, area and first moments: the integral of F dv, where F is the
/// integrand's antiderivative in u.
fn integrate(surface: &Screw, edge: &UvEdge, sums: &mut [f64; 5]) {
    let (du, dv) = (edge.to[0] - edge.from[0], edge.to[1] - edge.from[1]);
    if dv == 0.0 {
        return;
    }
    let turn = du.abs().max(surface.meridian.sweep() * dv.abs());
    let steps = (turn / STEP).ceil().max(1.0);
    for step in 0..steps as usize {
        for (x, weight) in GAUSS {
            for x in [-x, x] {
                let t = (step as f64 + f64::midpoint(x, 1.0)) / steps;
                let [u, v] = [edge.from[0] + du * t, edge.from[1] + dv * t];
                let values = antiderivatives(surface, u, v);
                for (sum, value) in sums.iter_mut().zip(values) {
                    *sum += value * weight / 2.0 * dv / steps;
                }
            }
        }
    }
}

/// Antiderivatives in u of the integrands of volume, area and the three first moments.
///
/// With the normal `S_u x S_v = (r z', k r', -r r')` in (radial, tangential, axial), each first
/// line a field's divergence and its flux per du dv:
///
/// ```text
/// volume    div (x, y, 0) / 2    = 1    r n_r / 2 = r^2 z' / 2
/// z moment  div (x z, y z, 0) / 2 = z   (z + k u) r^2 z' / 2
/// x moment  div (x^2, 0, 0) / 2  = x    r^2 cos^2 u (n_r cos u - n_t sin u) / 2
/// y moment  div (0, y^2, 0) / 2  = y    r^2 sin^2 u (n_r sin u + n_t cos u) / 2
/// ```
fn antiderivatives(surface: &Screw, u: f64, v: f64) -> [f64; 5] {
    let ([r, z], [dr, dz], k) = (surface.meridian.at(v), surface.meridian.rate(v), surface.climb);
    let (radial, tangential) = (r * dz, k * dr);
    let (sin, cos) = libm::sincos(u);
    let (sin3, cos3) = (sin * sin * sin / 3.0, cos * cos * cos / 3.0);
    let half = r * r / 2.0;
    [
        r * radial / 2.0 * u,
        surface.area_density(v) * u,
        half * (radial * (sin - sin3) + tangential * cos3),
        half * (radial * (cos3 - cos) + tangential * sin3),
        r * radial / 2.0 * (z * u + k * u * u / 2.0),
    ]
}

/// Stretches a box over a face.
///
/// In x and y a face reaches farthest at one of its corners, or where its boundary crosses the
/// axis' angle (a ruling there reaches no farther than its ends); z is greatest at corners. A
/// torus also reaches out where its meridian turns back.
fn stretch(bounds: &mut Bounds, surface: &Screw, polygon: &[UvEdge]) {
    let mut add = |u: f64, v: f64| {
        let (sin, cos) = libm::sincos(u);
        let r = surface.r(v);
        let point = [r * cos, r * sin, surface.z(v) + surface.climb * u];
        for (axis, value) in point.into_iter().enumerate() {
            bounds.min[axis] = bounds.min[axis].min(value);
            bounds.max[axis] = bounds.max[axis].max(value);
        }
    };
    for edge in polygon {
        let (low, high) = (edge.from[0].min(edge.to[0]), edge.from[0].max(edge.to[0]));
        add(edge.from[0], edge.from[1]);
        // Four quarters show all there is of a circle; a longer helix repeats them.
        let first = (low / FRAC_PI_2).ceil();
        for quarter in 0..4 {
            let u = (first + f64::from(quarter)) * FRAC_PI_2;
            if u < high {
                let t = (u - edge.from[0]) / (edge.to[0] - edge.from[0]);
                add(u, edge.from[1] + (edge.to[1] - edge.from[1]) * t);
            }
        }
    }
    if surface.meridian.sweep() > 0.0 {
        for v in surface.meridian.extremes() {
            (0..4).for_each(|quarter| add(f64::from(quarter) * FRAC_PI_2, v));
        }
    }
}
