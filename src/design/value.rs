//! Values as people write them: lengths, readings, holes, threads, points.

use super::reader::{Needed, Placed, Read, Reader, wrong_type};
use super::tree::{Node, Value};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::{Angle, Length, parse_length};
use crate::section::Point;
use crate::standard::{Hand, ThreadDesignation, parse_size};

/// No part of a pen is longer or wider; a value above it has lost its decimal point or its unit.
/// Lower, and a long barrel would be refused.
const GREATEST: Length = Length::mm(300.0);

/// The uncertainty of a reading that states none: what a caliper can be trusted with (common
/// practice, no source). Less would promise what nobody said.
pub(super) const CALIPER: Length = Length::mm(0.02);

/// A length above zero.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Size(pub(super) Length);

/// A length from zero on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Distance(pub(super) Length);

impl Read for Size {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let length = length(node, key, log)?;
        positive(length, key, node.at, log).map(Self)
    }
}

impl Read for Distance {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let length = length(node, key, log)?;
        if length < Length::ZERO {
            log.push(negative(length, key, node.at, "0 or more, such as 0.5"));
            return None;
        }
        Some(Self(length))
    }
}

/// The length that a value says, of either sign, as long as it is no longer than a pen.
fn length(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Length> {
    let length = match &node.value {
        Value::Number(mm) => Length::mm(*mm),
        Value::Text(text) => match parse_length(text) {
            Ok(length) => length,
            Err(error) => {
                log.push(
                    Diagnostic::error("value.length", format!("`{key}`: {error}"))
                        .at(node.at)
                        .hint(error.hint()),
                );
                return None;
            }
        },
        other => {
            log.push(
                wrong_type(key, "a length", other.kind(), node.at)
                    .hint("write a number in mm, 12.5, or a text, \"12.5 mm\" or \"5/16 in\""),
            );
            return None;
        }
    };
    not_huge(length, key, node.at, log)
}

fn positive(length: Length, key: &str, at: Place, log: &mut Vec<Diagnostic>) -> Option<Length> {
    if length > Length::ZERO {
        return Some(length);
    }
    log.push(negative(length, key, at, "a length above 0, such as 0.5"));
    None
}

fn negative(length: Length, key: &str, at: Place, wanted: &str) -> Diagnostic {
    Diagnostic::error("value.negative", format!("`{key}` can't be {length}")).at(at).hint(wanted)
}

fn not_huge(length: Length, key: &str, at: Place, log: &mut Vec<Diagnostic>) -> Option<Length> {
    if !length.is_finite() {
        log.push(
            Diagnostic::error("value.not-finite", format!("`{key}` is not a finite number"))
                .at(at)
                .hint("write a number such as 12.5"),
        );
        return None;
    }
    if length.abs() > GREATEST {
        log.push(
            Diagnostic::error(
                "value.huge",
                format!("`{key}` of {length} is longer than any part of a pen"),
            )
            .at(at)
            .hint(format!(
                "lengths are in mm, {} at most; \"0.5 in\" is half an inch",
                GREATEST.as_mm()
            )),
        );
        return None;
    }
    Some(length)
}

impl Read for String {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match &node.value {
            Value::Text(text) if !text.trim().is_empty() => Some(text.clone()),
            Value::Text(_) => {
                log.push(
                    Diagnostic::error("value.empty", format!("`{key}` is empty"))
                        .at(node.at)
                        .hint("write a text such as \"Pen 7\""),
                );
                None
            }
            other => {
                log.push(
                    wrong_type(key, "a text", other.kind(), node.at)
                        .hint("write it in quotes, such as \"Pen 7\""),
                );
                None
            }
        }
    }
}

/// A number from zero on that is no length: turns, percent, a stress.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Amount(pub(super) f64);

impl Read for Amount {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match node.value {
            Value::Number(number) if number.is_finite() && number >= 0.0 => Some(Self(number)),
            Value::Number(number) if number < 0.0 => {
                log.push(
                    Diagnostic::error("value.negative", format!("`{key}` can't be {number}"))
                        .at(node.at)
                        .hint("a number from 0 on, such as 3"),
                );
                None
            }
            Value::Number(_) => {
                log.push(
                    Diagnostic::error(
                        "value.not-finite",
                        format!("`{key}` is not a finite number"),
                    )
                    .at(node.at)
                    .hint("write a number such as 3"),
                );
                None
            }
            ref other => {
                log.push(
                    wrong_type(key, "a number", other.kind(), node.at)
                        .hint("write it without quotes and unit, such as 3"),
                );
                None
            }
        }
    }
}

/// A measured length: what was read, how far off it may be, and how it was measured.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Measured {
    pub(super) value: Length,
    pub(super) uncertainty: Length,
    /// None where nothing is said.
    pub(super) how: Option<String>,
}

impl Default for Measured {
    fn default() -> Self {
        Self { value: Length::ZERO, uncertainty: CALIPER, how: None }
    }
}

impl Read for Measured {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Table(table) = &node.value else {
            return Size::read(node, key, log).map(|Size(value)| Self { value, ..Self::default() });
        };
        let noted = log.len();
        let mut reader = Reader::new(table, node.at, key.to_owned(), log);
        let value: Placed<Size> = reader.need("value", "value = 8.00");
        let uncertainty: Option<Placed<Distance>> = reader.maybe("uncertainty");
        let how: Option<Placed<String>> = reader.maybe("how");
        reader.finish();
        let uncertainty = uncertainty.map_or(CALIPER, |u| u.value.0);
        let how = how.map(|how| how.value);
        (log.len() == noted).then_some(Self { value: value.value.0, uncertainty, how })
    }
}

/// The diameter of a hole: a size, or the basic minor diameter of the thread that is cut in it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Hole {
    /// A diameter, and the drill's name if one was written.
    Size(Length, Option<String>),
    /// D1 of the basic profile.
    Basic,
}

/// The word for [`Hole::Basic`].
const BASIC: &str = "basic";

impl Read for Hole {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Text(text) = &node.value else {
            return Size::read(node, key, log).map(|Size(size)| Self::Size(size, None));
        };
        if text == BASIC {
            return Some(Self::Basic);
        }
        match parse_size(text) {
            Ok(size) => {
                let diameter = not_huge(size.diameter(), key, node.at, log)?;
                let name = size.name().map(|name| name.to_string());
                Some(Self::Size(diameter, name))
            }
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

impl Read for ThreadDesignation {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Text(text) = &node.value else {
            log.push(
                wrong_type(key, "a thread's designation", node.value.kind(), node.at)
                    .hint("write it in quotes, such as \"M10x0.75-6g\""),
            );
            return None;
        };
        match text.parse() {
            Ok(designation) => Some(designation),
            Err(error) => {
                let error: crate::standard::DesignationError = error;
                log.push(
                    Diagnostic::error("value.thread", format!("`{key}`: {error}"))
                        .at(node.at)
                        .hint(error.hint()),
                );
                None
            }
        }
    }
}

impl Needed for ThreadDesignation {
    fn stand_in() -> Self {
        Self::new(Length::mm(10.0), Length::mm(1.0), 1, Hand::Right, None)
            .expect("M10x1 is a thread")
    }
}

/// An angle of a cone, above 0 and under 180 degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct ConeAngle(pub(super) Angle);

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

/// What the collar rests on: `"flat"`, or a cone, `{ cone = 60 }`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seat(pub(super) Point);

impl Read for Seat {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        match &node.value {
            Value::Text(text) if text == FLAT => Some(Self(Point::Flat)),
            Value::Table(table) => {
                let mut reader = Reader::new(table, node.at, key.to_owned(), log);
                let cone: Placed<ConeAngle> = reader.need("cone", "cone = 60");
                reader.finish();
                (cone.value.0 > Angle::deg(0.0)).then_some(Self(Point::Cone(cone.value.0)))
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CutsOver {
    pub(super) least: Length,
    pub(super) greatest: Length,
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
            let message = format!("`{key}` of {least} to {greatest} is no spread of a drill");
            log.push(Diagnostic::error("value.order", message).at(node.at).hint(HINT));
            return None;
        }
        Some(Self { least, greatest })
    }
}

/// A limit: its value alone, or a value with where it comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Sourced<T> {
    pub(super) value: Placed<T>,
    pub(super) source: Option<Placed<String>>,
}

impl<T: Needed> Read for Sourced<T> {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Table(table) = &node.value else {
            let value = T::read(node, key, log)?;
            return Some(Self { value: Placed::new(value, node.at), source: None });
        };
        let noted = log.len();
        let mut reader = Reader::new(table, node.at, key.to_owned(), log);
        let value = reader.need("value", "value = 0.6");
        let source = reader.maybe("source");
        reader.finish();
        (log.len() == noted).then_some(Self { value, source })
    }
}
