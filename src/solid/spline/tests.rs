//! The splines, evaluated by their control points and knots alone.

use super::*;
use crate::solid::Polar;
use std::f64::consts::{PI, TAU};

/// De Boor's algorithm on the full knot vector. Source: de Boor, "A Practical Guide to Splines".
fn de_boor(knots: &Knots, points: &[[f64; 3]], x: f64) -> [f64; 3] {
    let full: Vec<f64> = knots
        .multiplicities()
        .iter()
        .enumerate()
        .flat_map(|(n, count)| std::iter::repeat_n(n as f64, *count))
        .collect();
    let p = knots.degree;
    assert_eq!(full.len(), points.len() + p + 1, "as many knots as points ask for");
    let span = (p..points.len() - 1).find(|k| x < full[k + 1]).unwrap_or(points.len() - 1);
    let mut d: Vec<[f64; 3]> = points[span - p..=span].to_vec();
    for r in 1..=p {
        for j in (r..=p).rev() {
            let (low, high) = (full[span - p + j], full[span + 1 + j - r]);
            let share = (x - low) / (high - low);
            d[j] = std::array::from_fn(|k| d[j - 1][k] * (1.0 - share) + d[j][k] * share);
        }
    }
    d[p]
}

fn worst(knots: &Knots, points: &[[f64; 3]], on: impl Fn(f64) -> [f64; 3]) -> f64 {
    const PLACES: usize = 1999;
    let off = |n: usize| {
        let share = n as f64 / PLACES as f64;
        distance(de_boor(knots, points, share * knots.spans as f64), on(share))
    };
    (0..=PLACES).map(off).fold(0.0, f64::max)
}

fn trace(from: [f64; 3], to: [f64; 3]) -> Trace {
    let polar = |[theta, r, z]: [f64; 3]| Polar { theta, r, z };
    Trace::straight(polar(from), polar(to))
}

/// Helix, Archimedean and conical spiral, short and half a turn, narrow and wide.
#[test]
fn curves_are_within_their_bound_and_the_bound_is_not_idle() {
    let fit = Fit::at_radius(6.5);
    for trace in [
        trace([0.0, 5.0, 1.0], [PI, 5.0, 1.4]),
        trace([40.0, 6.5, 1.0], [40.0 - PI, 6.5, -0.4]),
        trace([0.3, 4.0, 1.0], [2.9, 4.5, 1.0]),
        trace([0.3, 4.0, 1.0], [0.7, 4.5, 1.5]),
    ] {
        let curve = fit.curve(&trace, [0.0, 1.0]);
        let found = worst(&curve.knots, &curve.points, |t| array(trace.subs(t)));
        assert!(curve.deviation <= AIM, "{trace:?}: {}", curve.deviation);
        assert!(found <= curve.deviation, "{trace:?}: {found} {}", curve.deviation);
        if curve.knots.spans > 4 {
            assert!(found > AIM / 4.0, "more spans than it takes: {trace:?} {found}");
        }
    }
}

/// A part of a trace is that part, and ends where it ends.
#[test]
fn a_part_of_a_curve() {
    let whole = trace([0.0, 5.0, 1.0], [TAU, 4.0, 3.0]);
    let part = Fit::at_radius(5.0).curve(&whole, [0.25, 0.625]);
    let on = |share: f64| array(whole.subs(0.25 + 0.375 * share));
    assert!(worst(&part.knots, &part.points, on) <= part.deviation);
    let [first, last] = [part.points[0], part.points[part.points.len() - 1]];
    assert!(distance(first, on(0.0)) < 2e-10 && distance(last, on(1.0)) < 2e-10);
}

/// Published remainder: r h^6 / 46080 for one quintic Hermite span of a circle.
#[test]
fn one_span_of_a_circle_is_off_by_the_remainder() {
    let arc = trace([0.0, 10.0, 0.0], [0.4, 10.0, 0.0]);
    let coarse = Fit { step: 1.0 };
    let point = |t: f64| array(arc.subs(t));
    let jets = |t: f64, w: f64| jet(arc.subs(t), arc.der(t) * w, arc.der2(t) * (w * w));
    let curve = spline(coarse.spans(0.4), &point, &jets);
    let remainder = 10.0 * libm::pow(0.4, 6.0) / 46080.0;
    let found = worst(&curve.knots, &curve.points, point);
    assert!((found / remainder - 1.0).abs() < 0.01, "{found} {remainder}");
}

/// Where the step asked for is too long, more spans are taken.
#[test]
fn a_coarse_step_is_refined() {
    let helix = trace([0.0, 5.0, 1.0], [PI, 5.0, 1.4]);
    let curve = Fit { step: 2.0 }.curve(&helix, [0.0, 1.0]);
    assert!(worst(&curve.knots, &curve.points, |t| array(helix.subs(t))) <= AIM);
}

fn surface_is_off(surface: &Screw, u: [f64; 2]) -> (f64, SplineSurface) {
    let fitted = Fit::at_radius(surface.meridian.widest()).surface(surface, u);
    let mut found: f64 = 0.0;
    for n in 0..=30 {
        let v = f64::from(n) / 30.0;
        let across = v * fitted.v.spans as f64;
        let row: Vec<[f64; 3]> =
            fitted.points.iter().map(|points| de_boor(&fitted.v, points, across)).collect();
        let on = |share: f64| array(surface.subs(u[0] + (u[1] - u[0]) * share, v));
        found = found.max(worst(&fitted.u, &row, on));
    }
    (found, fitted)
}

#[test]
fn flanks_are_within_their_bound() {
    let flank = Screw::straight([4.6, 21.0], [5.0, 21.23], -6.0 * 0.75 / TAU);
    for u in [[0.0, PI], [31.0, 31.7]] {
        let (found, fitted) = surface_is_off(&flank, u);
        assert!(found <= fitted.deviation && fitted.deviation <= AIM, "{found}");
        assert_eq!((fitted.u.degree, fitted.v.degree), (5, 1));
    }
}

/// A rounded root: an arc that climbs.
#[test]
fn climbing_arcs_are_within_their_bound() {
    let meridian = Meridian::between([4.6, 21.0], [4.6, 21.1], 0.6);
    let root = Screw { meridian, ..Screw::straight([1.0, 0.0], [1.0, 1.0], 0.75 / TAU) };
    let (found, fitted) = surface_is_off(&root, [0.0, PI]);
    assert!(found <= fitted.deviation && fitted.deviation <= 2.0 * AIM, "{found}");
    assert_eq!((fitted.u.degree, fitted.v.degree), (5, 5));
}

/// A flank's border and the helix on it are one curve to a reader: the same control points.
#[test]
fn a_flank_and_its_helix_share_their_points() {
    let climb = 0.75 / TAU;
    let flank = Screw::straight([4.6, 21.0], [5.0, 21.23], climb);
    let fit = Fit::at_radius(5.0);
    let u = [12.0 * PI + 0.4, 13.0 * PI + 0.4];
    let at = |u: f64| [u, 5.0, 21.23 + climb * u];
    let helix = fit.curve(&trace(at(u[0]), at(u[1])), [0.0, 1.0]);
    let border: Vec<[f64; 3]> = fit.surface(&flank, u).points.iter().map(|row| row[1]).collect();
    let same = helix.points.iter().zip(&border).filter(|(a, b)| a == b).count();
    assert_eq!(helix.points.len(), border.len());
    assert!(same * 10 > border.len() * 9, "{same} of {}", border.len());
    assert!(helix.points.iter().zip(&border).all(|(a, b)| distance(*a, *b) < 2e-10));
}
