//! The resolved part: where material is, and what it meets.
//!
//! Nothing here is optional in the sense of "not set": a [`Section`] says where every tool goes
//! and every run ends. It knows no file and no name of a setting; [`crate::design`] makes it from
//! what people write, and gives the errors found here their place.
//!
//! [`Section::part`] turns it into a closed chain of runs with threads ([`Part`]), which is all
//! that [`crate::solid`] needs. Feature names are made here and go through to every output.

mod barrel;
mod blank;
mod bore;
mod cap;
mod companion;
mod converter;
mod cut;
mod fault;
mod feature;
mod limits;
mod maker;
mod mates;
mod outline;
mod outside;
mod plate;
mod printer;
mod rules;
mod thread;
mod unit;
mod workpiece;
mod workshop;
mod worst;

pub use barrel::{Barrel, BarrelBore, Counterbore};
pub use blank::Blank;
pub use bore::{Bore, CentrePilot, Depth, EnvelopeRun, Mouth, Point, envelope};
pub use cap::{Cap, CapBore, CapMouth, InnerCap};
pub use companion::{
    Bearing, Bushing, CheckFit, Flutes, LipPlug, NamedPart, PartKind, SizingTap, Stub, TapEnd,
    TapOrder, check_fit, plug, ring,
};
pub use converter::{Converter, ConverterMouth};
pub use cut::{Cut, Sequence, Stage, Why};
pub use fault::{SectionError, Subject};
pub use feature::{Facet, Feature, Item};
pub use limits::{Criteria, FitLimits, Limit, Offsets, PercentLimits, WallLimits, Zone};
pub use maker::{Maker, Means};
pub use outline::{COINCIDENT, LEAST_STEP, Part, Run, Shape, Skin, Station};
pub use outside::{
    CapThread, Corner, Curve, Grip, GripRun, LeadChamfer, OutsideError, Pen, Pilot, Relief, Ring,
    RingForm, StepFault, Tenon,
};
pub use plate::{Measurand, PieceKind, PieceSizes, Plate, PlatePiece, PlateReading, PlateValue};
pub use printer::{Compensation, Printer, Process, Surface};
pub use rules::faults;
pub use thread::{Flank, FlankPoint, FlankRun, RunOut, Side, Thread, ThreadForm, ThreadLimits};
pub use unit::{Reading, Unit, UnitStep};
pub use workpiece::Workpiece;
pub use workshop::{Cutting, Holdings, Lathe, Quill, Tap, TapLead, Tool, ToolKind, Workshop};

use crate::quantity::Length;

/// What is still to come off the front face after the bores are cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowance {
    /// Facing.
    pub facing: Length,
    /// Sanding and polishing.
    pub sanding: Length,
}

/// A grip section, with what it meets.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The design's name.
    pub name: String,
    /// The outside from front face to shoulder.
    pub grip: Grip,
    /// What screws into the barrel.
    pub tenon: Tenon,
    /// The holes, each a tool: those of the unit's stack, widest first, then all others.
    pub bores: Vec<Bore>,
    /// The thread that takes the unit, cut into the tap drill's hole.
    pub unit_thread: Thread,
    /// The nib unit.
    pub unit: Unit,
    /// The barrel.
    pub barrel: Barrel,
    /// The cap; none where nothing is said of it.
    pub cap: Option<Cap>,
    /// The converter; none where nothing is said of it.
    pub converter: Option<Converter>,
    /// The material's name.
    pub material: String,
    /// The rod that it is made of.
    pub blank: Blank,
    /// What is still to come off the front.
    pub allowance: Allowance,
    /// What the part is judged by.
    pub criteria: Criteria,
    /// What can be held where it is made.
    pub maker: Maker,
}

impl Section {
    /// From the front face to the back face.
    pub fn length(&self) -> Length {
        self.grip.length() + self.tenon.length
    }

    /// One of the holes.
    pub fn bore(&self, item: Item) -> Option<&Bore> {
        self.bores.iter().find(|bore| bore.item == item)
    }

    /// From the front face to what the underside of the collar rests on: the recess's floor, or the
    /// place in its cone that is as wide as the collar.
    pub fn seat(&self) -> Length {
        self.bore(Item::Recess).map_or(Length::ZERO, |recess| {
            let cone = recess.point.length_between(recess.diameter, self.unit.collar.value);
            recess.full_depth(self.length()) + cone
        })
    }

    /// Every thread of the section: the tenon's, the unit's, and the cap's where there is one.
    pub fn threads(&self) -> impl Iterator<Item = &Thread> {
        let cap = self.grip.thread.as_ref().map(|cap| &cap.thread);
        [&self.tenon.thread, &self.unit_thread].into_iter().chain(cap)
    }

    /// The finished part: closed chain of runs and its threads, coincidences snapped.
    ///
    /// The chain is only sound where [`faults`] finds none.
    pub fn part(&self) -> Part {
        let bores = envelope(&self.bores, self.length());
        let mouth = bores.first().map_or(Length::ZERO, |run| run.from.diameter);
        let (face, runs) = outside::outside(&self.grip, &self.tenon, mouth);
        let runs = outline::joined(face, runs, &bores, self.length());
        Part { runs, threads: self.threads().cloned().collect() }.snapped()
    }

    /// Its outside alone: without bores, with the threads on it.
    pub fn outside_part(&self) -> Part {
        let (face, runs) = outside::outside(&self.grip, &self.tenon, Length::ZERO);
        let runs = outline::joined(face, runs, &[], self.length());
        let threads = self.threads().filter(|thread| thread.side == Side::External);
        Part { runs, threads: threads.cloned().collect() }.snapped()
    }

    /// The same part with its threads left out: plain cylinders at the crests, so at the major
    /// diameter outside and at the tap drill's inside, for a program that cuts the rest.
    pub fn plain_part(&self) -> Part {
        Part { threads: Vec::new(), ..self.part() }
    }
}
