//! Values as people write them.

mod corner;
mod hole;
mod length;
mod list;
mod number;
mod shift;

pub(super) use corner::{Groove, Lead, Legs, TangentTo, word};
pub(super) use hole::{ConeAngle, CutsOver, Hole, PILOT_POINT, Seat};
pub use length::GREATEST;
pub(super) use length::{CALIPER, Distance, Measured, Size};
pub(super) use list::{Ascending, List};
pub(super) use number::{Count, CuttingSpeed, Positive, Speed};
pub(super) use shift::{Build, Share, Shift};

use super::reader::{Needed, Placed, Read, Reader, wrong_type};
use super::tree::{Node, Value};
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::standard::{DesignationError, Hand, ThreadDesignation};

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
                let error: DesignationError = error;
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
