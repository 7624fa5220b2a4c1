//! What the threads of a part may measure, as a table beside its views.

use super::words::Units;
use crate::quantity::{self, Length};
use crate::section::{Part, Side, Thread};
use crate::standard::designation::Hand;

/// The table's heading.
pub const HEADING: [&str; 7] =
    ["Thread", "Major Ø", "Pitch Ø", "Minor Ø", "Lead", "Hand, starts", "Run-outs"];

/// Widths of its columns in letter heights of 2.5 mm, in mm.
pub const COLUMNS: [f64; 7] = [42.0, 38.0, 36.0, 36.0, 16.0, 28.0, 26.0];

/// A row a thread.
pub fn rows(part: &Part, units: Units) -> Vec<[String; 7]> {
    part.threads.iter().map(|thread| row(thread, units)).collect()
}

fn row(thread: &Thread, units: Units) -> [String; 7] {
    let limits = &thread.limits;
    let hand = match thread.designation.hand() {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    let starts = match thread.form.starts {
        1 => "1 start".to_owned(),
        n => format!("{n} starts"),
    };
    // The hole is a size of its own.
    let minor = match thread.side {
        Side::Internal => "as drawn".to_owned(),
        Side::External => between(limits.minor, units),
    };
    [
        thread.designation.to_string(),
        between(limits.major, units),
        between(limits.pitch, units),
        minor,
        number(thread.form.lead(), units),
        format!("{hand}, {starts}"),
        run_outs(thread, units),
    ]
}

/// The run-outs that are ordered, each with its end; a dash leaves them to the room there is.
fn run_outs(thread: &Thread, units: Units) -> String {
    let ends = thread.run_out_lengths().into_iter().zip(["front", "back"]);
    let ordered = ends.filter(|(length, _)| *length > Length::ZERO);
    let named: Vec<String> =
        ordered.map(|(length, end)| format!("{} {end}", number(length, units))).collect();
    if named.is_empty() { "–".to_owned() } else { named.join(", ") }
}

fn between(limits: quantity::Limits, units: Units) -> String {
    let [min, max] = [limits.min(), limits.max()].map(|size| number(size, units));
    if min == max { min } else { format!("{min} to {max}") }
}

/// A size in full: thread limits are given to a micrometre, or a ten-thousandth of an inch.
fn number(size: Length, units: Units) -> String {
    let places = match units {
        Units::Millimetres => 3,
        Units::Inches => 4,
    };
    format!("{:.places$}", size.as_mm() * units.factor())
}
