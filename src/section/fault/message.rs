//! What is wrong, in words and values.

use std::fmt;

use super::{SectionError, Subject};
use crate::section::Item;

impl fmt::Display for SectionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BoreWiderThanBody { bore, z, hole, body } => write!(
                f,
                "the {bore} of {hole} is wider than the body, which is {body} at {z} from the front"
            ),
            Self::RootCutsBore { thread, bore, root, hole } => {
                write!(f, "the root of the {thread}, {root}, cuts into the {bore} of {hole}")
            }
            Self::NoThread { thread, crest, .. } => {
                write!(f, "a crest of {crest} leaves nothing of the {thread}")
            }
            Self::UnitCannotPass { step: Item::UnitBody, diameter, bore, hole } => {
                write!(f, "the unit's thread of {diameter} can't pass the {bore} of {hole}")
            }
            Self::UnitCannotPass { step, diameter, bore, hole } => {
                write!(f, "the unit's {step} of {diameter} can't pass the {bore} of {hole}")
            }
            Self::NoSeat { collar, hole, .. } => {
                write!(f, "the collar of {collar} has no seat: the hole behind it is {hole}")
            }
            Self::SwallowsHole { bore, diameter, than, other } => {
                write!(
                    f,
                    "the {bore} of {diameter} is wider than the {than} of {other} in front of it"
                )
            }
            Self::TenonLongerThanBarrel { tenon, barrel } => {
                write!(f, "the tenon of {tenon} is longer than the barrel's hole, {barrel}")
            }
            Self::UnitLongerThanSection { unit, section } => write!(
                f,
                "the unit ends {unit} behind the front face, but the section is {section} long"
            ),
            Self::Outside(error) => error.fmt(f),
            Self::RunsMissShoulder { to, shoulder, .. } if to < shoulder => {
                write!(
                    f,
                    "the last run ends at {to} and leaves a gap up to the shoulder at {shoulder}"
                )
            }
            Self::RunsMissShoulder { to, shoulder, .. } => {
                write!(f, "the last run ends at {to}, beyond the shoulder at {shoulder}")
            }
            Self::NoShoulder { grip, tenon, .. } => {
                write!(
                    f,
                    "the grip ends {grip} wide, no wider than the tenon of {tenon}: no shoulder"
                )
            }
            Self::ChamferWiderThanThread { chamfer, length, .. } => {
                write!(f, "a lead chamfer of {chamfer} takes the whole thread of {length}")
            }
            Self::DepthsOutOfOrder { deeper: Item::BackFace, depth, than, other } => {
                write!(f, "the {than} goes to {other}, but the section is {depth} long")
            }
            Self::DepthsOutOfOrder { deeper, depth, than, other } => write!(
                f,
                "the {deeper} ends at {depth}, but has to go past the {than}, which ends at {other}"
            ),
            Self::DoesNotFit { subject, measure, value, bound, at_most } => {
                let name = name(*subject);
                let than = if *at_most { "more than" } else { "less than" };
                write!(f, "a {measure} of {value} is {than} the {name} can have here, {bound}")
            }
            Self::StepTooSmall { a, b } => write!(
                f,
                "{a} and {b} differ by {:.1e} mm: too small a step to be cut or shown",
                (*b - *a).as_mm()
            ),
            Self::LeavesNothing { bore, by, diameter, .. } => write!(
                f,
                "the {bore} leaves nothing: the {by} of {diameter} is as wide wherever it goes"
            ),
            Self::CutsUnitThread { bore, diameter, from, to, .. } => {
                write!(f, "the {bore} of {diameter} cuts the unit thread away from {from} to {to}")
            }
            Self::HolesTouch { bore, other, z, .. } => {
                write!(f, "the {bore} just touches the {other} on the axis, at {z} from the front")
            }
            Self::BlindToConverter { z } => {
                write!(f, "the section is closed at {z}: no converter comes to the nipple")
            }
            Self::NoNipple => f.write_str("the unit has no nipple for the converter"),
            Self::ReliefInSolid { bore, z, to } => write!(
                f,
                "the {bore} goes to {to}, but the hole that its tool comes through ends at {z}"
            ),
        }
    }
}

/// What has a measure that does not fit.
fn name(subject: Subject) -> &'static str {
    match subject {
        Subject::Relief => "relief",
        Subject::Pilot => "pilot",
        Subject::Counterbore => "counterbore",
        Subject::BlankDiameter | Subject::BlankLength => "rod",
        Subject::Diameter(Item::CentrePilot) => "centre drill's pilot",
        Subject::BarrelBore => "barrel's bore",
        Subject::CapStop => "cap",
        Subject::CapCounterbore => "cap's counterbore",
        Subject::Depth(Item::CapInsideThread) => "thread in the cap",
        Subject::Depth(Item::CapHole) => "hole at the cap's mouth",
        Subject::CapBore(_) => "cap's bore",
        Subject::CapSeal => "inner cap",
        Subject::Converter => "converter",
        Subject::ConverterMouth => "converter's mouth",
        _ => "part",
    }
}
