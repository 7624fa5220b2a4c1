//! A face's boundary in its own parameters: polygons of straight edges in (u, v).

use std::f64::consts::TAU;

use super::{Face, Screw, Wire};

/// A straight edge in a face's (u, v), counter-clockwise with the face to its left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UvEdge {
    /// Where it begins.
    pub from: [f64; 2],
    /// Where it ends.
    pub to: [f64; 2],
}

impl UvEdge {
    /// Twice the signed area of the triangle with the origin.
    pub(super) fn cross(&self) -> f64 {
        self.from[0] * self.to[1] - self.from[1] * self.to[0]
    }
}

/// The edges of one wire in (u, v), u running on over the whole wire: consecutive edges join.
pub(crate) fn unroll_wire<'a>(
    surface: &'a Screw,
    wire: &'a Wire,
) -> impl Iterator<Item = UvEdge> + 'a {
    let mut before: Option<f64> = None;
    wire.edge_iter().map(move |edge| {
        let trace = edge.curve();
        let (from, to) =
            if edge.orientation() { (trace.from, trace.to) } else { (trace.to, trace.from) };
        let turns = match before {
            // Angles of one vertex on two edges differ by whole turns.
            Some(u) => ((u - from.theta) / TAU).round(),
            None => surface.turns_to(from),
        };
        let (u0, u1) = (from.theta + turns * TAU, to.theta + turns * TAU);
        before = Some(u1);
        UvEdge { from: [u0, surface.v_at(u0, from)], to: [u1, surface.v_at(u1, to)] }
    })
}

/// A face's whole boundary as one closed polygon in (u, v).
///
/// A face that goes once round the axis is cut open along a line from its first ring to its
/// second (or to the pole): the cut is walked there and back, a turn apart, so that every
/// integral over the polygon is the integral over the face.
pub(crate) fn unroll_face(face: &Face) -> Vec<UvEdge> {
    let surface = face.surface();
    let wires = face.absolute_boundaries();
    let loops: Vec<Vec<UvEdge>> =
        wires.iter().map(|w| unroll_wire(&surface, w).collect()).collect();
    let ends = |edges: &[UvEdge]| (edges[0].from, edges[edges.len() - 1].to);
    let Some(first) = loops.first() else { return Vec::new() };
    let (start, end) = ends(first);
    let round = end[0] - start[0];
    if loops.len() == 1 && round.abs() < TAU / 2.0 {
        return first.clone();
    }
    let mut polygon = first.clone();
    if let Some(second) = loops.get(1) {
        // The second ring is walked the other way; shift it to begin where the first one ended.
        let shift = ((end[0] - second[0].from[0]) / TAU).round() * TAU;
        let move_on = |p: [f64; 2]| [p[0] + shift, p[1]];
        let moved = second.iter().map(|e| UvEdge { from: move_on(e.from), to: move_on(e.to) });
        let (there, back) = ends(second);
        polygon.push(UvEdge { from: end, to: move_on(there) });
        polygon.extend(moved);
        polygon.push(UvEdge { from: move_on(back), to: start });
    } else {
        // A pole: the generatrix ends on the axis, at v = 1 if the ring is at v = 0.
        let pole = if start[1] < 0.5 { 1.0 } else { 0.0 };
        polygon.push(UvEdge { from: end, to: [end[0], pole] });
        polygon.push(UvEdge { from: [end[0], pole], to: [start[0], pole] });
        polygon.push(UvEdge { from: [start[0], pole], to: start });
    }
    polygon
}
