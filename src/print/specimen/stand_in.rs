//! A stand-in for the nib unit, so that no good one is ruined.

use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Part, Run, Section, Shape, Skin, Station};

/// How long its handle is, in front of the collar: what two fingers turn it by.
const HANDLE: Length = Length::mm(12.0);

/// The unit as it was measured, with a handle where nib and feed would be.
pub(super) fn stand_in(section: &Section) -> Part {
    let unit = &section.unit;
    let mut part = unit.part();
    let front = Length::ZERO - unit.thickness.value;
    let handle = unit.nib_width.value.min(unit.collar.value);
    let end = Station::new(Length::ZERO, front - HANDLE);
    let rim = Station::new(handle, front - HANDLE);
    let foot = Station::new(handle, front);
    let name = |facet| Feature::new(Item::Handle, facet);
    let line = |feature, skin, from, to| Run { feature, skin, from, to, shape: Shape::Straight };
    // The chain begins with the collar's front, on the axis.
    part.runs[0].from = foot;
    let begins = [
        line(name(Facet::Floor), Skin::End, end, rim),
        line(name(Facet::Side), Skin::Outside, rim, foot),
    ];
    part.runs.splice(0..0, begins);
    part.snapped()
}
