//! ISO 6411:1982, centre holes of type A: a 60 degree cone behind a pilot. From memory.
//!
//! ```text
//!        ______
//!   D2  \      |
//!        \_____|__ d        from the face: the cone, the pilot and its point
//!   - - - - - -|- -> axis
//! ```

use crate::quantity::{Angle, Length};

/// The included angle of the cone.
pub const CONE: Angle = Angle::deg(60.0);

/// The included angle of the pilot's own point (a centre drill's, as a twist drill's).
pub const POINT: Angle = Angle::deg(118.0);

/// A centre hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CentreHole {
    /// The pilot's diameter, by which a centre drill is named.
    pub pilot: Length,
    /// Diameter of the cone at the face.
    pub mouth: Length,
    /// How deep the pilot's full diameter goes behind the cone.
    pub pilot_length: Length,
}

/// d, D2 and the pilot's length, in mm.
const SIZES: [(f64, f64, f64); 7] = [
    (0.63, 1.32, 0.6),
    (0.8, 1.7, 0.7),
    (1.0, 2.12, 0.9),
    (1.6, 3.35, 1.4),
    (2.0, 4.25, 1.8),
    (2.5, 5.3, 2.2),
    (3.15, 6.7, 2.8),
];

impl CentreHole {
    /// Axial length of the cone: (D2 - d) / 2 / tan 30.
    pub fn cone_length(self) -> Length {
        (self.mouth - self.pilot) / 2.0 / half_tan(CONE)
    }

    /// Axial length of the pilot's point, down to the axis.
    pub fn point_length(self) -> Length {
        self.pilot / 2.0 / half_tan(POINT)
    }

    /// From the face to the tip.
    pub fn depth(self) -> Length {
        self.cone_length() + self.pilot_length + self.point_length()
    }
}

/// The largest hole with a mouth no wider than this; none where even the least is wider.
pub fn hole_within(mouth: Length) -> Option<CentreHole> {
    let (pilot, mouth, length) = *SIZES.iter().rfind(|size| size.1 <= mouth.as_mm())?;
    let [pilot, mouth, pilot_length] = [pilot, mouth, length].map(Length::mm);
    Some(CentreHole { pilot, mouth, pilot_length })
}

fn half_tan(included: Angle) -> f64 {
    libm::tan(included.as_rad() / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand, d = 2, D2 = 4.25: the cone 1.125 x sqrt 3 = 1.9486, the point 1 / tan 59 = 0.6009.
    #[test]
    fn a_hole_is_as_deep_as_its_cones_and_its_pilot() {
        let hole = hole_within(Length::mm(4.5)).unwrap();
        assert_eq!((hole.pilot, hole.mouth), (Length::mm(2.0), Length::mm(4.25)));
        let depth = 1.125 * 3.0_f64.sqrt() + 1.8 + 0.600_86;
        assert!((hole.depth().as_mm() - depth).abs() < 1e-5);
        assert!(hole_within(Length::mm(1.0)).is_none());
    }

    /// Source: ISO 6411: the mouth is about 2.12 times the pilot in every size.
    #[test]
    fn mouths_are_of_one_ratio() {
        assert!(SIZES.iter().all(|(pilot, mouth, _)| (mouth / pilot - 2.12).abs() < 0.03));
    }
}
