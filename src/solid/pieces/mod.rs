//! A body cut into pieces that never go round the axis, for those who can't read seams.
//!
//! Every face is cut along its own generatrices, by two opposite half-planes through the axis.
//! Rings, discs and strips of many turns all become simple patches with one loop each; nothing
//! is approximated, and every new edge is shared by the two pieces beside it.
//!
//! ```text
//!      half-plane 1         half-plane 0
//!            |   column 0   |   column 1   |      u ->
//!        ----+--------------+--------------+----  ring
//!            |    piece     |     piece    |
//!        ----+--------------+--------------+----  ring
//! ```

mod chain;
mod half_planes;
mod face;

use std::collections::HashMap;

use super::{Body, BuildError, FaceName, Meridian, Screw, Trace};
use chain::Chains;
use half_planes::HalfPlanes;

/// The curve of an edge of [`Pieces`], from its first vertex to its second.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PieceCurve {
    /// A part of an edge of the body.
    Trace {
        /// The edge's curve.
        trace: Trace,
        /// Its parameter at the first vertex and at the second, the first one less.
        span: [f64; 2],
    },
    /// A part of a surface's generatrix, on a half-plane.
    Generatrix {
        /// The generatrix, where the surface has carried it at that angle.
        line: Meridian,
        /// The half-plane's angle.
        theta: f64,
        /// v at the first vertex and at the second.
        span: [f64; 2],
    },
}

/// An edge of [`Pieces`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceEdge {
    /// Indices of its vertices.
    pub ends: [usize; 2],
    /// Its curve.
    pub curve: PieceCurve,
}

/// A piece of a face: simply connected, between two neighbouring half-planes.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its surface; the normal points out of the material.
    pub surface: Screw,
    /// What the whole face is called.
    pub name: FaceName,
    /// The least and the greatest u of the piece, in the surface's own turns.
    pub u: [f64; 2],
    /// Its one loop, counter-clockwise seen from outside: edges, each with whether it is walked
    /// from its first vertex to its second.
    pub cycle: Vec<(usize, bool)>,
}

/// A body in pieces; every edge lies between two pieces, which walk it in opposite directions.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pieces {
    /// x, y, z in millimetres.
    pub vertices: Vec<[f64; 3]>,
    /// Edges; each vertex is the end of some.
    pub edges: Vec<PieceEdge>,
    /// Pieces, in the order of the body's faces and of their angle.
    pub faces: Vec<Piece>,
}

impl Pieces {
    /// Cuts a body.
    ///
    /// # Errors
    /// [`BuildError::NotSolid`] where the pieces do not close, or have not the body's genus
    /// (never seen; then nothing is handed out).
    pub fn new(body: &Body) -> Result<Self, BuildError> {
        let planes = HalfPlanes::clear_of(body);
        let mut pieces = Self::default();
        let chains = Chains::new(body, &planes, &mut pieces);
        let mut seams = HashMap::new();
        for (face, name) in body.faces() {
            seams.clear();
            face::cut_face(face, *name, &planes, &chains, &mut seams, &mut pieces)?;
        }
        pieces.check(body.genus())?;
        Ok(pieces)
    }

    /// Handles through the pieces' surface (Euler and Poincare, each piece a disc).
    pub fn genus(&self) -> i64 {
        let [v, e, f] = [self.vertices.len(), self.edges.len(), self.faces.len()].map(|n| n as i64);
        let euler = v - e + f;
        1 - euler / 2
    }

    fn check(&self, genus: i64) -> Result<(), BuildError> {
        let refuse = |reason: String| Err(BuildError::NotSolid { reason });
        let mut uses = vec![[0_u32; 2]; self.edges.len()];
        for (edge, forward) in self.faces.iter().flat_map(|face| &face.cycle) {
            uses[*edge][usize::from(*forward)] += 1;
        }
        if let Some(edge) = uses.iter().position(|uses| *uses != [1, 1]) {
            return refuse(format!("cut edge {edge} is not walked once in each direction"));
        }
        if self.genus() != genus {
            return refuse(format!("genus {} after the cut, {genus} before", self.genus()));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
