//! A stepped plug that supports the lip while the outside is turned.
//!
//! ```text
//!    tailstock      body             z = 0: bears        r ^
//!       ___________________________ |                      |
//!       \                          ||_____________         +--> z
//!        >-- centre hole           |_ _ stub _ _ _|
//! ```
//! A bare 60 degree centre is a wedge in the lip and splits it. The plug takes the centre in its
//! own end, slides into recess and clearance bore, and bears on a plane: on the recess's floor
//! where that is flat, so that nothing presses on the lip at all and the front can be faced; else
//! (a seat that is a cone would be wedged as well) on the front face.
//! Its own axis: z = 0 is the plane that bears, growing into the section.

use std::fmt;

use super::{HUNDREDTHS, TENTHS, down, up};
use crate::quantity::Length;
use crate::section::bore::tool_diameter_at;
use crate::section::outside::Pen;
use crate::section::{Bore, Facet, Feature, Item, Mouth, Part, Point, Section, Skin, Station};
use crate::standard::iso6411::{CentreHole, hole_within};

/// Clearance of the plug in a hole at its least, on the diameter (common practice, no source):
/// less, and it seizes in a hole that a chip is left in; more, and the lip runs out by half of it.
const FIT: Length = Length::mm(0.02);

/// The least ring that the plug bears on, on the diameter (common practice, no source): less, and
/// it bears on an edge.
const LEDGE: Length = Length::mm(0.2);

/// How far a stub ends before the hole does (common practice, no source): less, and a chip at the
/// bottom bears instead of the plug's plane.
const GAP: Length = Length::mm(0.3);

/// Stubs are no longer than this share of their diameter (common practice, no source): more only
/// makes the fit harder to enter.
const SLENDER: f64 = 1.0;

/// A stub shorter than this guides nothing, and is left out.
const LEAST_STUB: Length = Length::mm(0.3);

/// How far the body stands out of the front face (common practice, no source): less, and the
/// tool's holder meets the tailstock before the tool has passed the lip.
const STANDS_OUT: Length = Length::mm(12.0);

/// What a body that bears on the front face stays under the finished front's edge, on the
/// diameter: less, and the tool touches it in its last pass.
const TOOL_PASSES: Length = Length::mm(0.2);

/// The share of the body's end that the centre hole takes (common practice, no source): more, and
/// its own rim splits.
const CENTRE_SHARE: f64 = 0.6;

/// What the plug bears on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// The flat floor of the recess: the body itself is what fits the recess.
    RecessFloor,
    /// The front face.
    FrontFace,
}

impl fmt::Display for Bearing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::RecessFloor => "recess's floor",
            Self::FrontFace => "front face",
        })
    }
}

/// A cylinder of the plug that enters a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stub {
    /// Its diameter.
    pub diameter: Length,
    /// Where it ends, from the plane that bears.
    pub to: Length,
}

/// A plug for the lip.
#[derive(Clone, Debug, PartialEq)]
pub struct LipPlug {
    /// What it bears on.
    pub bearing: Bearing,
    /// Clearance in a hole at its least, on the diameter.
    pub fit: Length,
    /// Diameter of the body.
    pub diameter: Length,
    /// From the plane that bears to the end with the centre hole.
    pub length: Length,
    /// What enters the recess, where the body does not.
    pub recess: Option<Stub>,
    /// What enters the clearance bore, where there is length for it.
    pub clearance: Option<Stub>,
    /// The centre hole in the body's end.
    pub centre: CentreHole,
}

impl Section {
    /// The plug for its lip; none where there is no recess or clearance bore, where neither the
    /// recess's floor nor the front face leaves a ring of 0.1 mm to bear on, or where the body is
    /// too thin for a centre hole.
    pub fn lip_plug(&self) -> Option<LipPlug> {
        let (recess, clearance) = (self.bore(Item::Recess)?, self.bore(Item::ClearanceBore)?);
        let length = self.length();
        let into = |bore: &Bore| down(bore.limits.min().min(bore.diameter) - FIT, HUNDREDTHS);
        let [seat, end] = [recess, clearance].map(|bore| bore.full_depth(length));
        let to_come = self.allowance.facing + self.allowance.sanding;
        let stub = |bore: &Bore, from: Length, room: Length| {
            let diameter = into(bore);
            let to = down((room - GAP).min(from + diameter * SLENDER), TENTHS);
            (to - from >= LEAST_STUB).then_some(Stub { diameter, to })
        };
        // The widest that anything but the recess leaves at its floor.
        let others = self.bores.iter().filter(|bore| bore.item != Item::Recess);
        let behind = others.map(|bore| tool_diameter_at(bore, seat, length));
        let hole = behind.fold(clearance.limits.max(), Length::max);
        let plug = if recess.point == Point::Flat && into(recess) - hole >= LEDGE {
            LipPlug {
                bearing: Bearing::RecessFloor,
                fit: FIT,
                diameter: into(recess),
                length: up(seat + to_come + STANDS_OUT, 1.0),
                recess: None,
                clearance: stub(clearance, Length::ZERO, end - seat),
                centre: hole_within(into(recess) * CENTRE_SHARE)?,
            }
        } else {
            // A countersink at the front is cut into the finished face, after the plug is out.
            let sink = Item::Countersink(Mouth::Front);
            let at_front = self.bores.iter().filter(|bore| bore.item != sink);
            let at_front = at_front.map(|bore| tool_diameter_at(bore, Length::ZERO, length));
            let mouth = at_front.fold(recess.limits.max(), Length::max);
            let diameter = down(self.face_diameter(Item::FrontFace)? - TOOL_PASSES, TENTHS);
            if diameter - mouth < LEDGE {
                return None;
            }
            let recess = stub(recess, Length::ZERO, seat);
            let from = recess.map_or(Length::ZERO, |recess| recess.to);
            LipPlug {
                bearing: Bearing::FrontFace,
                fit: FIT,
                diameter,
                length: up(to_come + STANDS_OUT, 1.0),
                recess,
                clearance: stub(clearance, from, end),
                centre: hole_within(diameter * CENTRE_SHARE)?,
            }
        };
        Some(plug)
    }
}

impl LipPlug {
    /// Its solid.
    pub fn part(&self) -> Part {
        let name = Feature::new;
        let (zero, centre) = (Length::ZERO, self.centre);
        let end = zero - self.length;
        let (cone_end, pilot_end) =
            (end + centre.cone_length(), end + centre.cone_length() + centre.pilot_length);
        let mut pen = Pen::start(Station::new(zero, end + centre.depth()));
        let pilot = |facet| name(Item::CentrePilot, facet);
        pen.to(pilot(Facet::Cone), Skin::Bore, centre.pilot, pilot_end);
        pen.to(pilot(Facet::Side), Skin::Bore, centre.pilot, cone_end);
        pen.to(name(Item::CentreHole, Facet::Side), Skin::Bore, centre.mouth, end);
        pen.to(name(Item::LipPlug, Facet::Floor), Skin::End, self.diameter, end);
        pen.to(name(Item::LipPlug, Facet::Side), Skin::Outside, self.diameter, zero);
        // The plane that bears, and every step before it, belongs to what is wider.
        let (mut wider, mut at) = (Item::LipPlug, zero);
        for (item, stub) in [(Item::RecessStub, self.recess), (Item::ClearanceStub, self.clearance)]
        {
            let Some(stub) = stub else { continue };
            pen.to(name(wider, Facet::Floor), Skin::Outside, stub.diameter, at);
            pen.to(name(item, Facet::Side), Skin::Outside, stub.diameter, stub.to);
            (wider, at) = (item, stub.to);
        }
        pen.to(name(wider, Facet::Floor), Skin::End, zero, at);
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }
}
