//! The chain of a part's outside, or of its bore, in the half-plane: edges and cuts of it.

use super::walk;
use crate::drawing::{Point, Polyline, Segment};
use crate::section::{Part, Run, Shape, Station};
use crate::solid::Meridian;

/// Corners flatter than this many degrees are not seen as an edge. More would hide where a taper
/// begins; less would show the joints of a curve that is made of short lines.
const SMOOTH: f64 = 1.0;

/// A chain of lines and arcs, walked from the front to the back, y being the radius.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain(pub Polyline);

/// An edge round the part: the radii between which the chain stands square to the axis there
/// (the same where it only changes direction).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Along the axis.
    pub z: f64,
    /// The nearest to the axis.
    pub low: f64,
    /// The farthest from it.
    pub high: f64,
}

impl Chain {
    /// The outside with both end faces, from the front mouth of the bore to its back mouth.
    pub fn outside(part: &Part) -> Self {
        Self(polyline(&walk::outside(part)))
    }

    /// The wall of the bore, from its front mouth to its back mouth; along the axis between two
    /// holes that do not meet.
    pub fn bore(part: &Part) -> Self {
        Self::joined(walk::bores(part).iter().map(|runs| polyline(runs)))
    }

    /// Pieces as one chain, each joined to the next by a straight line where they do not meet.
    pub fn joined(pieces: impl IntoIterator<Item = Polyline>) -> Self {
        let mut segments: Vec<Segment> = Vec::new();
        for piece in pieces {
            let ends = segments.last().map(|s| s.to).zip(piece.points().first().copied());
            let apart = ends.filter(|(last, first)| last != first);
            segments.extend(apart.map(|(last, first)| Segment::line(last, first)));
            segments.extend(piece.segments());
        }
        Self(Polyline::of(segments))
    }

    /// The chain without what of it lies on the axis: two pieces where two holes do not meet.
    pub fn off_axis(&self) -> Vec<Polyline> {
        let segments: Vec<Segment> = self.0.segments().collect();
        let on_axis = |segment: &Segment| segment.from.y == 0.0 && segment.to.y == 0.0;
        let pieces = segments.split(on_axis).filter(|piece| !piece.is_empty());
        pieces.map(|piece| Polyline::of(piece.iter().copied())).collect()
    }

    /// The x at which it begins, and at which it ends.
    pub fn ends(&self) -> [f64; 2] {
        let points = self.0.points();
        [points.first(), points.last()].map(|p| p.map_or(0.0, |p| p.x))
    }

    /// The greatest y.
    pub fn top(&self) -> f64 {
        self.0.extremes().iter().fold(0.0, |top, p| p.y.max(top))
    }

    /// The edges round the part, in the order of z, the chain's ends among them.
    pub fn edges(&self) -> Vec<Edge> {
        let segments: Vec<Segment> = self.0.segments().collect();
        let ends = segments.first().map(|s| s.from).into_iter();
        let turns = segments.windows(2).filter(|pair| turns(pair[0], pair[1]));
        let seen = ends.chain(turns.map(|pair| pair[1].from));
        let mut edges: Vec<Edge> = Vec::new();
        for point in seen.chain(segments.last().map(|s| s.to)) {
            match edges.iter_mut().find(|edge| edge.z == point.x) {
                Some(edge) => {
                    edge.low = edge.low.min(point.y);
                    edge.high = edge.high.max(point.y);
                }
                None => edges.push(Edge { z: point.x, low: point.y, high: point.y }),
            }
        }
        edges
    }

    /// The intervals of z, within `from` and `to`, in which the chain's y is more than `level`;
    /// neighbours are joined.
    pub fn above(&self, level: f64, from: f64, to: f64) -> Vec<[f64; 2]> {
        let mut found: Vec<[f64; 2]> = Vec::new();
        for segment in self.0.segments() {
            for [start, end] in parts_above(segment, level) {
                let (start, end) = (start.max(from), end.min(to));
                match found.last_mut() {
                    _ if start >= end => {}
                    Some(last) if last[1] == start => last[1] = end,
                    _ => found.push([start, end]),
                }
            }
        }
        found
    }

    /// The intervals of z in which the chain's y is less than `level`.
    pub fn below(&self, level: f64, from: f64, to: f64) -> Vec<[f64; 2]> {
        Self(Polyline::of(self.0.segments().map(Segment::mirrored))).above(-level, from, to)
    }
}

/// Whether the direction changes where one segment goes on in the next.
fn turns(before: Segment, after: Segment) -> bool {
    let (u, v) = (before.direction(1.0), after.direction(0.0));
    let (cross, dot) = (u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]);
    libm::atan2(cross.abs(), dot) > SMOOTH.to_radians()
}

/// The parts of a segment, as intervals of x, that lie above a level.
fn parts_above(segment: Segment, level: f64) -> Vec<[f64; 2]> {
    let Meridian::Arc { centre, radius, .. } = segment.meridian() else {
        return part_above(segment.from, segment.to, level).into_iter().collect();
    };
    // Between its ends, and top or bottom, an arc crosses a level once.
    let mut points = segment.extremes();
    points.sort_by(|a, b| a.x.total_cmp(&b.x));
    let off = level - centre[0];
    let reach = (radius * radius - off * off).max(0.0).sqrt();
    let crossing = |a: Point, b: Point| {
        let side = if f64::midpoint(a.x, b.x) < centre[1] { -1.0 } else { 1.0 };
        (centre[1] + side * reach).clamp(a.x, b.x)
    };
    let pairs = points.windows(2).filter(|pair| pair[0].x < pair[1].x);
    let part = |pair: &[Point]| match (pair[0].y > level, pair[1].y > level) {
        (true, true) => Some([pair[0].x, pair[1].x]),
        (true, false) => Some([pair[0].x, crossing(pair[0], pair[1])]),
        (false, true) => Some([crossing(pair[0], pair[1]), pair[1].x]),
        (false, false) => None,
    };
    pairs.filter_map(part).collect()
}

/// The part of a line, as an interval of x, that lies above a level.
fn part_above(a: Point, b: Point, level: f64) -> Option<[f64; 2]> {
    let meets = || a.x + (b.x - a.x) * ((level - a.y) / (b.y - a.y));
    match (a.y > level, b.y > level) {
        (true, true) => Some([a.x, b.x]),
        (true, false) => Some([a.x, meets()]),
        (false, true) => Some([meets(), b.x]),
        (false, false) => None,
    }
}

/// Runs as they are drawn.
pub fn polyline(runs: &[Run]) -> Polyline {
    let point = |s: Station| Point::new(s.z.as_mm(), s.radius());
    let bulge = |run: &Run| match run.shape {
        Shape::Straight => 0.0,
        Shape::Arc { bulge } => bulge,
    };
    Polyline::of(runs.iter().map(|run| Segment {
        from: point(run.from),
        to: point(run.to),
        bulge: bulge(run),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chain(points: &[(f64, f64)]) -> Chain {
        Chain(Polyline::straight(points.iter().map(|(x, y)| Point::new(*x, *y)).collect()))
    }

    #[test]
    fn a_step_is_one_edge_from_low_to_high() {
        let steps = chain(&[(0.0, 5.0), (4.0, 5.0), (4.0, 3.0), (9.0, 3.0)]);
        let edges = steps.edges();
        assert_eq!(edges.len(), 3);
        assert_eq!(edges[1], Edge { z: 4.0, low: 3.0, high: 5.0 });
    }

    #[test]
    fn a_smooth_joint_is_no_edge() {
        // 0.5 degrees, then 2 degrees.
        let bend = |degrees: f64| libm::tan(degrees.to_radians()) * 10.0;
        let smooth = chain(&[(0.0, 5.0), (10.0, 5.0), (20.0, 5.0 + bend(0.5))]);
        assert_eq!(smooth.edges().len(), 2);
        let sharp = chain(&[(0.0, 5.0), (10.0, 5.0), (20.0, 5.0 + bend(2.0))]);
        assert_eq!(sharp.edges().len(), 3);
    }

    #[test]
    fn a_root_line_ends_in_the_chamfer() {
        let tenon = chain(&[(0.0, 5.0), (9.5, 5.0), (10.0, 4.5)]);
        let cut = tenon.above(4.75, 0.0, 10.0);
        assert_eq!(cut.len(), 1);
        assert!((cut[0][1] - 9.75).abs() < 1e-12 && cut[0][0] == 0.0);
        assert!(tenon.above(6.0, 0.0, 10.0).is_empty());
    }

    #[test]
    fn a_groove_parts_the_root_line() {
        let groove =
            chain(&[(0.0, 5.0), (2.0, 5.0), (2.0, 4.0), (3.0, 4.0), (3.0, 5.0), (9.0, 5.0)]);
        assert_eq!(groove.above(4.5, 0.0, 9.0), [[0.0, 2.0], [3.0, 9.0]]);
        assert_eq!(groove.below(4.5, 0.0, 9.0), [[2.0, 3.0]]);
    }

    /// Expectations: a half circle of radius 1 about (1, 5) stands above y 5.5 between
    /// 1 -+ sqrt 3 / 2; it meets a cylinder square, and a quarter circle meets it smoothly.
    #[test]
    fn arcs_are_seen_as_they_are() {
        let arc = |from: (f64, f64), to: (f64, f64), bulge| Segment {
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            bulge,
        };
        let bead = [
            arc((-3.0, 5.0), (0.0, 5.0), 0.0),
            arc((0.0, 5.0), (2.0, 5.0), -1.0),
            arc((2.0, 5.0), (5.0, 5.0), 0.0),
        ];
        let chain = Chain(Polyline::of(bead));
        assert!((chain.top() - 6.0).abs() < 1e-12);
        let above = chain.above(5.5, -9.0, 9.0);
        let half = 3.0_f64.sqrt() / 2.0;
        assert!((above[0][0] - (1.0 - half)).abs() < 1e-12);
        assert!((above[0][1] - (1.0 + half)).abs() < 1e-12 && above.len() == 1);
        assert_eq!(chain.edges().len(), 4);
        let quarter = -libm::tan(std::f64::consts::FRAC_PI_8);
        let round = [arc((0.0, 4.0), (1.0, 5.0), quarter), arc((1.0, 5.0), (4.0, 5.0), 0.0)];
        assert_eq!(Chain(Polyline::of(round)).edges().len(), 2);
    }
}
