//! A closed path of a chain and the axis.

use crate::drawing::{Point, Polyline, Segment};

/// A corner that lies no farther than this from the line between its neighbours, in mm, is none.
/// More, and a kink that was meant is lost; less, and the rounding of a taper that was given in two
/// pieces leaves a corner, at which a control slows down.
const STRAIGHT: f64 = 1e-9;

/// The path from the axis to the chain's beginning, along it, to the axis, and along the axis to
/// where it began. Lines that go on in one direction are one line; none is without length.
pub fn closed(chain: &Polyline) -> Polyline {
    let foot = |p: Point| Point::new(p.x, 0.0);
    let ends = (chain.points().first(), chain.points().last());
    let (Some(first), Some(last)) = ends else { return Polyline::default() };
    let up = Segment::line(foot(*first), *first);
    let home = [Segment::line(*last, foot(*last)), Segment::line(foot(*last), foot(*first))];
    Polyline::closed(joined([up].into_iter().chain(chain.segments()).chain(home)))
}

/// The segments, those that go on straight joined, those without length left out.
fn joined(segments: impl Iterator<Item = Segment>) -> Vec<Segment> {
    let mut found: Vec<Segment> = Vec::new();
    for segment in segments.filter(|segment| segment.from != segment.to) {
        match found.last_mut() {
            Some(last) if goes_on(*last, segment) => last.to = segment.to,
            _ => found.push(segment),
        }
    }
    found
}

/// Whether two lines that follow each other are one.
fn goes_on(before: Segment, after: Segment) -> bool {
    if before.bulge != 0.0 || after.bulge != 0.0 {
        return false;
    }
    let along = |s: Segment| [s.to.x - s.from.x, s.to.y - s.from.y];
    let (u, v) = (along(before), along(after));
    let whole = [u[0] + v[0], u[1] + v[1]];
    let cross = u[0] * v[1] - u[1] * v[0];
    let length = (whole[0] * whole[0] + whole[1] * whole[1]).sqrt();
    u[0] * v[0] + u[1] * v[1] > 0.0 && cross.abs() <= STRAIGHT * length
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(chain: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let chain = chain.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let path = closed(&Polyline::straight(chain));
        assert!(path.is_closed());
        path.points().iter().map(|p| (p.x, p.y)).collect()
    }

    #[test]
    fn a_path_begins_and_ends_on_the_axis() {
        let found = points(&[(0.0, 2.0), (5.0, 3.0), (5.0, 1.0)]);
        assert_eq!(found, [(0.0, 0.0), (0.0, 2.0), (5.0, 3.0), (5.0, 0.0)]);
        // A hole that ends in a point on the axis.
        let blind = points(&[(0.0, 2.0), (5.0, 2.0), (6.0, 0.0)]);
        assert_eq!(blind, [(0.0, 0.0), (0.0, 2.0), (5.0, 2.0), (6.0, 0.0)]);
    }

    #[test]
    fn lines_in_one_direction_are_one() {
        // A face, a cylinder and a taper in two pieces each; 0.1 and 0.3 are rounded.
        let found = points(&[
            (0.0, 1.0),
            (0.0, 2.0),
            (1.0, 2.0),
            (4.0, 2.0),
            (5.0, 2.0 + 0.1),
            (7.0, 2.0 + 0.3),
        ]);
        let expected = [(0.0, 0.0), (0.0, 2.0), (4.0, 2.0), (7.0, 2.3), (7.0, 0.0)];
        assert_eq!(found.len(), expected.len());
        for (a, b) in found.iter().zip(expected) {
            assert!((a.0 - b.0).abs() < 1e-12 && (a.1 - b.1).abs() < 1e-12, "{a:?} {b:?}");
        }
    }

    /// A kink of a micrometre is a corner, and so is a line that comes back on itself.
    #[test]
    fn a_corner_stays() {
        assert_eq!(points(&[(0.0, 2.0), (1.0, 2.001), (2.0, 2.0)]).len(), 5);
        assert!(!goes_on(
            Segment::line(Point::new(0.0, 0.0), Point::new(2.0, 0.0)),
            Segment::line(Point::new(2.0, 0.0), Point::new(1.0, 0.0)),
        ));
    }

    #[test]
    fn an_arc_stays_an_arc_of_its_own() {
        let at = Point::new;
        let chain = Polyline::of([
            Segment::line(at(0.0, 2.0), at(1.0, 2.0)),
            Segment { from: at(1.0, 2.0), to: at(2.0, 2.0), bulge: 0.25 },
            Segment { from: at(2.0, 2.0), to: at(3.0, 2.0), bulge: 0.25 },
        ]);
        let bulges: Vec<f64> = closed(&chain).segments().map(|s| s.bulge).collect();
        assert_eq!(bulges, [0.0, 0.0, 0.25, 0.25, 0.0, 0.0]);
        assert_eq!(closed(&Polyline::default()), Polyline::default());
    }
}
