//! An angle in degrees.

use std::fmt;

/// An angle in degrees; which of two supplements is meant (a drill's point is the whole angle of
/// its cone, a flank the half) is said where it is used.
#[must_use]
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Angle {
    /// An angle of so many degrees.
    pub const fn deg(degrees: f64) -> Self {
        Self(degrees)
    }

    /// The angle in degrees.
    pub const fn as_deg(self) -> f64 {
        self.0
    }

    /// The angle in radians.
    pub const fn as_rad(self) -> f64 {
        self.0.to_radians()
    }

    /// Half of it: a cone's side from its axis, a flank from the normal.
    pub const fn half(self) -> Self {
        Self(self.0 / 2.0)
    }

    /// Its tangent, with the same bits on every platform.
    pub fn tan(self) -> f64 {
        libm::tan(self.as_rad())
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match f.precision() {
            Some(decimals) => write!(f, "{:.decimals$}°", self.0),
            None => write!(f, "{}°", self.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tangents_of_known_angles() {
        assert_eq!(Angle::deg(0.0).tan(), 0.0);
        assert!((Angle::deg(45.0).tan() - 1.0).abs() < 1e-15);
        // Independent route: tan 30 = 1/sqrt 3.
        assert!((Angle::deg(60.0).half().tan() - 1.0 / 3.0_f64.sqrt()).abs() < 1e-15);
    }

    #[test]
    fn shows_degrees() {
        assert_eq!(Angle::deg(118.0).to_string(), "118°");
        assert_eq!(format!("{:.1}", Angle::deg(1.4376)), "1.4°");
    }
}
