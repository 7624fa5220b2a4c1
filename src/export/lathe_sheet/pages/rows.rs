//! The table of steps.

use super::cell::Cell;
use super::flow::{Flow, Type};
use crate::drawing::{Layer, Point, Polyline};
use crate::export::lathe_sheet::content::{Block, Line, Row};

/// Widths of the columns in mm: tool, face, set, check, done. They fill the page.
const COLUMNS: [f64; 5] = [43.0, 25.0, 48.0, 46.0, 30.0];

/// What stands over them.
const HEADS: [&str; 5] = ["tool", "face", "set", "check", "done"];

/// White on either side of a column's words, in mm.
const PAD: f64 = 1.0;

/// White over and under a row's words, in mm.
const GAP: f64 = 0.7;

/// A box to write in: width and height in mm. Smaller, and a pencil has no room.
const BOX: [f64; 2] = [12.0, 4.6];

/// From one box to the next, in mm.
const BOX_PITCH: f64 = 5.2;

/// The square to tick, in mm.
const TICK: f64 = 4.0;

/// Draws all rows, with the columns' heads on every page.
pub fn draw(flow: &mut Flow, blocks: &[Block]) {
    heads(flow);
    for block in blocks {
        match block {
            Block::Holding(words) => holding(flow, words),
            Block::Step(row) => step(flow, row),
        }
    }
}

/// Left edges of the columns.
fn lefts() -> [f64; 5] {
    let [mut x, _] = Flow::edges();
    COLUMNS.map(|width| {
        let left = x;
        x += width;
        left
    })
}

fn heads(flow: &mut Flow) {
    let height = Type::pitch(flow.kind.text) + 2.0 * GAP;
    let (top, _) = flow.take(height);
    let kind = flow.kind;
    for (left, words) in lefts().into_iter().zip(HEADS) {
        let cell = Cell::words(flow, words, kind.text, COLUMNS[0]);
        cell.draw(flow, [left + PAD, top - GAP]);
    }
    let [left, right] = Flow::edges();
    flow.heavy_rule([left, top - height], [right, top - height]);
}

/// Takes a height; where the page turns, its heads stand first.
fn take(flow: &mut Flow, height: f64) -> f64 {
    if height > flow.room() {
        flow.turn();
        heads(flow);
    }
    flow.take(height).0
}

fn holding(flow: &mut Flow, words: &str) {
    let kind = flow.kind;
    let cell = Cell::words(flow, words, kind.text, Flow::width() - 2.0 * PAD);
    let height = cell.height() + 2.0 * GAP;
    // Not alone at the foot of a page.
    let next = 4.0 * Type::pitch(kind.set);
    if height + next > flow.room() {
        flow.turn();
        heads(flow);
    }
    let (top, _) = flow.take(height);
    cell.draw(flow, [Flow::edges()[0] + PAD, top - GAP]);
    let [left, right] = Flow::edges();
    flow.heavy_rule([left, top - height], [right, top - height]);
}

fn step(flow: &mut Flow, row: &Row) {
    let kind = flow.kind;
    let cell = |lines: &[Line], n: usize| Cell::of(flow, lines, COLUMNS[n] - 2.0 * PAD);
    let title = format!("{}  {}", row.number, row.title);
    let title = Cell::words(flow, &title, kind.set, COLUMNS[0] + COLUMNS[1] - 2.0 * PAD);
    let cells = [&row.tool, &row.face, &row.set, &row.check];
    let cells: Vec<Cell> = cells.iter().enumerate().map(|(n, lines)| cell(lines, n)).collect();
    let notes = Cell::of(flow, &row.notes, Flow::width() - COLUMNS[4] - 2.0 * PAD);
    let left_half = title.height() + cells[0].height().max(cells[1].height());
    let columns = left_half.max(cells[2].height()).max(cells[3].height());
    let labels: Vec<Cell> =
        row.boxes.iter().map(|label| Cell::words(flow, label, kind.text, label_width())).collect();
    let boxes: f64 = labels.iter().map(|label| label.height().max(BOX_PITCH)).sum();
    let words = columns + notes.height();
    let height = words.max(boxes + GAP) + 2.0 * GAP;
    let top = take(flow, height) - GAP;
    let lefts = lefts();
    title.draw(flow, [lefts[0] + PAD, top]);
    for (n, cell) in cells.iter().enumerate() {
        let down = if n < 2 { title.height() } else { 0.0 };
        cell.draw(flow, [lefts[n] + PAD, top - down]);
    }
    notes.draw(flow, [lefts[0] + PAD, top - columns]);
    done(flow, &labels, [lefts[4] + PAD, top]);
    let bottom = top + GAP - height;
    for left in [lefts[2], lefts[3]] {
        flow.rule([left, top + GAP], [left, top - columns]);
    }
    flow.rule([lefts[4], top + GAP], [lefts[4], bottom]);
    let [left, right] = Flow::edges();
    flow.rule([left, bottom], [right, bottom]);
}

/// Width of a box's label.
fn label_width() -> f64 {
    COLUMNS[4] - 2.0 * PAD - BOX[0] - 0.5
}

/// The boxes, each with its label before it; a tick where there is nothing to measure.
fn done(flow: &mut Flow, labels: &[Cell], [left, top]: [f64; 2]) {
    let right = left + COLUMNS[4] - 2.0 * PAD;
    if labels.is_empty() {
        square(flow, [right - TICK, top - TICK], [TICK, TICK]);
    }
    let mut y = top;
    for label in labels {
        let height = label.height().max(BOX_PITCH);
        label.draw(flow, [left, y - (height - label.height()) / 2.0]);
        square(flow, [right - BOX[0], y - f64::midpoint(height, BOX[1])], BOX);
        y -= height;
    }
}

fn square(flow: &mut Flow, [x, y]: [f64; 2], [width, height]: [f64; 2]) {
    let corners = [[x, y], [x + width, y], [x + width, y + height], [x, y + height], [x, y]];
    let points = corners.map(|[x, y]| Point::new(x, y)).to_vec();
    flow.page().polyline(Layer::Note, Polyline::straight(points));
}
