//! Coupons: the section's front down to behind the unit's thread, and its back with the tenon.

use super::between;
use crate::quantity::Length;
use crate::section::{Part, Section};

/// How far behind its last feature a coupon goes on (common practice, no source): what closes the
/// thread's end, and stands on the plate.
const BEHIND: Length = Length::mm(2.0);

/// How much of the grip a back coupon keeps in front of its shoulder: what two fingers hold.
const GRASP: Length = Length::mm(6.0);

/// The front: recess, clearance bore and the unit's thread, with the outside that lies over them.
pub fn front_coupon(section: &Section) -> Part {
    let end = off_threads(section, section.unit_thread.to + BEHIND).min(section.length());
    between(&section.part(), [Length::ZERO, end])
}

/// The back: the shoulder and the tenon, with a piece of the grip to hold it by.
pub fn back_coupon(section: &Section) -> Part {
    let from = (section.grip.length() - GRASP).max(Length::ZERO);
    between(&section.part(), [off_threads(section, from), section.length()])
}

/// A z at which no thread has just begun or is about to end: a sliver of one can't be printed.
fn off_threads(section: &Section, z: Length) -> Length {
    let near = section.threads().find_map(|thread| {
        let turn = thread.form.lead() * 2.0;
        [thread.from, thread.to].into_iter().find(|end| (*end - z).abs() < turn)
    });
    near.unwrap_or(z)
}
