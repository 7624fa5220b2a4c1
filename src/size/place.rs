//! Where on a part a size is: at which end of which surface.

use super::SizeId;
use crate::section::{Facet, Feature, Item, Mouth};

/// An end of a surface, along the axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// The one nearer the front.
    Front,
    /// The one nearer the back.
    Back,
}

/// A surface, or an end of it: what a size moves.
///
/// An end is that of the whole surface: a groove that interrupts a taper makes no end of the taper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The surface.
    pub feature: Feature,
    /// Which end of it; none where the surface as a whole is meant: a plane, a cylinder, an arc.
    pub end: Option<End>,
}

impl Place {
    /// The surface as a whole.
    pub const fn whole(feature: Feature) -> Self {
        Self { feature, end: None }
    }

    /// One end of it.
    pub const fn at(feature: Feature, end: End) -> Self {
        Self { feature, end: Some(end) }
    }
}

impl SizeId {
    /// Where its surfaces have it: each of these that the part shows. A hole is at the end of its
    /// full diameter by its side, by its flat floor, and by its point.
    pub fn places(self) -> Vec<Place> {
        let shapes = self.definition().shapes.into_iter();
        shapes.map(|feature| Place { feature, end: self.end_of(feature.facet) }).collect()
    }

    /// At which end of one of its surfaces it is.
    fn end_of(self, facet: Facet) -> Option<End> {
        use SizeId as S;
        match self {
            S::FrontDiameter
            | S::RingStart(_)
            | S::ReliefStart(_)
            | S::GripThreadStart
            | S::TenonThreadStart
            | S::UnitThreadStart
            | S::OwnThreadStart
            | S::PilotLength
            | S::BoreDiameter(Item::Countersink(Mouth::Front)) => Some(End::Front),
            S::GripDiameter(_)
            | S::RunEnd(_)
            | S::RingEnd(_)
            | S::GripThreadEnd
            | S::TenonThreadEnd
            | S::ReliefWidth
            | S::UnitThreadEnd
            | S::CentrePilotLength
            | S::BarrelDepth
            | S::BarrelThreadEnd
            | S::CounterboreDepth
            | S::BarrelBoreDepth
            | S::CapThreadEnd
            | S::CapCounterboreDepth
            | S::CapBoreEnd(_)
            | S::CapLength
            | S::UnitStepEnd(_)
            | S::UnitChamfer
            | S::ConverterLength
            | S::ConverterMouthLength
            | S::BoreDiameter(Item::Countersink(Mouth::Back)) => Some(End::Back),
            // A vee has no floor: its walls meet there.
            S::RingFloor(_) if facet == Facet::FlankBack => Some(End::Back),
            S::BoreDepth(item) => {
                let [inner, outer] = match item {
                    Item::BoreStep(Mouth::Back, _) => [End::Front, End::Back],
                    _ => [End::Back, End::Front],
                };
                match facet {
                    Facet::Floor => None,
                    Facet::Cone => Some(outer),
                    _ => Some(inner),
                }
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a run's diameter is at its end, and the front's at the first run's beginning; a
    /// drill's full diameter ends where its point begins.
    #[test]
    fn sizes_of_one_surface_lie_at_its_two_ends() {
        let side = Feature::new(Item::Grip(1), Facet::Side);
        assert_eq!(SizeId::FrontDiameter.places(), [Place::at(side, End::Front)]);
        assert_eq!(SizeId::GripDiameter(1).places(), [Place::at(side, End::Back)]);
        assert_eq!(SizeId::ArcRadius(1).places(), [Place::whole(side)]);
        let hole = Item::BoreStep(Mouth::Back, 2);
        let of = |facet| Feature::new(hole, facet);
        let (floor, point) =
            (Place::whole(of(Facet::Floor)), Place::at(of(Facet::Cone), End::Back));
        let side = Place::at(of(Facet::Side), End::Front);
        assert_eq!(SizeId::BoreDepth(hole).places(), [side, floor, point]);
    }
}
