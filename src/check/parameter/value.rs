//! Each size as a section has it.

use super::Parameter;
use crate::section::{Depth, Grip, Item, Ring, Section};

impl Parameter {
    /// Its value, in millimetres (of an angle in degrees); none where the section has no such thing.
    pub fn get(self, section: &Section) -> Option<f64> {
        let bore = |item| section.bore(item);
        let size = match self {
            Self::FrontDiameter => section.grip.front,
            Self::GripDiameter(n) => section.grip.runs.get(usize::from(n) - 1)?.to.diameter,
            Self::GrooveDepth(n) => groove(&section.grip, n)?.height,
            Self::GripLength => section.grip.length(),
            Self::BoreDiameter(item) => bore(item)?.diameter,
            Self::BoreDepth(item) => match bore(item)?.depth {
                Depth::To(z) | Depth::Between(_, z) => z,
                Depth::Through => return None,
            },
            Self::ReliefStart(item) => match bore(item)?.depth {
                Depth::Between(from, _) => from,
                _ => return None,
            },
            Self::UnitThreadEnd => section.unit_thread.to,
            Self::UnitThreadSize => section.unit_thread.form.pitch_diameter,
            Self::BarrelThreadSize => section.barrel.thread.form.pitch_diameter,
            Self::TenonLength => section.tenon.length,
            Self::TenonChamfer => section.tenon.chamfer.depth,
            Self::PilotDiameter => section.tenon.pilot?.diameter,
            Self::ReliefDiameter => section.tenon.relief?.diameter,
            Self::ReliefWidth => section.tenon.relief?.width,
            Self::BarrelHole => section.barrel.thread.form.crest,
            Self::BarrelDepth => section.barrel.depth,
            Self::BarrelThreadEnd => section.barrel.thread.to,
            Self::CounterboreDepth => section.barrel.counterbore?.depth,
            Self::HoldingOffset => section.criteria.offsets.holding,
            Self::LongHoleOffset => section.criteria.offsets.long_hole,
            Self::BarrelBoreDiameter => section.barrel.bore?.diameter,
            Self::BarrelBoreDepth => section.barrel.bore?.depth,
            Self::BarrelOutside => section.barrel.outside,
            own if own.is_caps() => return own.get_of_cap(section.cap.as_ref()?),
            own => return own.get_beside(section),
        };
        Some(size.as_mm())
    }
}

fn groove(grip: &Grip, n: u8) -> Option<Ring> {
    grip.rings.iter().find(|ring| ring.item == Item::Groove(n)).copied()
}
