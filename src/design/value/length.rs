//! Lengths, and lengths that were measured.

use super::super::reader::{Placed, Read, Reader, wrong_type};
use super::super::tree::{Node, Value};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::{Length, parse_length};

/// No part of a pen is longer or wider; a value above it has lost its decimal point or its unit.
/// Lower, and a long barrel would be refused.
pub const GREATEST: Length = Length::mm(300.0);

/// The uncertainty of a reading that states none: what a caliper can be trusted with (common
/// practice, no source). Less would promise what nobody said.
pub(in crate::design) const CALIPER: Length = Length::mm(0.02);

/// A length above zero.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Size(pub(in crate::design) Length);

/// A length from zero on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Distance(pub(in crate::design) Length);

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
pub(super) fn length(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Length> {
    let length = any_length(node, key, log)?;
    not_huge(length, key, node.at, log)
}

/// The length that a value says, of either sign and any size.
pub(super) fn any_length(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Length> {
    match &node.value {
        Value::Number(mm) => Some(Length::mm(*mm)),
        Value::Text(text) => match parse_length(text) {
            Ok(length) => Some(length),
            Err(error) => {
                log.push(
                    Diagnostic::error("value.length", format!("`{key}`: {error}"))
                        .at(node.at)
                        .hint(error.hint()),
                );
                None
            }
        },
        other => {
            log.push(
                wrong_type(key, "a length", other.kind(), node.at)
                    .hint("write a number in mm, 12.5, or a text, \"12.5 mm\" or \"5/16 in\""),
            );
            None
        }
    }
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

pub(super) fn not_huge(
    length: Length,
    key: &str,
    at: Place,
    log: &mut Vec<Diagnostic>,
) -> Option<Length> {
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

/// A measured length: what was read, how far off it may be, and how it was measured.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) struct Measured {
    pub(in crate::design) value: Length,
    pub(in crate::design) uncertainty: Length,
    /// None where nothing is said.
    pub(in crate::design) how: Option<String>,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn a_number_is_millimetres_and_a_text_says_its_unit() {
        for (text, mm) in [("12", 12.0), ("12.5", 12.5), ("\"5/16 in\"", 7.9375), ("300", 300.0)] {
            let (size, said) = read::<Size>(text);
            assert_eq!((size, said.len()), (Some(Size(Length::mm(mm))), 0), "{text}");
        }
        assert_eq!(read::<Distance>("0").0, Some(Distance(Length::ZERO)));
    }

    #[test]
    fn what_is_no_length_says_why() {
        for (text, code) in [
            ("0", "value.negative"),
            ("-0.1", "value.negative"),
            ("300.1", "value.huge"),
            ("\"12 in\"", "value.huge"),
            ("nan", "value.not-finite"),
            ("inf", "value.not-finite"),
            ("9999999999999999999999", "value.not-finite"),
            ("\"12 cm\"", "value.length"),
            ("true", "value.type"),
            ("[1]", "value.type"),
        ] {
            let (size, said) = read::<Size>(text);
            assert!(size.is_none(), "{text}");
            assert_eq!(said.iter().map(|d| d.code).collect::<Vec<_>>(), [code], "{text}");
            assert!(said[0].hint.is_some());
        }
        assert_eq!(read::<Distance>("-0.1").1.len(), 1);
    }

    #[test]
    fn a_reading_has_an_uncertainty_whether_it_says_so_or_not() {
        let plain = read::<Measured>("8").0.expect("a reading");
        assert_eq!((plain.uncertainty, plain.how), (CALIPER, None));
        let said = read::<Measured>("{ value = 8, uncertainty = 0.05, how = \"gauge\" }").0;
        let expected = Measured {
            value: Length::mm(8.0),
            uncertainty: Length::mm(0.05),
            how: Some("gauge".into()),
        };
        assert_eq!(said, Some(expected));
        // Both mistakes are said, and there is no reading.
        let (none, said) = read::<Measured>("{ uncertainty = -1 }");
        assert_eq!((none, said.len()), (None, 2));
    }
}
