//! What stands over and under the table of steps.

use super::cell::Cell;
use super::flow::Flow;
use crate::drawing::{Point, Sheet};
use crate::export::lathe_sheet::content::{Content, Line, Table};

/// White between two pieces of the page, in mm.
const BETWEEN: f64 = 2.5;

/// White on either side of a cell's words, in mm.
const PAD: f64 = 1.0;

/// White that a row of a table has over its words' own, in mm. Less, and letters stand on lines.
const ROW_GAP: f64 = 0.8;

/// Places of the outside's table that stand under one another; more stand beside them.
const PLACES: usize = 8;

/// Cautions, then name, what it is made of and the table of the letters beside the picture.
pub fn head(flow: &mut Flow, content: &Content) {
    let kind = flow.kind;
    for line in &content.first_cautions {
        let warning = Cell::of(flow, &[Line::Warning(line.clone())], Flow::width());
        stacked(flow, &warning);
    }
    let [width, height] = size(&content.figure);
    let beside = Flow::width() - width - BETWEEN;
    let mut words = vec![Cell::words(flow, &content.name, kind.name, beside)];
    words.extend(content.about.iter().map(|line| Cell::words(flow, line, kind.text, beside)));
    let table = laid(flow, &content.letters, &shares(beside, &[0.07, 0.31, 0.38, 0.24]));
    let high: f64 = words.iter().map(Cell::height).sum();
    let needs = height.max(high + table.height + BETWEEN) + BETWEEN;
    let (top, _) = flow.take(needs);
    let top = top - BETWEEN / 2.0;
    let [left, _] = Flow::edges();
    picture(flow, &content.figure, [left, top]);
    let (left, mut y) = (left + width + BETWEEN, top);
    for cell in &words {
        cell.draw(flow, [left, y]);
        y -= cell.height();
    }
    table.draw(flow, [left, y - BETWEEN]);
}

/// The outside with its template, what to do when it binds, and all other cautions.
pub fn tables(flow: &mut Flow, content: &Content) {
    let kind = flow.kind;
    outside(flow, content);
    let widths = shares(Flow::width(), &[0.2, 0.42, 0.38]);
    let binding = laid(flow, &content.binding, &widths);
    let (top, _) = flow.take(binding.height + BETWEEN);
    binding.draw(flow, [Flow::edges()[0], top - BETWEEN]);
    flow.take(BETWEEN / 2.0);
    for line in &content.cautions {
        stacked(flow, &Cell::words(flow, line, kind.text, Flow::width()));
    }
}

/// The outside's table with its slopes, and the template beside it, or under it where it is long.
fn outside(flow: &mut Flow, content: &Content) {
    let [width, height] = size(&content.template);
    let beside = width <= Flow::width() * TEMPLATE_BESIDE;
    let room = if beside { Flow::width() - width.max(CAPTION) - BETWEEN } else { Flow::width() };
    let table = Diameters::of(flow, content, room);
    let caption = if width <= Flow::width() {
        "Template 1:1; the bar is 50 mm: measure it before you trust the print."
    } else {
        "No template: the section is longer than the page."
    };
    let room = if beside { width.max(CAPTION) } else { Flow::width() };
    let caption = Cell::words(flow, caption, flow.kind.text, room);
    let drawn = if width <= Flow::width() { height } else { 0.0 };
    let template = caption.height() + drawn;
    let high = if beside { table.height.max(template) } else { table.height + BETWEEN + template };
    let (top, _) = flow.take(high + 2.0 * BETWEEN);
    let [left, right] = Flow::edges();
    let top = top - BETWEEN;
    table.draw(flow, [left, top]);
    let corner = if beside { [right - room, top] } else { [left, top - table.height - BETWEEN] };
    caption.draw(flow, corner);
    if drawn > 0.0 {
        picture(flow, &content.template, [corner[0], corner[1] - caption.height()]);
    }
}

/// A template up to this share of the page's width stands beside the table. More, and the table has
/// no room.
const TEMPLATE_BESIDE: f64 = 0.55;

/// Width of the template's caption at least, in mm.
const CAPTION: f64 = 60.0;

/// Width of a column of the outside's table, in mm.
const COLUMN: f64 = 36.0;

/// The outside's diameters in columns, and its slopes under them.
struct Diameters {
    title: Cell,
    parts: Vec<Laid>,
    tallest: f64,
    column: f64,
    slopes: Vec<Cell>,
    height: f64,
}

impl Diameters {
    fn of(flow: &Flow, content: &Content, room: f64) -> Self {
        let kind = flow.kind;
        let table = &content.outside;
        let columns = table.rows.len().div_ceil(PLACES).max(1);
        let per_column = table.rows.len().div_ceil(columns).max(1);
        let column = (room / columns as f64).min(COLUMN);
        let title = Cell::words(flow, &table.title, kind.set, room);
        let part = |rows: &[Vec<String>]| {
            let rows = rows.to_vec();
            let part = Table { title: String::new(), heads: table.heads.clone(), rows };
            laid(flow, &part, &shares(column - BETWEEN, &[0.55, 0.45]))
        };
        let parts: Vec<Laid> = table.rows.chunks(per_column).map(part).collect();
        let words = |line: &String| Cell::words(flow, line, kind.text, room);
        let slopes: Vec<Cell> = content.slopes.iter().map(words).collect();
        let tallest = parts.iter().map(|part| part.height).fold(0.0, f64::max);
        let sloped: f64 = slopes.iter().map(Cell::height).sum();
        let height = title.height() + tallest + SLOPES_BELOW + sloped;
        Self { title, parts, tallest, column, slopes, height }
    }

    fn draw(&self, flow: &mut Flow, [left, top]: [f64; 2]) {
        self.title.draw(flow, [left, top]);
        let mut y = top - self.title.height();
        for (n, part) in self.parts.iter().enumerate() {
            part.draw(flow, [left + self.column * n as f64, y]);
        }
        y -= self.tallest + SLOPES_BELOW;
        for slope in &self.slopes {
            slope.draw(flow, [left, y]);
            y -= slope.height();
        }
    }
}

/// From the table of diameters to the slopes under it, in mm.
const SLOPES_BELOW: f64 = 1.0;

fn stacked(flow: &mut Flow, cell: &Cell) {
    let (top, _) = flow.take(cell.height());
    cell.draw(flow, [Flow::edges()[0], top]);
}

/// Width and height of a picture on paper, in mm.
fn size(sheet: &Sheet) -> [f64; 2] {
    let [low, high] = sheet.area;
    [high.x - low.x, high.y - low.y].map(|length| length * sheet.scale)
}

/// Draws a picture from its left top corner.
fn picture(flow: &mut Flow, sheet: &Sheet, [left, top]: [f64; 2]) {
    let [low, high] = sheet.area;
    // What lies at the picture's left top corner comes to the page's.
    let shrink = 1.0 / sheet.scale;
    let origin = Point::new(low.x - left * shrink, high.y - top * shrink);
    let placed = sheet.drawing.clone().placed(shrink, origin);
    flow.page().entities.extend(placed.entities);
}

/// Widths of columns by their shares.
fn shares(width: f64, shares: &[f64]) -> Vec<f64> {
    shares.iter().map(|share| share * width).collect()
}

/// A table broken to its columns.
struct Laid {
    title: Cell,
    rows: Vec<Vec<Cell>>,
    widths: Vec<f64>,
    height: f64,
}

fn laid(flow: &Flow, table: &Table, widths: &[f64]) -> Laid {
    let kind = flow.kind;
    let title = Cell::words(flow, &table.title, kind.set, widths.iter().sum());
    let row = |row: &Vec<String>| -> Vec<Cell> {
        let cells = row.iter().zip(widths);
        cells.map(|(words, width)| Cell::words(flow, words, kind.text, width - 2.0 * PAD)).collect()
    };
    let rows: Vec<Vec<Cell>> = [&table.heads].into_iter().chain(&table.rows).map(row).collect();
    let high = |row: &Vec<Cell>| tallest(row) + ROW_GAP;
    let height = title.height() + rows.iter().map(high).sum::<f64>();
    Laid { title, rows, widths: widths.to_vec(), height }
}

fn tallest(row: &[Cell]) -> f64 {
    row.iter().map(Cell::height).fold(0.0, f64::max)
}

impl Laid {
    fn draw(&self, flow: &mut Flow, [left, top]: [f64; 2]) {
        self.title.draw(flow, [left, top]);
        let mut y = top - self.title.height();
        let right = left + self.widths.iter().sum::<f64>();
        for row in &self.rows {
            flow.rule([left, y], [right, y]);
            let mut x = left;
            for (cell, width) in row.iter().zip(&self.widths) {
                cell.draw(flow, [x + PAD, y - ROW_GAP / 2.0]);
                x += width;
            }
            y -= tallest(row) + ROW_GAP;
        }
        flow.rule([left, y], [right, y]);
    }
}
