//! Readings that contradict the others.
//!
//! A robust line first ([`Line::robust`]): it is what most readings agree on, whatever the rest
//! say. What lies off it by more than the readings' own noise explains contradicts all of them,
//! and is named alone; of readings of one diameter that lie apart, none of them off the line, both
//! are named, for nothing tells which of them is wrong.

use std::f64::consts::SQRT_2;

use super::line::{Line, median};
use crate::quantity::Length;
use crate::section::{Measurand, PlateReading, PlateValue};

/// A reading this far off the line is refused, however well the others agree. It is five times what
/// a caliper can be trusted with (0.02; common practice, no source). Noise of a standard deviation
/// of 0.02 is off by more once in 1.7 million readings, once in 20 000 plates; noise within 0.02 never.
/// Less, and sound plates would be measured again; more, and a slip of a tenth would pass.
pub(super) const LEAST: f64 = 0.10;

/// Standard deviations of the readings about their lines, where those are more than a caliper's: a
/// printer of wide scatter is no contradiction. Fewer refuse more sound plates (5 about six in a
/// thousand, of a printer that scatters by 0.05), more let a wrong reading hide in the scatter.
const DEVIATIONS: f64 = 5.0;

/// A reading this far off is refused, whatever the scatter: a printer that is off by it at random
/// can't be put right by constants. More, and readings that are all wrong would excuse each other.
const MOST: f64 = 0.30;

/// A standard deviation from the median of deviations, of normal noise (1 / 0.6745).
const NORMAL: f64 = 1.4826;

/// How near a reading must be to what another one is expected to read to look like it: a caliper's
/// noise, on top of which a line is known. More, and every wrong reading looks like some other.
const LOOKS_LIKE: f64 = 0.03;

/// What a reading is contradicted by.
#[derive(Clone, Debug, PartialEq)]
pub enum Against {
    /// The line through the others.
    Line {
        /// What they make it.
        expected: Length,
        /// Another reading of the same size that is not off the line, if there is one.
        twin: Option<PlateValue>,
        /// The name of another size, of which this would be a good reading.
        looks_like: Option<String>,
    },
    /// Another reading of the same size; both are named.
    Twin(PlateValue),
}

/// A reading, and what it contradicts.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// The reading.
    pub reading: PlateValue,
    /// What it contradicts.
    pub against: Against,
}

/// The readings of one kind, and the robust line through them.
pub(super) struct Read {
    pub readings: Vec<PlateValue>,
    /// None where there are too few readings for one.
    pub line: Option<Line>,
}

impl Read {
    /// How far a reading is off the line; nothing where there is none.
    fn off(&self, read: &PlateValue) -> f64 {
        let in_file = read.of.in_file.as_mm();
        self.line.map_or(0.0, |line| read.value.as_mm() - line.at(in_file))
    }
}

/// How far a reading may be off its line before it contradicts it: one caliper and one printer made
/// the readings of all kinds, and so they are asked together how they scatter.
pub(super) fn threshold(kinds: &[Read]) -> f64 {
    let known = kinds.iter().filter(|kind| kind.line.is_some());
    let off = known.flat_map(|kind| kind.readings.iter().map(|read| kind.off(read).abs()));
    let middle = median(off.collect()).unwrap_or(0.0);
    (DEVIATIONS * NORMAL * middle).clamp(LEAST, MOST)
}

/// The contradictions among the readings of one kind, in their order; one may be off by `most`.
///
/// Without a line only those between readings of one size are found.
pub(super) fn contradictions(kind: &Read, most: f64, all: &[PlateReading]) -> Vec<Contradiction> {
    let wrong = |read: &PlateValue| kind.off(read).abs() > most;
    let mut found = Vec::new();
    for read in &kind.readings {
        let apart = |twin: &PlateValue| (twin.value - read.value).abs().as_mm();
        let twins = kind.readings.iter().filter(|t| t.of == read.of && t.nth != read.nth);
        let twin = twins.filter(|t| !wrong(t)).max_by(|a, b| apart(a).total_cmp(&apart(b)));
        if let Some(line) = kind.line.filter(|_| wrong(read)) {
            let expected = Length::mm(line.at(read.of.in_file.as_mm()));
            let looks_like = looks_like(read, line, all);
            let against = Against::Line { expected, twin: twin.copied(), looks_like };
            found.push(Contradiction { reading: *read, against });
            continue;
        }
        // The difference of two readings is noisier than one by the square root of two.
        if let Some(twin) = twin.filter(|twin| apart(twin) > most * SQRT_2) {
            found.push(Contradiction { reading: *read, against: Against::Twin(*twin) });
        }
    }
    found
}

/// The other size of the same kind that this would be a good reading of.
fn looks_like(read: &PlateValue, line: Line, all: &[PlateReading]) -> Option<String> {
    if read.of.kind == Measurand::Height {
        return None;
    }
    let others = all.iter().filter(|of| of.kind == read.of.kind && **of != read.of);
    let off = |in_file: Length| (read.value.as_mm() - line.at(in_file.as_mm())).abs();
    let nearest = others.min_by(|a, b| off(a.in_file).total_cmp(&off(b.in_file)))?;
    (off(nearest.in_file) <= LOOKS_LIKE).then(|| nearest.name())
}
