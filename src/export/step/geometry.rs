//! Points, directions, placements and curves.

use super::exchange::{Exchange, Id, list};
use super::real::{real, triple};
use crate::solid::{Fit, Knots, Meridian, PieceCurve, PieceEdge, Pieces, SplineCurve};

/// Along the axis.
pub(super) const UP: [f64; 3] = [0.0, 0.0, 1.0];
/// Against it.
pub(super) const DOWN: [f64; 3] = [0.0, 0.0, -1.0];

pub(super) fn point(data: &mut Exchange, at: [f64; 3]) -> Id {
    data.value(format!("CARTESIAN_POINT('',{})", triple(at)))
}

pub(super) fn direction(data: &mut Exchange, along: [f64; 3]) -> Id {
    data.value(format!("DIRECTION('',{})", triple(along)))
}

/// A placement: its z along `axis`, its x along `reference`.
pub(super) fn placement(
    data: &mut Exchange,
    at: [f64; 3],
    axis: [f64; 3],
    reference: [f64; 3],
) -> Id {
    let (at, axis) = (point(data, at), direction(data, axis));
    let reference = direction(data, reference);
    data.value(format!("AXIS2_PLACEMENT_3D('',{at},{axis},{reference})"))
}

/// A placement on the axis, its x along the angle 0.
pub(super) fn on_axis(data: &mut Exchange, z: f64, axis: [f64; 3]) -> Id {
    placement(data, [0.0, 0.0, z], axis, [1.0, 0.0, 0.0])
}

/// An edge's curve, and whether it runs from the edge's first vertex to its second.
pub(super) fn curve(
    data: &mut Exchange,
    edge: &PieceEdge,
    pieces: &Pieces,
    fit: Fit,
) -> (Id, bool) {
    match edge.curve {
        PieceCurve::Trace { trace, span } => {
            let at = |share: f64| trace.at(span[0] + (span[1] - span[0]) * share);
            let [from, middle, to] = [0.0, 0.37, 1.0].map(at);
            if from.r == middle.r && from.z == middle.z && to.r == from.r && to.z == from.z {
                return (circle(data, from.r, from.z), to.theta > from.theta);
            }
            if from.theta == middle.theta && from.theta == to.theta && straight(from, middle, to) {
                return (line(data, edge, pieces), true);
            }
            (spline(data, &fit.curve(&trace, span)), true)
        }
        PieceCurve::Generatrix { line: generatrix, theta, span } => match generatrix {
            Meridian::Line { .. } => (line(data, edge, pieces), true),
            Meridian::Arc { centre, radius, sweep, .. } => {
                let (sin, cos) = libm::sincos(theta);
                let at = [centre[0] * cos, centre[0] * sin, centre[1]];
                // The arc's angle is counted from z towards r.
                let place = placement(data, at.map(clean), [-sin, cos, 0.0].map(clean), UP);
                let curve = data.value(format!("CIRCLE('',{place},{})", real(radius)));
                (curve, (span[1] > span[0]) == (sweep > 0.0))
            }
        },
    }
}

/// Whether three points at one angle lie in a line.
fn straight(a: crate::solid::Polar, b: crate::solid::Polar, c: crate::solid::Polar) -> bool {
    /// Millimetres: far under what a spline is off by.
    const FLAT: f64 = 1e-9;
    let ((dr, dz), (er, ez)) = ((c.r - a.r, c.z - a.z), (b.r - a.r, b.z - a.z));
    (dr * ez - dz * er).abs() <= FLAT * libm::hypot(dr, dz)
}

fn circle(data: &mut Exchange, r: f64, z: f64) -> Id {
    let place = on_axis(data, z, UP);
    data.value(format!("CIRCLE('',{place},{})", real(r)))
}

fn line(data: &mut Exchange, edge: &PieceEdge, pieces: &Pieces) -> Id {
    let [a, b] = edge.ends.map(|end| pieces.vertices[end]);
    let along: [f64; 3] = std::array::from_fn(|k| b[k] - a[k]);
    let length = (along[0] * along[0] + along[1] * along[1] + along[2] * along[2]).sqrt();
    let (from, along) = (point(data, a), direction(data, along.map(|v| clean(v / length))));
    let vector = data.value(format!("VECTOR('',{along},1.)"));
    data.value(format!("LINE('',{from},{vector})"))
}

fn spline(data: &mut Exchange, curve: &SplineCurve) -> Id {
    let points: Vec<Id> = curve.points.iter().map(|p| point(data, *p)).collect();
    let record = format!(
        "B_SPLINE_CURVE_WITH_KNOTS('',{},{},.UNSPECIFIED.,.F.,.F.,{},.UNSPECIFIED.)",
        curve.knots.degree,
        list(points),
        knots(&[&curve.knots])
    );
    data.value(record)
}

/// Multiplicities of each, then values of each: `(6,3,6),(0.,1.,2.)`.
pub(super) fn knots(all: &[&Knots]) -> String {
    let bracketed = |items: Vec<String>| format!("({})", items.join(","));
    let multiplicities =
        all.iter().map(|k| bracketed(k.multiplicities().iter().map(usize::to_string).collect()));
    let values = all.iter().map(|k| bracketed((0..=k.spans).map(|n| real(n as f64)).collect()));
    multiplicities.chain(values).collect::<Vec<_>>().join(",")
}

/// Without the rounding of an angle's sine: what is nothing beside 1 mm is 0.
fn clean(v: f64) -> f64 {
    /// Below it a number is the rounding of a sine of pi.
    const NOTHING: f64 = 1e-15;
    if v.abs() < NOTHING { 0.0 } else { v }
}
