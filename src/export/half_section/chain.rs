//! The chain of a part's outside, or of its bore, in the half-plane: edges and cuts of it.

use crate::export::drawing::Point;
use crate::section::{Part, Run, Shape, Skin, Station};
use crate::solid::Meridian;

/// Corners flatter than this many degrees are not seen as an edge. More would hide where a taper
/// begins; less would show the joints of a curve that is made of short lines.
const SMOOTH: f64 = 1.0;

/// How far the lines that show an arc may stray from it, in millimetres: a micrometre is finer
/// than any cut; less makes longer files.
const ARC_SHOWN: f64 = 0.001;

/// A chain of straight lines, walked from the front to the back, y being the radius.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain(pub Vec<Point>);

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
        // The part is walked up the outside, over the back face, down the bore, over the front
        // face: what follows the bore comes first here.
        let after = part.runs.iter().rposition(|run| run.skin == Skin::Bore).map_or(0, |n| n + 1);
        let (before, front) = part.runs.split_at(after);
        let runs: Vec<Run> =
            front.iter().chain(before).filter(|run| run.skin != Skin::Bore).copied().collect();
        Self(points(&runs))
    }

    /// The wall of the bore, from its front mouth to its back mouth.
    pub fn bore(part: &Part) -> Self {
        let bore = part.runs.iter().rev().filter(|run| run.skin == Skin::Bore);
        let mut runs: Vec<Run> = bore.map(|run| run.reversed()).collect();
        // Of two holes that do not meet, the one from the back comes first here.
        let breaks = runs.windows(2).position(|pair| pair[0].to != pair[1].from);
        runs.rotate_left(breaks.map_or(0, |n| n + 1));
        let front = runs.len() - breaks.map_or(0, |n| n + 1);
        let (front, back) = runs.split_at(front);
        Self([points(front), points(back)].concat())
    }

    /// The chain without what of it lies on the axis: two pieces where two holes do not meet.
    pub fn off_axis(&self) -> Vec<Vec<Point>> {
        let mut pieces = vec![Vec::new()];
        for (n, point) in self.0.iter().enumerate() {
            if n > 0 && point.y == 0.0 && self.0[n - 1].y == 0.0 {
                pieces.push(Vec::new());
            }
            pieces.last_mut().expect("there is one").push(*point);
        }
        pieces.retain(|piece| piece.len() > 1);
        pieces
    }

    /// The greatest y.
    pub fn top(&self) -> f64 {
        self.0.iter().fold(0.0, |top, p| p.y.max(top))
    }

    /// The edges round the part, in the order of z, the chain's ends among them.
    pub fn edges(&self) -> Vec<Edge> {
        let last = self.0.len().saturating_sub(1);
        let seen = (0..self.0.len()).filter(|n| *n == 0 || *n == last || self.turns_at(*n));
        let mut edges: Vec<Edge> = Vec::new();
        for point in seen.map(|n| self.0[n]) {
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

    fn turns_at(&self, n: usize) -> bool {
        let (a, b, c) = (self.0[n - 1], self.0[n], self.0[n + 1]);
        let (u, v) = ((b.x - a.x, b.y - a.y), (c.x - b.x, c.y - b.y));
        let (cross, dot) = (u.0 * v.1 - u.1 * v.0, u.0 * v.0 + u.1 * v.1);
        libm::atan2(cross.abs(), dot) > SMOOTH.to_radians()
    }

    /// The intervals of z, within `from` and `to`, in which the chain's y is more than `level`;
    /// neighbours are joined.
    pub fn above(&self, level: f64, from: f64, to: f64) -> Vec<[f64; 2]> {
        let mut found: Vec<[f64; 2]> = Vec::new();
        for pair in self.0.windows(2) {
            let Some([start, end]) = part_above(pair[0], pair[1], level) else { continue };
            let (start, end) = (start.max(from), end.min(to));
            match found.last_mut() {
                _ if start >= end => {}
                Some(last) if last[1] == start => last[1] = end,
                _ => found.push([start, end]),
            }
        }
        found
    }

    /// The intervals of z in which the chain's y is less than `level`.
    pub fn below(&self, level: f64, from: f64, to: f64) -> Vec<[f64; 2]> {
        let flipped = self.0.iter().map(|p| p.mirrored()).collect();
        Self(flipped).above(-level, from, to)
    }
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

/// The points that runs are drawn through, in their order.
pub fn points(runs: &[Run]) -> Vec<Point> {
    let point = |s: Station| Point::new(s.z.as_mm(), s.radius());
    let first = runs.first().map(|run| point(run.from));
    first.into_iter().chain(runs.iter().flat_map(|run| walk(run, point(run.to)))).collect()
}

/// The points of a run behind its first: its end, or as many as show an arc.
fn walk(run: &Run, end: Point) -> Vec<Point> {
    let Shape::Arc { .. } = run.shape else { return vec![end] };
    let arc = Meridian::of(run);
    let pieces = arc.pieces(ARC_SHOWN);
    let within = (1..pieces).map(|n| arc.at(n as f64 / pieces as f64));
    within.map(|[r, z]| Point::new(z, r)).chain([end]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chain(points: &[(f64, f64)]) -> Chain {
        Chain(points.iter().map(|(x, y)| Point::new(*x, *y)).collect())
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
}
