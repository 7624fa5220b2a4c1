//! A size ready to be drawn.

use super::scheme::{Role, Size, Wall};
use super::words::{Allowances, Units, words};
use crate::drawing::{Measure, Point};

/// A size with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The wall it belongs to.
    pub wall: Wall,
    /// What it says.
    pub role: Role,
    /// What is measured.
    pub measure: Measure,
    /// Where an arrow points at it.
    pub tip: Point,
    /// What is written; `<>` stands for the value.
    pub pattern: String,
    /// Decimals of the value.
    pub decimals: usize,
    /// What a millimetre is written as.
    pub factor: f64,
    /// What is read.
    pub shown: String,
}

impl Label {
    /// Writes a size.
    pub fn new(size: &Size, allowed: Allowances, units: Units) -> Self {
        let written = words(size, allowed, units);
        let factor = if size.role == Role::Cone { 1.0 } else { units.factor() };
        let value = format!("{:.*}", written.decimals, size.measure.value() * factor);
        Self {
            wall: size.wall,
            role: size.role.clone(),
            measure: size.measure,
            tip: size.tip,
            shown: written.pattern.replace("<>", &value),
            pattern: written.pattern,
            decimals: written.decimals,
            factor,
        }
    }
}
