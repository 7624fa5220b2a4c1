//! A face's boundary in its own parameters: polygons in (u, v), straight but for cuts of arcs.

use std::f64::consts::TAU;

use super::{Face, Screw, Trace, Wire};

/// An edge in a face's (u, v), counter-clockwise with the face to its left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UvEdge {
    /// Where it begins.
    pub from: [f64; 2],
    /// Where it ends.
    pub to: [f64; 2],
    /// How it gets there, where that is no straight line.
    bow: Option<Bow>,
}

/// An edge that is not straight in (u, v): its trace, the angle to add, and which way it is walked.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Bow {
    trace: Trace,
    shift: f64,
    forward: bool,
}

impl UvEdge {
    fn straight(from: [f64; 2], to: [f64; 2]) -> Self {
        Self { from, to, bow: None }
    }

    /// Twice the signed area of the triangle with the origin.
    pub(super) fn cross(&self) -> f64 {
        self.from[0] * self.to[1] - self.from[1] * self.to[0]
    }

    /// The point (u, v) at s from 0 to 1, and how fast it moves there.
    pub(super) fn at(&self, surface: &Screw, s: f64) -> ([f64; 2], [f64; 2]) {
        let Some(Bow { trace, shift, forward }) = self.bow else {
            let step = [self.to[0] - self.from[0], self.to[1] - self.from[1]];
            return ([self.from[0] + step[0] * s, self.from[1] + step[1] * s], step);
        };
        let (t, sign) = if forward { (s, 1.0) } else { (1.0 - s, -1.0) };
        let (p, [d, _]) = (trace.at(t), trace.rates(t));
        let u = p.theta + shift;
        let v = surface.v_at(u, p);
        let moved = [d.r - surface.out * d.theta, d.z - surface.climb * d.theta];
        ([u, v], [d.theta * sign, surface.meridian.v_rate(v, moved) * sign])
    }

    /// The s at which the edge passes an angle u between those of its ends.
    pub(super) fn s_at(&self, u: f64) -> f64 {
        match self.bow {
            None => (u - self.from[0]) / (self.to[0] - self.from[0]),
            Some(Bow { trace, shift, forward }) => {
                let t = trace.t_at(u - shift);
                if forward { t } else { 1.0 - t }
            }
        }
    }

    /// The same edge, turned on about the axis.
    fn turned(&self, shift: f64) -> Self {
        let on = |p: [f64; 2]| [p[0] + shift, p[1]];
        let bow = self.bow.map(|bow| Bow { shift: bow.shift + shift, ..bow });
        Self { from: on(self.from), to: on(self.to), bow }
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
        let (from, to) = if edge.orientation() {
            (trace.from(), trace.to())
        } else {
            (trace.to(), trace.from())
        };
        let turns = match before {
            // Angles of one vertex on two edges differ by whole turns.
            Some(u) => ((u - from.theta) / TAU).round(),
            None => surface.turns_to(from),
        };
        let shift = turns * TAU;
        let (u0, u1) = (from.theta + shift, to.theta + shift);
        before = Some(u1);
        let bow = matches!(trace, Trace::Cut(_)).then(|| Bow {
            trace,
            shift,
            forward: edge.orientation(),
        });
        UvEdge { from: [u0, surface.v_at(u0, from)], to: [u1, surface.v_at(u1, to)], bow }
    })
}

/// The least and the greatest angle, counted in the surface's own turns, of a face's corners.
pub fn angles_of(face: &Face) -> [f64; 2] {
    let surface = face.surface();
    let wires = face.absolute_boundaries();
    let angles = wires.iter().flat_map(|wire| unroll_wire(&surface, wire)).map(|e| e.from[0]);
    angles.fold([f64::MAX, f64::MIN], |[a, b], u| [a.min(u), b.max(u)])
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
        let moved: Vec<UvEdge> = second.iter().map(|edge| edge.turned(shift)).collect();
        let (there, back) = ends(&moved);
        polygon.push(UvEdge::straight(end, there));
        polygon.extend(moved);
        polygon.push(UvEdge::straight(back, start));
    } else {
        // A pole: the generatrix ends on the axis, at v = 1 if the ring is at v = 0.
        let pole = if start[1] < 0.5 { 1.0 } else { 0.0 };
        polygon.push(UvEdge::straight(end, [end[0], pole]));
        polygon.push(UvEdge::straight([end[0], pole], [start[0], pole]));
        polygon.push(UvEdge::straight([start[0], pole], start));
    }
    polygon
}
