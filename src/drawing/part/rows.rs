//! Lengths in rows above or below the part, the shorter ones nearer to it.
//!
//! ```text
//!   |<------------ 22 ------------>|      row 2
//!   |<---- 9 ---->|                |      row 1
//!   |             |                |      extension lines, from the part outwards
//! ```
//! A row is taken where neither the line and its words meet another size of the row, nor any
//! extension line the words.

use super::label::Label;
use super::pen::{BEYOND, GAP, LIFT, Pen, Spot};
use crate::drawing::{Anchor, Drawing, Measure, Shape};

/// Distance of rows in text heights. Less, and words touch the row above; more wastes paper.
const PITCH: f64 = 2.0;
/// From the part, or what is beside it, to the first row, in text heights.
const FIRST: f64 = 2.2;
/// White between words and any line, in text heights.
const WHITE: f64 = 0.45;

/// On which side of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Rows grow upwards.
    Above,
    /// Rows grow downwards.
    Below,
}

impl Edge {
    /// 1 upwards, -1 downwards.
    pub fn sign(self) -> f64 {
        match self {
            Self::Above => 1.0,
            Self::Below => -1.0,
        }
    }
}

/// Where a length's words stand.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seat {
    row: usize,
    /// Of the words, from left to right.
    words: [f64; 2],
    /// Of all that stands in the row.
    all: [f64; 2],
    /// Arrows stand outside and point inwards.
    outside: bool,
}

/// A length with its ends on paper, from left to right.
#[derive(Clone, Debug)]
struct Span<'a> {
    label: &'a Label,
    ends: [f64; 2],
}

/// The rows of one side.
pub struct Rows<'a> {
    pen: Pen,
    edge: Edge,
    spans: Vec<Span<'a>>,
    seats: Vec<Option<Seat>>,
    /// x of lines that pass all rows.
    through: Vec<f64>,
}

impl<'a> Rows<'a> {
    /// Gives every length its place; lines at `through` go past all rows.
    pub fn new(
        pen: Pen,
        edge: Edge,
        labels: impl Iterator<Item = &'a Label>,
        through: Vec<f64>,
    ) -> Self {
        let mut spans: Vec<Span> = labels.filter_map(|label| Span::of(pen, label)).collect();
        let order = |s: &Span| (s.ends[1] - s.ends[0], s.ends[0]);
        spans.sort_by(|a, b| {
            let (a, b) = (order(a), order(b));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        });
        let seats = vec![None; spans.len()];
        let mut rows = Self { pen, edge, spans, seats, through };
        // What finds no place while lines of longer ones may go by waits until they have theirs.
        for patient in [true, false] {
            for n in 0..rows.spans.len() {
                if rows.seats[n].is_none() {
                    rows.seats[n] = rows.seat(n, patient);
                }
            }
        }
        rows
    }

    /// How far they reach from the base.
    pub fn height(&self) -> f64 {
        let rows = self.seats.iter().flatten().map(|seat| seat.row + 1).max().unwrap_or(0);
        if rows == 0 { 0.0 } else { self.level(rows - 1) + (1.0 + LIFT + WHITE) * self.pen.height }
    }

    /// x of every extension line.
    pub fn lines(&self) -> Vec<f64> {
        let mut all: Vec<f64> = self.spans.iter().flat_map(|span| span.ends).collect();
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    }

    /// The least and greatest x of all words and lines.
    pub fn reach(&self) -> [f64; 2] {
        let seats = || self.seats.iter().flatten();
        let low = seats().map(|seat| seat.all[0]).fold(0.0, f64::min);
        [low, seats().map(|seat| seat.all[1]).fold(0.0, f64::max)]
    }

    /// Distance of a row's line from the base.
    fn level(&self, row: usize) -> f64 {
        (FIRST + row as f64 * PITCH) * self.pen.height
    }

    /// The first place where a length fits: on its line, then beside it, row by row. While lines
    /// without a place are patient, there may be none.
    fn seat(&self, n: usize, patient: bool) -> Option<Seat> {
        let [low, high] = self.spans[n].ends;
        let (pen, width) = (self.pen, self.pen.width(&self.spans[n].label.shown));
        let white = WHITE * pen.height;
        let stub = pen.arrow_length() * 2.0;
        // Words stand between the arrows, or the arrows outside, or the words beside.
        let within = |free: f64, all: [f64; 2], outside: bool| {
            let room = high - low - width - 2.0 * free;
            let shares =
                [0.5, 0.3, 0.7, 0.15, 0.85, 0.0, 1.0].into_iter().filter(move |_| room >= 0.0);
            shares.map(move |share| {
                let left = low + free + room * share;
                ([left, left + width], all, outside)
            })
        };
        let between = within(pen.arrow_length() * 1.2, [low, high], false);
        let inside = between.chain(within(white, [low - stub, high + stub], true));
        let before = low - stub - width;
        let behind = high + stub;
        let beside = [
            ([before, before + width], [before - white, high + stub], true),
            ([behind, behind + width], [low - stub, behind + width + white], true),
        ];
        let ways: Vec<_> = inside.chain(beside).collect();
        // Beyond the last row no line of another goes by.
        let last = if patient { self.spans.len() } else { 2 * self.spans.len() };
        let rows = (0..=last).flat_map(|row| ways.iter().map(move |way| (row, *way)));
        let mut seats = rows.map(|(row, (words, all, outside))| Seat { row, words, all, outside });
        seats.find(|seat| self.is_free(n, *seat))
    }

    fn is_free(&self, n: usize, seat: Seat) -> bool {
        let white = WHITE * self.pen.height;
        let meets = |a: [f64; 2], b: [f64; 2]| a[0] < b[1] && b[0] < a[1];
        let crosses =
            |x: f64, words: [f64; 2]| x > words[0] - white * 0.9 && x < words[1] + white * 0.9;
        let own = self.spans[n].ends;
        // All lines that will pass this row or beyond: those of longer sizes too, wherever they
        // come to stand.
        let clear_of_lines = self.spans.iter().zip(&self.seats).all(|(span, other)| {
            let passes = other.is_none_or(|other| other.row >= seat.row);
            !passes || span.ends.iter().all(|x| !crosses(*x, seat.words))
        });
        let clear_of_words = self.seats.iter().flatten().all(|other| {
            let apart = other.row != seat.row || !meets(other.all, seat.all);
            let under = other.row < seat.row && own.iter().any(|x| crosses(*x, other.words));
            apart && !under
        });
        let clear_of_datums = self.through.iter().all(|x| !crosses(*x, seat.words));
        clear_of_lines && clear_of_words && clear_of_datums
    }

    /// Draws them; the first row lies beyond `base`, the side's greatest distance from the axis.
    pub fn draw(&self, drawing: &mut Drawing, base: f64) {
        let (pen, sign) = (self.pen, self.edge.sign());
        for (span, seat) in self.spans.iter().zip(&self.seats) {
            let Some(seat) = seat else { continue };
            let y = sign * (base + self.level(seat.row));
            let [low, high] = span.ends;
            let mut picture = self.extensions(span, y);
            let ways = if seat.outside { [1.0, -1.0] } else { [-1.0, 1.0] };
            let line = if seat.outside {
                let stub = pen.arrow_length() * 2.0;
                [seat.words[0].min(low - stub), seat.words[1].max(high + stub)]
            } else {
                [low, high]
            };
            picture.push(pen.line([line[0], y], [line[1], y]));
            picture.push(pen.arrow([low, y], [ways[0], 0.0]));
            picture.push(pen.arrow([high, y], [ways[1], 0.0]));
            let middle = f64::midpoint(seat.words[0], seat.words[1]);
            let text = pen.text([middle, y + LIFT * pen.height], Anchor::Middle, &span.label.shown);
            pen.dimension(drawing, span.label, [low, y], text, picture);
        }
    }

    /// From the part to a little beyond a row.
    fn extensions(&self, span: &Span, y: f64) -> Vec<Shape> {
        let (pen, sign) = (self.pen, self.edge.sign());
        let Measure::Length { from, to } = span.label.measure else { return Vec::new() };
        let from_part = |p: crate::drawing::Point| -> [Spot; 2] {
            let [x, r] = pen.spot(p);
            [[x, sign * (r.abs() + GAP)], [x, y + sign * BEYOND * pen.height]]
        };
        [from, to].map(from_part).map(|[a, b]| pen.line(a, b)).to_vec()
    }
}

impl<'a> Span<'a> {
    fn of(pen: Pen, label: &'a Label) -> Option<Self> {
        let Measure::Length { from, to } = label.measure else { return None };
        let [a, b] = [from, to].map(|p| pen.spot(p)[0]);
        Some(Self { label, ends: [a.min(b), a.max(b)] })
    }
}
