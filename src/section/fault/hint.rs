//! What to change, with a value that works.

use super::SectionError;
use crate::quantity::Length;
use crate::section::Item;

impl SectionError {
    /// A change that works, with a value.
    pub fn hint(&self) -> String {
        /// Enough to be measured with a caliper, so that the value in a hint clearly works.
        const CLEARLY: f64 = 0.1;
        let clearly = Length::mm(CLEARLY);
        match self {
            Self::BoreWiderThanBody { body, .. } => {
                format!("a hole under {}, or a thicker outside there", *body - clearly * 2.0)
            }
            Self::RootCutsBore { root, .. } => {
                format!("a hole of at most {}, or a larger thread", *root - clearly * 2.0)
            }
            Self::NoThread { works, .. } => format!("{works} leaves a whole thread (ISO 68-1)"),
            Self::UnitCannotPass { diameter, .. } => {
                format!("{} lets it pass", *diameter + clearly * 2.0)
            }
            Self::NoSeat { collar, .. } => {
                format!("a hole of at most {} leaves a ledge", *collar - clearly * 2.0)
            }
            Self::SwallowsHole { other, .. } => {
                format!("a hole of at most {}", *other - clearly * 2.0)
            }
            Self::TenonLongerThanBarrel { barrel, .. } => {
                format!("a tenon of {}, or a deeper hole in the barrel", *barrel - clearly * 5.0)
            }
            Self::UnitLongerThanSection { unit, section } => {
                let more = *unit - *section + clearly;
                format!("{more} more length, or a shallower recess")
            }
            Self::Outside(error) => error.hint(),
            Self::RunsMissShoulder { shoulder, .. } => format!("to = {}", shoulder.as_mm()),
            Self::NoShoulder { tenon, .. } => {
                format!("a grip that ends {} wide, or a thinner tenon", *tenon + clearly * 10.0)
            }
            Self::ChamferWiderThanThread { length, .. } => {
                format!("a chamfer of {}", (*length / 4.0).min(clearly * 5.0))
            }
            Self::DepthsOutOfOrder { deeper: Item::BackFace, depth, .. } => {
                format!("a depth under {depth}")
            }
            Self::DepthsOutOfOrder { other, .. } => {
                format!("a depth of {} or more", *other + clearly)
            }
            Self::DoesNotFit { bound, at_most, .. } => {
                format!("at {} {bound}", if *at_most { "most" } else { "least" })
            }
            Self::StepTooSmall { a, .. } => format!("make both {a}, or part them by 0.01 mm"),
            Self::LeavesNothing { diameter, stays: false, .. } => {
                format!("a diameter of {} or more, or leave it out", *diameter + clearly * 2.0)
            }
            Self::LeavesNothing { bore, depth, .. } => {
                format!("a depth of at most {} leaves the {bore} standing", *depth - clearly)
            }
            Self::CutsUnitThread { bore: Item::BoreRelief(_), from, to, .. } => {
                format!("a relief in front of {from} or behind {to}")
            }
            Self::CutsUnitThread { works, .. } if *works > Length::ZERO => {
                format!("a depth of at most {works}, or a hole no wider than the tap drill's")
            }
            Self::CutsUnitThread { .. } => "a hole no wider than the tap drill's".to_owned(),
            Self::HolesTouch { depth, .. } => {
                format!("a depth of {} leaves material between them", *depth - clearly * 5.0)
            }
            Self::BlindToConverter { .. } => {
                "converter = \"none\", or a through bore ([bores.through])".to_owned()
            }
            Self::NoNipple => {
                "measure the unit's nipple ([nipple] in its file), or leave [converter] out"
                    .to_owned()
            }
            Self::ReliefInSolid { z, .. } => {
                format!("drill that far first, or end the relief before {z}")
            }
        }
    }
}
