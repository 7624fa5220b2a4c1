//! What sizes were called before they had the keys of a design: files that people have kept still
//! say so.

use super::SizeId;
use crate::section::{Facet, Feature, Item};

impl SizeId {
    /// The name that it had in `[made]` before sizes had the keys of a design: `clearance-bore.depth`;
    /// none of what had none.
    pub fn older_name(self) -> Option<String> {
        let of = |item: Item, what: &str| Some(Feature::new(item, Facet::Side).to_string() + what);
        let behind = |runs: u8, what: &str| match runs {
            0 => Some(format!("grip{what}")),
            n => of(Item::Grip(n), what),
        };
        match self {
            Self::FrontDiameter => behind(0, ".front"),
            Self::GripDiameter(n) => behind(n, ".diameter"),
            Self::RunEnd(n) => behind(n, ".to"),
            Self::GripLength => behind(0, ".length"),
            Self::ArcRadius(n) => behind(n, ".radius"),
            Self::CornerRadius(n) => behind(n, ".fillet"),
            Self::CornerChamfer(n) => behind(n, ".chamfer"),
            Self::RingStart(item) | Self::ReliefStart(item) => of(item, ".from"),
            Self::RingEnd(item) | Self::BoreDepth(item @ Item::BoreRelief(_)) => of(item, ".to"),
            Self::RingRadius(item @ Item::Bead(_)) => of(item, ".radius"),
            Self::GrooveDepth(n) => of(Item::Groove(n), ".depth"),
            Self::GripThreadSize => of(Item::CapThread, ".pitch-diameter"),
            Self::BoreDiameter(item @ Item::Countersink(_)) => of(item, ".mouth"),
            Self::BoreDiameter(item) => of(item, ".diameter"),
            Self::BoreDepth(item) => of(item, ".depth"),
            Self::CentrePilotDiameter => of(Item::CentrePilot, ".diameter"),
            Self::CentrePilotLength => of(Item::CentrePilot, ".length"),
            Self::UnitThreadEnd => of(Item::UnitThread, ".to"),
            Self::UnitThreadSize => of(Item::UnitThread, ".pitch-diameter"),
            Self::TenonLength => of(Item::Tenon, ".length"),
            Self::TenonDiameter => of(Item::Tenon, ".diameter"),
            Self::TenonChamfer => of(Item::Tenon, ".chamfer"),
            Self::ReliefDiameter => of(Item::Relief, ".diameter"),
            Self::ReliefWidth => of(Item::Relief, ".width"),
            Self::PilotDiameter => of(Item::Pilot, ".diameter"),
            Self::PilotLength => of(Item::Pilot, ".length"),
            Self::TenonThreadStart => of(Item::TenonThread, ".from"),
            Self::TenonThreadSize => of(Item::TenonThread, ".pitch-diameter"),
            _ => None,
        }
    }
}
