//! The names of a part's surfaces, as they appear in the report, on layers and in exports.

use std::fmt;

use super::Mouth;

/// A thing that is cut, drilled or bought: the first half of a feature's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// The finished front (nib) face, z = 0.
    FrontFace,
    /// Run `n` of the outside between front face and shoulder, counted from 1.
    Grip(u8),
    /// Raised ring `n` of the grip, counted from 1.
    Bead(u8),
    /// Sunk ring `n` of the grip, counted from 1.
    Groove(u8),
    /// The thread behind the grip that takes the cap.
    CapThread,
    /// The face that closes against the barrel.
    Shoulder,
    /// The groove between shoulder and tenon thread.
    Relief,
    /// The cylinder on which the tenon thread is cut, with its lead chamfer.
    Tenon,
    /// The plain end of the tenon.
    Pilot,
    /// The back end of the tenon.
    BackFace,
    /// A: takes the unit's collar.
    Recess,
    /// B: the unit's thread passes it.
    ClearanceBore,
    /// D: the hole that is tapped, and runs on behind the thread.
    TapDrill,
    /// E: takes the converter.
    ThroughBore,
    /// A further hole, bored or drilled from one face, number `n` of those from there.
    BoreStep(Mouth, u8),
    /// The cone at a mouth of the bore.
    Countersink(Mouth),
    /// A groove inside the bore, number `n` from the front.
    BoreRelief(u8),
    /// What a centre drill's pilot leaves, in the recess or in the end of a lip plug.
    CentrePilot,
    /// C: the thread that takes the nib unit.
    UnitThread,
    /// The thread that screws into the barrel.
    TenonThread,
    /// The unit's flange.
    Collar,
    /// The unit's plain cylinder behind the collar.
    Plain,
    /// The unit's own thread, and the cylinder it is moulded on.
    UnitBody,
    /// The unit's thinner cylinder behind its thread.
    Tail,
    /// The unit's end that takes the converter.
    Nipple,
    /// The barrel's outside and faces.
    Barrel,
    /// The barrel's wider, unthreaded mouth.
    Counterbore,
    /// The barrel's hole behind the counterbore.
    BarrelBore,
    /// The barrel's internal thread.
    BarrelThread,
    /// The barrel's bore behind that hole, which holds the converter.
    BarrelInside,
    /// The cap's outside, its mouth and its closed end.
    Cap,
    /// The cap's wider, unthreaded mouth.
    CapCounterbore,
    /// The hole of the cap's thread, behind its mouth.
    CapHole,
    /// The thread in the cap.
    CapInsideThread,
    /// Bore `n` of the cap behind that hole, counted from 1.
    CapBore(u8),
    /// The sleeve in the cap that closes on the section's front.
    InnerCap,
    /// Nib and feed, in front of the collar.
    Nib,
    /// The converter's outside and its end.
    Converter,
    /// The converter's mouth, where it is of another diameter.
    ConverterMouth,
    /// The hole in the converter's mouth, which takes the nipple.
    ConverterHole,
    /// A rod before anything, or before its outside, is turned.
    Blank,
    /// A check plug's body.
    Plug,
    /// A check plug's thread, and the cylinder it is cut on.
    PlugThread,
    /// A check ring's body.
    Ring,
    /// A check ring's thread, and the hole it is cut in.
    RingThread,
    /// A bushing's outside and faces.
    Bushing,
    /// A bushing's wider, unthreaded mouth.
    BushingCounterbore,
    /// A bushing's thread, and the hole it is cut in.
    BushingThread,
    /// A bushing's bore behind its thread.
    BushingBore,
    /// A lip plug's body, with the plane that bears.
    LipPlug,
    /// The cylinder of a lip plug that enters the recess.
    RecessStub,
    /// The cylinder of a lip plug that enters the clearance bore.
    ClearanceStub,
    /// The cone for a centre in the end of a lip plug.
    CentreHole,
    /// A tap's thread, and the cylinder and lead chamfer it is cut on.
    TapThread,
    /// A tap's thinner cylinder behind its thread.
    TapNeck,
    /// A tap's shank.
    Shank,
    /// The plane at which a coupon is cut off.
    CutFace,
    /// The outside of a ladder's rung.
    Rung,
    /// What a stand-in is turned by.
    Handle,
    /// A ring of a printer's calibration plate: its outside, foot and top.
    PlateRing,
    /// A hole of such a ring, 1 the lower and 2 the upper.
    PlateHole(u8),
    /// The base of a plug of that plate.
    PlatePlug,
    /// A peg of such a plug, 1 the lower and 2 the upper.
    PlatePeg(u8),
    /// Groove `n` that tells a printed piece from others, counted from the foot, from 1.
    Mark(u8),
}

impl fmt::Display for Item {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = match self {
            Self::FrontFace => "front-face",
            Self::Grip(n) => return write!(f, "grip-{n}"),
            Self::Bead(n) => return write!(f, "bead-{n}"),
            Self::Groove(n) => return write!(f, "groove-{n}"),
            Self::CapThread => "cap-thread",
            Self::BoreStep(Mouth::Front, n) => return write!(f, "bore-step-front-{n}"),
            Self::BoreStep(Mouth::Back, n) => return write!(f, "bore-step-back-{n}"),
            Self::BoreRelief(n) => return write!(f, "bore-relief-{n}"),
            Self::Countersink(Mouth::Front) => "countersink-front",
            Self::Countersink(Mouth::Back) => "countersink-back",
            Self::CentrePilot => "centre-pilot",
            Self::Shoulder => "shoulder",
            Self::Relief => "relief",
            Self::Tenon => "tenon",
            Self::Pilot => "pilot",
            Self::BackFace => "back-face",
            Self::Recess => "recess",
            Self::ClearanceBore => "clearance-bore",
            Self::TapDrill => "tap-drill",
            Self::ThroughBore => "through-bore",
            Self::UnitThread => "unit-thread",
            Self::TenonThread => "tenon-thread",
            Self::Collar => "collar",
            Self::Plain => "plain",
            Self::UnitBody => "unit-body",
            Self::Tail => "tail",
            Self::Nipple => "nipple",
            Self::Barrel => "barrel",
            Self::Counterbore => "counterbore",
            Self::BarrelBore => "barrel-bore",
            Self::BarrelThread => "barrel-thread",
            Self::BarrelInside => "barrel-inside",
            Self::Cap => "cap",
            Self::CapCounterbore => "cap-counterbore",
            Self::CapHole => "cap-hole",
            Self::CapInsideThread => "cap-inside-thread",
            Self::CapBore(n) => return write!(f, "cap-bore-{n}"),
            Self::InnerCap => "inner-cap",
            Self::Nib => "nib",
            Self::Converter => "converter",
            Self::ConverterMouth => "converter-mouth",
            Self::ConverterHole => "converter-hole",
            Self::Blank => "blank",
            Self::Plug => "plug",
            Self::PlugThread => "plug-thread",
            Self::Ring => "ring",
            Self::RingThread => "ring-thread",
            Self::Bushing => "bushing",
            Self::BushingCounterbore => "bushing-counterbore",
            Self::BushingThread => "bushing-thread",
            Self::BushingBore => "bushing-bore",
            Self::LipPlug => "lip-plug",
            Self::RecessStub => "recess-stub",
            Self::ClearanceStub => "clearance-stub",
            Self::CentreHole => "centre-hole",
            Self::TapThread => "tap-thread",
            Self::TapNeck => "tap-neck",
            Self::Shank => "shank",
            Self::CutFace => "cut-face",
            Self::Rung => "rung",
            Self::Handle => "handle",
            Self::PlateRing => "plate-ring",
            Self::PlateHole(n) => return write!(f, "plate-hole-{n}"),
            Self::PlatePlug => "plate-plug",
            Self::PlatePeg(n) => return write!(f, "plate-peg-{n}"),
            Self::Mark(n) => return write!(f, "mark-{n}"),
        };
        f.write_str(name)
    }
}

/// Which surface of an [`Item`]: the second half of a feature's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Facet {
    /// The turned or bored side, or the only surface there is.
    Side,
    /// The plane that a flat tool, or a step, leaves.
    Floor,
    /// The cone that a drill's or centre drill's point leaves.
    Cone,
    /// A lead chamfer, or the cut corner at the end of a run.
    Chamfer,
    /// The rounded corner at the end of a run.
    Fillet,
    /// A thread's crest.
    Crest,
    /// A thread's root.
    Root,
    /// The flank of a thread, or the wall of a groove, that looks to the front.
    FlankFront,
    /// The flank or wall that looks to the back.
    FlankBack,
    /// The wall in which a thread's groove ends.
    RunOut,
}

/// A surface's whole name, such as `recess.floor` or `unit-thread.flank.front`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Feature {
    /// What it belongs to.
    pub item: Item,
    /// Which of its surfaces.
    pub facet: Facet,
}

impl Feature {
    /// Names one surface of an item.
    pub const fn new(item: Item, facet: Facet) -> Self {
        Self { item, facet }
    }
}

impl fmt::Display for Feature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.item.fmt(f)?;
        f.write_str(match self.facet {
            Facet::Side => "",
            Facet::Floor => ".floor",
            Facet::Cone => ".cone",
            Facet::Chamfer => ".chamfer",
            Facet::Fillet => ".fillet",
            Facet::Crest => ".crest",
            Facet::Root => ".root",
            Facet::FlankFront => ".flank.front",
            Facet::FlankBack => ".flank.back",
            Facet::RunOut => ".run-out",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read_from_the_whole_to_the_part() {
        let flank = Feature::new(Item::UnitThread, Facet::FlankFront);
        assert_eq!(flank.to_string(), "unit-thread.flank.front");
        assert_eq!(Feature::new(Item::Grip(2), Facet::Side).to_string(), "grip-2");
        assert_eq!(Feature::new(Item::Grip(2), Facet::Fillet).to_string(), "grip-2.fillet");
        assert_eq!(
            Feature::new(Item::Groove(1), Facet::FlankBack).to_string(),
            "groove-1.flank.back"
        );
        let step = Item::BoreStep(Mouth::Back, 1);
        assert_eq!(Feature::new(step, Facet::Floor).to_string(), "bore-step-back-1.floor");
    }
}
