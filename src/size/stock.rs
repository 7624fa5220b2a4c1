//! The rod, what is still to come off its front, and how far off the axis things lie.

use super::SizeId;
use super::definition::{Datum, Definition, Dimension, Made, Owner};
use crate::quantity::Length;
use crate::section::{Means, Section};

/// What such a size is; none of what is another's.
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Length};
    let (name, words, dimension, owner, made, rank) = match size {
        SizeId::BlankDiameter => {
            ("blank.diameter", "diameter of the rod", Across, Owner::Rod, Made::Stock, 9)
        }
        SizeId::BlankLength => {
            ("blank.length", "length of the rod", Length, Owner::Rod, Made::Stock, 9)
        }
        SizeId::Facing => {
            ("allowance.facing", "allowance for facing", Length, Owner::Rod, Made::Stock, 9)
        }
        SizeId::Sanding => {
            ("allowance.sanding", "allowance for sanding", Length, Owner::Rod, Made::Stock, 9)
        }
        SizeId::HoldingOffset => (
            "offsets.holding",
            "offset of a change of holding",
            Across,
            Owner::Axis,
            Made::By(Means::Holding),
            8,
        ),
        SizeId::LongHoleOffset => (
            "offsets.long_hole",
            "wander of a long drilled hole",
            Across,
            Owner::Axis,
            Made::By(Means::LongHole),
            8,
        ),
        _ => return None,
    };
    let (name, words, shapes) = (name.to_owned(), words.to_owned(), Vec::new());
    Some(Definition { name, words, dimension, owner, datum: Datum::None, shapes, made, rank })
}

/// Its value, in millimetres.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let length = match size {
        SizeId::BlankDiameter => section.blank.diameter,
        SizeId::BlankLength => section.blank.length,
        SizeId::Facing => section.allowance.facing,
        SizeId::Sanding => section.allowance.sanding,
        SizeId::HoldingOffset => section.criteria.offsets.holding,
        SizeId::LongHoleOffset => section.criteria.offsets.long_hole,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let to = Length::mm(value);
    match size {
        SizeId::BlankDiameter => section.blank.diameter = to,
        SizeId::BlankLength => section.blank.length = to,
        SizeId::Facing => section.allowance.facing = to,
        SizeId::Sanding => section.allowance.sanding = to,
        SizeId::HoldingOffset => section.criteria.offsets.holding = to,
        SizeId::LongHoleOffset => section.criteria.offsets.long_hole = to,
        _ => return None,
    }
    Some(())
}
