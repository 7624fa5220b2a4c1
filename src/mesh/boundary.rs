//! Edges as chains of shared points, and faces' boundaries as steps through columns.

use std::collections::HashMap;
use std::f64::consts::TAU;

use super::fan::Fan;
use crate::solid::{Body, Cut, Edge, Face, Screw, Trace};

/// A v this close to the edge of a band, in bands, is on it: cuts are found to rounding, and bands
/// are never a thousandth as narrow.
const ON_BAND: f64 = 1e-9;

/// A point of a chain: its index, its angle in columns (whole on a half-plane), and its place on
/// the edge.
#[derive(Clone, Copy, Debug)]
struct Knot {
    index: u32,
    columns: f64,
    t: f64,
}

/// All points of a mesh, made once for each vertex and edge of a body.
pub(super) struct Boundary<'a> {
    pub fan: &'a Fan,
    pub points: Vec<[f64; 3]>,
    chains: HashMap<truck_topology::EdgeID<Trace>, Vec<Knot>>,
}

/// A corner of a piece: its place across the column (0 to 1), along the generatrix, and its point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Corner {
    pub x: f64,
    pub v: f64,
    pub index: u32,
}

/// A step of a face's boundary within one column, with the face to its left.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub column: i64,
    pub from: Corner,
    pub to: Corner,
}

impl Step {
    /// Whether the boundary, going on from this step to another of its column, touches the
    /// column's side and turns back with the face on the outside of its turn.
    pub fn turns_back_at_side(&self, next: &Self) -> bool {
        let at = self.to;
        if next.from.index != at.index || (at.x != 0.0 && at.x != 1.0) {
            return false;
        }
        let (back, on) = (self.from, next.to);
        let turn = (at.x - back.x) * (on.v - at.v) - (at.v - back.v) * (on.x - at.x);
        back.x != at.x && on.x != at.x && turn < 0.0
    }
}

impl<'a> Boundary<'a> {
    /// Points for every vertex, and for every crossing of an edge with a half-plane.
    pub fn new(body: &Body, fan: &'a Fan) -> Self {
        let mut boundary = Self { fan, points: Vec::new(), chains: HashMap::new() };
        let mut vertices = HashMap::new();
        for (face, _) in body.faces() {
            for edge in face.absolute_boundaries().iter().flat_map(|wire| wire.edge_iter()) {
                if boundary.chains.contains_key(&edge.id()) {
                    continue;
                }
                let [front, back] = [edge.absolute_front(), edge.absolute_back()].map(|vertex| {
                    *vertices.entry(vertex.id()).or_insert_with(|| {
                        let p = vertex.point();
                        boundary.points.push([p.x, p.y, p.z]);
                        boundary.points.len() as u32 - 1
                    })
                });
                let chain = boundary.chain(&edge.curve(), front, back);
                boundary.chains.insert(edge.id(), chain);
            }
        }
        boundary
    }

    fn chain(&mut self, trace: &Trace, front: u32, back: u32) -> Vec<Knot> {
        let (from, to) = (self.fan.columns(trace.from().theta), self.fan.columns(trace.to().theta));
        let mut chain = vec![Knot { index: front, columns: from, t: 0.0 }];
        let (low, high) = (from.min(to), from.max(to));
        let planes = (low.floor() as i64 + 1)..(high.ceil() as i64);
        let mut cross = |plane: i64| {
            let t = trace.t_at(self.fan.angle(plane));
            let at = trace.at(t);
            self.points.push(self.fan.point(plane, at.r, at.z));
            let index = self.points.len() as u32 - 1;
            chain.push(Knot { index, columns: plane as f64, t });
        };
        if from < to {
            planes.for_each(&mut cross);
        } else {
            planes.rev().for_each(&mut cross);
        }
        chain.push(Knot { index: back, columns: to, t: 1.0 });
        if let Trace::Cut(cut) = trace {
            self.add_bands(trace, cut, &mut chain);
        }
        chain
    }

    /// Adds points to a cut through a rounded flank, where it passes from one of the bands in
    /// which the flank is cut along its meridian to the next.
    fn add_bands(&mut self, trace: &Trace, cut: &Cut, chain: &mut Vec<Knot>) {
        for t in cut.between(self.fan.pieces(&cut.surface.meridian)) {
            let at = trace.at(t);
            let columns = self.fan.columns(at.theta);
            // A knot on this half-plane is moved to the band's edge: two would make a needle.
            let inner = 1..chain.len() - 1;
            let near = inner.clone().find(|n| chain[*n].columns == columns);
            let same_angle = chain[0].columns == chain[chain.len() - 1].columns;
            if let Some(n) = near.filter(|_| !same_angle) {
                let p = at.point();
                self.points[chain[n].index as usize] = [p.x, p.y, p.z];
                chain[n].t = t;
                continue;
            }
            let p = at.point();
            self.points.push([p.x, p.y, p.z]);
            let index = self.points.len() as u32 - 1;
            let after = chain.iter().position(|knot| knot.t > t).unwrap_or(chain.len() - 1);
            chain.insert(after, Knot { index, columns, t });
        }
    }

    /// The boundary of a face as steps, each within one column; columns count over all turns of
    /// a strip, and within one turn on a face that goes round the axis.
    pub fn steps(&self, face: &Face) -> Vec<Step> {
        let surface = face.surface();
        let mut steps = Vec::new();
        for wire in face.absolute_boundaries() {
            let first = steps.len();
            let mut turns: Option<(f64, f64)> = None;
            for edge in wire.edge_iter() {
                let trace = edge.curve();
                let chain = &self.chains[&edge.id()];
                let (start, end) = ends(edge, &trace);
                let whole = match turns {
                    Some((theta, whole)) => whole + ((theta - start) / TAU).round(),
                    None => {
                        surface.turns_to(if edge.orientation() { trace.from() } else { trace.to() })
                    }
                };
                turns = Some((end, whole));
                self.edge_steps(&surface, &trace, chain, edge.orientation(), whole, &mut steps);
            }
            add_touches(&mut steps, first);
        }
        steps
    }

    fn edge_steps(
        &self,
        surface: &Screw,
        trace: &Trace,
        chain: &[Knot],
        forward: bool,
        turns: f64,
        steps: &mut Vec<Step>,
    ) {
        let (shift, first) = (turns * f64::from(self.fan.count), steps.len());
        let on = |at: crate::solid::Polar| surface.v_at(at.theta + turns * TAU, at);
        let (v0, v1) = (on(trace.from()), on(trace.to()));
        let pieces = self.fan.pieces(&surface.meridian) as f64;
        let v = |knot: &Knot| match trace {
            Trace::Affine { .. } => v0 + (v1 - v0) * knot.t,
            Trace::Cut(_) => {
                let v = on(trace.at(knot.t)) * pieces;
                // Exactly the band's edge where it is meant.
                (if (v - v.round()).abs() < ON_BAND { v.round() } else { v }) / pieces
            }
        };
        for pair in chain.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            let (va, vb) = (v(a), v(b));
            let (from, to) = if forward { ((a, va), (b, vb)) } else { ((b, vb), (a, va)) };
            let middle = f64::midpoint(a.columns, b.columns) + shift;
            let mut column = middle.floor();
            // A step on a half-plane has the face to its left: upwards it closes the column
            // before, downwards it opens the one behind.
            if a.columns == b.columns && middle == column && from.1 < to.1 {
                column -= 1.0;
            }
            let corner = |(knot, v): (&Knot, f64)| Corner {
                x: knot.columns + shift - column,
                v,
                index: knot.index,
            };
            steps.push(Step { column: column as i64, from: corner(from), to: corner(to) });
        }
        if !forward {
            steps[first..].reverse();
        }
    }
}

/// Where a wire (its steps from `first` on) touches a half-plane and turns back, with the face on
/// both sides of it, the column beyond must know the point: it is given a step of no length.
fn add_touches(steps: &mut Vec<Step>, first: usize) {
    let count = steps.len() - first;
    for n in 0..count {
        let (before, after) = (steps[first + n], steps[first + (n + 1) % count]);
        if before.column == after.column && before.turns_back_at_side(&after) {
            let (beyond, x) = if before.to.x == 0.0 { (-1, 1.0) } else { (1, 0.0) };
            let corner = Corner { x, ..before.to };
            steps.push(Step { column: before.column + beyond, from: corner, to: corner });
        }
    }
}

/// The angles at which an edge, as its wire walks it, begins and ends.
fn ends(edge: &Edge, trace: &Trace) -> (f64, f64) {
    if edge.orientation() {
        (trace.from().theta, trace.to().theta)
    } else {
        (trace.to().theta, trace.from().theta)
    }
}
