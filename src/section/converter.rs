//! The converter (or cartridge): bought, measured, pushed onto the unit's nipple from behind.
//!
//! Its own axis: 0 is its mouth, growing to its end.

use super::outside::Pen;
use super::{Facet, Feature, Item, Part, Reading, Skin, Station};
use crate::quantity::Length;

/// A mouth of another diameter than the rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConverterMouth {
    /// Its outside diameter.
    pub diameter: Reading,
    /// How far it goes on, from the converter's front.
    pub length: Reading,
}

/// A converter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Converter {
    /// Its greatest diameter.
    pub diameter: Reading,
    /// From its mouth to its end.
    pub length: Reading,
    /// How far its mouth goes onto the nipple.
    pub onto_nipple: Reading,
    /// Its mouth, where that is of another diameter.
    pub mouth: Option<ConverterMouth>,
}

impl Converter {
    /// Its solid; the hole in its mouth is as deep as the nipple goes in and, of what it holds,
    /// as wide as the nipple.
    pub fn part(&self, nipple: Length) -> Part {
        let side = Feature::new(Item::Converter, Facet::Side);
        let floor = Feature::new(Item::Converter, Facet::Floor);
        let hole = Feature::new(Item::ConverterHole, Facet::Side);
        let (zero, end) = (Length::ZERO, self.length.value);
        let deep = self.onto_nipple.value;
        let mut pen = Pen::start(Station::new(zero, deep));
        pen.to(Feature::new(Item::ConverterHole, Facet::Floor), Skin::Bore, nipple, deep);
        pen.to(hole, Skin::Bore, nipple, zero);
        if let Some(mouth) = self.mouth {
            let front = Feature::new(Item::ConverterMouth, Facet::Floor);
            pen.to(front, Skin::End, mouth.diameter.value, zero);
            let own = Feature::new(Item::ConverterMouth, Facet::Side);
            pen.to(own, Skin::Outside, mouth.diameter.value, mouth.length.value);
            pen.to(floor, Skin::Outside, self.diameter.value, mouth.length.value);
        } else {
            pen.to(floor, Skin::End, self.diameter.value, zero);
        }
        pen.to(side, Skin::Outside, self.diameter.value, end);
        pen.to(floor, Skin::End, zero, end);
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }
}
