//! A thread as it is cut: its form in the axial plane, its extent, and the sizes its class allows.

mod flank;
mod run_out;

pub use flank::{Flank, FlankPoint, FlankRun};
pub use run_out::RunOut;

use super::Item;
use crate::quantity::{Angle, Length, Limits};
use crate::standard::designation::{Hand, ThreadDesignation};

/// Which way a thread looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// On a tenon or a nib unit.
    External,
    /// In a hole.
    Internal,
}

/// A symmetric thread form in the axial plane.
///
/// Ridge and groove are equally wide at the pitch diameter, so the three diameters and the flank
/// set the flats: where it is straight, the ridge of an external thread at diameter d is
/// `pitch / 2 + (pitch_diameter - d) tan(half_angle)` wide. Corners may be rounded; a rounding may
/// take the whole flat, so that neighbouring flanks meet in one arc (ISO 68-1's rounded root).
///
/// ```text
///      crest ___         ___        r ^
///           /   \       /   \         |
///          /     \     /     \        +--> z
///    root /       \___/       \___
///         |<-- pitch -->|
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadForm {
    /// Axial distance between neighbouring ridges.
    pub pitch: Length,
    /// Number of ridges side by side; the thread climbs `starts * pitch` per turn.
    pub starts: u32,
    /// Right or left.
    pub hand: Hand,
    /// Between the flank at the pitch diameter and the plane across the axis: 30 degrees for ISO
    /// metric.
    pub half_angle: Angle,
    /// The flank's line.
    pub flank: Flank,
    /// Diameter at the top of the ridge: major diameter outside, minor diameter inside.
    pub crest: Length,
    /// Diameter where ridge and groove are equally wide.
    pub pitch_diameter: Length,
    /// Diameter at the bottom of the groove: minor diameter outside, major diameter inside.
    pub root: Length,
    /// Radius to which the crest's corners are rounded; zero leaves them sharp.
    pub crest_radius: Length,
    /// Radius to which the root's corners are rounded; zero leaves them sharp.
    pub root_radius: Length,
}

impl ThreadForm {
    /// Axial climb per turn.
    pub fn lead(&self) -> Length {
        self.pitch * f64::from(self.starts)
    }

    /// Depth of the groove, per side.
    pub fn depth(&self) -> Length {
        (self.crest - self.root).abs() / 2.0
    }

    /// Axial width of the ridge at a diameter between crest and root, roundings included; beyond
    /// them, or where there is no such thread, that of the straight flank.
    pub fn ridge_at(&self, diameter: Length) -> Length {
        let within = |run: &FlankRun| (diameter - run.from) / (run.to - run.from);
        let runs = self.flank_runs();
        if let Some(run) = runs.iter().find(|run| (0.0..=1.0).contains(&within(run))) {
            return run.ridge_at(diameter);
        }
        let towards_root = if self.crest > self.root {
            self.pitch_diameter - diameter
        } else {
            diameter - self.pitch_diameter
        };
        self.pitch / 2.0 + towards_root * libm::tan(self.half_angle.as_rad())
    }

    /// Axial width of the crest's flat, zero where it is rounded whole.
    pub fn crest_flat(&self) -> Length {
        let first = self.flank_runs().into_iter().next();
        first.map_or_else(|| self.ridge_at(self.crest), |run| run.ridge_from)
    }

    /// Axial width of the root's flat, zero where it is rounded whole.
    pub fn root_flat(&self) -> Length {
        let last = self.flank_runs().into_iter().next_back();
        self.pitch - last.map_or_else(|| self.ridge_at(self.root), |run| run.ridge_to)
    }
}

/// The diameters between which a thread may lie, by its class or as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadLimits {
    /// Major diameter.
    pub major: Limits,
    /// Pitch diameter.
    pub pitch: Limits,
    /// Minor diameter; for an external thread from the rounded root's least (d3) to the flat
    /// root's greatest.
    pub minor: Limits,
}

/// A thread on a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Its name.
    pub item: Item,
    /// Outside or inside.
    pub side: Side,
    /// As it is written on a drawing.
    pub designation: ThreadDesignation,
    /// As it is modelled.
    pub form: ThreadForm,
    /// Where the tool's full profile begins; less than `to`.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Where, at angle 0, the middle of a ridge (external) or groove (internal) lies, from `from`.
    pub phase: Length,
    /// How the tool left it at `from`, and at `to`.
    pub run_outs: [RunOut; 2],
    /// The sizes that its class, or the reading's uncertainty, allows.
    pub limits: ThreadLimits,
}

impl Thread {
    /// Axial length that the tool covers.
    pub fn length(&self) -> Length {
        self.to - self.from
    }

    /// Axial length of what the tool left at `from`, and at `to`.
    pub fn run_out_lengths(&self) -> [Length; 2] {
        let lead = self.form.lead();
        self.run_outs.map(|end| end.length(lead))
    }

    /// z between which the groove is as deep as it is wanted.
    pub fn full(&self) -> [Length; 2] {
        let [before, behind] = self.run_out_lengths();
        [self.from + before, self.to - behind]
    }

    /// Axial length over which the groove is as deep as it is wanted.
    pub fn full_length(&self) -> Length {
        let [from, to] = self.full();
        to - from
    }

    /// The same thread at its least material: crest, flanks and root as deep as its limits allow.
    #[must_use]
    pub fn at_least_material(&self) -> Self {
        let form = match self.side {
            Side::External => ThreadForm {
                crest: self.limits.major.min(),
                pitch_diameter: self.limits.pitch.min(),
                root: self.limits.minor.min(),
                ..self.form.clone()
            },
            Side::Internal => ThreadForm {
                crest: self.limits.minor.max(),
                pitch_diameter: self.limits.pitch.max(),
                root: self.limits.major.max(),
                ..self.form.clone()
            },
        };
        Self { form, ..self.clone() }
    }
}
