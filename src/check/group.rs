//! Checks that look at the same bodies, and at which: what has not changed need not be measured
//! again.

use super::bodies::Model;
use super::{Finding, clear, made, thread, wall};

/// Something that a check looks at. The criteria, but for the offsets, every check may look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Seen {
    /// The section from within: its holes and the unit's thread, and the faces at both ends.
    Bore,
    /// The section from without: grip and tenon with their threads, and the same faces.
    Outside,
    /// How far off the axis things lie.
    Offsets,
    /// The nib unit.
    Unit,
    /// The barrel.
    Barrel,
    /// The cap, and nib and feed in it.
    Cap,
    /// The converter, and the barrel round it.
    Converter,
}

/// Some checks.
pub(crate) struct Group {
    /// All that they look at.
    pub sees: &'static [Seen],
    /// Their findings, in the order of [`super::list`].
    pub check: fn(&Model) -> Vec<Finding>,
}

/// Every group, in the order of [`super::list`].
pub(crate) static GROUPS: [Group; 13] = {
    use Seen::{Barrel, Bore, Cap, Converter, Offsets, Outside, Unit};
    const fn group(sees: &'static [Seen], check: fn(&Model) -> Vec<Finding>) -> Group {
        Group { sees, check }
    }
    [
        // In which zone a hole lies depends on where the collar's seat is.
        group(&[Bore, Outside, Offsets, Unit], wall::check),
        group(&[Bore, Unit], thread::of_unit),
        group(&[Outside, Barrel], thread::of_tenon),
        group(&[Outside, Cap], thread::of_cap),
        group(&[Bore, Unit], made::of_reach),
        group(&[Bore], made::of_unit),
        // Its place is told in the section's axis, from the shoulder on.
        group(&[Outside, Barrel], made::of_barrel),
        group(&[Outside, Barrel], made::of_die),
        group(&[Bore, Unit], clear::of_unit),
        group(&[Bore, Outside, Unit, Barrel, Converter], clear::of_converter),
        group(&[Outside, Cap], clear::of_cap),
        group(&[Bore, Unit, Cap], clear::of_nib),
        group(&[Outside, Barrel], clear::of_joint),
    ]
};
