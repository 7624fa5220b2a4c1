//! ISO 2901 and ISO 2904, the profile and the basic sizes of ISO metric trapezoidal threads.
//!
//! ```text
//!   d  = nominal                     D4 = d + 2 a_c
//!   d2 = D2 = d - 0.5 P              D1 = d - P
//!   d3 = d - P - 2 a_c               flanks at 15 degrees to the plane across the axis
//! ```
//! Ridge and groove are P/2 wide at d2. Sources: ISO 2901:1993 and ISO 2904:1977; formulas,
//! clearances and the sizes in the test are from memory. The standard begins at P = 1.5; for a
//! finer pitch the clearance keeps that row's share of the pitch, which is this program's own.

use crate::quantity::{Angle, Length};

/// The flanks lean 15 degrees from the plane across the axis.
pub const HALF_ANGLE: Angle = Angle::deg(15.0);

/// The finest pitch of the standard, and the share of it that is clearance.
const FINEST: (Length, f64) = (Length::mm(1.5), 0.1);

/// Basic sizes of a trapezoidal thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrapezoidalSizes {
    /// Major diameter of the external thread: the nominal diameter.
    pub major: Length,
    /// Pitch diameter of both.
    pub pitch: Length,
    /// Minor diameter d3 of the external thread.
    pub external_minor: Length,
    /// Major diameter D4 of the internal thread.
    pub internal_major: Length,
    /// Minor diameter D1 of the internal thread.
    pub internal_minor: Length,
}

/// The clearance `a_c` between a crest and the root that it stands in, per side.
pub fn crest_clearance(pitch: Length) -> Length {
    match pitch.as_mm() {
        p if p < FINEST.0.as_mm() => pitch * FINEST.1,
        p if p < 2.0 => Length::mm(0.15),
        p if p <= 5.0 => Length::mm(0.25),
        p if p <= 12.0 => Length::mm(0.5),
        _ => Length::mm(1.0),
    }
}

/// The basic sizes of a thread of this nominal diameter and pitch.
pub fn basic_sizes(nominal: Length, pitch: Length) -> TrapezoidalSizes {
    let clearance = crest_clearance(pitch) * 2.0;
    TrapezoidalSizes {
        major: nominal,
        pitch: nominal - pitch / 2.0,
        external_minor: nominal - pitch - clearance,
        internal_major: nominal + clearance,
        internal_minor: nominal - pitch,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: ISO 2904:1977, rows Tr 8x1.5, Tr 10x2, Tr 12x3 and Tr 30x6 (from memory).
    #[test]
    fn rows_of_the_standard() {
        let rows = [
            (8.0, 1.5, 7.25, 8.3, 6.2, 6.5),
            (10.0, 2.0, 9.0, 10.5, 7.5, 8.0),
            (12.0, 3.0, 10.5, 12.5, 8.5, 9.0),
            (30.0, 6.0, 27.0, 31.0, 23.0, 24.0),
        ];
        for (d, p, d2, d4, d3, d1) in rows {
            let sizes = basic_sizes(Length::mm(d), Length::mm(p));
            let found =
                [sizes.pitch, sizes.internal_major, sizes.external_minor, sizes.internal_minor];
            for (found, row) in found.into_iter().zip([d2, d4, d3, d1]) {
                assert!((found - Length::mm(row)).abs() < Length::mm(1e-9), "Tr{d}x{p}");
            }
        }
    }
}
