//! A face, cut along its generatrices: steps of its boundary, joined column by column.

use std::collections::HashMap;
use std::f64::consts::TAU;

use super::chain::Chains;
use super::half_planes::{COUNT, HalfPlanes};
use super::{Piece, PieceCurve, PieceEdge, Pieces};
use crate::solid::{BuildError, Face, FaceName, HalfPoint, Meridian, Screw};

/// A corner of a piece: its place across the column (0 to 1), along the generatrix, its vertex.
#[derive(Clone, Copy, Debug)]
struct Corner {
    x: f64,
    v: f64,
    vertex: usize,
}

/// An edge of a face's boundary, which lies in one column, with the face to its left.
#[derive(Clone, Copy, Debug)]
struct Step {
    column: i64,
    from: Corner,
    to: Corner,
    edge: usize,
    forward: bool,
}

/// New edges of one face, by their vertices.
type Seams = HashMap<[usize; 2], usize>;

/// What the pieces of a face are made with.
struct Cutter<'a> {
    surface: Screw,
    planes: &'a HalfPlanes,
    /// Whether columns are counted within one turn.
    round: bool,
    /// v and vertex of the point of the axis that the face closes over.
    pole: Option<(f64, usize)>,
    seams: &'a mut Seams,
    pieces: &'a mut Pieces,
}

/// Adds the pieces of a face.
pub(super) fn cut_face(
    face: &Face,
    name: FaceName,
    planes: &HalfPlanes,
    chains: &Chains,
    seams: &mut Seams,
    pieces: &mut Pieces,
) -> Result<(), BuildError> {
    let surface = face.surface();
    let (mut steps, round) = steps(face, chains);
    if round {
        for step in &mut steps {
            step.column = step.column.rem_euclid(COUNT);
        }
    }
    let pole = (round && face.absolute_boundaries().len() == 1).then(|| {
        let v = if steps[0].from.v < 0.5 { 1.0 } else { 0.0 };
        pieces.vertices.push([0.0, 0.0, surface.z(v)]);
        (v, pieces.vertices.len() - 1)
    });
    // Stable: within a column in the order of the boundary.
    steps.sort_by_key(|step| step.column);
    let mut cutter = Cutter { surface, planes, round, pole, seams, pieces };
    for column in steps.chunk_by(|a, b| a.column == b.column) {
        cutter.join(column, name)?;
    }
    Ok(())
}

/// The boundary of a face as steps, and whether it goes round the axis.
fn steps(face: &Face, chains: &Chains) -> (Vec<Step>, bool) {
    let surface = face.surface();
    let (mut steps, mut round) = (Vec::new(), false);
    for wire in face.absolute_boundaries() {
        let (mut before, mut wound): (Option<(f64, f64)>, f64) = (None, 0.0);
        for edge in wire.edge_iter() {
            let (chain, forward) = (chains.of(edge), edge.orientation());
            let (first, last) = (chain.knots[0], chain.knots[chain.knots.len() - 1]);
            let (start, end) = if forward { (first.at, last.at) } else { (last.at, first.at) };
            let turns = match before {
                // Angles of one vertex on two edges differ by whole turns.
                Some((theta, turns)) => turns + ((theta - start.theta) / TAU).round(),
                None => surface.turns_to(start),
            };
            before = Some((end.theta, turns));
            wound += end.theta - start.theta;
            let shift = turns * COUNT as f64;
            let mut parts: Vec<Step> = Vec::with_capacity(chain.edges.len());
            for (n, edge) in chain.edges.iter().enumerate() {
                let (a, b) = (chain.knots[n], chain.knots[n + 1]);
                let (from, to) = if forward { (a, b) } else { (b, a) };
                let v = |at: crate::solid::Polar| surface.v_at(at.theta + turns * TAU, at);
                let (from_v, to_v) = (v(from.at), v(to.at));
                let middle = f64::midpoint(a.columns, b.columns) + shift;
                let mut column = middle.floor();
                // A step on a half-plane has the face to its left: upwards it closes the column
                // before, downwards it opens the one behind.
                if a.columns == b.columns && middle == column && from_v < to_v {
                    column -= 1.0;
                }
                let corner = |knot: super::chain::Knot, v| Corner {
                    x: knot.columns + shift - column,
                    v,
                    vertex: knot.vertex,
                };
                let (from, to) = (corner(from, from_v), corner(to, to_v));
                parts.push(Step { column: column as i64, from, to, edge: *edge, forward });
            }
            if !forward {
                parts.reverse();
            }
            steps.append(&mut parts);
        }
        round |= wound.abs() > TAU / 2.0;
    }
    (steps, round)
}

impl Cutter<'_> {
    /// Joins the steps of one column into the pieces of the face there.
    fn join(&mut self, steps: &[Step], name: FaceName) -> Result<(), BuildError> {
        let mut used = vec![false; steps.len()];
        for first in 0..steps.len() {
            if used[first] {
                continue;
            }
            let (mut cycle, mut here) = (Vec::new(), first);
            let mut ends = [f64::MAX, f64::MIN];
            loop {
                let step = &steps[here];
                used[here] = true;
                cycle.push((step.edge, step.forward));
                for x in [step.from.x, step.to.x] {
                    ends = [ends[0].min(x), ends[1].max(x)];
                }
                let open = |n: &usize| !used[*n] || *n == first;
                let follows = |n: &usize| steps[*n].from.vertex == step.to.vertex;
                here = match (0..steps.len()).filter(open).find(follows) {
                    Some(next) => next,
                    None => self.along_side(steps, open, step, &mut cycle).ok_or_else(|| {
                        let reason = format!("{} can't be cut", name.feature);
                        BuildError::NotSolid { reason }
                    })?,
                };
                if here == first {
                    break;
                }
            }
            let angle = |x: f64| {
                let [low, high] = [0, 1].map(|n| self.planes.angle(steps[0].column + n));
                if x == 0.0 {
                    low
                } else if x == 1.0 {
                    high
                } else {
                    low + (high - low) * x
                }
            };
            let u = ends.map(angle);
            self.pieces.faces.push(Piece { surface: self.surface, name, u, cycle });
        }
        Ok(())
    }

    /// From the end of a step on a column's side along that side to the next step: up on the
    /// right side, down on the left, and over the pole where there is none before it.
    fn along_side(
        &mut self,
        steps: &[Step],
        open: impl Fn(&usize) -> bool,
        step: &Step,
        cycle: &mut Vec<(usize, bool)>,
    ) -> Option<usize> {
        let next = |x: f64, v: f64| {
            let ahead = |n: &usize| {
                let away = steps[*n].from.v - v;
                if x == 1.0 { away } else { -away }
            };
            let near = (0..steps.len()).filter(&open).filter(|n| steps[*n].from.x == x);
            near.filter(|n| ahead(n) > 0.0).min_by(|a, b| ahead(a).total_cmp(&ahead(b)))
        };
        let Corner { x, v, vertex } = step.to;
        if x != 0.0 && x != 1.0 {
            return None;
        }
        let plane = |x: f64| step.column + x as i64;
        if let Some(found) = next(x, v) {
            let to = steps[found].from;
            self.seam(plane(x), (v, vertex), (to.v, to.vertex), cycle);
            return Some(found);
        }
        let pole = self.pole?;
        self.seam(plane(x), (v, vertex), pole, cycle);
        let over = 1.0 - x;
        let found = next(over, pole.0)?;
        let to = steps[found].from;
        self.seam(plane(over), pole, (to.v, to.vertex), cycle);
        Some(found)
    }

    /// Walks the generatrix on a half-plane from one corner, its v and vertex, to another.
    fn seam(
        &mut self,
        plane: i64,
        from: (f64, usize),
        to: (f64, usize),
        cycle: &mut Vec<(usize, bool)>,
    ) {
        let plane = if self.round { plane.rem_euclid(COUNT) } else { plane };
        let rises = from.0 < to.0;
        let (low, high) = if rises { (from, to) } else { (to, from) };
        let theta = self.planes.angle(plane);
        let line = carried(&self.surface, theta);
        let edges = &mut self.pieces.edges;
        let edge = *self.seams.entry([low.1, high.1]).or_insert_with(|| {
            let curve = PieceCurve::Generatrix { line, theta, span: [low.0, high.0] };
            edges.push(PieceEdge { ends: [low.1, high.1], curve });
            edges.len() - 1
        });
        cycle.push((edge, rises));
    }
}

/// A surface's generatrix, where it has been carried at an angle.
fn carried(surface: &Screw, u: f64) -> Meridian {
    let [r, z] = [surface.out * u, surface.climb * u];
    let by = |at: HalfPoint| [at[0] + r, at[1] + z];
    match surface.meridian {
        Meridian::Line { from, to } => Meridian::Line { from: by(from), to: by(to) },
        Meridian::Arc { centre, radius, start, sweep } => {
            Meridian::Arc { centre: by(centre), radius, start, sweep }
        }
    }
}
