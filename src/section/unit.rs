//! The bought nib unit, as it was measured.
//!
//! Its own axis: 0 is the underside of the collar (which rests in the section), growing towards
//! the barrel; in front of the collar s is negative.

use super::outside::Pen;
use super::{Facet, Feature, Item, Part, Skin, Station, Thread};
use crate::quantity::Length;

/// A measured value: what was read, and how far off it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What was read.
    pub value: Length,
    /// The value may lie this much to either side.
    pub uncertainty: Length,
}

impl Reading {
    /// The greatest value that the reading allows.
    pub fn greatest(self) -> Length {
        self.value + self.uncertainty
    }
}

/// A cylinder of the unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnitStep {
    /// Which one.
    pub item: Item,
    /// Its diameter.
    pub diameter: Reading,
    /// Where it ends, from the underside of the collar.
    pub to: Reading,
}

/// A nib unit: collar, then the steps behind it, one of which carries the thread.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// What its maker calls it; people measure their own.
    pub name: String,
    /// Diameter of the collar.
    pub collar: Reading,
    /// Thickness of the collar.
    pub thickness: Reading,
    /// Plain, thread, tail and nipple, in the order of s; each begins where the one before ends.
    pub steps: Vec<UnitStep>,
    /// Its thread: `from` and `to` are s. The thread's step has the measured major diameter.
    pub thread: Thread,
    /// Pitches that the thread may have by its reading beside its form's: those in use that the
    /// reading can't tell from it, or the ends of the reading's own uncertainty.
    pub other_pitches: Vec<Length>,
    /// Chamfer of 45 degrees at the thread's leading (barrel) end: off the radius. May be zero.
    pub chamfer: Length,
    /// How far nib and feed stand out in front of the collar.
    pub nib_reach: Reading,
    /// Greatest width of nib and feed.
    pub nib_width: Reading,
}

impl Unit {
    /// The unit's solid, from the front of the collar to the end of the last step. Nib and feed
    /// are not modelled.
    pub fn part(&self) -> Part {
        let name = |item| Feature::new(item, Facet::Side);
        let zero = Length::mm(0.0);
        let mut pen = Pen::start(Station::new(zero, zero - self.thickness.value));
        let face = Feature::new(Item::Collar, Facet::Floor);
        pen.to(face, Skin::End, self.collar.value, zero - self.thickness.value);
        pen.to(name(Item::Collar), Skin::Outside, self.collar.value, zero);
        let mut at = Station::new(self.collar.value, zero);
        for step in &self.steps {
            let (d, to) = (step.diameter.value, step.to.value);
            // The annulus where two steps meet belongs to the wider one.
            let wider = if d > at.diameter { step.item } else { self.item_before(step.item) };
            pen.to(Feature::new(wider, Facet::Floor), Skin::Outside, d, at.z);
            let lead = if step.item == Item::UnitBody { self.chamfer } else { zero };
            pen.to(name(step.item), Skin::Outside, d, to - lead);
            pen.to(Feature::new(step.item, Facet::Chamfer), Skin::Outside, d - lead * 2.0, to);
            at = Station::new(d - lead * 2.0, to);
        }
        let last = self.steps.last().map_or(Item::Collar, |step| step.item);
        pen.to(Feature::new(last, Facet::Floor), Skin::End, zero, at.z);
        Part { runs: pen.finish(), threads: vec![self.thread.clone()] }.snapped()
    }

    /// Nib and feed: a cylinder as wide as they are at their widest, from the tip to the front of
    /// the collar.
    pub fn nib_part(&self) -> Part {
        let face = Feature::new(Item::Nib, Facet::Floor);
        let back = Length::ZERO - self.thickness.value;
        let tip = back - self.nib_reach.value;
        let mut pen = Pen::start(Station::new(Length::ZERO, tip));
        pen.to(face, Skin::End, self.nib_width.value, tip);
        let side = Feature::new(Item::Nib, Facet::Side);
        pen.to(side, Skin::Outside, self.nib_width.value, back);
        pen.to(face, Skin::End, Length::ZERO, back);
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }

    fn item_before(&self, item: Item) -> Item {
        let place = self.steps.iter().position(|step| step.item == item);
        place.and_then(|n| n.checked_sub(1)).map_or(Item::Collar, |n| self.steps[n].item)
    }

    /// Distance from the underside of the collar to the end of the last step.
    pub fn length(&self) -> Length {
        self.steps.last().map_or(Length::mm(0.0), |step| step.to.value)
    }

    /// A step by its item, with where it begins.
    pub fn step(&self, item: Item) -> Option<(Length, UnitStep)> {
        let n = self.steps.iter().position(|step| step.item == item)?;
        let from = n.checked_sub(1).map_or(Length::mm(0.0), |before| self.steps[before].to.value);
        Some((from, self.steps[n]))
    }
}
