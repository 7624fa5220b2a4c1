//! The common fan of half-planes, and how far a mesh cut along it lies from the surface.

use std::f64::consts::TAU;

use crate::solid::{Body, Meridian, Screw, Trace, angles_of};

/// Fewest half-planes: with fewer a bore no longer looks or measures round.
const FEWEST: u32 = 24;

/// A corner this close to a half-plane, in radians, lies on it. Points stay where they are, so the
/// mesh is out of its half-planes by a few hundred-thousandths of a millimetre at most; were it
/// smaller, two points beside each other would be one in single precision.
const ON_PLANE: f64 = 4e-6;

/// Half-planes that are put in keep this far from each other, in radians: nearer, and corners on
/// neighbouring ones could pass each other.
const APART: f64 = 9e-6;

/// Corners that are not on a half-plane shall keep this far from it, in columns, so that no
/// triangle is a needle: less makes needles, more makes larger fans be tried for nothing.
const CLEAR: f64 = 0.02;

/// Larger fans that are tried to keep corners clear, as a share of the least one.
const LARGER: f64 = 0.12;

/// Of the deviation allowed on a torus, the share for the columns; the rest is for the pieces of
/// its meridian. Nearer to 1 it makes many short pieces, smaller it makes many columns.
const ACROSS: f64 = 0.75;

/// Attempts with an even fan. The next one puts half-planes through the divisions of rounded
/// flanks' cuts, the one after it through every corner: then the mesh is in every column the loft
/// between two half-sections, and nothing can cross, however thin a wall is beside the chord; but
/// there are more columns, some of them narrow.
const EVEN_ATTEMPTS: usize = 2;

/// Where in a column angle 0 may lie, in the order in which it is tried.
const OFFSETS: [f64; 8] = [0.0, 0.5, 0.25, 0.75, 0.125, 0.625, 0.375, 0.875];

/// Half-planes through the axis: evenly spaced, and others put among them where that is not
/// enough.
///
/// Where a flank's arc runs into its crest or root, its cut leaves that circle as a tangent does:
/// if its points are not on common half-planes, the circle's chords may pass over them.
#[derive(Clone, Debug)]
pub(super) struct Fan {
    /// How many.
    pub count: u32,
    /// Their angles, ascending within one turn, in radians.
    pub angles: Vec<f64>,
    /// The angle between neighbouring evenly spaced ones.
    step: f64,
    /// (cos, sin) of each.
    rays: Vec<[f64; 2]>,
    /// The bound on the distance between mesh and surface, both ways, in millimetres.
    pub deviation: f64,
}

impl Fan {
    /// The least fan for a chord error, or one up to [`LARGER`] larger, turned so that the body's
    /// corners stay clear of its half-planes; `attempt` asks for the next best of those.
    pub fn new(body: &Body, chord: f64, attempt: usize) -> Self {
        let surfaces: Vec<(Screw, [f64; 2])> =
            body.faces().map(|(face, _)| (face.surface(), angles_of(face))).collect();
        let cuts: Vec<Trace> = body.solid().edge_iter().map(|edge| edge.curve()).collect();
        let widest = if attempt >= EVEN_ATTEMPTS { 1.0 + CLEAR } else { 1.0 };
        let deviation = |n: u32| deviation(&surfaces, TAU / f64::from(n) * widest);
        let within = |n: u32| deviation(n) <= chord;
        let mut least = FEWEST;
        while !within(least) {
            least = least * 5 / 4;
        }
        while least > FEWEST && within(least - 1) {
            least -= 1;
        }
        let mut corners: Vec<f64> = Vec::new();
        for trace in &cuts {
            corners.extend([trace.from().theta, trace.to().theta].map(|theta| theta / TAU));
        }
        corners.extend(divisions(&cuts, chord).map(|theta| theta / TAU));
        // Every edge comes twice, and many corners lie at one angle.
        corners.sort_by(f64::total_cmp);
        corners.dedup();
        let most = (f64::from(least) * (1.0 + LARGER)) as u32;
        let fans = (least..=most).flat_map(|n| OFFSETS.map(|offset| (n, offset)));
        let clear = |(n, offset): &(u32, f64)| clearance(&corners, *n, *offset);
        // The least fan that is clear, or, where too few are, the clearest.
        let place = attempt % EVEN_ATTEMPTS;
        let found = fans.clone().filter(|fan| clear(fan) >= CLEAR).nth(place);
        let (count, offset) = found.unwrap_or_else(|| {
            let mut fans: Vec<_> = fans.map(|fan| (clear(&fan).min(CLEAR), fan)).collect();
            fans.sort_by(|a, b| b.0.total_cmp(&a.0));
            fans[place].1
        });
        let (step, deviation) = (TAU / f64::from(count), deviation(count));
        let even = (0..count).map(|n| step * (f64::from(n) + offset));
        let mut others = Vec::new();
        if attempt >= EVEN_ATTEMPTS {
            others.extend(divisions(&cuts, deviation));
        }
        if attempt > EVEN_ATTEMPTS {
            others.extend(corners.iter().map(|turns| turns * TAU));
        }
        let angles = merged(even.collect(), others, step);
        let ray = |angle: &f64| {
            let (sin, cos) = libm::sincos(*angle);
            [cos, sin]
        };
        let rays = angles.iter().map(ray).collect();
        Self { count: angles.len() as u32, angles, step, rays, deviation }
    }

    /// An angle in columns from half-plane 0, exactly whole where it lies on a half-plane.
    pub fn columns(&self, theta: f64) -> f64 {
        let (first, count) = (self.angles[0], self.angles.len());
        let turns = ((theta - first) / TAU).floor();
        let angle = theta - turns * TAU;
        let before = self.angles.partition_point(|a| *a <= angle).clamp(1, count) - 1;
        let (low, high) = (self.angles[before], self.angle(before as i64 + 1));
        let whole = turns * count as f64 + before as f64;
        if angle - low < ON_PLANE {
            whole
        } else if high - angle < ON_PLANE {
            whole + 1.0
        } else {
            whole + (angle - low) / (high - low)
        }
    }

    /// The angle of a half-plane, which may be counted over many turns.
    pub fn angle(&self, plane: i64) -> f64 {
        let count = self.angles.len() as i64;
        self.angles[plane.rem_euclid(count) as usize] + TAU * plane.div_euclid(count) as f64
    }

    /// A column, counted within one turn.
    pub fn column(&self, column: i64) -> u32 {
        column.rem_euclid(i64::from(self.count)) as u32
    }

    /// The angle between neighbouring evenly spaced half-planes.
    pub fn step(&self) -> f64 {
        self.step
    }

    /// The pieces in which a meridian is to be cut along its length: 1 where it is straight.
    pub fn pieces(&self, meridian: &Meridian) -> usize {
        pieces(meridian, self.deviation)
    }

    /// The point of a half-plane at r and z.
    pub fn point(&self, plane: i64, r: f64, z: f64) -> [f64; 3] {
        let [cos, sin] = self.rays[self.column(plane) as usize];
        [r * cos, r * sin, z]
    }
}

fn pieces(meridian: &Meridian, deviation: f64) -> usize {
    meridian.pieces(deviation * (1.0 - ACROSS))
}

/// The angles of all points in which cuts through rounded flanks are divided.
fn divisions(cuts: &[Trace], deviation: f64) -> impl Iterator<Item = f64> {
    cuts.iter().flat_map(move |trace| {
        let Trace::Cut(cut) = trace else { return Vec::new() };
        let inner = cut.between(pieces(&cut.surface.meridian, deviation));
        [0.0, 1.0].into_iter().chain(inner).map(|t| trace.at(t).theta).collect()
    })
}

/// Evenly spaced angles with others put among them, from the first of the even ones on; an even
/// one within [`CLEAR`] of another gives way to it.
fn merged(even: Vec<f64>, others: Vec<f64>, step: f64) -> Vec<f64> {
    if others.is_empty() {
        return even;
    }
    // From just before the first even one, so that it gives way to what lies on either side of it.
    let start = even[0] - CLEAR * step;
    let on_turn = |angle: f64| angle - ((angle - start) / TAU).floor() * TAU;
    let mut others: Vec<f64> = others.into_iter().map(on_turn).collect();
    others.sort_by(f64::total_cmp);
    others.dedup_by(|b, a| *b - *a < APART);
    let near = |a: f64| {
        let next = others.partition_point(|o| *o < a - CLEAR * step);
        others.get(next).is_some_and(|o| *o < a + CLEAR * step)
    };
    let mut all: Vec<f64> = even.iter().copied().filter(|a| !near(*a)).collect();
    all.extend(&others);
    all.sort_by(f64::total_cmp);
    all
}

/// The least distance of a corner from a half-plane of n that it does not lie on, in columns.
fn clearance(corners: &[f64], n: u32, offset: f64) -> f64 {
    let gap = |turns: &f64| {
        let columns = turns * f64::from(n) - offset;
        (columns - columns.round()).abs()
    };
    corners.iter().map(gap).filter(|gap| *gap >= ON_PLANE * f64::from(n) / TAU).fold(0.5, f64::min)
}

/// How far a mesh of columns of `step` radians may lie from these surfaces, and they from it.
fn deviation(surfaces: &[(Screw, [f64; 2])], step: f64) -> f64 {
    surfaces.iter().map(|(surface, u)| deviation_of(surface, *u, step)).fold(0.0, f64::max)
}

/// A bound for one surface between two angles u, cut in columns of `step` radians.
///
/// Without climb the piece in a column is flat, and off by the sagitta at the larger radius.
/// A surface of an arc bows both ways: what is off across the columns may use up [`ACROSS`] of
/// what is allowed, the pieces along its meridian the rest. With climb, the ruled quadrilateral
/// between two rulings is off the surface by `|S_uu|` step^2 / 8 towards the axis (linear
/// interpolation of the helices), and its two triangles part from it by a quarter of its twist,
/// along the circle. Of each only the share along the normal counts; the two may add up,
/// depending on the diagonal. For an arc the shares are taken at their greatest.
fn deviation_of(surface: &Screw, u: [f64; 2], step: f64) -> f64 {
    /// Terms of the third order in the step, which the shares leave out: under a thousandth at
    /// the fewest columns there may be.
    const HIGHER_ORDER: f64 = 1.02;
    if surface.climb == 0.0 {
        let sagitta = surface.meridian.widest() * (1.0 - libm::cos(step / 2.0));
        let bowed = surface.meridian.sweep() > 0.0;
        return if bowed { sagitta / ACROSS } else { sagitta };
    }
    let turned = libm::sin(step / 2.0);
    if surface.meridian.sweep() > 0.0 {
        let radii = surface.meridian.extremes().into_iter().map(|v| surface.r(v));
        let radii = radii.flat_map(|r| u.map(|u| (r + surface.out * u).abs()));
        let (least, most) = radii.fold((f64::MAX, f64::MIN), |(a, b), r| (a.min(r), b.max(r)));
        let inwards = libm::hypot(most, 2.0 * surface.out) * step * step / 8.0;
        let share = (surface.climb.abs() + surface.out.abs()) / least;
        return (inwards + turned * (most - least) / 2.0 * share) * HIGHER_ORDER / ACROSS;
    }
    let at = |u: f64, v: f64| {
        let dr = surface.meridian.rate(v)[0];
        let normal = surface.area_density(u, v);
        let [radial, tangential, _] = surface.normal(u, v).map(|part| (part / normal).abs());
        let r = (surface.r(v) + surface.out * u).abs();
        let inwards = libm::hypot(r, 2.0 * surface.out) * step * step / 8.0 * radial;
        inwards + turned * dr.abs() / 2.0 * tangential
    };
    // A drawn-out surface is measured at both ends of its face.
    let ends = u.into_iter().flat_map(|u| [at(u, 0.0), at(u, 1.0)]);
    ends.fold(0.0, f64::max) * HIGHER_ORDER
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
        let bound = deviation_of(&surface, [0.0; 2], step);
        assert!(worst <= bound, "{worst} {bound}");
        assert!(worst > bound / 1.5, "the bound is not idle: {worst} {bound}");
    }
}
