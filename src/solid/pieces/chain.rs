//! The body's edges, cut where they cross a half-plane.

use std::collections::HashMap;

use super::half_planes::HalfPlanes;
use super::{PieceCurve, PieceEdge, Pieces};
use crate::solid::{Body, Edge, Polar, Trace};

/// A vertex on an edge of the body.
#[derive(Clone, Copy, Debug)]
pub(super) struct Knot {
    pub vertex: usize,
    /// Its angle in columns, whole on a half-plane.
    pub columns: f64,
    /// Where it lies on the edge.
    pub at: Polar,
}

/// An edge of the body: its knots by growing t, and a cut edge between each two.
#[derive(Clone, Debug)]
pub(super) struct Chain {
    pub knots: Vec<Knot>,
    pub edges: Vec<usize>,
}

/// All edges of a body.
pub(super) struct Chains(HashMap<truck_topology::EdgeID<Trace>, Chain>);

impl Chains {
    /// Makes vertices and edges of every edge of the body, each once.
    pub fn new(body: &Body, planes: &HalfPlanes, pieces: &mut Pieces) -> Self {
        let (mut chains, mut vertices) = (HashMap::new(), HashMap::new());
        for (face, _) in body.faces() {
            for edge in face.absolute_boundaries().iter().flat_map(|wire| wire.edge_iter()) {
                if chains.contains_key(&edge.id()) {
                    continue;
                }
                let trace = edge.curve();
                let mut end = |vertex: &crate::solid::Vertex, t: f64| {
                    *vertices.entry(vertex.id()).or_insert_with(|| {
                        pieces.vertices.push(point(planes, trace.at(t)));
                        pieces.vertices.len() - 1
                    })
                };
                let ends = [end(edge.absolute_front(), 0.0), end(edge.absolute_back(), 1.0)];
                chains.insert(edge.id(), chain(&trace, ends, planes, pieces));
            }
        }
        Self(chains)
    }

    /// The chain of an edge.
    pub fn of(&self, edge: &Edge) -> &Chain {
        &self.0[&edge.id()]
    }
}

/// The point, exactly on the half-plane where it lies on one.
fn point(planes: &HalfPlanes, at: Polar) -> [f64; 3] {
    let columns = planes.columns(at.theta);
    if columns == columns.round() {
        return planes.point(columns as i64, at.r, at.z);
    }
    let p = at.point();
    [p.x, p.y, p.z]
}

fn chain(trace: &Trace, ends: [usize; 2], planes: &HalfPlanes, pieces: &mut Pieces) -> Chain {
    let [from, to] = [trace.at(0.0), trace.at(1.0)];
    let [c0, c1] = [from, to].map(|p| planes.columns(p.theta));
    let mut knots = vec![Knot { vertex: ends[0], columns: c0, at: from }];
    let mut spans = vec![0.0];
    let between = (c0.min(c1).floor() as i64 + 1)..(c0.max(c1).ceil() as i64);
    let mut cross = |plane: i64| {
        let t = crossing(trace, planes.angle(plane));
        let at = trace.at(t);
        pieces.vertices.push(planes.point(plane, at.r, at.z));
        knots.push(Knot { vertex: pieces.vertices.len() - 1, columns: plane as f64, at });
        spans.push(t);
    };
    if c0 < c1 {
        between.for_each(&mut cross);
    } else {
        between.rev().for_each(&mut cross);
    }
    knots.push(Knot { vertex: ends[1], columns: c1, at: to });
    spans.push(1.0);
    let first = pieces.edges.len();
    for n in 1..knots.len() {
        pieces.edges.push(PieceEdge {
            ends: [knots[n - 1].vertex, knots[n].vertex],
            curve: PieceCurve::Trace { trace: *trace, span: [spans[n - 1], spans[n]] },
        });
    }
    Chain { knots, edges: (first..pieces.edges.len()).collect() }
}

/// The t at which a trace, whose angle grows or falls throughout, reaches an angle.
fn crossing(trace: &Trace, theta: f64) -> f64 {
    /// Halvings of the interval: the last ones are below the rounding of t.
    const HALVINGS: usize = 60;
    let off = |t: f64| trace.at(t).theta - theta;
    let (start, end) = (off(0.0), off(1.0));
    // Exact where the angle is affine in t.
    let straight = start / (start - end);
    let rounding = 8.0 * f64::EPSILON * theta.abs().max(1.0);
    if off(straight).abs() <= rounding {
        return straight;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if (off(middle) < 0.0) == (start < 0.0) { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}
