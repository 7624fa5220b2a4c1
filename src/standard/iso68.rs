//! ISO 68-1:1998, the basic profile of ISO metric threads.
//!
//! ```text
//!          P/8
//!        |<-->|                         major diameter
//!         ____ ............................................
//!        /    \                 H/8 cut off above it
//!       /      \                                      5/8 H
//!   ---/--------\---------- pitch diameter, ridge = groove
//!     /          \
//!    /  60 deg    \______ ................................
//!                 |<---->|              minor diameter
//!                   P/4         H/4 cut off below it
//! ```
//! H is the height of the sharp V. All depths are radial (per side), in the unit of the pitch.
//! Source: ISO 68-1:1998 clause 4; the factors are printed in Machinery's Handbook 27 p. 1786
//! table 3. The rounded root (h3, d3, R) is the design profile of ISO 724 and DIN 13 practice: a
//! tap maker's guide of 2022, p. 56.

use crate::quantity::{Angle, Length};

/// The flanks lean 30 degrees from the normal to the axis. Steeper flanks wedge, flatter ones
/// would slide on any other M thread.
pub const HALF_ANGLE: Angle = Angle::deg(30.0);

/// H over P: half the square root of three.
const H_PER_PITCH: f64 = 0.866_025_403_784_438_6;

/// The height H of the sharp V: 0.866025 P.
pub fn fundamental_height(pitch: Length) -> Length {
    pitch * H_PER_PITCH
}

/// The depth of engagement H1 = 5/8 H = 0.541266 P: what two basic profiles share, per side.
pub fn engagement_depth(pitch: Length) -> Length {
    fundamental_height(pitch) * (5.0 / 8.0)
}

/// The depth h3 = 17/24 H = 0.613435 P of an external thread with its root rounded.
pub fn external_depth(pitch: Length) -> Length {
    fundamental_height(pitch) * (17.0 / 24.0)
}

/// The flat on the crest of the external thread, and at the root of the internal one: P/8.
pub fn major_flat(pitch: Length) -> Length {
    pitch / 8.0
}

/// The flat on the crest of the internal thread: P/4.
pub fn minor_flat(pitch: Length) -> Length {
    pitch / 4.0
}

/// The greatest root radius of an external thread, R = H/6 = 0.144338 P, tangent to both flanks.
pub fn root_radius(pitch: Length) -> Length {
    fundamental_height(pitch) / 6.0
}

/// The least root radius that ISO 965-1 allows for an external thread: P/8 (clause 11, table 8;
/// the clause number is from memory).
pub fn least_root_radius(pitch: Length) -> Length {
    pitch / 8.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn height_is_that_of_an_equilateral_triangle() {
        // Independent route: half a pitch over the tangent of the half angle.
        let pitch = Length::mm(0.8);
        let height = pitch.as_mm() / 2.0 / HALF_ANGLE.tan();
        assert!((fundamental_height(pitch).as_mm() - height).abs() < 1e-15);
        assert_eq!(fundamental_height(Length::ZERO), Length::ZERO);
    }

    #[test]
    fn flats_and_depth_close_the_profile() {
        // Down one flank, along a flat, up the other: the flats and the flanks' run make a pitch.
        let pitch = Length::mm(1.5);
        let run = engagement_depth(pitch) * (2.0 * HALF_ANGLE.tan());
        let around = run + major_flat(pitch) + minor_flat(pitch);
        assert!((around - pitch).abs().as_mm() < 1e-14);
    }

    #[test]
    fn root_arc_is_tangent_at_its_depth() {
        // A radius tangent to both flanks of a V of half angle a has its bottom R (1/sin a - 1)
        // above the apex; the apex of the V lies 7/8 H below the crest flat.
        let pitch = Length::mm(1.0);
        let bottom = root_radius(pitch) * (1.0 / libm::sin(HALF_ANGLE.as_rad()) - 1.0);
        let depth = fundamental_height(pitch) * (7.0 / 8.0) - bottom;
        assert!((depth - external_depth(pitch)).abs().as_mm() < 1e-14);
    }
}
