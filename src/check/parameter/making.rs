//! How each size is made, and with it how well it can be held.

use super::Parameter;
use crate::section::{Depth, Means, Point, Section};

impl Parameter {
    /// Every size that is made at the lathe, and what lies off the axis: all that may come out
    /// otherwise than drawn. What a tap or die makes lies within the limits of its class, at which
    /// everything is judged.
    pub(in crate::check) fn made(section: &Section) -> Vec<Self> {
        let mut all = Self::of(section);
        all.retain(|parameter| parameter.means(section).is_some());
        all.extend([Self::HoldingOffset, Self::LongHoleOffset]);
        all
    }

    /// How it is made; none for what a tap or die makes.
    pub fn means(self, section: &Section) -> Option<Means> {
        let drilled = |item| {
            let bore = section.bore(item)?;
            let turned = bore.point == Point::Flat || matches!(bore.depth, Depth::Between(..));
            Some(!turned)
        };
        Some(match self {
            Self::FrontDiameter
            | Self::GripDiameter(_)
            | Self::GrooveDepth(_)
            | Self::TenonDiameter
            | Self::PilotDiameter
            | Self::ReliefDiameter
            | Self::RingFloor(_)
            | Self::RingRadius(_)
            | Self::ArcRadius(_)
            | Self::CornerRadius(_)
            | Self::BarrelOutside => Means::Turned,
            Self::GripLength
            | Self::TenonLength
            | Self::TenonChamfer
            | Self::ReliefWidth
            | Self::ReliefStart(_)
            | Self::RunEnd(_)
            | Self::CornerChamfer(_)
            | Self::CornerAngle(_)
            | Self::RingStart(_)
            | Self::RingEnd(_)
            | Self::GripThreadStart
            | Self::GripThreadEnd
            | Self::TenonThreadStart
            | Self::TenonThreadEnd
            | Self::TenonChamferAngle
            | Self::PilotLength
            | Self::CounterboreDepth
            | Self::CapStop
            | Self::CapLength
            | Self::SealDepth => Means::Faced,
            Self::BoreDiameter(item) => {
                if drilled(item)? {
                    Means::Drilled
                } else {
                    Means::Bored
                }
            }
            Self::CapBoreDiameter(_) | Self::SealDiameter | Self::BarrelBoreDiameter => {
                Means::Bored
            }
            Self::BarrelHole | Self::CapHole | Self::PointAngle(_) | Self::CentrePilotDiameter => {
                Means::Drilled
            }
            Self::BoreDepth(_)
            | Self::BarrelDepth
            | Self::BarrelBoreDepth
            | Self::CentrePilotLength => Means::Depth,
            Self::UnitThreadStart
            | Self::UnitThreadEnd
            | Self::BarrelThreadEnd
            | Self::CapThreadEnd => Means::Mark,
            Self::UnitThreadSize
            | Self::BarrelThreadSize
            | Self::CapThreadSize
            | Self::TenonThreadSize
            | Self::GripThreadSize => return None,
            Self::HoldingOffset => Means::Holding,
            Self::LongHoleOffset => Means::LongHole,
        })
    }

    /// Whether it is how far off the axis things lie, and no size.
    pub fn is_offset(self) -> bool {
        matches!(self, Self::HoldingOffset | Self::LongHoleOffset)
    }

    /// Whether the section's solid changes with it.
    pub fn is_sections(self) -> bool {
        !self.is_barrels() && !self.is_caps() && !self.is_offset()
    }
}
