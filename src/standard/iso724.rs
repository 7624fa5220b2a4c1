//! ISO 724:1993, basic dimensions of ISO metric threads.
//!
//! Sizes are not rounded here. The standard rounds each once, from the exact value, half up to
//! 0.001 mm; rounding on the way gives last digits that no table has.

use super::iso68;
use crate::quantity::Length;

/// The basic diameters of a thread of one diameter and pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BasicSizes {
    /// D, d: the diameter the thread is named after.
    pub major: Length,
    /// D2, d2 = d - 3/4 H = d - 0.649519 P.
    pub pitch: Length,
    /// D1, d1 = d - 5/4 H = d - 1.082532 P.
    pub minor: Length,
    /// d3 = d - 17/12 H = d - 1.226869 P: the rounded root of the external thread.
    pub root: Length,
}

/// The basic diameters for a major diameter and a pitch, standard or not (ISO 724:1993 clause 4).
///
/// They are differences and nothing else: a pitch too coarse for its diameter gives a root below
/// zero, which [`super::designation`] and [`super::iso965`] refuse.
pub fn basic_sizes(major: Length, pitch: Length) -> BasicSizes {
    let height = iso68::fundamental_height(pitch);
    BasicSizes {
        major,
        pitch: major - height * 0.75,
        minor: major - iso68::engagement_depth(pitch) * 2.0,
        root: major - iso68::external_depth(pitch) * 2.0,
    }
}

/// Whether a thread of this pitch is so coarse that its root reaches the axis.
pub fn root_passes_axis(major: Length, pitch: Length) -> bool {
    basic_sizes(major, pitch).root <= Length::ZERO
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_pitch_no_depth() {
        let sizes = basic_sizes(Length::mm(10.0), Length::ZERO);
        assert_eq!(sizes.root, sizes.major);
        assert_eq!(sizes.pitch, sizes.minor);
    }

    #[test]
    fn root_meets_axis() {
        assert!(root_passes_axis(Length::mm(1.0), Length::mm(0.82)));
        assert!(!root_passes_axis(Length::mm(1.0), Length::mm(0.81)));
    }
}
