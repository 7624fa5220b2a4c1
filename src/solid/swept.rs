//! Faces turned about the axis through every angle: lines of the half-plane.

use super::unroll::unroll_face;
use super::{CutThread, Face, FaceName, HalfPoint, Meridian};
use crate::section::{Facet, Feature, Skin};

/// A face, turned about the axis through every angle: a line of the half-plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swept {
    /// The face's feature.
    pub feature: Feature,
    /// Its side of the wall.
    pub skin: Skin,
    /// One end, (r, z) in millimetres.
    pub from: HalfPoint,
    /// The other end.
    pub to: HalfPoint,
    /// 0 for a straight line; else as [`Meridian::between`] has it.
    pub bulge: f64,
}

/// A body's lines and threads, without its solid: enough to measure it.
#[derive(Clone, Debug, PartialEq)]
pub struct Lines {
    /// As [`Body::swept`](super::Body::swept) has them.
    pub swept: Vec<Swept>,
    /// As [`Body::threads`](super::Body::threads) has them.
    pub threads: Vec<CutThread>,
}

/// Every face turned through every angle, as lines of the half-plane: where a thread passes, the
/// deepest place that its root reaches.
///
/// A flank sweeps the area between its crest and root lines; since walls are measured to the
/// root, and clearances to the crest, those two lines and the thread's ends stand for it. Where
/// crest or root is rounded whole, the flanks' common helix is the line; where a tool is drawn
/// out, the spirals in which its groove rises.
pub(super) fn lines_of<'a>(
    faces: impl Iterator<Item = (&'a Face, &'a FaceName)>,
    threads: &[CutThread],
) -> Vec<Swept> {
    let mut lines: Vec<Swept> = Vec::new();
    for (face, name) in faces {
        let surface = face.surface();
        let FaceName { feature, skin } = *name;
        if surface.climb == 0.0 {
            // A face on a turned surface: the part of its generatrix between its own ends.
            let v = unroll_face(face).into_iter().map(|e| e.from[1]);
            let (low, high) = v.fold((f64::MAX, f64::MIN), |(a, b), v| (a.min(v), b.max(v)));
            let at = |v: f64| surface.meridian.at(v);
            let bulge = match surface.meridian {
                Meridian::Line { .. } => 0.0,
                // No thread ends on an arc: the face has all of it.
                Meridian::Arc { sweep, .. } => libm::tan(sweep / 4.0),
            };
            lines.push(Swept { feature, skin, from: at(low), to: at(high), bulge });
        } else if matches!(feature.facet, Facet::Crest | Facet::Root) {
            let z = face.vertex_iter().map(|v| v.point().z);
            let (low, high) = z.fold((f64::MAX, f64::MIN), |(a, b), z| (a.min(z), b.max(z)));
            let r = surface.r(0.0);
            lines.push(Swept { feature, skin, from: [r, low], to: [r, high], bulge: 0.0 });
        } else if let Some(thread) = threads.iter().find(|t| t.item == feature.item) {
            add_edges(face, *name, thread, &mut lines);
        }
    }
    lines
}

/// Adds the lines that a flank's edges sweep at crest and root, and those of a groove that is
/// drawn out.
fn add_edges(face: &Face, name: FaceName, thread: &CutThread, lines: &mut Vec<Swept>) {
    /// Radii closer than this are one, in millimetres: a helix' own rounding.
    const SAME: f64 = 1e-9;
    for edge in face.absolute_boundaries().iter().flat_map(|wire| wire.edge_iter()) {
        let trace = edge.curve();
        let (a, b) = (trace.from(), trace.to());
        let at = |r: f64| (a.r - r).abs() < SAME && (b.r - r).abs() < SAME;
        let facet = if a.theta == b.theta || a.z == b.z {
            continue;
        } else if at(thread.root) {
            Facet::Root
        } else if at(thread.crest) {
            Facet::Crest
        } else if face.surface().out != 0.0 {
            Facet::RunOut
        } else {
            continue;
        };
        let feature = Feature::new(name.feature.item, facet);
        let (from, to) = ([a.r, a.z], [b.r, b.z]);
        lines.push(Swept { feature, skin: name.skin, from, to, bulge: 0.0 });
    }
}
