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

/// The barrel as far as the section meets it.
#[derive(Clone, Debug, PartialEq)]
pub struct Barrel {
    /// The internal thread; `from` is the counterbore's end (or 0), `to` the end of full thread.
    pub thread: Thread,
    /// From the joint face to the bottom of the hole that was drilled for the thread.
    pub depth: Length,
    /// The wider mouth, if there is one.
    pub counterbore: Option<Counterbore>,
    /// Outside diameter at the joint.
    pub outside: Length,
}

impl Barrel {
    /// A ring of the barrel, as long as its hole is deep, open at the far end.
    pub fn part(&self) -> Part {
        let zero = Length::mm(0.0);
        let outer = Feature::new(Item::Barrel, Facet::Side);
        let face = Feature::new(Item::Barrel, Facet::Floor);
        let bore = Feature::new(Item::BarrelBore, Facet::Side);
        let minor = self.thread.form.crest;
        let mouth = self.counterbore.map_or(minor, |c| c.diameter);
        let mut pen = Pen::start(Station::new(mouth, zero));
        pen.to(face, Skin::End, self.outside, zero);
        pen.to(outer, Skin::Outside, self.outside, self.depth);
        pen.to(face, Skin::End, minor, self.depth);
        if let Some(counterbore) = self.counterbore {
            pen.to(bore, Skin::Bore, minor, counterbore.depth);
            let floor = Feature::new(Item::Counterbore, Facet::Floor);
            pen.to(floor, Skin::Bore, mouth, counterbore.depth);
            pen.to(Feature::new(Item::Counterbore, Facet::Side), Skin::Bore, mouth, zero);
        } else {
            pen.to(bore, Skin::Bore, minor, zero);
        }
        Part { runs: pen.finish(), threads: vec![self.thread.clone()] }.snapped()
    }
}
