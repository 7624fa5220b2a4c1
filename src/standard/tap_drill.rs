//! The trade's rule for the hole before a tap.

use std::fmt;

use super::percent::ThreadPercent;
use crate::quantity::Length;

/// A hole to tap and the thread it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapDrill {
    /// The hole, as the rule gives it: no drill need have this size.
    pub diameter: Length,
    /// The thread it leaves, on both bases. Always 92 % (A) and 77 % (B) by this rule.
    pub percent: ThreadPercent,
}

impl fmt::Display for TapDrill {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.diameter, self.percent)
    }
}

/// The hole for a thread: major diameter less the pitch (common practice, no source).
///
/// None when the pitch is not above zero or leaves no hole.
pub fn tap_drill(major: Length, pitch: Length) -> Option<TapDrill> {
    let diameter = major - pitch;
    (pitch > Length::ZERO && diameter > Length::ZERO)
        .then(|| TapDrill { diameter, percent: ThreadPercent::of_hole(major, diameter, pitch) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_both_bases() {
        // Common practice, no source: M7.9x0.6 is drilled 7.3.
        let drill = tap_drill(Length::mm(7.9), Length::mm(0.6)).expect("a hole");
        let expected = "7.3 mm: 92 % of full depth (77 % on drill charts)";
        assert_eq!(drill.to_string(), expected);
    }

    #[test]
    fn no_hole_is_none() {
        assert!(tap_drill(Length::mm(1.0), Length::mm(1.0)).is_none());
        assert!(tap_drill(Length::mm(1.0), Length::ZERO).is_none());
        assert!(tap_drill(Length::mm(f64::NAN), Length::mm(1.0)).is_none());
    }
}
