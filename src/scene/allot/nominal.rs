//! The section as its drawing says it: rounded sizes, each hole with the drawing's limits alone.

use super::size;
use crate::quantity::{Length, Limits};
use crate::section::{Section, SectionError, faults};
use crate::size::SizeId;
use crate::size::chamfer;

/// A size on the drawing, in millimetres or degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Nominal {
    pub parameter: SizeId,
    pub value: f64,
    /// It is a hole whose tool cuts over its size.
    pub cuts_over: bool,
}

/// A section with the sizes of its drawing.
pub(super) struct Drawn {
    /// At its nominal sizes, without a band: the limits stand for what a maker can hold.
    pub section: Section,
    pub sizes: Vec<Nominal>,
}

/// Sizes are written to so many parts of a millimetre (or degree): coarse, and else fine.
const COARSE: f64 = 100.0;
const FINE: f64 = 1000.0;

/// A size this near to a coarse one, in millimetres, is that one: more, and thread drills by number
/// lose their third digit; less, and noise gains one.
const NEAR: f64 = 1e-4;

/// Offsets are stated in steps of 0.01 mm, and no less than one: what no bench can measure is not
/// asked for.
const LEAST_OFFSET: f64 = 0.01;

/// What a rod is longer and thicker here than the design's, in millimetres, so that it is no limit
/// of a size: more than all tolerances together. Less, and a rod cut to length for the part as it is
/// would forbid a part that is longer.
const SPARE_ROD: Length = Length::mm(10.0);

/// Whether a section can be made. A step of less than can be shown is none here: sizes that come out
/// a hair apart are one size.
pub(super) fn can_be_made(section: &Section) -> bool {
    faults(section).iter().all(|fault| matches!(fault, SectionError::StepTooSmall { .. }))
}

/// A value as it is written.
pub(super) fn rounded(value: f64) -> f64 {
    let coarse = (value * COARSE).round() / COARSE;
    if (value - coarse).abs() <= NEAR { coarse } else { (value * FINE).round() / FINE }
}

/// An offset as it is written: the step at or under it.
fn offset(value: Length) -> Length {
    let steps = ((value.as_mm() + NEAR) / LEAST_OFFSET).floor().max(1.0);
    Length::mm(steps * LEAST_OFFSET)
}

impl Drawn {
    /// A size that can't be cut as it is rounded is taken a step up or down, or as it is.
    pub fn of(section: &Section) -> Self {
        let mut drawn = section.clone();
        drawn.criteria.band = Length::ZERO;
        drawn.blank.length += SPARE_ROD;
        drawn.blank.diameter += SPARE_ROD;
        let offsets = &mut drawn.criteria.offsets;
        offsets.holding = offset(offsets.holding);
        if offsets.long_hole > Length::ZERO {
            offsets.long_hole = offset(offsets.long_hole);
        }
        for bore in &mut drawn.bores {
            bore.limits = Limits::exactly(bore.diameter);
        }
        drawn.unit_thread.limits.minor = Limits::exactly(drawn.unit_thread.form.crest);
        let parameters = size::drawn(section);
        let mut sizes = Vec::new();
        let sound = can_be_made(&drawn);
        for parameter in parameters {
            let Some(value) = size::value(section, parameter) else { continue };
            let written = rounded(value);
            let tried = [written, written + 1.0 / FINE, written - 1.0 / FINE, value];
            let made = tried.into_iter().find_map(|to| {
                let made = size::set(&drawn, parameter, to)?;
                (!sound || to == value || can_be_made(&made)).then_some((made, to))
            });
            let Some((made, value)) = made else { continue };
            drawn = made;
            let cuts_over = match parameter {
                SizeId::BoreDiameter(item) => section.bore(item).is_some_and(|bore| {
                    bore.limits.min() >= bore.diameter && bore.limits.max() > bore.diameter
                }),
                _ => false,
            };
            sizes.push(Nominal { parameter, value, cuts_over });
        }
        let mut made = Self { section: drawn, sizes };
        if let Some(settled) = made.at(&vec![0.0; made.sizes.len()]) {
            made.section = settled;
        }
        made
    }

    /// The section with each size so far off its nominal, in the order of the sizes.
    pub fn at(&self, off: &[f64]) -> Option<Section> {
        let sizes = || self.sizes.iter().zip(off);
        let mut alone = sizes().filter(|(size, off)| **off != 0.0 && !follows(size.parameter));
        let following = sizes().filter(|(size, _)| follows(size.parameter));
        let mut section = alone.try_fold(self.section.clone(), |section, (size, off)| {
            size::set(&section, size.parameter, size.value + off)
        })?;
        for (size, off) in following {
            let value = size.value + off;
            match size.parameter {
                // Both of its sizes at once.
                SizeId::CornerChamfer(n) => {
                    let own = |other: &Nominal| other.parameter == SizeId::CornerAngle(n);
                    let (angle, off) = sizes().find(|(other, _)| own(other))?;
                    chamfer::set(&mut section, usize::from(n), [value, angle.value + off])?;
                }
                SizeId::CornerAngle(_) => {}
                parameter => section = size::set(&section, parameter, value)?,
            }
        }
        Some(section)
    }
}

/// Whether a size is drawn so that it must be set anew where another one changes.
fn follows(parameter: SizeId) -> bool {
    matches!(
        parameter,
        SizeId::CornerChamfer(_)
            | SizeId::CornerAngle(_)
            | SizeId::CentrePilotLength
            | SizeId::RingFloor(_)
            | SizeId::RingRadius(_)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Expectations: the drawing's rule, by hand.
    #[test]
    fn sizes_are_written_to_hundredths_where_they_are_such() {
        assert_eq!(rounded(8.699_95), 8.7);
        assert_eq!(rounded(7.9375), 7.938);
        assert_eq!(rounded(8.334), 8.334);
        assert_eq!(rounded(-0.250_04), -0.25);
        assert_eq!(offset(Length::mm(0.05)), Length::mm(0.05));
        assert_eq!(offset(Length::mm(0.058)), Length::mm(0.05));
        assert_eq!(offset(Length::ZERO), Length::mm(0.01));
    }
}
