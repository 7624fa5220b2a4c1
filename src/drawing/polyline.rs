//! A chain of straight lines and arcs.

use super::Point;
use crate::solid::Meridian;

/// Lines and arcs from each point to the next; where it is closed, from the last to the first too.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Polyline {
    points: Vec<Point>,
    /// Of the way from each point to the next, as DXF has it: the tangent of a quarter of the
    /// arc's sweep, positive where it turns left; 0 for a straight line. A closed chain has as
    /// many as points, an open one has one less.
    bulges: Vec<f64>,
}

/// One line or arc of a chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Where it begins.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// 0 for a straight line.
    pub bulge: f64,
}

impl Polyline {
    /// Straight lines through points.
    pub fn straight(points: Vec<Point>) -> Self {
        let bulges = vec![0.0; points.len().saturating_sub(1)];
        Self { points, bulges }
    }

    /// The chain of segments, each of which begins where the one before it ends.
    pub fn of(segments: impl IntoIterator<Item = Segment>) -> Self {
        let mut chain = Self::default();
        for Segment { from, to, bulge } in segments {
            if chain.points.is_empty() {
                chain.points.push(from);
            }
            chain.points.push(to);
            chain.bulges.push(bulge);
        }
        chain
    }

    /// The closed chain of segments: each begins where the one before it ends, and the first where
    /// the last one ends.
    pub fn closed(segments: impl IntoIterator<Item = Segment>) -> Self {
        let mut chain = Self::of(segments);
        chain.points.pop();
        chain
    }

    /// Whether it goes on from its last point to its first.
    pub fn is_closed(&self) -> bool {
        !self.points.is_empty() && self.points.len() == self.bulges.len()
    }

    /// The points that it goes through; a closed chain has its first point once.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Its lines and arcs, in their order.
    pub fn segments(&self) -> impl DoubleEndedIterator<Item = Segment> + ExactSizeIterator + '_ {
        (0..self.bulges.len()).map(|n| Segment {
            from: self.points[n],
            to: self.points[(n + 1) % self.points.len()],
            bulge: self.bulges[n],
        })
    }

    /// The same chain, walked from its end.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let segments = self.segments().rev().map(Segment::reversed);
        if self.is_closed() { Self::closed(segments) } else { Self::of(segments) }
    }

    /// The least and the greatest point of every line and arc; an arc's extremes lie between its
    /// ends.
    pub fn extremes(&self) -> Vec<Point> {
        let alone = self.points.iter().copied();
        alone.chain(self.segments().flat_map(Segment::extremes)).collect()
    }
}

impl Segment {
    /// A straight line.
    pub fn line(from: Point, to: Point) -> Self {
        Self { from, to, bulge: 0.0 }
    }

    /// The same, walked from its end.
    #[must_use]
    pub fn reversed(self) -> Self {
        Self { from: self.to, to: self.from, bulge: -self.bulge }
    }

    /// The same on the other side of the axis.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self { from: self.from.mirrored(), to: self.to.mirrored(), bulge: -self.bulge }
    }

    /// Its geometry: y is the meridian's r and x its z.
    pub fn meridian(self) -> Meridian {
        Meridian::between([self.from.y, self.from.x], [self.to.y, self.to.x], self.bulge)
    }

    /// The point at a parameter of its meridian; its ends as they are.
    pub fn at(self, v: f64) -> Point {
        match v {
            0.0 => self.from,
            1.0 => self.to,
            _ => {
                let [y, x] = self.meridian().at(v);
                Point::new(x, y)
            }
        }
    }

    /// Its ends, and where between them x or y is least or greatest.
    pub fn extremes(self) -> Vec<Point> {
        self.meridian().extremes().into_iter().map(|v| self.at(v)).collect()
    }

    /// The radius of an arc; none for a straight line.
    pub fn radius(self) -> Option<f64> {
        match self.meridian() {
            Meridian::Line { .. } => None,
            Meridian::Arc { radius, .. } => Some(radius),
        }
    }

    /// The direction at its beginning (0) or end (1), dx and dy; of no set length.
    pub fn direction(self, v: f64) -> [f64; 2] {
        let [dy, dx] = self.meridian().rate(v);
        [dx, dy]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A half circle of radius 1 over the chord from (0, 5) to (2, 5): bulge -1 turns right.
    #[test]
    fn an_arc_reaches_beyond_its_ends() {
        let (from, to) = (Point::new(0.0, 5.0), Point::new(2.0, 5.0));
        let chain = Polyline::of([Segment { from, to, bulge: -1.0 }]);
        let top = chain.extremes().iter().map(|p| p.y).fold(f64::MIN, f64::max);
        assert!((top - 6.0).abs() < 1e-12);
        let below = Polyline::of(chain.segments().map(Segment::mirrored));
        let low = below.extremes().iter().map(|p| p.y).fold(f64::MAX, f64::min);
        assert!((low + 6.0).abs() < 1e-12);
        let back = chain.reversed();
        assert_eq!(back.points(), [to, from]);
        assert_eq!(back.reversed(), chain);
        assert!(back.extremes().iter().any(|p| (p.y - 6.0).abs() < 1e-12));
    }

    /// A half disc: an arc, and the line that closes it.
    #[test]
    fn a_closed_chain_comes_back_to_its_first_point() {
        let (from, to) = (Point::new(0.0, 0.0), Point::new(2.0, 0.0));
        let half = [Segment { from, to, bulge: -1.0 }, Segment::line(to, from)];
        let chain = Polyline::closed(half);
        assert!(chain.is_closed() && !Polyline::of(half).is_closed());
        assert_eq!(chain.points(), [from, to]);
        assert_eq!(chain.segments().collect::<Vec<_>>(), half);
        let back = chain.reversed();
        assert!(back.is_closed());
        assert_eq!(back.segments().next_back(), Some(half[0].reversed()));
        assert!(!Polyline::default().is_closed());
    }
}
