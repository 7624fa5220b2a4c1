//! Each size in words.

use std::fmt;

use super::Parameter;
use crate::check::words;

impl fmt::Display for Parameter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FrontDiameter => f.write_str("diameter at the front face"),
            Self::GripDiameter(n) => write!(f, "diameter at the end of run {n} of the grip"),
            Self::GrooveDepth(n) => write!(f, "depth of groove {n} of the grip"),
            Self::GripLength => f.write_str("length of the grip"),
            Self::BoreDiameter(item) => write!(f, "diameter of the {}", words::item(*item)),
            Self::BoreDepth(item) => write!(f, "depth of the {}", words::item(*item)),
            Self::ReliefStart(item) => write!(f, "start of the {}", words::item(*item)),
            Self::UnitThreadEnd => f.write_str("depth of full thread for the unit"),
            Self::UnitThreadSize => f.write_str("pitch diameter of the section's thread"),
            Self::BarrelThreadSize => f.write_str("pitch diameter of the barrel's thread"),
            Self::TenonLength => f.write_str("length of the tenon"),
            Self::TenonChamfer => f.write_str("chamfer of the tenon"),
            Self::PilotDiameter => f.write_str("diameter of the tenon's pilot"),
            Self::ReliefDiameter => f.write_str("diameter of the relief groove"),
            Self::ReliefWidth => f.write_str("width of the relief groove"),
            Self::BarrelHole => f.write_str("diameter of the barrel's hole for the thread"),
            Self::BarrelDepth => f.write_str("depth of the barrel's hole for the thread"),
            Self::BarrelThreadEnd => f.write_str("depth of full thread in the barrel"),
            Self::CounterboreDepth => f.write_str("depth of the barrel's counterbore"),
            Self::BarrelBoreDiameter => f.write_str("diameter of the barrel's bore"),
            Self::BarrelBoreDepth => f.write_str("depth of the barrel's bore"),
            Self::BarrelOutside => f.write_str("diameter of the barrel at the joint"),
            Self::CapStop => f.write_str("place where the cap stops, from the front face"),
            Self::CapHole => f.write_str("diameter of the cap's hole for the thread"),
            Self::CapThreadSize => f.write_str("pitch diameter of the thread in the cap"),
            Self::CapThreadEnd => f.write_str("depth of full thread in the cap"),
            Self::CapBoreDiameter(n) => write!(f, "diameter of the cap's bore {n}"),
            Self::CapLength => f.write_str("depth of the cap"),
            Self::SealDepth => f.write_str("depth of the inner cap's rim"),
            Self::SealDiameter => f.write_str("diameter of the inner cap's bore"),
            Self::HoldingOffset => f.write_str("offset of a change of holding"),
            Self::LongHoleOffset => f.write_str("wander of a long drilled hole"),
            Self::RunEnd(n) => write!(f, "end of run {n} of the grip"),
            Self::ArcRadius(n) => write!(f, "radius of run {n} of the grip"),
            Self::CornerRadius(0) => f.write_str("radius of the front face's rim"),
            Self::CornerRadius(n) => write!(f, "radius at the end of run {n} of the grip"),
            Self::CornerChamfer(0) => f.write_str("chamfer of the front face's rim"),
            Self::CornerChamfer(n) => write!(f, "chamfer at the end of run {n} of the grip"),
            Self::CornerAngle(0) => f.write_str("angle of the chamfer of the front face's rim"),
            Self::CornerAngle(n) => {
                write!(f, "angle of the chamfer at the end of run {n} of the grip")
            }
            Self::RingStart(item) => write!(f, "beginning of {item} of the grip"),
            Self::RingEnd(item) => write!(f, "end of {item} of the grip"),
            Self::RingFloor(item) => write!(f, "diameter at the bottom of {item} of the grip"),
            Self::RingRadius(item) => write!(f, "radius of {item} of the grip"),
            Self::GripThreadStart => f.write_str("start of full thread for the cap"),
            Self::GripThreadEnd => f.write_str("end of full thread for the cap"),
            Self::TenonThreadStart => f.write_str("start of full thread on the tenon"),
            Self::TenonThreadEnd => f.write_str("end of full thread on the tenon"),
            Self::TenonChamferAngle => f.write_str("angle of the tenon's chamfer"),
            Self::PilotLength => f.write_str("length of the tenon's pilot"),
            Self::UnitThreadStart => f.write_str("start of full thread for the unit"),
            Self::PointAngle(item) => write!(f, "angle at the end of the {}", words::item(*item)),
            Self::CentrePilotDiameter => f.write_str("diameter of the centre drill's pilot hole"),
            Self::CentrePilotLength => f.write_str("length of the centre drill's pilot hole"),
            Self::TenonDiameter => f.write_str("diameter of the tenon"),
            Self::TenonThreadSize => f.write_str("pitch diameter of the tenon's thread"),
            Self::GripThreadSize => f.write_str("pitch diameter of the thread for the cap"),
        }
    }
}
