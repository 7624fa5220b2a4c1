//! The barrel's mouth, into which the tenon screws.
//!
//! Its own axis: 0 is the face that the shoulder closes against, growing into the barrel.

use super::outside::Pen;
use super::{Facet, Feature, Item, Part, Skin, Station, Thread};
use crate::quantity::Length;

/// A wider, unthreaded mouth that takes the die's incomplete threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counterbore {
    /// Its diameter.
    pub diameter: Length,
    /// From the joint face.
    pub depth: Length,
}

/// The bore behind the thread's hole, which holds the converter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarrelBore {
    /// Its diameter.
    pub diameter: Length,
    /// From the joint face to its bottom.
    pub depth: Length,
}

/// The barrel as far as the section meets it.
#[derive(Clone, Debug, PartialEq)]
pub struct Barrel {
    /// The internal thread; `from` is the counterbore's end (or 0), `to` the end of full thread.
    pub thread: Thread,
    /// From the joint face to the bottom of the hole that was drilled for the thread.
    pub depth: Length,
    /// The wider mouth, if there is one.
    pub counterbore: Option<Counterbore>,
    /// The bore behind the thread's hole; none where nobody says what is there.
    pub bore: Option<BarrelBore>,
    /// Outside diameter at the joint.
    pub outside: Length,
}

/// How thick the closed end is drawn, of which nothing is measured: less, and an exported barrel
/// could not be printed; more wastes a rod.
const CLOSED_END: Length = Length::mm(1.2);

impl Barrel {
    /// A ring of the barrel, as long as its hole is deep, open at the far end.
    pub fn part(&self) -> Part {
        let zero = Length::mm(0.0);
        let outer = Feature::new(Item::Barrel, Facet::Side);
        let face = Feature::new(Item::Barrel, Facet::Floor);
        let minor = self.thread.form.crest;
        let mouth = self.counterbore.map_or(minor, |c| c.diameter);
        let mut pen = Pen::start(Station::new(mouth, zero));
        pen.to(face, Skin::End, self.outside, zero);
        pen.to(outer, Skin::Outside, self.outside, self.depth);
        pen.to(face, Skin::End, minor, self.depth);
        self.draw_mouth(&mut pen);
        Part { runs: pen.finish(), threads: vec![self.thread.clone()] }.snapped()
    }

    /// The barrel with its bore, closed at its end; as [`Self::part`] where its bore is not known.
    pub fn whole(&self) -> Part {
        let Some(inside) = self.bore else { return self.part() };
        let zero = Length::ZERO;
        let face = Feature::new(Item::Barrel, Facet::Floor);
        let minor = self.thread.form.crest;
        let end = inside.depth + CLOSED_END;
        let mut pen = Pen::start(Station::new(zero, inside.depth));
        let floor = Feature::new(Item::BarrelInside, Facet::Floor);
        pen.to(floor, Skin::Bore, inside.diameter, inside.depth);
        let side = Feature::new(Item::BarrelInside, Facet::Side);
        pen.to(side, Skin::Bore, inside.diameter, self.depth);
        let step = if inside.diameter > minor { Item::BarrelBore } else { Item::BarrelInside };
        pen.to(Feature::new(step, Facet::Floor), Skin::Bore, minor, self.depth);
        self.draw_mouth(&mut pen);
        pen.to(face, Skin::End, self.outside, zero);
        pen.to(Feature::new(Item::Barrel, Facet::Side), Skin::Outside, self.outside, end);
        pen.to(face, Skin::End, zero, end);
        Part { runs: pen.finish(), threads: vec![self.thread.clone()] }.snapped()
    }

    /// Draws from the bottom of the thread's hole to its mouth.
    fn draw_mouth(&self, pen: &mut Pen) {
        let (zero, minor) = (Length::ZERO, self.thread.form.crest);
        let bore = Feature::new(Item::BarrelBore, Facet::Side);
        if let Some(counterbore) = self.counterbore {
            pen.to(bore, Skin::Bore, minor, counterbore.depth);
            let floor = Feature::new(Item::Counterbore, Facet::Floor);
            pen.to(floor, Skin::Bore, counterbore.diameter, counterbore.depth);
            let side = Feature::new(Item::Counterbore, Facet::Side);
            pen.to(side, Skin::Bore, counterbore.diameter, zero);
        } else {
            pen.to(bore, Skin::Bore, minor, zero);
        }
    }
}
