//! Holes: diameters, points, seats, and what a drill cuts over its size.

use super::super::reader::{Needed, Placed, Read, Reader, wrong_type};
use super::super::tree::{Node, Value};
use super::length::{Size, length, not_huge};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Angle, Length};
use crate::section::{CentrePilot, Mouth, Point};
use crate::standard::{DrillSize, parse_size};

/// The diameter of a hole: a size, or the basic minor diameter of the thread that is cut in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::design) enum Hole {
    /// A diameter, and the drill's name if one was written.
    Size(Length, Option<String>),
    /// D1 of the basic profile.
    #[default]
    Basic,
}

/// The word for [`Hole::Basic`].
const BASIC: &str = "basic";

impl Read for Hole {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        if matches!(&node.value, Value::Text(text) if text == BASIC) {
            return Some(Self::Basic);
        }
        let size = DrillSize::read(node, key, log)?;
        Some(Self::Size(size.diameter(), size.name().map(|name| name.to_string())))
    }
}

/// A tool's size as it is marked: a length, or a drill by its name.
impl Read for DrillSize {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Text(text) = &node.value else {
            let Size(size) = Size::read(node, key, log)?;
            return Self::of(size).ok();
        };
        match parse_size(text) {
            Ok(size) => not_huge(size.diameter(), key, node.at, log).map(|_| size),
            Err(error) => {
                log.push(
                    Diagnostic::error("value.drill", format!("`{key}`: {error}"))
                        .at(node.at)
                        .hint(error.hint()),
                );
                None
            }
        }
    }
}

impl Needed for DrillSize {
    fn stand_in() -> Self {
        Self::of(Length::mm(1.0)).expect("1 mm is above zero")
    }
}

/// An angle of a cone, above 0 and under 180 degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct ConeAngle(pub(in crate::design) Angle);

impl Read for ConeAngle {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// A sharper point is a needle, a blunter one is flat: neither is a drill's.
        const CONES: (f64, f64) = (10.0, 175.0);
        let (least, greatest) = CONES;
        match node.value {
            Value::Number(degrees) if (least..=greatest).contains(&degrees) => {
                Some(Self(Angle::deg(degrees)))
            }
            Value::Number(degrees) => {
                let message = format!("`{key}` can't be a cone of {degrees} degrees");
                log.push(
                    Diagnostic::error("value.angle", message)
                        .at(node.at)
                        .hint(format!("an included angle from {least} to {greatest}, such as 118")),
                );
                None
            }
            ref other => {
                log.push(
                    wrong_type(key, "an angle in degrees", other.kind(), node.at)
                        .hint("write a number such as 118"),
                );
                None
            }
        }
    }
}

/// The word for an end without a point.
const FLAT: &str = "flat";

/// The end of a tool: `"flat"`, or the included angle of its point.
impl Read for Point {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match &node.value {
            Value::Text(text) if text == FLAT => Some(Self::Flat),
            Value::Number(_) => ConeAngle::read(node, key, log).map(|cone| Self::Cone(cone.0)),
            other => {
                log.push(
                    wrong_type(key, "\"flat\" or an angle in degrees", other.kind(), node.at)
                        .hint("write \"flat\" for an end mill or boring bar, 118 for a drill"),
                );
                None
            }
        }
    }
}

/// The face that a tool comes in by.
impl Read for Mouth {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        const HINT: &str = "write \"front\" or \"back\"";
        match &node.value {
            Value::Text(text) if text == "front" => Some(Self::Front),
            Value::Text(text) if text == "back" => Some(Self::Back),
            Value::Text(text) => {
                let message = format!("`{key}` is the front or the back face, not {text:?}");
                log.push(Diagnostic::error("value.face", message).at(node.at).hint(HINT));
                None
            }
            other => {
                log.push(
                    wrong_type(key, "\"front\" or \"back\"", other.kind(), node.at).hint(HINT),
                );
                None
            }
        }
    }
}

/// The point of a centre drill's pilot (ISO 866 type A has 118 or 120 degrees, from memory).
pub(in crate::design) const PILOT_POINT: Angle = Angle::deg(118.0);

/// What the collar rests on: `"flat"`, or a cone, `{ cone = 60 }`; with `pilot` and
/// `pilot_length` what the centre drill leaves in front of its cone is kept too.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::design) struct Seat(pub(in crate::design) Point);

impl Read for Seat {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match &node.value {
            Value::Text(text) if text == FLAT => Some(Self(Point::Flat)),
            Value::Table(table) => {
                let mut reader = Reader::new(table, node.at, key.to_owned(), log);
                let cone: Placed<ConeAngle> = reader.need("cone", "cone = 60");
                let (pilot, length) = if reader.has("pilot") || reader.has("pilot_length") {
                    let pilot: Placed<Size> = reader.need("pilot", "pilot = 3.15");
                    let length: Placed<Size> = reader.need("pilot_length", "pilot_length = 3.9");
                    (pilot.place().map(|_| pilot.value.0), length.value.0)
                } else {
                    (None, Length::ZERO)
                };
                reader.finish();
                let angle = cone.value.0;
                let point = match pilot {
                    Some(diameter) => {
                        Point::Centre(angle, CentrePilot { diameter, length, point: PILOT_POINT })
                    }
                    None => Point::Cone(angle),
                };
                (angle > Angle::deg(0.0)).then_some(Self(point))
            }
            other => {
                log.push(
                    wrong_type(key, "\"flat\" or a cone", other.kind(), node.at)
                        .hint("write \"flat\", or { cone = 60 } for a centre drill"),
                );
                None
            }
        }
    }
}

/// How much a drill may cut over its size, least and greatest.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct CutsOver {
    pub(in crate::design) least: Length,
    pub(in crate::design) greatest: Length,
}

impl Read for CutsOver {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// A drill that misses its size by more is the wrong drill.
        const MOST: Length = Length::mm(1.0);
        const HINT: &str = "write the least and the greatest, such as [0, 0.15]";
        let Value::List(list) = &node.value else {
            log.push(wrong_type(key, "two lengths", node.value.kind(), node.at).hint(HINT));
            return None;
        };
        let [least, greatest] = list.as_slice() else {
            let message = format!("`{key}` takes two lengths, not {}", list.len());
            log.push(Diagnostic::error("value.type", message).at(node.at).hint(HINT));
            return None;
        };
        let (least, greatest) = (length(least, key, log), length(greatest, key, log));
        let (least, greatest) = (least?, greatest?);
        if least > greatest || least.abs() > MOST || greatest.abs() > MOST {
            let message = format!("`{key}` of {least} to {greatest} is no spread");
            log.push(Diagnostic::error("value.order", message).at(node.at).hint(HINT));
            return None;
        }
        Some(Self { least, greatest })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn a_hole_is_a_size_a_drill_or_basic() {
        let size = |mm| Some(Hole::Size(Length::mm(mm), None));
        assert_eq!(read::<Hole>("7.3").0, size(7.3));
        assert_eq!(read::<Hole>("\"7.3 mm\"").0, size(7.3));
        assert_eq!(read::<Hole>("\"basic\"").0, Some(Hole::Basic));
        let named = read::<Hole>("\"0.3125 in\"").0;
        assert_eq!(named, Some(Hole::Size(Length::mm(7.9375), Some("5/16 in".into()))));
        assert_eq!(read::<Hole>("\"#0\"").1[0].code, "value.drill");
    }

    #[test]
    fn points_and_seats() {
        let cone = |degrees| Some(Point::Cone(Angle::deg(degrees)));
        assert_eq!(read::<Point>("118").0, cone(118.0));
        assert_eq!(read::<Point>("\"flat\"").0, Some(Point::Flat));
        assert_eq!(read::<Point>("180").1[0].code, "value.angle");
        assert_eq!(read::<Point>("nan").1[0].code, "value.angle");
        assert_eq!(read::<Seat>("{ cone = 60 }").0, cone(60.0).map(Seat));
        assert_eq!(read::<Seat>("60").1[0].code, "value.type");
        assert_eq!(read::<Seat>("{}").1[0].code, "key.missing");
    }

    #[test]
    fn a_spread_runs_from_the_least_to_the_greatest() {
        let spread = read::<CutsOver>("[-0.05, 0.1]").0.expect("a spread");
        assert_eq!((spread.least, spread.greatest), (Length::mm(-0.05), Length::mm(0.1)));
        for bad in ["[0.1, 0]", "[0, 2]", "[0]", "[0, nan]", "0.1"] {
            assert!(read::<CutsOver>(bad).0.is_none(), "{bad}");
        }
    }
}
