//! A finished body: truck's solid, the names of its faces, and what was cut into it.

use std::collections::HashSet;

use super::ring::Faces;
use super::swept::{self, Swept};
use super::trim::Trim;
use super::unroll::unroll_face;
use super::{BuildError, Face, Shell, Solid, UvEdge};
use crate::quantity::Length;
use crate::section::{Feature, FlankRun, Item, Side, Skin, Thread};
use crate::standard::designation::Hand;

/// What a face is called, and which side of the wall it lies on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceName {
    /// Its feature.
    pub feature: Feature,
    /// Its skin.
    pub skin: Skin,
}

/// A thread as it stands on a body, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct CutThread {
    /// Its name.
    pub item: Item,
    /// Outside or inside.
    pub side: Side,
    /// Axial distance of ridges.
    pub pitch: f64,
    /// Number of ridges.
    pub starts: u32,
    /// Right or left.
    pub hand: Hand,
    /// Half the angle between flanks, in degrees.
    pub half_angle: f64,
    /// Radius of the crest.
    pub crest: f64,
    /// Radius of the root.
    pub root: f64,
    /// Radius at which ridge and groove are equally wide.
    pub pitch_radius: f64,
    /// The flank's pieces from crest to root; none stands for one straight line at the half angle.
    pub flank: Vec<FlankRun>,
    /// z of the middle of a ridge at angle 0.
    pub ridge_z: f64,
    /// The z between which every cross-section shows the untrimmed profile; empty (low >= high)
    /// where the ends leave no such place.
    pub full: [f64; 2],
    /// The z between which anything of the thread is cut.
    pub extent: [f64; 2],
}

impl CutThread {
    pub(super) fn new(thread: &Thread, low: &Trim, high: &Trim) -> Self {
        let form = &thread.form;
        // Every cross-section shows the whole profile from the low end's greatest z on, up to the
        // high end's least.
        let nearest = |trim: &Trim, ahead: f64| {
            let z = trim.points.iter().map(|p| p[1] * ahead);
            z.fold(f64::NEG_INFINITY, f64::max) * ahead
        };
        let centre = (thread.from + thread.phase).as_mm();
        let half_pitch = form.pitch.as_mm() / 2.0;
        Self {
            item: thread.item,
            side: thread.side,
            pitch: form.pitch.as_mm(),
            starts: form.starts,
            hand: form.hand,
            half_angle: form.half_angle.as_deg(),
            crest: form.crest.as_mm() / 2.0,
            root: form.root.as_mm() / 2.0,
            pitch_radius: form.pitch_diameter.as_mm() / 2.0,
            flank: form.flank_runs(),
            ridge_z: if thread.side == Side::External { centre } else { centre + half_pitch },
            full: [nearest(low, 1.0), nearest(high, -1.0)],
            extent: [low.farthest(-1.0), high.farthest(1.0)],
        }
    }

    /// Climb per turn.
    pub fn lead(&self) -> f64 {
        self.pitch * f64::from(self.starts)
    }

    /// Radii between which the flank is straight, or an arc short enough to be taken as such: a
    /// flank's extremes against another's lie at these, to a ten-thousandth of the arc's radius.
    pub fn flank_radii(&self) -> Vec<f64> {
        /// Pieces of an arc: an arc of a quarter turn is off its chord by the square of its
        /// share of it, over 8.
        const PIECES: u32 = 64;
        let of = |run: &FlankRun| {
            let (from, to) = (run.from.as_mm() / 2.0, run.to.as_mm() / 2.0);
            let pieces = if run.bulge == 0.0 { 1 } else { PIECES };
            (0..=pieces).map(move |n| from + (to - from) * f64::from(n) / f64::from(pieces))
        };
        self.flank.iter().flat_map(of).collect()
    }

    /// Axial width of the ridge at a radius; beyond crest and root that of a straight flank.
    pub fn ridge_at(&self, r: f64) -> f64 {
        /// A radius this close to a piece's end, as a share of it, is on it: halving and doubling
        /// must not lose the end of a rounding.
        const END: f64 = 1e-9;
        let diameter = Length::mm(r * 2.0);
        let share = |run: &FlankRun| (diameter - run.from) / (run.to - run.from);
        if let Some(run) = self.flank.iter().find(|run| (-END..=1.0 + END).contains(&share(run))) {
            let ridge = match share(run) {
                s if s < END => run.ridge_from,
                s if s > 1.0 - END => run.ridge_to,
                _ => run.ridge_at(diameter),
            };
            return ridge.as_mm();
        }
        let towards_root =
            if self.crest > self.root { self.pitch_radius - r } else { r - self.pitch_radius };
        self.pitch / 2.0 + 2.0 * towards_root * libm::tan(self.half_angle.to_radians())
    }
}

/// An exact solid, closed and oriented, with a name for every face.
#[derive(Clone, Debug)]
pub struct Body {
    solid: Solid,
    names: Vec<FaceName>,
    threads: Vec<CutThread>,
}

impl Body {
    /// Closes the faces into a solid; truck checks that it is connected, closed, oriented and
    /// manifold, and every face must be the right way round.
    pub(super) fn close(faces: Faces, threads: Vec<CutThread>) -> Result<Self, BuildError> {
        for (face, name) in faces.faces.iter().zip(&faces.names) {
            let area: f64 = unroll_face(face).iter().map(UvEdge::cross).sum();
            if area.is_nan() || area <= 0.0 {
                let reason = format!("{} is inside out", name.feature);
                return Err(BuildError::NotSolid { reason });
            }
        }
        let shell: Shell = faces.faces.into_iter().collect();
        let solid = Solid::try_new(vec![shell])
            .map_err(|e| BuildError::NotSolid { reason: e.to_string() })?;
        Ok(Self { solid, names: faces.names, threads })
    }

    /// truck's solid: one closed shell.
    pub fn solid(&self) -> &Solid {
        &self.solid
    }

    /// The faces with their names, always in the same order.
    pub fn faces(&self) -> impl Iterator<Item = (&Face, &FaceName)> {
        self.solid.face_iter().zip(&self.names)
    }

    /// The threads that were cut.
    pub fn threads(&self) -> &[CutThread] {
        &self.threads
    }

    /// One of the threads.
    pub fn thread(&self, item: Item) -> Option<&CutThread> {
        self.threads.iter().find(|thread| thread.item == item)
    }

    /// Handles through the body: 1 for a section, 0 for a unit.
    ///
    /// Euler and Poincare: V - E + F - (L - F) = 2 (1 - genus), L counting loops; a face that
    /// closes over the axis has one loop and is a disc.
    pub fn genus(&self) -> i64 {
        let edges = self.solid.edge_iter().count() as i64 / 2;
        let vertices: HashSet<_> = self.solid.vertex_iter().map(|v| v.id()).collect();
        let loops: i64 = self.solid.face_iter().map(|f| f.absolute_boundaries().len() as i64).sum();
        let faces = self.names.len() as i64;
        1 - (vertices.len() as i64 - edges + 2 * faces - loops) / 2
    }

    /// Every face turned through every angle: see [`lines`](super::lines), which gives the same
    /// lines without the solid.
    pub fn swept(&self) -> Vec<Swept> {
        swept::lines_of(self.faces(), &self.threads)
    }
}
