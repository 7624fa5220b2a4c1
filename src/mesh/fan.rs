//! The common fan of half-planes, and how far a mesh cut along it lies from the surface.

use std::f64::consts::TAU;

use crate::solid::{Body, Meridian, Screw};

/// Fewest half-planes: with fewer a bore no longer looks or measures round.
const FEWEST: u32 = 24;

/// A corner this close to a half-plane (in columns) lies on it. Columns are under a millimetre
/// wide, so it is moved by less than single precision shows; were it larger, corners would leave
/// the surface, were it smaller, the rounding of an angle could make a needle.
const ON_PLANE: f64 = 5e-7;

/// Corners that are not on a half-plane shall keep this far from it, in columns, so that no
/// triangle is a needle: less makes needles, more makes larger fans be tried for nothing.
const CLEAR: f64 = 0.02;

/// Larger fans that are tried to keep corners clear, as a share of the least one.
const LARGER: f64 = 0.12;

/// Of the deviation allowed on a torus, the share for the columns; the rest is for the pieces of
/// its meridian. Nearer to 1 it makes many short pieces, smaller it makes many columns.
const ACROSS: f64 = 0.75;

/// Where in a column angle 0 may lie, in the order in which it is tried.
const OFFSETS: [f64; 8] = [0.0, 0.5, 0.25, 0.75, 0.125, 0.625, 0.375, 0.875];

/// Evenly spaced half-planes through the axis.
#[derive(Clone, Debug)]
pub(super) struct Fan {
    /// How many.
    pub count: u32,
    /// Angle of half-plane 0, in columns.
    offset: f64,
    /// (cos, sin) of each.
    rays: Vec<[f64; 2]>,
    /// The bound on the distance between mesh and surface, both ways, in millimetres.
    pub deviation: f64,
}

impl Fan {
    /// The least fan for a chord error, or one up to [`LARGER`] larger, turned so that the body's
    /// corners stay clear of its half-planes; `attempt` asks for the next best of those.
    pub fn new(body: &Body, chord: f64, attempt: usize) -> Self {
        let surfaces: Vec<Screw> = body.faces().map(|(face, _)| face.surface()).collect();
        let within = |n: u32| deviation(&surfaces, n) <= chord;
        let mut least = FEWEST;
        while !within(least) {
            least = least * 5 / 4;
        }
        while least > FEWEST && within(least - 1) {
            least -= 1;
        }
        let mut corners: Vec<f64> = Vec::new();
        for edge in body.solid().edge_iter() {
            let trace = edge.curve();
            corners.extend([trace.from.theta, trace.to.theta].map(|theta| theta / TAU));
        }
        // Every edge comes twice, and many corners lie at one angle.
        corners.sort_by(f64::total_cmp);
        corners.dedup();
        let most = (f64::from(least) * (1.0 + LARGER)) as u32;
        let fans = (least..=most).flat_map(|n| OFFSETS.map(|offset| (n, offset)));
        let clear = |(n, offset): &(u32, f64)| clearance(&corners, *n, *offset);
        // The least fan that is clear, or, where too few are, the clearest.
        let found = fans.clone().filter(|fan| clear(fan) >= CLEAR).nth(attempt);
        let (count, offset) = found.unwrap_or_else(|| {
            let mut fans: Vec<_> = fans.map(|fan| (clear(&fan).min(CLEAR), fan)).collect();
            fans.sort_by(|a, b| b.0.total_cmp(&a.0));
            fans[attempt.min(fans.len() - 1)].1
        });
        let ray = |n: u32| {
            let (sin, cos) = libm::sincos(TAU * (f64::from(n) + offset) / f64::from(count));
            [cos, sin]
        };
        let rays = (0..count).map(ray).collect();
        Self { count, offset, rays, deviation: deviation(&surfaces, count) }
    }

    /// An angle in columns from half-plane 0, exactly whole where it lies on a half-plane.
    pub fn columns(&self, theta: f64) -> f64 {
        let columns = theta / TAU * f64::from(self.count) - self.offset;
        let whole = columns.round();
        if (columns - whole).abs() < ON_PLANE { whole } else { columns }
    }

    /// The angle of a half-plane, which may be counted over many turns.
    pub fn angle(&self, plane: i64) -> f64 {
        TAU * (plane as f64 + self.offset) / f64::from(self.count)
    }

    /// A column, counted within one turn.
    pub fn column(&self, column: i64) -> u32 {
        column.rem_euclid(i64::from(self.count)) as u32
    }

    /// The angle between neighbouring half-planes.
    pub fn step(&self) -> f64 {
        TAU / f64::from(self.count)
    }

    /// The pieces in which a meridian is to be cut along its length: 1 where it is straight.
    pub fn pieces(&self, meridian: &Meridian) -> usize {
        meridian.pieces(self.deviation * (1.0 - ACROSS))
    }

    /// The point of a half-plane at r and z.
    pub fn point(&self, plane: i64, r: f64, z: f64) -> [f64; 3] {
        let [cos, sin] = self.rays[self.column(plane) as usize];
        [r * cos, r * sin, z]
    }
}

/// The least distance of a corner from a half-plane of n that it does not lie on, in columns.
fn clearance(corners: &[f64], n: u32, offset: f64) -> f64 {
    let gap = |turns: &f64| {
        let columns = turns * f64::from(n) - offset;
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
/// A torus bows both ways: its sagitta across may use up [`ACROSS`] of what is allowed, the pieces
/// along its meridian the rest. With climb, the ruled quadrilateral between two rulings is off the surface by r step^2 / 8
/// towards the axis (linear interpolation of the helices), and its two triangles part from it by
/// a quarter of its twist, along the circle. Of each only the share along the normal counts; the
/// two may add up, depending on the diagonal.
fn deviation_of(surface: &Screw, step: f64) -> f64 {
    /// Terms of the third order in the step, which the shares leave out: under a thousandth at
    /// the fewest columns there may be.
    const HIGHER_ORDER: f64 = 1.02;
    if surface.climb == 0.0 {
        let sagitta = surface.meridian.widest() * (1.0 - libm::cos(step / 2.0));
        let bowed = surface.meridian.sweep() > 0.0;
        return if bowed { sagitta / ACROSS } else { sagitta };
    }
    let at = |v: f64| {
        let ([dr, dz], normal) = (surface.meridian.rate(v), surface.area_density(v));
        let twist = libm::sin(step / 2.0) * dr.abs() / 2.0;
        let inwards = surface.r(v) * step * step / 8.0 * (surface.r(v) * dz / normal).abs();
        inwards + twist * (surface.climb * dr / normal).abs()
    };
    at(0.0).max(at(1.0)) * HIGHER_ORDER
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck_modeling::{InnerSpace, ParametricSurface};

    /// Independent route: the distance of sampled surface points from the two triangles of a
    /// column, by vector algebra, for a steep thread (six starts of 1 mm at radius 6.5).
    #[test]
    fn the_bound_holds_on_a_twisted_strip() {
        let surface = Screw::straight([5.96, 0.0], [6.5, 0.3125], 6.0 / TAU);
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
