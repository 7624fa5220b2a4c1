//! Corners, leads, and how a run or groove is shaped.

use super::super::reader::{Placed, Read, Reader, wrong_type};
use super::super::tree::{Node, Value};
use super::length::{Distance, Size};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Angle, Length};
use crate::section::{LeadChamfer, RingForm};

/// The legs of a chamfer: one length for both, or `{ before = 0.5, after = 0.3 }`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::design) struct Legs {
    pub(in crate::design) before: Length,
    pub(in crate::design) after: Length,
}

impl Read for Legs {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Table(table) = &node.value else {
            let Size(leg) = Size::read(node, key, log)?;
            return Some(Self { before: leg, after: leg });
        };
        let noted = log.len();
        let mut reader = Reader::new(table, node.at, key.to_owned(), log);
        let before: Placed<Size> = reader.need("before", "before = 0.5");
        let after: Placed<Size> = reader.need("after", "after = 0.3");
        reader.finish();
        let legs = Self { before: before.value.0, after: after.value.0 };
        (log.len() == noted).then_some(legs)
    }
}

/// The lead of a thread: a depth, at 45 degrees, or `{ depth = 0.5, angle = 30 }`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::design) struct Lead(pub(in crate::design) LeadChamfer);

impl Read for Lead {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Table(table) = &node.value else {
            let Distance(depth) = Distance::read(node, key, log)?;
            return Some(Self(LeadChamfer::at_45(depth)));
        };
        let noted = log.len();
        let mut reader = Reader::new(table, node.at, key.to_owned(), log);
        let depth: Placed<Distance> = reader.need("depth", "depth = 0.5");
        let angle: Option<Placed<SlopeAngle>> = reader.maybe("angle");
        reader.finish();
        if log.len() > noted {
            return None;
        }
        let depth = depth.value.0;
        Some(Self(angle.map_or(LeadChamfer::at_45(depth), |angle| {
            LeadChamfer::at_angle(depth, angle.value.0)
        })))
    }
}

/// The angle between a cone and the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
struct SlopeAngle(Angle);

impl Read for SlopeAngle {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// Flatter is a taper, steeper a face: neither leads a thread in.
        const SLOPES: (f64, f64) = (5.0, 80.0);
        let (least, greatest) = SLOPES;
        let hint = format!("degrees from the axis, {least} to {greatest}, such as 30");
        match node.value {
            Value::Number(degrees) if (least..=greatest).contains(&degrees) => {
                Some(Self(Angle::deg(degrees)))
            }
            Value::Number(degrees) => {
                let message = format!("`{key}` can't be a chamfer of {degrees} degrees");
                log.push(Diagnostic::error("value.angle", message).at(node.at).hint(hint));
                None
            }
            ref other => {
                let wrong = wrong_type(key, "an angle in degrees", other.kind(), node.at);
                log.push(wrong.hint(hint));
                None
            }
        }
    }
}

/// The neighbour to which an arc is tangent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::design) enum TangentTo {
    Before,
    After,
}

impl Read for TangentTo {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let words = [("before", Self::Before), ("after", Self::After)];
        word(node, key, log, &words)
    }
}

/// The shape of a groove.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::design) struct Groove(pub(in crate::design) RingForm);

impl Read for Groove {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let (round, square) = (RingForm::RoundGroove, RingForm::SquareGroove);
        let words =
            [("round", Self(round)), ("square", Self(square)), ("vee", Self(RingForm::VeeGroove))];
        word(node, key, log, &words)
    }
}

/// One of some words.
pub(in crate::design) fn word<T: Copy>(
    node: &Node,
    key: &str,
    log: &mut Vec<Diagnostic>,
    words: &[(&str, T)],
) -> Option<T> {
    let known: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
    let known = known.join(" or ");
    let found = match &node.value {
        Value::Text(text) => words.iter().find(|(word, _)| word == text).map(|(_, value)| *value),
        _ => None,
    };
    if found.is_none() {
        let what = match &node.value {
            Value::Text(text) => format!("\"{text}\""),
            other => other.kind().to_owned(),
        };
        log.push(wrong_type(key, &known, &what, node.at).hint(format!("write {known}")));
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn legs_are_one_or_two() {
        let mm = Length::mm;
        let legs = |before, after| Some(Legs { before: mm(before), after: mm(after) });
        assert_eq!(read::<Legs>("0.4").0, legs(0.4, 0.4));
        assert_eq!(read::<Legs>("{ before = 0.5, after = 0.3 }").0, legs(0.5, 0.3));
        assert_eq!(read::<Legs>("{ before = 0.5 }").1[0].code, "key.missing");
        assert_eq!(read::<Legs>("0").1[0].code, "value.negative");
    }

    /// The angle is that between the cone and the axis: at 30 degrees tan 30 = depth / length.
    #[test]
    fn a_lead_has_an_angle() {
        let Lead(lead) = read::<Lead>("{ depth = 0.5, angle = 30 }").0.expect("a lead");
        assert!((lead.length.as_mm() - 0.5 * 3.0_f64.sqrt()).abs() < 1e-12);
        assert_eq!(read::<Lead>("0.5").0, Some(Lead(LeadChamfer::at_45(Length::mm(0.5)))));
        assert_eq!(read::<Lead>("{ depth = 0.5 }").0, read::<Lead>("0.5").0);
        assert_eq!(read::<Lead>("{ depth = 0.5, angle = 90 }").1[0].code, "value.angle");
    }

    #[test]
    fn words_are_known_or_named() {
        assert_eq!(read::<TangentTo>("\"after\"").0, Some(TangentTo::After));
        let (none, said) = read::<Groove>("\"rounded\"");
        assert_eq!((none, said[0].code), (None, "value.type"));
    }
}
