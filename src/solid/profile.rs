//! A thread's profile in raw millimetres: where its flanks run.

use std::f64::consts::TAU;

use super::trim::{DrawnOut, Reach};
use super::{HalfPoint, Meridian, Polar, Screw};
use crate::quantity::Length;
use crate::section::{Facet, Feature, FlankRun, RunOut, Side, Skin, Thread};
use crate::standard::designation::Hand;

use super::FaceName;

/// Which flank of a ridge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Flank {
    Front,
    Back,
}

/// A thread's form, with the flanks' place.
///
/// Ridges are numbered in the order of z; ridge n + starts is ridge n, one turn on. Groove n lies
/// between the back flank of ridge n and the front flank of ridge n + 1.
pub(super) struct Profile<'a> {
    pub thread: &'a Thread,
    pub crest: f64,
    pub root: f64,
    pub pitch: f64,
    pub starts: usize,
    /// Climb per radian, negative for a left-hand thread.
    pub climb: f64,
    /// Axial width of crest's and root's flats; 0 where they are rounded whole.
    pub crest_flat: f64,
    pub root_flat: f64,
    /// The flank from crest to root.
    runs: Vec<FlankRun>,
    /// Radii of the runs' ends, from crest to root: one more than runs.
    pub radii: Vec<f64>,
    /// z of the middle of ridge 0 at angle 0.
    middle: f64,
}

/// Of a cylinder, what a drawn-out tool leaves whole at the thread's end, in millimetres: less,
/// and the groove's end would touch the shoulder behind it; more, and threads grow shorter.
const LAND: f64 = 0.01;

impl<'a> Profile<'a> {
    /// The profile of a thread whose form is sound.
    pub fn new(thread: &'a Thread) -> Self {
        let form = &thread.form;
        let pitch = form.pitch.as_mm();
        let sign = if form.hand == Hand::Right { 1.0 } else { -1.0 };
        let centre = (thread.from + thread.phase).as_mm();
        let middle = if thread.side == Side::External { centre } else { centre + pitch / 2.0 };
        let runs = form.flank_runs();
        let radius = |d: Length| d.as_mm() / 2.0;
        let radii = runs.iter().map(|run| radius(run.from)).chain([radius(form.root)]).collect();
        Self {
            thread,
            crest: radius(form.crest),
            root: radius(form.root),
            pitch,
            starts: form.starts as usize,
            climb: sign * form.lead().as_mm() / TAU,
            crest_flat: form.crest_flat().as_mm(),
            root_flat: form.root_flat().as_mm(),
            runs,
            radii,
            middle,
        }
    }

    pub fn name(&self, facet: Facet) -> FaceName {
        let skin = if self.thread.side == Side::External { Skin::Outside } else { Skin::Bore };
        FaceName { feature: Feature::new(self.thread.item, facet), skin }
    }

    /// z at angle 0 of the middle of ridge n.
    pub fn ridge(&self, n: isize) -> f64 {
        self.middle + n as f64 * self.pitch
    }

    /// z at angle 0 of a flank of ridge n at a radius.
    pub fn flank_z(&self, n: isize, flank: Flank, r: f64) -> f64 {
        let half = self.width(r) / 2.0;
        self.ridge(n) + if flank == Flank::Front { -half } else { half }
    }

    /// Axial width of the ridge at a radius; exactly the runs' own at their ends.
    fn width(&self, r: f64) -> f64 {
        if let Some(n) = self.radii.iter().position(|at| *at == r) {
            return self.width_at(n);
        }
        let run = self.runs[self.piece_at(r)];
        run.ridge_at(Length::mm(r * 2.0)).as_mm()
    }

    /// Axial width of the ridge at the n-th of the radii.
    pub fn width_at(&self, n: usize) -> f64 {
        let before = n.checked_sub(1).map(|n| self.runs[n].ridge_to);
        before.unwrap_or(self.runs[0].ridge_from).as_mm()
    }

    /// The run of the flank in which a radius lies.
    pub fn piece_at(&self, r: f64) -> usize {
        let beyond = |n: &usize| (self.radii[*n + 1] - r) * (self.radii[*n] - r) <= 0.0;
        (0..self.runs.len()).find(beyond).unwrap_or(0)
    }

    /// Where a flank passes a point of the half-plane.
    pub fn on_flank(&self, n: isize, flank: Flank, at: HalfPoint) -> Polar {
        let theta = (at[1] - self.flank_z(n, flank, at[0])) / self.climb;
        Polar { theta, r: at[0], z: at[1] }
    }

    /// The meridian of one piece of a flank at angle 0, from crest to root.
    pub fn meridian(&self, n: isize, flank: Flank, piece: usize) -> Meridian {
        let ends = [piece, piece + 1].map(|k| {
            let half = self.width_at(k) / 2.0;
            let z = self.ridge(n) + if flank == Flank::Front { -half } else { half };
            [self.radii[k], z]
        });
        // Positive bulges are hollow: on an external back flank, walked down, a left turn.
        let outside = self.thread.side == Side::External;
        let sign = if outside == (flank == Flank::Back) { 1.0 } else { -1.0 };
        Meridian::between(ends[0], ends[1], sign * self.runs[piece].bulge)
    }

    /// The surface of one piece of a flank, v running from crest to root.
    pub fn surface(&self, n: isize, flank: Flank, piece: usize) -> Screw {
        Screw { meridian: self.meridian(n, flank, piece), climb: self.climb, out: 0.0 }
    }

    /// The v of a radius within a piece of a flank.
    pub fn v_of(&self, piece: usize, r: f64) -> f64 {
        let ends = [self.radii[piece], self.radii[piece + 1]];
        if r == ends[0] || r == ends[1] {
            return if r == ends[0] { 0.0 } else { 1.0 };
        }
        let at = [r, self.flank_z(0, Flank::Back, r)];
        self.meridian(0, Flank::Back, piece).v_of(at).clamp(0.0, 1.0)
    }

    /// Radii at which the end from a to b meets a corner of the flank, or at which its cut through
    /// an arc of either flank would turn back in angle: there the arc runs along the cut.
    pub fn corners_between(&self, a: HalfPoint, b: HalfPoint) -> Vec<f64> {
        let mut found = self.radii.clone();
        if a[0] == b[0] {
            return found;
        }
        let slope = (b[1] - a[1]) / (b[0] - a[0]);
        for piece in 0..self.runs.len() {
            for flank in [Flank::Front, Flank::Back] {
                let meridian = self.meridian(0, flank, piece);
                found.extend(meridian.parallel_to(slope).map(|v| meridian.at(v)[0]));
            }
        }
        found
    }

    /// How far the thread reaches at its end at `to` (ahead 1) or at `from` (ahead -1), in the
    /// order of z.
    pub fn reach(&self, ahead: f64) -> Reach {
        let thread = self.thread;
        let last = usize::from(ahead > 0.0);
        let (lead, drawn_out) = match thread.run_outs[last] {
            RunOut::Wall => (0.0, None),
            RunOut::Lead(length) => (length.as_mm(), None),
            RunOut::Withdrawal { turns } => (0.0, Some(self.drawn_out(turns * TAU))),
        };
        let stop = [thread.from, thread.to][last].as_mm();
        let (item, crest, root) = (thread.item, self.crest, self.root);
        Reach { item, crest, root, stop, lead, drawn_out, ahead }
    }

    /// How long a tool that is drawn out over an angle still cuts.
    fn drawn_out(&self, turn: f64) -> DrawnOut {
        let along = self.climb.abs() * turn;
        let ends = (0..self.radii.len()).map(|n| [self.radii[n], self.width_at(n)]);
        // On an arc, where its own slope is that of the way out.
        let slope = along / (self.root - self.crest);
        let arcs = (0..self.runs.len()).flat_map(|piece| {
            let meridian = self.meridian(0, Flank::Back, piece);
            let width = |z: f64| (z - self.ridge(0)) * 2.0;
            meridian.parallel_to(slope).map(move |v| {
                let [r, z] = meridian.at(v);
                [r, width(z)]
            })
        });
        let reaches = ends.chain(arcs).map(|[r, width]| {
            (self.pitch - width) / 2.0 + along * (self.crest - r) / (self.crest - self.root)
        });
        let centre = reaches.fold(0.0, f64::max) + LAND;
        DrawnOut { turn, length: centre + self.groove_at(0) / 2.0, centre }
    }

    /// Axial width of the groove at the n-th of the radii.
    pub fn groove_at(&self, n: usize) -> f64 {
        self.pitch - self.width_at(n)
    }

    /// Depth of the n-th of the radii under the crest, as a share of the whole depth.
    pub fn share(&self, n: usize) -> f64 {
        (self.crest - self.radii[n]) / (self.crest - self.root)
    }
}

/// z of a groove's middle where the tool that cuts a thread begins to be drawn out, at its end at
/// `from` (0) or at `to` (1), if it stops there within its cylinder; none where it is not drawn out.
pub fn withdrawal_begins(thread: &Thread, end: usize) -> Option<f64> {
    let ahead = if end == 0 { -1.0 } else { 1.0 };
    let reach = Profile::new(thread).reach(ahead);
    reach.drawn_out.map(|out| reach.stop - ahead * out.centre)
}
