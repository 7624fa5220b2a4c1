//! Helices, spirals and thread flanks as B-splines within a stated distance.
//!
//! Quintic Hermite spans, even in the curve's own parameter: value and two derivatives are met at
//! every knot, so the curve is twice continuously differentiable with triple knots. A control
//! point is the polynomial's blossom at five successive knots; where three of them are one knot
//! b, it follows from what is met there alone:
//!
//! ```text
//!   F(b, b, b, x, y) = f + ((x - b) + (y - b)) f' / 5 + (x - b) (y - b) f'' / 20
//! ```
//! Source: Ramshaw, "Blossoms are polar forms", 1989; the formula from memory, and tested.

use truck_modeling::{ParametricCurve, ParametricSurface, Point3, Vector3};

use super::{Body, HalfPoint, Meridian, Screw, Trace};

/// What a spline may be off by, in millimetres, unless somebody asks for less: what readers take
/// for one point. Larger ones are repaired by readers, smaller ones only fill the file.
const AIM: f64 = 1e-7;

/// Places within a span at which the deviation is measured; its peak is in the middle.
const PROBES: usize = 8;

/// What the peak of a deviation may be above the greatest one measured: between two probes next
/// to the middle of a span it changes by a twentieth, and the sixth derivative by less than that.
const MARGIN: f64 = 1.25;

/// Spans of one curve at most; where they do not suffice the last deviation is reported.
const MOST_SPANS: usize = 4096;

/// Control points are rounded to this many to the millimetre: a thousandth of [`AIM`], so that
/// a flank and the helix on its border have the same ones.
const GRID: f64 = 1e10;

/// A point, and its first and second derivative.
type Jet = [[f64; 3]; 3];

/// A B-spline's knots: 0, 1, 2 and so on, and how often each counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Knots {
    /// The degree.
    pub degree: usize,
    /// The spans, each 1 long.
    pub spans: usize,
}

impl Knots {
    /// Multiplicity of each knot.
    pub fn multiplicities(&self) -> Vec<usize> {
        let inner = if self.degree == 5 { 3 } else { 1 };
        (0..=self.spans)
            .map(|n| if n == 0 || n == self.spans { self.degree + 1 } else { inner })
            .collect()
    }
}

/// A curve as a B-spline.
#[derive(Clone, Debug, PartialEq)]
pub struct SplineCurve {
    /// Its knots.
    pub knots: Knots,
    /// Control points, in millimetres.
    pub points: Vec<[f64; 3]>,
    /// Bound on its distance from the curve, at equal parameters, in millimetres.
    pub deviation: f64,
}

/// A surface as a B-spline.
#[derive(Clone, Debug, PartialEq)]
pub struct SplineSurface {
    /// Knots in u, from the least angle to the greatest.
    pub u: Knots,
    /// Knots in v.
    pub v: Knots,
    /// Control points, in millimetres: for each along u those along v.
    pub points: Vec<Vec<[f64; 3]>>,
    /// Bound on its distance from the surface, at equal parameters, in millimetres.
    pub deviation: f64,
}

/// Fits splines to the climbing curves and surfaces of one body, all with spans of about the
/// same angle, so that a flank and the helices on its borders are cut alike.
#[derive(Clone, Copy, Debug)]
pub struct Fit {
    /// The angle of a span, in radians.
    step: f64,
}

impl Fit {
    /// For the body's widest climbing surface.
    pub fn of(body: &Body) -> Self {
        let surfaces = body.faces().map(|(face, _)| face.surface());
        let widest = surfaces.filter(|s| s.climb != 0.0).map(|s| s.meridian.widest());
        Self::at_radius(widest.fold(0.0, f64::max))
    }

    /// For a radius: the remainder of a quintic Hermite span of angle h on a circle of radius r
    /// is at most r (h / 2)^6 / 6! = r h^6 / 46080, and on a helix the same.
    /// Source: Hermite's remainder, f^(6) / 6! times the knots' distances; Davis, "Interpolation
    /// and Approximation", 1963, chapter 3 (from memory).
    pub fn at_radius(radius: f64) -> Self {
        /// What is left for the rounding of control points.
        const ROOM: f64 = 0.95;
        let step = libm::pow(46080.0 * AIM * ROOM / MARGIN / radius.max(1.0), 1.0 / 6.0);
        Self { step }
    }

    /// The part of a trace between two parameters.
    pub fn curve(self, trace: &Trace, [from, to]: [f64; 2]) -> SplineCurve {
        let turn = (trace.at(to).theta - trace.at(from).theta).abs();
        let t_at = |share: f64| from + (to - from) * share;
        let point = |share: f64| array(trace.subs(t_at(share)));
        quintic(self.spans(turn), point, |share, width| {
            let (t, width) = (t_at(share), width * (to - from));
            jet(trace.subs(t), trace.der(t) * width, trace.der2(t) * (width * width))
        })
    }

    /// The part of a climbing surface between two angles, over all of its meridian.
    ///
    /// The meridian becomes a spline, and each of its control points is swept; since fitting is
    /// linear, that is the tensor product of both fits. The sweep is a motion, so the meridian's
    /// deviation is what it was, and along u no row is off by more than the worst of them.
    pub fn surface(self, surface: &Screw, [from, to]: [f64; 2]) -> SplineSurface {
        let rows = match surface.meridian {
            Meridian::Line { from, to } => SplineCurve {
                knots: Knots { degree: 1, spans: 1 },
                points: vec![[from[0], from[1], 0.0], [to[0], to[1], 0.0]],
                deviation: 0.0,
            },
            Meridian::Arc { sweep, .. } => arc(&surface.meridian, self.spans(sweep.abs())),
        };
        let mut spans = self.spans(to - from);
        let swept = loop {
            let sweep = |p: &[f64; 3]| swept(surface, [p[0], p[1]], [from, to], spans);
            let swept: Vec<SplineCurve> = rows.points.iter().map(sweep).collect();
            let worst = swept.iter().map(|row| row.deviation).fold(0.0, f64::max);
            if worst <= AIM || spans >= MOST_SPANS {
                break swept;
            }
            spans *= 2;
        };
        let deviation = swept.iter().map(|row| row.deviation).fold(0.0, f64::max);
        let column = |n: usize| swept.iter().map(|row| row.points[n]).collect();
        SplineSurface {
            u: swept[0].knots.clone(),
            v: rows.knots,
            points: (0..swept[0].points.len()).map(column).collect(),
            deviation: deviation + rows.deviation,
        }
    }

    /// Control points of a curve of so much angle, as long as no finer spans are needed.
    pub fn points(self, angle: f64) -> usize {
        3 * (self.spans(angle) + 1)
    }

    fn spans(self, angle: f64) -> usize {
        (angle / self.step).ceil().max(1.0) as usize
    }
}

/// The helix of one point of the half-plane, carried as a surface carries its meridian.
fn swept(surface: &Screw, at: HalfPoint, [from, to]: [f64; 2], spans: usize) -> SplineCurve {
    let carried = Screw { meridian: Meridian::Line { from: at, to: at }, ..*surface };
    let angle = |share: f64| from + (to - from) * share;
    let point = |share: f64| array(carried.subs(angle(share), 0.0));
    let jet = |share: f64, width: f64| {
        let (u, width) = (angle(share), width * (to - from));
        let (first, second) = (carried.uder(u, 0.0), carried.uuder(u, 0.0));
        jet(carried.subs(u, 0.0), first * width, second * (width * width))
    };
    spline(spans, &point, &jet)
}

/// An arc of the half-plane, as (r, z, 0).
fn arc(meridian: &Meridian, spans: usize) -> SplineCurve {
    let flat = |[r, z]: [f64; 2], by: f64| [r * by, z * by, 0.0];
    quintic(
        spans,
        |v| flat(meridian.at(v), 1.0),
        |v, width| {
            let (rate, bend) = (meridian.rate(v), meridian.bend(v));
            [flat(meridian.at(v), 1.0), flat(rate, width), flat(bend, width * width)]
        },
    )
}

/// A spline with as many spans as it takes, at least `spans`; see [`spline`].
fn quintic(
    mut spans: usize,
    point: impl Fn(f64) -> [f64; 3],
    jet: impl Fn(f64, f64) -> Jet,
) -> SplineCurve {
    loop {
        let curve = spline(spans, &point, &jet);
        if curve.deviation <= AIM || spans >= MOST_SPANS {
            return curve;
        }
        spans *= 2;
    }
}

/// A spline over even spans of a parameter from 0 to 1; `jet(s, width)` is the jet at s by the
/// parameter in which a span, `width` of the whole, is 1 long.
fn spline(
    spans: usize,
    point: &impl Fn(f64) -> [f64; 3],
    jet: &impl Fn(f64, f64) -> Jet,
) -> SplineCurve {
    let width = 1.0 / spans as f64;
    let jets: Vec<Jet> = (0..=spans).map(|n| jet(n as f64 / spans as f64, width)).collect();
    let mut points = Vec::with_capacity(3 * jets.len());
    for (n, jet) in jets.iter().enumerate() {
        let before = if n == 0 { 0.0 } else { -1.0 };
        let behind = if n == spans { 0.0 } else { 1.0 };
        let pairs = [[before, before], [before, behind], [behind, behind]];
        points.extend(pairs.map(|[x, y]| blossom(jet, x, y).map(rounded)));
    }
    let mut worst: f64 = 0.0;
    for (n, pair) in jets.windows(2).enumerate() {
        for probe in 1..PROBES {
            let x = probe as f64 / PROBES as f64;
            let (on, off) = (point((n as f64 + x) / spans as f64), hermite(&pair[0], &pair[1], x));
            worst = worst.max(distance(on, off));
        }
    }
    SplineCurve {
        knots: Knots { degree: 5, spans },
        points,
        deviation: worst * MARGIN + 1.0 / GRID,
    }
}

/// The blossom at a knot thrice and at x and y from it.
fn blossom(jet: &Jet, x: f64, y: f64) -> [f64; 3] {
    std::array::from_fn(|k| jet[0][k] + (x + y) * jet[1][k] / 5.0 + x * y * jet[2][k] / 20.0)
}

/// The quintic between two jets at x of the span, in Bernstein's form.
fn hermite(a: &Jet, b: &Jet, x: f64) -> [f64; 3] {
    let mut points = [
        a[0],
        blossom(a, 0.0, 1.0),
        blossom(a, 1.0, 1.0),
        blossom(b, -1.0, -1.0),
        blossom(b, 0.0, -1.0),
        b[0],
    ];
    for last in (0..5).rev() {
        for n in 0..=last {
            points[n] =
                std::array::from_fn(|k| points[n][k] + (points[n + 1][k] - points[n][k]) * x);
        }
    }
    points[0]
}

fn jet(point: Point3, first: Vector3, second: Vector3) -> Jet {
    [array(point), [first.x, first.y, first.z], [second.x, second.y, second.z]]
}

fn array(p: Point3) -> [f64; 3] {
    [p.x, p.y, p.z]
}

fn rounded(v: f64) -> f64 {
    // `+ 0.0`: there is no negative zero in a file.
    (v * GRID).round() / GRID + 0.0
}

fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    let square = |k: usize| (a[k] - b[k]) * (a[k] - b[k]);
    (square(0) + square(1) + square(2)).sqrt()
}

#[cfg(test)]
mod tests;
