//! The rod, from the design or from the part.

use super::Making;
use crate::design::design_file::BlankFile;
use crate::design::reader::Placed;
use crate::diagnostic::Place;
use crate::quantity::Length;
use crate::section::{Blank, Section, Subject};

/// What a rod is thicker than the part, on the diameter, before it is rounded up to a whole
/// millimetre (common practice, no source): less, and a rod that runs out of true does not clean
/// up; more wastes good material.
const OVER: Length = Length::mm(1.0);

/// Noise of a sum, in millimetres, that must not cost a millimetre of rod.
const NOISE: f64 = 1e-6;

/// The rod; `part` and `outside` are where the sizes that it follows from are written.
pub(super) fn resolve(
    file: &BlankFile,
    section: &Section,
    (part, outside): (Place, Place),
    making: &mut Making,
) -> Blank {
    let places = [
        (Subject::BlankDiameter, &file.diameter, outside),
        (Subject::BlankLength, &file.length, part),
    ];
    for (subject, written, made_from) in places {
        making.places.set(subject, written.as_ref().map_or(made_from, Placed::at));
    }
    let diameter = file.diameter.as_ref().map_or_else(
        || {
            let greatest = section.greatest_diameter();
            let usual = Length::mm(((greatest + OVER).as_mm() - NOISE).ceil());
            let why = format!("outside {greatest} + {OVER}, rounded up (common practice)");
            making.derive("blank.diameter", &usual, why);
            usual
        },
        |diameter| diameter.value.0,
    );
    let length = file.length.as_ref().map_or_else(
        || {
            let usual = section.squared_length();
            let still = usual - section.length();
            let why = format!("section {} + {still} to come off the front", section.length());
            making.derive("blank.length", &usual, why);
            usual
        },
        |length| length.value.0,
    );
    Blank { diameter, length }
}
