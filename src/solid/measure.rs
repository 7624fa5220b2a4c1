//! Exact volume, area, centroid, inertia and bounds, by the divergence theorem, face by face.
//!
//! Each integral over a face becomes one round its boundary in (u, v) (see [`super::flux`]),
//! taken along the edges by Gauss and Legendre. Along a straight edge the volume's integrand is a
//! polynomial of degree 4, for which the rule is exact; the others are analytic, and the rule, cut
//! into short steps of angle, reaches rounding error.

use std::f64::consts::FRAC_PI_2;

use super::flux::{COUNT, Integrals, antiderivatives, at, flux};
use super::unroll::unroll_face;
use super::{Body, FaceName, Screw, UvEdge};

/// Steps of angle in which an edge is integrated: larger steps cost digits of the moments,
/// smaller ones only time.
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

impl Bounds {
    const EMPTY: Self = Self { min: [f64::MAX; 3], max: [f64::MIN; 3] };

    fn add(&mut self, point: [f64; 3]) {
        for (axis, value) in point.into_iter().enumerate() {
            self.min[axis] = self.min[axis].min(value);
            self.max[axis] = self.max[axis].max(value);
        }
    }
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
    /// The inertia tensor about the centroid for a density of one, in mm^5: moments on its
    /// diagonal, negative products beside it. Times the density it is the mass' inertia.
    pub inertia: [[f64; 3]; 3],
    /// In millimetres.
    pub bounds: Bounds,
}

/// What can be said of one face exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceMeasures {
    /// Its name.
    pub name: FaceName,
    /// In square millimetres.
    pub area: f64,
    /// Its share of the volume: that between the face and the axis, negative where the material
    /// lies outside of it. All faces' shares add up to the body's volume.
    pub volume: f64,
    /// In millimetres.
    pub bounds: Bounds,
}

impl Body {
    /// Exact volume, area, centroid, inertia and bounds.
    pub fn measures(&self) -> Measures {
        let mut sums = [0.0; COUNT];
        let mut bounds = Bounds::EMPTY;
        for (face, _) in self.faces() {
            let polygon = unroll_face(face);
            let surface = face.surface();
            integrate(&surface, &polygon, &mut sums);
            stretch(&mut bounds, &surface, &polygon);
        }
        let volume = sums[at::VOLUME];
        let centroid = [0, 1, 2].map(|n| sums[at::FIRST + n] / volume);
        let inertia = inertia(&sums, centroid);
        Measures { volume, area: sums[at::AREA], centroid, inertia, bounds }
    }

    /// The measures of every face, in the order of [`Body::faces`].
    pub fn face_measures(&self) -> Vec<FaceMeasures> {
        self.faces()
            .map(|(face, name)| {
                let (polygon, surface) = (unroll_face(face), face.surface());
                let (mut sums, mut bounds) = ([0.0; COUNT], Bounds::EMPTY);
                integrate(&surface, &polygon, &mut sums);
                stretch(&mut bounds, &surface, &polygon);
                FaceMeasures { name: *name, area: sums[at::AREA], volume: sums[at::VOLUME], bounds }
            })
            .collect()
    }
}

/// The inertia tensor about the centroid, from moments about the origin.
fn inertia(sums: &Integrals, [x, y, z]: [f64; 3]) -> [[f64; 3]; 3] {
    let volume = sums[at::VOLUME];
    let second = |n: usize, by: f64| sums[at::SECOND + n] - volume * by;
    let (xx, yy, zz) = (second(0, x * x), second(1, y * y), second(2, z * z));
    let (xy, xz, yz) = (second(3, x * y), second(4, x * z), second(5, y * z));
    [[yy + zz, -xy, -xz], [-xy, xx + zz, -yz], [-xz, -yz, xx + yy]]
}

/// Adds a face's integrals: those of F dv round its boundary, where F is the flux' antiderivative
/// in u.
fn integrate(surface: &Screw, polygon: &[UvEdge], sums: &mut Integrals) {
    let Some(first) = polygon.first() else { return };
    for edge in polygon {
        let (du, dv) = (edge.to[0] - edge.from[0], edge.to[1] - edge.from[1]);
        if dv == 0.0 {
            continue;
        }
        let turn = du.abs().max(surface.meridian.sweep() * dv.abs());
        along([0.0, 1.0], (turn / STEP).ceil().max(1.0), |s, weight| {
            let ([u, v], [_, dv]) = edge.at(surface, s);
            let values = if surface.out == 0.0 {
                antiderivatives(surface, u, v)
            } else {
                summed(surface, [first.from[0], u], v)
            };
            add(sums, values, weight * dv);
        });
    }
}

/// The flux along u from one angle to another, summed: where the tool is drawn out there is no
/// handy closed form, and the way is short.
fn summed(surface: &Screw, [from, to]: [f64; 2], v: f64) -> Integrals {
    let mut sums = [0.0; COUNT];
    let steps = ((to - from).abs() / STEP).ceil().max(1.0);
    along([from, to], steps, |u, weight| add(&mut sums, flux(surface, u, v), weight));
    sums
}

fn add(sums: &mut Integrals, values: Integrals, weight: f64) {
    sums.iter_mut().zip(values).for_each(|(sum, value)| *sum += value * weight);
}

/// Calls back with the points and weights of the rule between two values, in so many steps.
fn along([from, to]: [f64; 2], steps: f64, mut at: impl FnMut(f64, f64)) {
    let step = (to - from) / steps;
    for n in 0..steps as usize {
        for (x, weight) in GAUSS {
            for x in [-x, x] {
                at(from + step * (n as f64 + f64::midpoint(x, 1.0)), weight / 2.0 * step);
            }
        }
    }
}

/// Stretches a box over a face.
///
/// In x and y a face reaches farthest at one of its corners, or where its boundary turns back
/// beside the axis (a ruling there reaches no farther than its ends); z is greatest at corners. A
/// torus also reaches out where its meridian turns back.
fn stretch(bounds: &mut Bounds, surface: &Screw, polygon: &[UvEdge]) {
    let point = |u: f64, v: f64| {
        let p = surface.polar(u, surface.meridian.at(v)).point();
        [p.x, p.y, p.z]
    };
    for edge in polygon {
        let (low, high) = (edge.from[0].min(edge.to[0]), edge.from[0].max(edge.to[0]));
        bounds.add(point(edge.from[0], edge.from[1]));
        // Four quarters show all there is of a circle; a longer helix repeats them at the other
        // end, where a spiral has another radius.
        let (first, last) = ((low / FRAC_PI_2).floor(), (high / FRAC_PI_2).ceil());
        for quarter in 0..5 {
            for axis in [first + f64::from(quarter), last - f64::from(quarter)] {
                if let Some(u) = turning(surface, edge, axis * FRAC_PI_2, [low, high]) {
                    let ([u, v], _) = edge.at(surface, edge.s_at(u));
                    bounds.add(point(u, v));
                }
            }
        }
    }
    if surface.climb == 0.0 && surface.meridian.sweep() > 0.0 {
        for v in surface.meridian.extremes() {
            (0..4).for_each(|quarter| bounds.add(point(f64::from(quarter) * FRAC_PI_2, v)));
        }
    }
}

/// The angle, near that of an axis and within an edge, at which the edge reaches farthest along
/// the axis: there tan(u - axis) = r' / r.
fn turning(surface: &Screw, edge: &UvEdge, axis: f64, [low, high]: [f64; 2]) -> Option<f64> {
    /// The share of the error that is left a step is (r' / r)^2: a hundredth, on a section.
    const STEPS: usize = 8;
    let mut u = axis;
    for _ in 0..STEPS {
        let ([at, v], [du, dv]) = edge.at(surface, edge.s_at(u.clamp(low, high)));
        let r = surface.r(v) + surface.out * at;
        let growth = (surface.meridian.rate(v)[0] * dv + surface.out * du) / du;
        u = axis + libm::atan(growth / r);
    }
    (low < u && u < high).then_some(u)
}
