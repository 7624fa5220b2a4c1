//! General tolerances (ISO 2768-1:1993): what a size on a drawing may be off that has none of its
//! own.
//!
//! Table 1 (linear sizes): class m is the row on which the usable public transcriptions agree;
//! class f is from memory. Table 2 (radii and chamfers of broken edges) and table 3 (angles) are
//! from memory.

use std::fmt;

use crate::quantity::{Angle, Length};

/// A tolerance class of ISO 2768-1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GeneralClass {
    /// f.
    Fine,
    /// m.
    Medium,
}

impl fmt::Display for GeneralClass {
    /// As a drawing's note has it: `ISO 2768-m`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Fine => "ISO 2768-f",
            Self::Medium => "ISO 2768-m",
        })
    }
}

/// Under this a size has no general tolerance: it is written at the dimension (table 1, note).
pub const LEAST: Length = Length::mm(0.5);

/// Upper end of each range, with the tolerances of f and m, all in millimetres. Table 1.
const LINEAR: [(f64, [f64; 2]); 5] = [
    (3.0, [0.05, 0.1]),
    (6.0, [0.05, 0.1]),
    (30.0, [0.1, 0.2]),
    (120.0, [0.15, 0.3]),
    (400.0, [0.2, 0.5]),
];

/// Upper end of each range and the tolerance of both f and m, in millimetres. Table 2.
const BROKEN_EDGE: [(f64, f64); 3] = [(3.0, 0.2), (6.0, 0.5), (f64::INFINITY, 1.0)];

/// Upper end of each range of the shorter leg in millimetres and the tolerance of both f and m, in
/// minutes. Table 3.
const ANGLE: [(f64, f64); 3] = [(10.0, 60.0), (50.0, 30.0), (120.0, 20.0)];

/// To either side, of a linear size: a diameter, a length, a step, a distance, a radius of form.
///
/// None under 0.5 mm, and over 400 mm, which no part of a pen is. Table 1.
pub fn linear(class: GeneralClass, size: Length) -> Option<Length> {
    let (_, [fine, medium]) = LINEAR.into_iter().find(|(to, _)| reaches(size, *to))?;
    Some(Length::mm(if class == GeneralClass::Fine { fine } else { medium }))
}

/// To either side, of a broken edge's radius or the height of its chamfer, in class f as in m.
///
/// None under 0.5 mm. Table 2.
pub fn broken_edge(size: Length) -> Option<Length> {
    BROKEN_EDGE.into_iter().find(|(to, _)| reaches(size, *to)).map(|(_, by)| Length::mm(by))
}

/// To either side, of an angle, in class f as in m, by its shorter leg. Table 3.
///
/// None over 120 mm.
pub fn angle(shorter_leg: Length) -> Option<Angle> {
    let found = ANGLE.into_iter().find(|(to, _)| shorter_leg <= Length::mm(*to));
    found.map(|(_, minutes)| Angle::deg(minutes / 60.0))
}

fn reaches(size: Length, to: f64) -> bool {
    size >= LEAST && size <= Length::mm(to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use GeneralClass::{Fine, Medium};

    fn of(class: GeneralClass, size: f64) -> Option<f64> {
        linear(class, Length::mm(size)).map(Length::as_mm)
    }

    /// Source: ISO 2768-1:1993, table 1; class m as usable public transcriptions agree, class f
    /// from memory. Ranges: over the lower, up to and with the upper.
    #[test]
    fn linear_sizes() {
        let rows = [
            (0.5, 0.05, 0.1),
            (3.0, 0.05, 0.1),
            (3.01, 0.05, 0.1),
            (6.0, 0.05, 0.1),
            (6.01, 0.1, 0.2),
            (30.0, 0.1, 0.2),
            (30.01, 0.15, 0.3),
            (120.0, 0.15, 0.3),
            (120.01, 0.2, 0.5),
            (400.0, 0.2, 0.5),
        ];
        for (size, fine, medium) in rows {
            assert_eq!((of(Fine, size), of(Medium, size)), (Some(fine), Some(medium)), "{size}");
        }
        assert_eq!((of(Medium, 0.49), of(Medium, 400.01)), (None, None));
    }

    /// Source: ISO 2768-1:1993, tables 2 and 3, from memory.
    #[test]
    fn edges_and_angles() {
        let edge = |size| broken_edge(Length::mm(size)).map(Length::as_mm);
        assert_eq!(
            [0.4, 0.5, 3.0, 3.1, 6.0, 6.1].map(edge),
            [None, Some(0.2), Some(0.2), Some(0.5), Some(0.5), Some(1.0)]
        );
        let off = |leg| angle(Length::mm(leg)).map(Angle::as_deg);
        let expected = [Some(1.0), Some(1.0), Some(0.5), Some(20.0 / 60.0), None];
        assert_eq!([0.1, 10.0, 10.1, 50.1, 120.1].map(off), expected);
    }

    #[test]
    fn a_note_names_its_class() {
        assert_eq!(Medium.to_string(), "ISO 2768-m");
        assert_eq!(Fine.to_string(), "ISO 2768-f");
    }
}
