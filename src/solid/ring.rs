//! Shared topology while a body is put together: vertices, edges, rings, and faces from them.

use std::f64::consts::{PI, TAU};

use super::unroll::unroll_wire;
use super::{
    BuildError, Edge, Face, FaceName, HalfPoint, Meridian, Polar, Screw, Trace, Vertex, Wire,
};
use crate::section::Run;

/// Where a turned run begins or ends.
#[derive(Clone)]
pub(super) enum Ring {
    /// On the axis: no edge at all.
    Pole,
    /// A full circle of edges, in the order of growing angle.
    Circle(Vec<Edge>),
}

impl Ring {
    /// A plain circle of two half-circles, or the pole.
    pub fn plain(at: HalfPoint) -> Result<Self, BuildError> {
        if at[0] == 0.0 {
            return Ok(Self::Pole);
        }
        let polar = |theta| Polar { theta, r: at[0], z: at[1] };
        let vertices = [vertex(polar(0.0)), vertex(polar(PI))];
        Ok(Self::Circle(vec![
            edge(&vertices[0], &vertices[1], Trace::straight(polar(0.0), polar(PI)))?,
            edge(&vertices[1], &vertices[0], Trace::straight(polar(PI), polar(TAU)))?,
        ]))
    }

    /// Where it lies, walked by growing angle or against it: one point, or several where that of a
    /// drawn-out groove strays by a rounding.
    pub fn points(&self, growing: bool) -> Vec<HalfPoint> {
        let edges: Vec<Edge> =
            self.wire(growing).iter().flat_map(Wire::edge_iter).cloned().collect();
        let last = edges.last().map(|edge| edge.oriented_curve().to());
        let all = edges.iter().map(|edge| edge.oriented_curve().from()).chain(last);
        let mut points: Vec<HalfPoint> = all.map(|at| [at.r, at.z]).collect();
        points.dedup();
        points
    }

    /// The ring's loop, walked by growing angle or against it.
    fn wire(&self, growing: bool) -> Option<Wire> {
        let Self::Circle(edges) = self else { return None };
        let wire: Wire = edges.iter().cloned().collect();
        Some(if growing { wire } else { wire.inverse() })
    }
}

pub(super) fn vertex(at: Polar) -> Vertex {
    Vertex::new(at.point())
}

pub(super) fn edge(a: &Vertex, b: &Vertex, trace: Trace) -> Result<Edge, BuildError> {
    Edge::try_new(a, b, trace).map_err(|e| BuildError::NotSolid { reason: e.to_string() })
}

/// The faces made so far, with their names.
#[derive(Default)]
pub(super) struct Faces {
    pub faces: Vec<Face>,
    pub names: Vec<FaceName>,
}

impl Faces {
    fn push(&mut self, wires: Vec<Wire>, surface: Screw, name: FaceName) -> Result<(), BuildError> {
        let face = Face::try_new(wires, surface)
            .map_err(|e| BuildError::NotSolid { reason: format!("{}: {e}", name.feature) })?;
        self.faces.push(face);
        self.names.push(name);
        Ok(())
    }

    /// The face that a run leaves when it is turned, between the rings at its ends.
    pub fn turned(&mut self, run: &Run, from: &Ring, to: &Ring) -> Result<(), BuildError> {
        let surface = Screw { meridian: Meridian::of(run), climb: 0.0, out: 0.0 };
        let wires = [from.wire(true), to.wire(false)].into_iter().flatten().collect();
        self.push(wires, surface, FaceName { feature: run.feature, skin: run.skin })
    }

    /// A face bounded by one cycle of edges, turned so that it is counter-clockwise in (u, v).
    pub fn patch(&mut self, cycle: Wire, surface: Screw, name: FaceName) -> Result<(), BuildError> {
        let area: f64 = unroll_wire(&surface, &cycle).map(|e| e.cross()).sum();
        let wire = if area < 0.0 { cycle.inverse() } else { cycle };
        self.push(vec![wire], surface, name)
    }
}
