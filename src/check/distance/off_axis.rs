//! The nearest points of two turned surfaces of which one lies beside the other's axis.
//!
//! ```text
//!            s ______________ outside            bore, and how far it may lie off:
//!                                                  +-------+
//!      r + e   +-----+                             |       |    every point of it takes
//!      r       |bore |   at most e off the axis:   +-------+    any r from r - e to r + e
//!      r - e   +-----+
//! ```
//! A circle of radius r whose centre is e from the axis lies, turned about that axis, between the
//! radii r - e and r + e and takes all of them; so the least distance between a bore that is up to
//! e off and an outside is that, in the half-plane, between the bore's line smeared by e to both
//! sides along r, and the outside's line. It is exact for a bore whose axis is parallel; where a
//! drill wanders, so that its points are off by different amounts of at most e, no wall is less.

use super::{Curve, Nearest, nearest};
use crate::solid::HalfPoint;

/// The nearest points of a bore's straight line, up to `off` beside its axis, and an outside's
/// line. The bore's point is the one that it takes when it is off.
///
/// Where the axis may come so far off that both could touch, the distance is 0 or less: that on
/// one axis, less `off`; its points are those on one axis.
pub(in crate::check) fn nearest_off_axis(
    bore: [HalfPoint; 2],
    outside: &Curve,
    off: f64,
) -> Nearest {
    let on_axis = nearest(&Curve::Segment(bore), outside);
    if off == 0.0 {
        return on_axis;
    }
    let found = nearest_smeared(bore, outside, off);
    match found {
        Some(found) if found.distance > 0.0 => found,
        _ => Nearest { distance: (on_axis.distance - off).min(0.0), ..on_axis },
    }
}

/// From the border of the smeared line; none where it has the outside in it.
fn nearest_smeared(bore: [HalfPoint; 2], outside: &Curve, off: f64) -> Option<Nearest> {
    if covers(bore, off, outside.ends()[0]) {
        return None;
    }
    let moved = |by: f64| bore.map(|[r, z]| [r + by, z]);
    let cap = |[r, z]: HalfPoint| [[r - off, z], [r + off, z]];
    let border = [moved(off), moved(-off), cap(bore[0]), cap(bore[1])];
    let found = border.into_iter().map(|side| nearest(&Curve::Segment(side), outside));
    found.reduce(|best, next| if next.distance < best.distance { next } else { best })
}

/// Whether a point lies on the smeared line; that of a plane has no inside.
fn covers([a, b]: [HalfPoint; 2], off: f64, [r, z]: HalfPoint) -> bool {
    let share = (z - a[1]) / (b[1] - a[1]);
    (0.0..=1.0).contains(&share) && (r - (a[0] + (b[0] - a[0]) * share)).abs() <= off
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn segment(a: HalfPoint, b: HalfPoint) -> Curve {
        Curve::Segment([a, b])
    }

    /// Expectations: plane geometry. Cylinders lose the whole offset; flat floors none of it; a
    /// corner 3 under and 4 beside another is 5 from it on one axis, and hypot(3 - e, 4) off it.
    #[test]
    fn an_offset_counts_along_the_radius() {
        let bore = [[3.0, 0.0], [3.0, 9.0]];
        let found = nearest_off_axis(bore, &segment([4.0, 0.0], [4.0, 9.0]), 0.1);
        assert!((found.distance - 0.9).abs() < 1e-12 && (found.on_first[0] - 3.1).abs() < 1e-12);
        let floor = [[0.0, 0.0], [3.0, 0.0]];
        let found = nearest_off_axis(floor, &segment([0.0, 2.0], [5.0, 2.0]), 0.1);
        assert!((found.distance - 2.0).abs() < 1e-12);
        let beyond = segment([6.0, 13.0], [9.0, 13.0]);
        let found = nearest_off_axis(bore, &beyond, 1.0);
        assert!((found.distance - 20.0_f64.sqrt()).abs() < 1e-12);
        assert_eq!(nearest_off_axis(bore, &beyond, 0.0).distance, 5.0);
    }

    /// Limiting case: a wall thinner than the offset is none, and says by how much.
    #[test]
    fn a_wall_thinner_than_the_offset_is_gone() {
        let bore = [[3.0, 0.0], [3.0, 9.0]];
        for outside in [segment([3.04, 0.0], [3.04, 9.0]), segment([3.04, 4.0], [3.04, 5.0])] {
            let found = nearest_off_axis(bore, &outside, 0.1);
            assert!((found.distance + 0.06).abs() < 1e-12, "{found:?}");
        }
    }

    proptest! {
        /// Independent route: circles in space. Points of both circles through a pair of points,
        /// the bore's about an axis at (e, 0), are never nearer than what is found; and with the
        /// pair that is found, they are as near.
        #[test]
        fn agrees_with_circles_in_space(
            c in prop::array::uniform8(0.5_f64..5.0),
            bulge in prop_oneof![Just(0.0), -1.5_f64..1.5],
            off in 0.01_f64..0.4,
            shares in prop::array::uniform2(0.0_f64..1.0),
            angles in prop::array::uniform2(0.0_f64..6.3),
        ) {
            let bore = [[c[0], c[1]], [c[2], c[3]]];
            let outside = Curve::between([c[4], c[5]], [c[6], c[7]], bulge);
            // No line of a half-plane goes over its axis.
            let over = |arc: &super::super::Arc| {
                arc.line.extremes().into_iter().any(|v| arc.line.at(v)[0] < 0.0)
            };
            prop_assume!(!matches!(&outside, Curve::Arc(arc) if over(arc)));
            let found = nearest_off_axis(bore, &outside, off);
            prop_assume!(found.distance > 0.0);
            let on = |[a, b]: [HalfPoint; 2], t: f64| [0, 1].map(|k| a[k] + (b[k] - a[k]) * t);
            let p = on(bore, shares[0]);
            let q = match &outside {
                Curve::Segment(ends) => on(*ends, shares[1]),
                Curve::Arc(arc) => arc.line.at(shares[1]),
            };
            let in_space = |[r, z]: HalfPoint, angle: f64, centre: f64| {
                let (sin, cos) = libm::sincos(angle);
                [centre + r * cos, r * sin, z]
            };
            let apart = |a: [f64; 3], b: [f64; 3]| {
                (0..3).map(|k| (a[k] - b[k]) * (a[k] - b[k])).sum::<f64>().sqrt()
            };
            let sample = apart(in_space(p, angles[0], off), in_space(q, angles[1], 0.0));
            prop_assert!(sample >= found.distance - 1e-9, "{sample} {found:?}");
            // Never less than the distance on one axis less the offset, never more than it.
            let on_axis = nearest(&Curve::Segment(bore), &outside).distance;
            prop_assert!(found.distance >= on_axis - off - 1e-12);
            prop_assert!(found.distance <= on_axis + 1e-12);
        }
    }
}
