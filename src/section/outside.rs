//! The outside: the grip from the front face to the shoulder, and the tenon behind it.

use super::{Facet, Feature, Item, Run, Shape, Skin, Station, Thread};
use crate::quantity::Length;

/// One turned run of the grip: it begins where the one before it ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GripRun {
    /// Where it ends.
    pub to: Station,
    /// How it gets there.
    pub shape: Shape,
}

/// The grip, from the front face to the shoulder.
#[derive(Clone, Debug, PartialEq)]
pub struct Grip {
    /// Diameter at the front face.
    pub front: Length,
    /// Runs in the order of z; the last one ends at the shoulder.
    pub runs: Vec<GripRun>,
}

impl Grip {
    /// Distance from the front face to the shoulder.
    pub fn length(&self) -> Length {
        self.runs.last().map_or(Length::mm(0.0), |run| run.to.z)
    }

    /// Diameter at the shoulder.
    pub fn back(&self) -> Length {
        self.runs.last().map_or(self.front, |run| run.to.diameter)
    }
}

/// A groove between shoulder and thread, for the die's incomplete threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// Along the axis, from the shoulder.
    pub width: Length,
    /// At its bottom.
    pub diameter: Length,
}

/// A plain end in front of the thread's start, thinner than the thread's root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pilot {
    /// Along the axis, up to the back face.
    pub length: Length,
    /// Its diameter.
    pub diameter: Length,
}

/// What screws into the barrel.
#[derive(Clone, Debug, PartialEq)]
pub struct Tenon {
    /// The thread; its crest is the diameter that is turned.
    pub thread: Thread,
    /// From the shoulder to the back face.
    pub length: Length,
    /// Lead chamfer of 45 degrees: this much off the radius, over this much length. May be zero.
    pub chamfer: Length,
    /// The groove behind the shoulder, if there is one.
    pub relief: Option<Relief>,
    /// The plain end, if there is one.
    pub pilot: Option<Pilot>,
}

/// A chain of runs that is drawn from station to station.
pub(super) struct Pen {
    at: Station,
    runs: Vec<Run>,
}

impl Pen {
    pub(super) fn start(at: Station) -> Self {
        Self { at, runs: Vec::new() }
    }

    /// Draws to a station; nothing where the pen is there already.
    pub(super) fn to(&mut self, feature: Feature, skin: Skin, diameter: Length, z: Length) {
        let to = Station::new(diameter, z);
        if to != self.at {
            self.runs.push(Run { feature, skin, from: self.at, to, shape: Shape::Straight });
            self.at = to;
        }
    }

    pub(super) fn finish(self) -> Vec<Run> {
        self.runs
    }
}

/// The outside from the front face's rim to the back face's rim.
pub(super) fn runs(grip: &Grip, tenon: &Tenon) -> Vec<Run> {
    let name = Feature::new;
    let shoulder = grip.length();
    let back = shoulder + tenon.length;
    let major = tenon.thread.form.crest;
    let mut pen = Pen::start(Station::new(grip.front, Length::mm(0.0)));
    for (n, run) in (1..).zip(&grip.runs) {
        let feature = name(Item::Grip(n), Facet::Side);
        pen.to(feature, Skin::Outside, run.to.diameter, run.to.z);
    }
    let closing = name(Item::Shoulder, Facet::Side);
    match tenon.relief {
        Some(relief) => {
            pen.to(closing, Skin::Outside, relief.diameter, shoulder);
            let side = name(Item::Relief, Facet::Side);
            pen.to(side, Skin::Outside, relief.diameter, shoulder + relief.width);
            let wall = name(Item::Relief, Facet::Floor);
            pen.to(wall, Skin::Outside, major, shoulder + relief.width);
        }
        None => pen.to(closing, Skin::Outside, major, shoulder),
    }
    let thread_end = back - tenon.pilot.map_or(Length::mm(0.0), |p| p.length);
    let (side, chamfer) = (name(Item::Tenon, Facet::Side), name(Item::Tenon, Facet::Chamfer));
    pen.to(side, Skin::Outside, major, thread_end - tenon.chamfer);
    pen.to(chamfer, Skin::Outside, major - tenon.chamfer * 2.0, thread_end);
    if let Some(pilot) = tenon.pilot {
        pen.to(name(Item::Tenon, Facet::Floor), Skin::Outside, pilot.diameter, thread_end);
        pen.to(name(Item::Pilot, Facet::Side), Skin::Outside, pilot.diameter, back);
    }
    pen.finish()
}
