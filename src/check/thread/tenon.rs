//! `thread.tenon.*`: the tenon's thread in the barrel's, the shoulder closed on the joint face.

use super::pair::{Seat, Stop};
use super::{Checks, Model, Pair};
use crate::check::bodies::Built;
use crate::check::slide::{Rest, Slide};
use crate::quantity::Length;
use crate::section::Item;

/// Its checks.
pub(super) static CHECKS: Checks = Checks::new([
    ("thread.tenon.percent", "Depth of thread that the tenon finds in the barrel"),
    ("thread.tenon.turns", "Full turns of thread that hold the barrel"),
    ("thread.tenon.play", "Play of the tenon's thread along the axis"),
    ("thread.tenon.crests", "Room over the crests of the tenon's thread"),
    ("thread.tenon.interference", "Interference of the tenon's thread"),
    ("thread.tenon.strip", "Shear area of the tenon's thread"),
]);

/// The section and the barrel as a pair.
pub(super) fn pair<'a>(model: &'a Model<'a>) -> Pair<'a> {
    let criteria = &model.section.criteria;
    Pair {
        model,
        checks: &CHECKS,
        inner: model.part,
        inner_thread: Item::TenonThread,
        outer: model.barrel,
        outer_thread: Item::BarrelThread,
        stop: Stop::Seat(SEAT),
        inner_was_read: false,
        origin: model.section.grip.length().as_mm(),
        other_pitches: &[],
        closes_in: Length::ZERO,
        own: Item::TenonThread,
        shear: criteria.shear.as_ref(),
        percent: &criteria.tenon_thread,
        least_turns: &criteria.least_turns,
        band: criteria.band.as_mm(),
    }
}

/// The shoulder closes on the barrel.
const SEAT: Seat = Seat { inner: Item::Shoulder, outer: &[Item::Barrel] };

/// Where the section rests in the barrel.
pub(in crate::check) fn rest(model: &Model, part: &Built, barrel: &Built) -> Rest {
    let slide = || Slide::new((part, Item::TenonThread), (barrel, Item::BarrelThread));
    model.rest(part, barrel, || SEAT.rest(&slide()))
}
