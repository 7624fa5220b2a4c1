//! Surfaces in the words of the bench, for notes and advice.

use crate::section::{Facet, Feature, Item, Mouth};

/// What people call a thing that is cut, drilled or bought.
pub(crate) const fn item(item: Item) -> &'static str {
    match item {
        Item::FrontFace => "front face",
        Item::Grip(_) => "grip",
        Item::Bead(_) => "bead",
        Item::Groove(_) => "groove",
        Item::CapThread => "cap's thread",
        Item::Shoulder => "shoulder",
        Item::Relief => "relief groove",
        Item::Tenon => "tenon",
        Item::Pilot => "tenon's pilot",
        Item::BackFace => "tenon's back face",
        Item::Recess => "collar recess",
        Item::ClearanceBore => "clearance bore",
        Item::TapDrill => "tap drill's hole",
        Item::ThroughBore => "through bore",
        Item::BoreStep(Mouth::Front, _) => "bore step from the front",
        Item::BoreStep(Mouth::Back, _) => "bore step from the back",
        Item::Countersink(Mouth::Front) => "countersink at the front",
        Item::Countersink(Mouth::Back) => "countersink at the back",
        Item::BoreRelief(_) => "relief in the bore",
        Item::CentrePilot => "centre drill's pilot hole",
        Item::UnitThread => "section's thread",
        Item::TenonThread => "tenon's thread",
        Item::Collar => "collar",
        Item::Plain => "unit's plain part",
        Item::UnitBody => "unit's thread",
        Item::Tail => "unit's tail",
        Item::Nipple => "unit's nipple",
        Item::Barrel => "barrel's face",
        Item::Counterbore => "barrel's counterbore",
        Item::BarrelBore => "barrel's hole",
        Item::BarrelThread => "barrel's thread",
        Item::BarrelInside => "barrel's bore",
        Item::Cap => "cap's mouth",
        Item::CapCounterbore => "cap's counterbore",
        Item::CapHole => "cap's hole at the mouth",
        Item::CapInsideThread => "thread in the cap",
        Item::CapBore(_) => "cap's bore",
        Item::InnerCap => "inner cap",
        Item::Nib => "nib",
        Item::Converter => "converter",
        Item::ConverterMouth => "converter's mouth",
        Item::ConverterHole => "hole in the converter's mouth",
        Item::Blank => "rod",
        Item::Plug => "check plug",
        Item::PlugThread => "check plug's thread",
        Item::Ring => "check ring",
        Item::RingThread => "check ring's thread",
        Item::Bushing => "bushing",
        Item::BushingCounterbore => "bushing's counterbore",
        Item::BushingThread => "bushing's thread",
        Item::BushingBore => "bushing's bore",
        Item::LipPlug => "lip plug",
        Item::RecessStub => "lip plug's stub in the recess",
        Item::ClearanceStub => "lip plug's stub in the clearance bore",
        Item::CentreHole => "centre hole",
        Item::TapThread => "tap's thread",
        Item::TapNeck => "tap's neck",
        Item::Shank => "tap's shank",
        Item::CutFace => "coupon's cut face",
        Item::Rung => "rung's outside",
        Item::Handle => "stand-in's handle",
        Item::PlateRing => "calibration ring",
        Item::PlateHole(_) => "calibration ring's hole",
        Item::PlatePlug => "calibration plug",
        Item::PlatePeg(_) => "calibration plug's peg",
        Item::Mark(_) => "mark",
    }
}

/// A surface, with its article: an item's side, the end of it, or where a thread's groove ends.
pub(crate) fn surface(feature: Feature) -> String {
    let name = item(feature.item);
    match (feature.item, feature.facet) {
        // Faces have no ends, and a ring has no far one.
        (Item::Barrel | Item::Cap | Item::Bead(_) | Item::Groove(_), _) => format!("the {name}"),
        (_, Facet::RunOut) => format!("the run-out of the {name}"),
        (_, Facet::Floor | Facet::Cone | Facet::Chamfer | Facet::Fillet) => {
            format!("the end of the {name}")
        }
        _ => format!("the {name}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn surfaces_read_as_people_say_them() {
        let run_out = Feature::new(Item::UnitThread, Facet::RunOut);
        assert_eq!(surface(run_out), "the run-out of the section's thread");
        assert_eq!(surface(Feature::new(Item::Tail, Facet::Side)), "the unit's tail");
    }
}
