//! The least distance between two straight segments of the half-plane.

use nalgebra::Vector2;

use crate::solid::HalfPoint;

/// The nearest points of two segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Nearest {
    /// How far apart they are; zero where the segments meet.
    pub distance: f64,
    /// The point on the first segment.
    pub on_first: HalfPoint,
    /// The point on the second segment.
    pub on_second: HalfPoint,
}

/// The nearest points of two segments of the plane, each given by its ends.
///
/// Segments that do not cross are nearest at an end of one of them: four distances from a point
/// to a segment decide, so parallel segments need no case of their own (of the many nearest pairs
/// the first end's is given), and a segment of no length is a point. Segments that cross have
/// the distance zero at the crossing. Exact up to rounding.
pub(super) fn nearest(first: [HalfPoint; 2], second: [HalfPoint; 2]) -> Nearest {
    if let Some(at) = crossing(first, second) {
        return Nearest { distance: 0.0, on_first: at, on_second: at };
    }
    let to_second = |p: HalfPoint| {
        let q = foot(p, second);
        Nearest { distance: length(p, q), on_first: p, on_second: q }
    };
    let to_first = |q: HalfPoint| {
        let p = foot(q, first);
        Nearest { distance: length(p, q), on_first: p, on_second: q }
    };
    let rest = [to_second(first[1]), to_first(second[0]), to_first(second[1])];
    rest.into_iter().fold(to_second(first[0]), |best, next| {
        if next.distance < best.distance { next } else { best }
    })
}

fn length(p: HalfPoint, q: HalfPoint) -> f64 {
    (Vector2::from(p) - Vector2::from(q)).norm()
}

/// The point of a segment that is nearest to p.
fn foot(p: HalfPoint, [a, b]: [HalfPoint; 2]) -> HalfPoint {
    let (p, a, b) = (Vector2::from(p), Vector2::from(a), Vector2::from(b));
    let along = b - a;
    let square = along.norm_squared();
    if square == 0.0 {
        return a.into();
    }
    let t = ((p - a).dot(&along) / square).clamp(0.0, 1.0);
    // Exactly the end at t = 1: a + (b - a) need not be b.
    if t == 1.0 { b.into() } else { (a + along * t).into() }
}

/// Where two segments cross inside both; none for parallel ones, which if they meet do so at
/// an end.
fn crossing([a, b]: [HalfPoint; 2], [c, d]: [HalfPoint; 2]) -> Option<HalfPoint> {
    let (a, b) = (Vector2::from(a), Vector2::from(b));
    let (c, d) = (Vector2::from(c), Vector2::from(d));
    let (u, v) = (b - a, d - c);
    let determinant = u.perp(&v);
    if determinant == 0.0 {
        return None;
    }
    let (s, t) = ((c - a).perp(&v) / determinant, (c - a).perp(&u) / determinant);
    let inside = |x: f64| (0.0..=1.0).contains(&x);
    (inside(s) && inside(t)).then(|| (a + u * s).into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn distance(first: [HalfPoint; 2], second: [HalfPoint; 2]) -> f64 {
        nearest(first, second).distance
    }

    /// Expectations: plane geometry (3-4-5 triangles).
    #[test]
    fn known_pairs() {
        assert_eq!(distance([[0.0, 0.0], [0.0, 9.0]], [[3.0, 4.0], [7.0, 4.0]]), 3.0);
        assert_eq!(distance([[0.0, 0.0], [0.0, 1.0]], [[4.0, 4.0], [4.0, 9.0]]), 5.0);
        let crossed = nearest([[0.0, 0.0], [2.0, 2.0]], [[0.0, 2.0], [2.0, 0.0]]);
        assert_eq!((crossed.distance, crossed.on_first), (0.0, [1.0, 1.0]));
    }

    #[test]
    fn degenerate_pairs() {
        let point = [[1.0, 1.0], [1.0, 1.0]];
        assert_eq!(distance(point, [[4.0, 5.0], [4.0, 5.0]]), 5.0);
        assert_eq!(distance(point, [[0.0, 0.0], [2.0, 0.0]]), 1.0);
        let parallel = nearest([[1.0, 0.0], [1.0, 5.0]], [[3.0, 2.0], [3.0, 9.0]]);
        assert_eq!(parallel.distance, 2.0);
        let collinear = distance([[0.0, 0.0], [1.0, 0.0]], [[3.0, 0.0], [5.0, 0.0]]);
        assert_eq!(collinear, 2.0);
        assert_eq!(distance([[0.0, 0.0], [2.0, 0.0]], [[1.0, 0.0], [5.0, 0.0]]), 0.0);
        assert_eq!(distance([[0.0, 0.0], [2.0, 0.0]], [[2.0, 0.0], [5.0, 3.0]]), 0.0);
    }

    proptest! {
        /// Independent route: all pairs of 200 points on each. The nearest pair of samples lies
        /// within a step's length on either segment of the true one, and never nearer than it.
        #[test]
        fn agrees_with_sampling(c in prop::array::uniform8(-5.0_f64..5.0)) {
            const STEPS: u32 = 200;
            let (first, second) = ([[c[0], c[1]], [c[2], c[3]]], [[c[4], c[5]], [c[6], c[7]]]);
            let at = |s: [HalfPoint; 2], n: u32| {
                let t = f64::from(n) / f64::from(STEPS);
                [s[0][0] + (s[1][0] - s[0][0]) * t, s[0][1] + (s[1][1] - s[0][1]) * t]
            };
            let mut sampled = f64::INFINITY;
            for i in 0..=STEPS {
                for j in 0..=STEPS {
                    sampled = sampled.min(length(at(first, i), at(second, j)));
                }
            }
            let step = (length(first[0], first[1]) + length(second[0], second[1]))
                / f64::from(STEPS);
            let found = nearest(first, second);
            prop_assert!(found.distance <= sampled + 1e-12);
            prop_assert!(found.distance >= sampled - step);
            let between = length(found.on_first, found.on_second);
            prop_assert!((between - found.distance).abs() < 1e-12);
        }
    }
}
