//! `thread.unit.*`: the nib unit's thread in the section's, the collar in its seat.

use super::pair::{Seat, Stop};
use super::{Checks, Model, Pair};
use crate::check::bodies::Built;
use crate::check::slide::{Rest, Slide};
use crate::section::Item;

/// Its checks.
pub(super) static CHECKS: Checks = Checks::new([
    ("thread.unit.percent", "Depth of thread that the nib unit finds in the section"),
    ("thread.unit.turns", "Full turns of thread that hold the nib unit"),
    ("thread.unit.play", "Play of the nib unit's thread along the axis"),
    ("thread.unit.crests", "Room over the crests of the nib unit's thread"),
    ("thread.unit.interference", "Interference of the nib unit's thread"),
    ("thread.unit.strip", "Shear area of the section's thread, unit side"),
]);

/// The unit and the section as a pair.
pub(super) fn pair<'a>(model: &'a Model<'a>) -> Pair<'a> {
    let criteria = &model.section.criteria;
    Pair {
        model,
        checks: &CHECKS,
        inner: model.unit,
        inner_thread: Item::UnitBody,
        outer: model.part,
        outer_thread: Item::UnitThread,
        stop: Stop::Seat(seat(model)),
        inner_was_read: true,
        origin: 0.0,
        other_pitches: &model.section.unit.other_pitches,
        closes_in: criteria.spring_back.value.max(),
        own: Item::UnitThread,
        shear: criteria.shear.as_ref(),
        percent: &criteria.unit_thread,
        least_turns: &criteria.least_turns,
        band: criteria.band.as_mm(),
    }
}

/// What the collar rests on: without a recess the front face.
fn seat(model: &Model) -> Seat<'static> {
    let recessed = model.section.bore(Item::Recess).is_some();
    let outer = if recessed { &[Item::Recess] } else { &[Item::FrontFace] };
    Seat { inner: Item::Collar, outer }
}

/// Where the unit rests in the section.
pub(in crate::check) fn rest(model: &Model, unit: &Built, part: &Built) -> Rest {
    let slide = || Slide::new((unit, Item::UnitBody), (part, Item::UnitThread));
    model.rest(unit, part, || seat(model).rest(&slide()))
}
