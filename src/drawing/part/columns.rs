//! Diameters of the bore, in columns in front of the part and behind it, the wider ones farther
//! away.
//!
//! ```text
//!   _____________________
//!   ^   _________________|_    extension lines run along the open bore
//!   |   ^    ____________| |
//!   |   |    ^           |_|
//!  Ø9  Ø8   Ø7
//!   |   |    |                 half a view: one arrow, the line goes on past the axis
//! ```

use super::label::Label;
use super::pen::{BEYOND, GAP, LIFT, Pen};
use crate::drawing::{Anchor, Drawing, Measure};

/// Distance of columns in text heights. Less, and words touch the column before.
const PITCH: f64 = 2.2;
/// From the face to the first column, in text heights.
const FIRST: f64 = 2.4;
/// How far a line goes past the axis at least, in text heights.
const PAST_AXIS: f64 = 1.5;

/// Before or behind the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Columns stand to the left.
    Front,
    /// Columns stand to the right.
    Back,
}

/// The columns of one end.
pub struct Columns<'a> {
    pen: Pen,
    end: End,
    /// Where they begin.
    start: f64,
    labels: Vec<&'a Label>,
}

impl<'a> Columns<'a> {
    /// Diameters, the first column beyond a place.
    pub fn new(pen: Pen, end: End, start: f64, labels: impl Iterator<Item = &'a Label>) -> Self {
        let mut labels: Vec<&Label> = labels.collect();
        labels.sort_by(|a, b| a.measure.value().total_cmp(&b.measure.value()));
        Self { pen, end, start, labels }
    }

    fn sign(&self) -> f64 {
        match self.end {
            End::Front => -1.0,
            End::Back => 1.0,
        }
    }

    fn x(&self, n: usize) -> f64 {
        // Words stand to the left of a line: behind the part, between it and the part.
        let words = if self.end == End::Back { 1.0 + LIFT } else { 0.0 };
        self.start + self.sign() * (FIRST + words + n as f64 * PITCH) * self.pen.height
    }

    /// Where a column's line ends below.
    fn foot(&self, label: &Label) -> f64 {
        let pen = self.pen;
        let Measure::Diameter { at } = label.measure else { return 0.0 };
        let words = pen.width(&label.shown) + 1.5 * pen.arrow_length() + pen.height;
        (pen.spot(at)[1] - words).min(-PAST_AXIS * pen.height)
    }

    /// Draws them.
    pub fn draw(&self, drawing: &mut Drawing) {
        let pen = self.pen;
        for (n, label) in self.labels.iter().enumerate() {
            let Measure::Diameter { at } = label.measure else { continue };
            let [on, r] = pen.spot(at);
            let (x, sign, foot) = (self.x(n), self.sign(), self.foot(label));
            let picture = vec![
                pen.line([on + sign * GAP, r], [x + sign * BEYOND * pen.height, r]),
                pen.line([x, r], [x, foot]),
                pen.arrow([x, r], [0.0, 1.0]),
            ];
            let at = [x - LIFT * pen.height, foot + 0.5 * pen.height];
            let text = pen.text(at, Anchor::Start, &label.shown).turned();
            pen.dimension(drawing, label, [x, r], text, picture);
        }
    }
}
