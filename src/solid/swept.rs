//! Faces turned about the axis through every angle: lines of the half-plane.

use std::sync::Arc;

use super::helix::add_thread;
use super::profile::Profile;
use super::ring::Faces;
use super::trim::Trim;
use super::unroll::unroll_face;
use super::{BuildError, CutThread, Face, FaceName, HalfPoint, Meridian};
use crate::section::{Facet, Feature, Run, Skin, Thread};

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
#[derive(Clone, Debug)]
pub struct Lines {
    /// As [`Body::swept`](super::Body::swept) has them.
    pub swept: Vec<Swept>,
    /// As [`Body::threads`](super::Body::threads) has them.
    pub threads: Vec<CutThread>,
    /// What of them may be used again for a part that is much like this one.
    pub cuts: Cuts,
}

/// The lines of a body's threads, each with the thread and the ends that it has there.
#[derive(Clone, Debug, Default)]
pub struct Cuts(pub(super) Vec<Arc<CutLines>>);

/// The lines of a thread, and what they are of.
#[derive(Debug)]
pub(super) struct CutLines {
    pub thread: Thread,
    ends: [Trim; 2],
    pub swept: Vec<Swept>,
    pub cut: CutThread,
    /// Where the circles lie that carry on the outline, at its ends of lesser and greater z: walked
    /// against growing angle, as the run that ends there does it, and by it, as one that begins.
    pub circles: [[Vec<HalfPoint>; 2]; 2],
}

impl CutLines {
    /// From the faces of a thread.
    pub fn of(thread: &Thread, low: &Trim, high: &Trim) -> Result<Self, BuildError> {
        let mut faces = Faces::default();
        let rings = add_thread(&Profile::new(thread), low, high, &mut faces)?;
        let cut = CutThread::new(thread, low, high);
        let named = faces.faces.iter().zip(&faces.names);
        let swept = lines_of(named, std::slice::from_ref(&cut));
        let circles = rings.map(|ring| [false, true].map(|growing| ring.points(growing)));
        let ends = [low.clone(), high.clone()];
        Ok(Self { thread: thread.clone(), ends, swept, cut, circles })
    }

    /// Whether it is the thread with these ends.
    pub fn is(&self, thread: &Thread, low: &Trim, high: &Trim) -> bool {
        self.thread == *thread && self.ends[0] == *low && self.ends[1] == *high
    }
}

/// The line of the face that a run leaves when it is turned, between the circles at its ends; one
/// of them may be the pole.
pub(super) fn line_of(run: &Run, from: &[HalfPoint], to: &[HalfPoint]) -> Swept {
    let meridian = Meridian::of(run);
    let circles = from.iter().chain(to).filter(|at| at[0] != 0.0);
    let v = circles.map(|at| meridian.v_of(*at));
    let [mut low, mut high] = v.fold([f64::MAX, f64::MIN], |[a, b], v| [a.min(v), b.max(v)]);
    if [from, to].iter().any(|ring| ring.iter().any(|at| at[0] == 0.0)) {
        // The generatrix ends on the axis, at v = 1 if the circle is at v = 0.
        let pole = if low < 0.5 { 1.0 } else { 0.0 };
        (low, high) = (low.min(pole), high.max(pole));
    }
    let Run { feature, skin, .. } = *run;
    let [from, to] = [low, high].map(|v| meridian.at(v));
    Swept { feature, skin, from, to, bulge: bulge_of(&meridian) }
}

/// No thread ends on an arc: the face has all of it.
fn bulge_of(meridian: &Meridian) -> f64 {
    match meridian {
        Meridian::Line { .. } => 0.0,
        Meridian::Arc { sweep, .. } => libm::tan(sweep / 4.0),
    }
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
            let bulge = bulge_of(&surface.meridian);
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
