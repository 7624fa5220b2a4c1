//! ISO 965-1:1998, tolerances of ISO metric threads.
//!
//! ```text
//!   class       6g, 4g6g, 6H: grades and position, read and written
//!   deviation   es, EI: how far the position moves the thread from the basic profile
//!   tolerance   Td, TD1, Td2, TD2: how wide it may vary
//!   limits      the limits of size that follow
//! ```
//! Any pitch from 0.2 to 8 mm on any diameter above 0.99 up to 355 mm gets limits, whether ISO 261
//! lists it or not. A listed pitch gets the standard's table; one between gets the formula that
//! made the table (clause 13), rounded to preferred numbers as the table is. In a thread of more
//! than one start, P is the pitch, not the lead. Clause numbers other than 13 and that rule are
//! from memory.

mod band;
mod class;
mod deviation;
mod limits;
mod tolerance;

use std::fmt;

use crate::quantity::Length;

pub use band::DiameterBand;
pub use class::{ClassError, Position, Side, ToleranceClass};
pub use deviation::fundamental_deviation;
pub use limits::{ExternalLimits, InternalLimits, external, internal};
pub use tolerance::{Quantity, tolerance};

/// The pitches that the standard's formulas are made for. Below 0.2 they fall to nothing.
const PITCHES: (Length, Length) = (Length::mm(0.2), Length::mm(8.0));

/// Why a thread has no limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToleranceError {
    /// The pitch is not within 0.2 to 8 mm.
    PitchOutOfRange(Length),
    /// The diameter is not within 0.99 (itself out) to 355 mm.
    DiameterOutOfRange(Length),
    /// The pitch is so coarse that the thread's root reaches the axis.
    PitchTooCoarse {
        /// The major diameter.
        diameter: Length,
        /// The pitch.
        pitch: Length,
    },
    /// The class is of the other side: an external one for an internal thread or the reverse.
    WrongSide(ToleranceClass),
    /// The quantity has no such grade.
    NoSuchGrade {
        /// What is toleranced.
        quantity: Quantity,
        /// The grade asked for.
        grade: u8,
    },
}

impl ToleranceError {
    /// What would work instead.
    pub fn hint(&self) -> String {
        match self {
            Self::PitchOutOfRange(_) => "a pitch from 0.2 to 8 mm".to_owned(),
            Self::DiameterOutOfRange(_) => "a diameter above 0.99 up to 355 mm".to_owned(),
            Self::PitchTooCoarse { diameter, .. } => {
                // d3 min stays above zero with room for any tolerance at half the diameter.
                format!("a pitch of {} or finer for {diameter}", *diameter / 2.0)
            }
            Self::WrongSide(class) => match class.position().side() {
                Side::External => "a class for an internal thread, such as 6H".to_owned(),
                Side::Internal => "a class for an external thread, such as 6g".to_owned(),
            },
            Self::NoSuchGrade { quantity, .. } => {
                format!("{quantity} has the grades {}", class::list(quantity.grades()))
            }
        }
    }
}

impl fmt::Display for ToleranceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::PitchOutOfRange(pitch) => write!(f, "no tolerances for a pitch of {pitch}"),
            Self::DiameterOutOfRange(size) => write!(f, "no tolerances for a diameter of {size}"),
            Self::PitchTooCoarse { diameter, pitch } => {
                write!(f, "a pitch of {pitch} cuts a thread of {diameter} through its axis")
            }
            Self::WrongSide(class) => {
                let side = class.position().side();
                write!(f, "{class} is a class for an {side} thread")
            }
            Self::NoSuchGrade { quantity, grade } => write!(f, "{quantity} has no grade {grade}"),
        }
    }
}

impl std::error::Error for ToleranceError {}

/// The band of a diameter, if diameter and pitch are of those that the standard covers.
fn covered(diameter: Length, pitch: Length) -> Result<DiameterBand, ToleranceError> {
    // Written so that "not a number" is refused.
    if !(PITCHES.0 <= pitch && pitch <= PITCHES.1) {
        return Err(ToleranceError::PitchOutOfRange(pitch));
    }
    DiameterBand::of(diameter).ok_or(ToleranceError::DiameterOutOfRange(diameter))
}

/// Whether a pitch is this one of the standard's tables.
fn is_pitch(pitch: Length, listed: f64) -> bool {
    (pitch.as_mm() - listed).abs() < super::iso261::SAME
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_with_a_hint() {
        use ToleranceError as E;
        let mm = Length::mm;
        let (screw, nut) = (ToleranceClass::MEDIUM_EXTERNAL, ToleranceClass::MEDIUM_INTERNAL);
        let coarse = E::PitchTooCoarse { diameter: mm(1.0), pitch: mm(0.9) };
        let cases = [
            (external(mm(10.0), mm(0.0), screw).err(), E::PitchOutOfRange(mm(0.0))),
            (internal(mm(10.0), mm(-1.0), nut).err(), E::PitchOutOfRange(mm(-1.0))),
            (external(mm(10.0), mm(8.5), screw).err(), E::PitchOutOfRange(mm(8.5))),
            (external(mm(0.9), mm(0.2), screw).err(), E::DiameterOutOfRange(mm(0.9))),
            (internal(mm(400.0), mm(3.0), nut).err(), E::DiameterOutOfRange(mm(400.0))),
            (external(mm(1.0), mm(0.9), screw).err(), coarse),
            (internal(mm(1.0), mm(0.9), nut).err(), coarse),
            (external(mm(10.0), mm(1.0), nut).err(), E::WrongSide(nut)),
            (internal(mm(10.0), mm(1.0), screw).err(), E::WrongSide(screw)),
        ];
        for (error, expected) in cases {
            assert_eq!(error, Some(expected));
            assert!(!expected.hint().is_empty() && !expected.to_string().is_empty());
        }
        assert!(external(mm(f64::NAN), mm(1.0), screw).is_err());
        assert!(internal(mm(10.0), mm(f64::NAN), nut).is_err());
        assert_eq!(E::WrongSide(nut).hint(), "a class for an external thread, such as 6g");
    }

    /// The hint for a pitch too coarse works: half the diameter leaves a core, in every grade.
    #[test]
    fn half_the_diameter_is_never_too_coarse() {
        let widest = ToleranceClass::new(Position::ExternalE, 9, 8).expect("a class");
        for tenths in 10..=160 {
            let diameter = Length::mm(f64::from(tenths) / 10.0);
            assert!(external(diameter, diameter / 2.0, widest).is_ok(), "{diameter}");
        }
    }

    /// M8.05x0.55-6g/6H, a pitch that no table has: the parts by hand from clause 13.
    #[test]
    fn a_pitch_between_the_tables() {
        let (d, p) = (Length::mm(8.05), Length::mm(0.55));
        let um = |length: Length| (length.as_mm() * 1000.0).round();
        // Td = 180 x 0.6713 - 3.15 / 0.7416 = 116.6: 118. TD1 = 238.15 - 91.62 = 146.5: 150.
        // Td2 = 90 x 0.7873 x 1.2301 = 87.2: 85. TD2 is five members on: 112 (85 90 95 100 106).
        // es = 15 + 6.05 = 21.05: 21.2, printed 21.
        let screw = external(d, p, ToleranceClass::MEDIUM_EXTERNAL).expect("in range");
        let nut = internal(d, p, ToleranceClass::MEDIUM_INTERNAL).expect("in range");
        assert_eq!(um(screw.major.width()), 118.0);
        assert_eq!(um(screw.pitch.width()), 85.0);
        assert_eq!(um(d - screw.major.max()), 21.0);
        assert_eq!(um(nut.minor.width()), 150.0);
        assert_eq!(um(nut.pitch.width()), 112.0);
    }
}
