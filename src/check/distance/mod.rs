//! The least distance between two curves of the half-plane, straight or arcs.
//!
//! Curves that do not cross are nearest at an end of one of them, or where both run parallel: a
//! segment beside an arc where the arc's tangent has the segment's direction, two arcs on the
//! line through their centres. All such pairs are tried, so the distance is exact up to rounding;
//! of many nearest pairs (parallel segments, arcs round one centre) one at an end is given.

mod arc;
mod bounds;
mod off_axis;
mod segment;

pub(super) use bounds::Bounds;
pub(super) use off_axis::nearest_off_axis;

use nalgebra::Vector2;

use crate::solid::{HalfPoint, Meridian, Swept};

/// An arc with all that is asked of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    centre: Vector2<f64>,
    radius: f64,
    /// The same arc, for its angles.
    line: Meridian,
    /// Its ends as they are, without the rounding of their angles.
    ends: [HalfPoint; 2],
}

impl Arc {
    /// Whether a point of the circle lies between the ends.
    fn holds(&self, p: HalfPoint) -> bool {
        (0.0..=1.0).contains(&self.line.v_of(p))
    }
}

/// A segment, given by its ends, or an arc.
#[derive(Clone, Copy, Debug)]
pub(super) enum Curve {
    Segment([HalfPoint; 2]),
    Arc(Arc),
}

impl Curve {
    /// The line of a face.
    pub fn of(swept: &Swept) -> Self {
        Self::between(swept.from, swept.to, swept.bulge)
    }

    /// A segment, or, where the bulge is not 0, an arc ([`Meridian::between`]).
    pub fn between(from: HalfPoint, to: HalfPoint, bulge: f64) -> Self {
        let line = Meridian::between(from, to, bulge);
        match line {
            Meridian::Line { .. } => Self::Segment([from, to]),
            Meridian::Arc { centre, radius, .. } => {
                Self::Arc(Arc { centre: Vector2::from(centre), radius, line, ends: [from, to] })
            }
        }
    }

    fn ends(&self) -> [HalfPoint; 2] {
        match self {
            Self::Segment(ends) => *ends,
            Self::Arc(arc) => arc.ends,
        }
    }

    /// The point of the curve that is nearest to p.
    fn foot(&self, p: HalfPoint) -> HalfPoint {
        match self {
            Self::Segment(ends) => segment::foot(p, *ends),
            Self::Arc(arc) => arc::foot(p, arc),
        }
    }

    fn crossings(&self, other: &Self) -> Vec<HalfPoint> {
        match (self, other) {
            (Self::Segment(a), Self::Segment(b)) => segment::crossing(*a, *b).into_iter().collect(),
            (Self::Segment(line), Self::Arc(arc)) | (Self::Arc(arc), Self::Segment(line)) => {
                arc::crossings_of_segment(*line, arc)
            }
            (Self::Arc(a), Self::Arc(b)) => arc::crossings_of_arc(a, b),
        }
    }

    /// Pairs of points at which both run parallel.
    fn beside(&self, other: &Self) -> Vec<(HalfPoint, HalfPoint)> {
        match (self, other) {
            (Self::Segment(_), Self::Segment(_)) => vec![],
            (Self::Segment(ends), Self::Arc(arc)) => {
                let points = arc::beside_segment(*ends, arc).into_iter();
                points.map(|p| (segment::foot(p, *ends), p)).collect()
            }
            (Self::Arc(arc), Self::Segment(ends)) => {
                let points = arc::beside_segment(*ends, arc).into_iter();
                points.map(|p| (p, segment::foot(p, *ends))).collect()
            }
            (Self::Arc(a), Self::Arc(b)) => arc::beside_arc(a, b),
        }
    }
}

/// The nearest points of two curves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Nearest {
    /// How far apart they are; zero where the curves meet.
    pub distance: f64,
    /// The point on the first curve.
    pub on_first: HalfPoint,
    /// The point on the second curve.
    pub on_second: HalfPoint,
}

/// The nearest points of two curves; where they cross, the first crossing.
pub(super) fn nearest(first: &Curve, second: &Curve) -> Nearest {
    if let Some(at) = first.crossings(second).first() {
        return Nearest { distance: 0.0, on_first: *at, on_second: *at };
    }
    let [a, b] = first.ends().map(|p| pair(p, second.foot(p)));
    let others = second.ends().map(|q| pair(first.foot(q), q));
    let beside = first.beside(second).into_iter().map(|(p, q)| pair(p, q));
    [b].into_iter()
        .chain(others)
        .chain(beside)
        .fold(a, |best, next| if next.distance < best.distance { next } else { best })
}

/// Every pair of points at which a point that walks along the first curve may come nearest to the
/// second, crossings among them; the ends of the first are left out.
pub(super) fn near_passes(first: &Curve, second: &Curve) -> Vec<Nearest> {
    let mut passes: Vec<Nearest> = second.ends().map(|q| pair(first.foot(q), q)).to_vec();
    passes.extend(first.beside(second).into_iter().map(|(p, q)| pair(p, q)));
    passes.extend(first.crossings(second).into_iter().map(|p| pair(p, p)));
    passes
}

fn pair(p: HalfPoint, q: HalfPoint) -> Nearest {
    Nearest { distance: length(p, q), on_first: p, on_second: q }
}

fn length(p: HalfPoint, q: HalfPoint) -> f64 {
    (Vector2::from(p) - Vector2::from(q)).norm()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn line(ends: [HalfPoint; 2]) -> Curve {
        Curve::between(ends[0], ends[1], 0.0)
    }

    fn distance(first: [HalfPoint; 2], second: [HalfPoint; 2]) -> f64 {
        nearest(&line(first), &line(second)).distance
    }

    /// Expectations: plane geometry (3-4-5 triangles).
    #[test]
    fn known_pairs() {
        assert_eq!(distance([[0.0, 0.0], [0.0, 9.0]], [[3.0, 4.0], [7.0, 4.0]]), 3.0);
        assert_eq!(distance([[0.0, 0.0], [0.0, 1.0]], [[4.0, 4.0], [4.0, 9.0]]), 5.0);
        let crossed = nearest(&line([[0.0, 0.0], [2.0, 2.0]]), &line([[0.0, 2.0], [2.0, 0.0]]));
        assert_eq!((crossed.distance, crossed.on_first), (0.0, [1.0, 1.0]));
    }

    #[test]
    fn degenerate_pairs() {
        let point = [[1.0, 1.0], [1.0, 1.0]];
        assert_eq!(distance(point, [[4.0, 5.0], [4.0, 5.0]]), 5.0);
        assert_eq!(distance(point, [[0.0, 0.0], [2.0, 0.0]]), 1.0);
        let parallel = nearest(&line([[1.0, 0.0], [1.0, 5.0]]), &line([[3.0, 2.0], [3.0, 9.0]]));
        assert_eq!(parallel.distance, 2.0);
        let collinear = distance([[0.0, 0.0], [1.0, 0.0]], [[3.0, 0.0], [5.0, 0.0]]);
        assert_eq!(collinear, 2.0);
        assert_eq!(distance([[0.0, 0.0], [2.0, 0.0]], [[1.0, 0.0], [5.0, 0.0]]), 0.0);
        assert_eq!(distance([[0.0, 0.0], [2.0, 0.0]], [[2.0, 0.0], [5.0, 3.0]]), 0.0);
    }

    /// Expectations: plane geometry of circles.
    #[test]
    fn arcs_to_lines_and_points() {
        // The lower half of a circle of radius 1 about (r 5, z 1).
        let dip = Curve::between([5.0, 0.0], [5.0, 2.0], 1.0);
        let bore = line([[3.0, -9.0], [3.0, 9.0]]);
        let found = nearest(&bore, &dip);
        assert!((found.distance - 1.0).abs() < 1e-12);
        assert!(
            (found.on_second[0] - 4.0).abs() < 1e-12 && (found.on_first[1] - 1.0).abs() < 1e-12
        );
        // From its centre every point is as near; a segment through it crosses.
        let centre = line([[5.0, 1.0], [5.0, 1.0]]);
        assert!((nearest(&centre, &dip).distance - 1.0).abs() < 1e-12);
        assert_eq!(nearest(&line([[5.0, 1.0], [3.0, 1.0]]), &dip).distance, 0.0);
        // Above its ends the missing half does not count.
        let above = nearest(&line([[7.0, -9.0], [7.0, 9.0]]), &dip);
        assert!((above.distance - 2.0).abs() < 1e-12);
    }

    #[test]
    fn arcs_to_arcs() {
        let dip = Curve::between([5.0, 0.0], [5.0, 2.0], 1.0);
        let rise = Curve::between([1.0, 0.0], [1.0, 2.0], -1.0);
        assert!((nearest(&dip, &rise).distance - 2.0).abs() < 1e-12);
        // Round one centre: the difference of the radii.
        let inner = Curve::between([5.0, 0.5], [5.0, 1.5], 1.0);
        assert!((nearest(&dip, &inner).distance - 0.5).abs() < 1e-12);
        let crossing = Curve::between([4.5, 0.0], [4.5, 2.0], -1.0);
        let met = nearest(&dip, &crossing);
        assert_eq!(met.distance, 0.0);
    }

    fn at(curve: &Curve, t: f64) -> HalfPoint {
        match curve {
            Curve::Segment([a, b]) => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t],
            Curve::Arc(arc) => arc.line.at(t),
        }
    }

    proptest! {
        /// Independent route: all pairs of 200 points on each, segments and arcs up to nearly
        /// full circles. The nearest pair of samples lies within a step's length on either curve
        /// of the true one, and never nearer than it.
        #[test]
        fn agrees_with_sampling(
            c in prop::array::uniform8(-5.0_f64..5.0),
            bulges in prop::array::uniform2(prop_oneof![Just(0.0), -3.0_f64..3.0]),
        ) {
            const STEPS: u32 = 200;
            let first = Curve::between([c[0], c[1]], [c[2], c[3]], bulges[0]);
            let second = Curve::between([c[4], c[5]], [c[6], c[7]], bulges[1]);
            let samples = |curve: &Curve| -> Vec<HalfPoint> {
                (0..=STEPS).map(|n| at(curve, f64::from(n) / f64::from(STEPS))).collect()
            };
            let (ours, theirs) = (samples(&first), samples(&second));
            let mut sampled = f64::INFINITY;
            for p in &ours {
                for q in &theirs {
                    sampled = sampled.min(length(*p, *q));
                }
            }
            let way = |points: &[HalfPoint]| points.windows(2).map(|w| length(w[0], w[1])).sum::<f64>();
            // Chords are a little shorter than their arcs.
            let step = 1.001 * (way(&ours) + way(&theirs)) / f64::from(STEPS);
            let found = nearest(&first, &second);
            prop_assert!(found.distance <= sampled + 1e-9);
            prop_assert!(found.distance >= sampled - step);
            let between = length(found.on_first, found.on_second);
            prop_assert!((between - found.distance).abs() < 1e-12);
        }
    }
}
