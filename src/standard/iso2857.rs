//! ISO 2857:1973, the threads of ground taps: how far a tap's own pitch diameter lies over the
//! basic one.
//!
//! ```text
//!   t = TD2 of grade 5 (ISO 965-1) for the tap's diameter and pitch
//!   class 1   D2 + 0.1 t .. D2 + 0.3 t      for 4H, 5H
//!   class 2   D2 + 0.3 t .. D2 + 0.5 t      for 6H, and 4G, 5G
//!   class 3   D2 + 0.5 t .. D2 + 0.7 t      for 7H, 8H, and 6G
//!   major diameter at least D + 0.4 t
//! ```
//! The shares are from memory; those of class 2 are held against two tap makers' tables below.
//! Deviations are whole micrometres, as those tables print them.

use std::fmt;

use super::iso724;
use super::iso965::{Position, Quantity, ToleranceClass, ToleranceError, tolerance};
use crate::quantity::{Length, Limits};

/// Micrometres in a millimetre.
const UM_PER_MM: f64 = 1000.0;

/// The grade whose TD2 is `t`.
const GRADE_OF_T: u8 = 5;

/// The share of `t` by which a tap's major diameter is over the basic one, at least, in all three
/// classes.
const MAJOR_OVER: f64 = 0.4;

/// The class of a tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TapClass {
    /// For close threads.
    One,
    /// For medium ones.
    Two,
    /// For wide ones.
    Three,
}

impl TapClass {
    /// The class of tap that cuts an internal thread of a tolerance class, in a material that
    /// leaves a thread as wide as its tap.
    pub const fn cutting(class: ToleranceClass) -> Self {
        /// The grade of the medium class, 6H.
        const MEDIUM: u8 = 6;
        let raised = matches!(class.position(), Position::InternalG);
        match (raised, class.pitch_grade()) {
            (false, ..MEDIUM) => Self::One,
            (false, MEDIUM) | (true, ..MEDIUM) => Self::Two,
            _ => Self::Three,
        }
    }

    /// The shares of `t` between which the pitch diameter lies over the basic one.
    const fn shares(self) -> [f64; 2] {
        match self {
            Self::One => [0.1, 0.3],
            Self::Two => [0.3, 0.5],
            Self::Three => [0.5, 0.7],
        }
    }
}

impl fmt::Display for TapClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::One => "1",
            Self::Two => "2",
            Self::Three => "3",
        })
    }
}

/// A tap's own limits of size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapLimits {
    /// The pitch diameter.
    pub pitch: Limits,
    /// The least major diameter; the standard leaves the greatest to the maker.
    pub major_min: Length,
}

/// The limits of a tap of a class for a thread of this diameter and pitch.
///
/// # Errors
/// A pitch or diameter that ISO 965-1 does not cover.
pub fn limits(
    diameter: Length,
    pitch: Length,
    class: TapClass,
) -> Result<TapLimits, ToleranceError> {
    let t = tolerance(Quantity::PitchInternal, diameter, pitch, GRADE_OF_T)?.as_mm() * UM_PER_MM;
    let basic = iso724::basic_sizes(diameter, pitch);
    let over = |share: f64| Length::mm((t * share).round() / UM_PER_MM);
    let [low, high] = class.shares().map(|share| basic.pitch + over(share));
    let too_coarse = ToleranceError::PitchTooCoarse { diameter, pitch };
    let pitch = Limits::new(low, high).ok_or(too_coarse)?;
    Ok(TapLimits { pitch, major_min: basic.major + over(MAJOR_OVER) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn over(d: f64, p: f64, class: TapClass) -> [f64; 2] {
        let (d, p) = (Length::mm(d), Length::mm(p));
        let found = limits(d, p, class).expect("in range").pitch;
        let basic = iso724::basic_sizes(d, p).pitch;
        [found.min(), found.max()].map(|size| ((size - basic).as_mm() * UM_PER_MM).round())
    }

    /// Published: two tap makers' tables of limits for 6H (class 2): M10x0.75, M8x1 and M10x1.5 in
    /// the one; M3, M4, M6, M8, M12, M16 and M20 of the coarse pitches in the other.
    #[test]
    fn class_2_is_as_two_tables_print_it() {
        for (d, p, low, high) in [
            (10.0, 0.75, 32.0, 53.0),
            (8.0, 1.0, 35.0, 59.0),
            (10.0, 1.5, 42.0, 70.0),
            (3.0, 0.5, 24.0, 40.0),
            (4.0, 0.7, 29.0, 48.0),
            (6.0, 1.0, 35.0, 59.0),
            (8.0, 1.25, 38.0, 63.0),
            (12.0, 1.75, 48.0, 80.0),
            (16.0, 2.0, 51.0, 85.0),
            (20.0, 2.5, 54.0, 90.0),
        ] {
            assert_eq!(over(d, p, TapClass::Two), [low, high], "M{d}x{p}");
        }
    }

    /// Limiting case: each class begins where the one before it ends, and all lie within the
    /// tolerance of the thread that they are for (TD2 of 5H is t, of 6H more).
    #[test]
    fn classes_follow_each_other() {
        for (d, p) in [(10.0, 0.75), (8.05, 0.55), (6.0, 1.0)] {
            let [one, two, three] =
                [TapClass::One, TapClass::Two, TapClass::Three].map(|class| over(d, p, class));
            assert_eq!((one[1], two[1]), (two[0], three[0]), "M{d}x{p}");
            let (d, p) = (Length::mm(d), Length::mm(p));
            let t = tolerance(Quantity::PitchInternal, d, p, 5).unwrap().as_mm() * UM_PER_MM;
            assert!(one[0] > 0.0 && three[1] < t);
        }
    }

    /// By hand: t of M10x1.5 is 140 (ISO 965-1, 5H), 0.4 of it 56: a major diameter of 10.056.
    #[test]
    fn the_major_diameter_is_over_too() {
        let found = limits(Length::mm(10.0), Length::mm(1.5), TapClass::Two).unwrap();
        assert!((found.major_min - Length::mm(10.056)).abs() < Length::mm(1e-9));
        assert!(limits(Length::mm(10.0), Length::mm(9.0), TapClass::Two).is_err());
    }

    /// Published: a tap maker's chart of the classes against the classes of the internal thread.
    #[test]
    fn each_thread_has_its_tap() {
        for (thread, tap) in [
            ("4H", TapClass::One),
            ("5H", TapClass::One),
            ("6H", TapClass::Two),
            ("5G", TapClass::Two),
            ("6G", TapClass::Three),
            ("7H", TapClass::Three),
            ("8H", TapClass::Three),
        ] {
            assert_eq!(TapClass::cutting(thread.parse().unwrap()), tap, "{thread}");
        }
    }
}
