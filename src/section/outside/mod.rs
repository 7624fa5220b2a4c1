//! The outside: the grip from the front face to the shoulder, and the tenon behind it.

mod arc;
mod chain;
mod corner;
mod fault;
mod grip;
mod plane;
mod ring;
mod stroke;
mod tenon;

pub use fault::{OutsideError, StepFault};
pub use grip::{CapThread, Corner, Curve, Grip, GripRun, Ring, RingForm};
pub use tenon::{LeadChamfer, Pilot, Relief, Tenon};

pub(super) use chain::{GripChain, draw};
pub(super) use plane::Vector;
pub(super) use stroke::Stroke;

use super::{Feature, Run, Shape, Skin, Station};
use crate::quantity::Length;

/// A chain of runs that is drawn from station to station.
#[derive(Clone, Debug)]
pub struct Pen {
    at: Station,
    runs: Vec<Run>,
}

impl Pen {
    /// Sets it down at a station.
    pub fn start(at: Station) -> Self {
        Self { at, runs: Vec::new() }
    }

    /// Draws to a station; nothing where the pen is there already.
    pub fn to(&mut self, feature: Feature, skin: Skin, diameter: Length, z: Length) {
        let to = Station::new(diameter, z);
        if to != self.at {
            self.runs.push(Run { feature, skin, from: self.at, to, shape: Shape::Straight });
            self.at = to;
        }
    }

    /// What was drawn.
    pub fn finish(self) -> Vec<Run> {
        self.runs
    }
}

/// The outside from the bore's mouth to the back face's rim: the front face with its corner, then
/// everything behind it.
pub(super) fn outside(grip: &Grip, tenon: &Tenon, mouth: Length) -> (Vec<Run>, Vec<Run>) {
    let GripChain { face, mut runs, .. } = draw(grip, mouth, tenon.foot());
    let shoulder = grip.length();
    let mut pen = Pen::start(Station::new(tenon.foot(), shoulder));
    tenon.draw(&mut pen, shoulder);
    runs.extend(pen.finish());
    (face, runs)
}
