//! What the letters of a half-section mean: a table under it, a ruler, and a title over it.

use super::label::{HEIGHT, letter};
use super::sheet::Paper;
use crate::export::drawing::{Anchor, Drawing, Layer, Point, Text};
use crate::quantity::Length;
use crate::section::{Bore, Depth, Section};

/// Height of the title on paper, in mm.
const TITLE: f64 = 5.0;
/// From one line of words to the next, on paper, in mm. Less, and g touches the next line's M.
const LINE: f64 = 6.5;
/// Between two columns, on paper, in mm.
const COLUMN_GAP: f64 = 5.0;
/// Between the part and the ruler, on paper, in mm: the chain of the outside stays apart.
const RULER_BELOW: f64 = 5.0;
/// Height of a ruler's numbers, on paper, in mm.
const RULER_HEIGHT: f64 = 2.5;
/// Length of a ruler's ticks, on paper, in mm.
const TICK: f64 = 1.5;
/// The least distance of two ticks on paper, in mm: a number of three digits fits.
const TICK_GAP: f64 = 9.0;
/// Steps that a ruler may have, in mm of the part.
const STEPS: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
/// Length of the sample of the mate's line, on paper, in mm: one whole pattern (35 widths) and a
/// dash.
const SAMPLE: f64 = 12.0;

/// A line of the table: letter, what, its size, where it lies.
type Row = [String; 4];

/// Draws title, ruler and table; `bottom` and `top` are the y between which the rest lies.
pub fn draw(drawing: &mut Drawing, section: &Section, [bottom, top]: [f64; 2], paper: Paper) {
    title(drawing, section, top, paper);
    let under = ruler(drawing, section.length().as_mm(), bottom, paper);
    table(drawing, section, under - paper.mm(LINE), paper);
}

fn title(drawing: &mut Drawing, section: &Section, top: f64, paper: Paper) {
    let base = top + paper.mm(LINE);
    let about = format!(
        "{}, {:.2} long; upper half cut, lower half from outside",
        section.material,
        section.length()
    );
    words(drawing, Point::new(0.0, base), HEIGHT, &about, paper);
    let over = Point::new(0.0, base + paper.mm(LINE + 0.5));
    words(drawing, over, TITLE, &section.name, paper);
}

/// A ruler from the front face; gives the y of its foot.
fn ruler(drawing: &mut Drawing, length: f64, bottom: f64, paper: Paper) -> f64 {
    let y = bottom - paper.mm(RULER_BELOW);
    let step = STEPS.into_iter().find(|s| *s >= paper.mm(TICK_GAP)).unwrap_or(100.0);
    let at = |x: f64, down: f64| Point::new(x, y - paper.mm(down));
    drawing.line(Layer::Note, at(0.0, 0.0), at(length, 0.0));
    let ticks = (length / step).floor() as u32;
    let foot = TICK + 1.0 + RULER_HEIGHT;
    for tick in 0..=ticks {
        let x = f64::from(tick) * step;
        drawing.line(Layer::Note, at(x, 0.0), at(x, TICK));
        let (height, anchor, words) = (paper.mm(RULER_HEIGHT), Anchor::Middle, format!("{x}"));
        drawing.text(Layer::Note, Text { at: at(x, foot), height, anchor, words });
    }
    let unit = Point::new(length + paper.mm(COLUMN_GAP), at(0.0, foot).y);
    words(drawing, unit, RULER_HEIGHT, "mm from the front face", paper);
    at(0.0, foot).y
}

fn table(drawing: &mut Drawing, section: &Section, first: f64, paper: Paper) {
    let rows = rows(section);
    let mut column = 0.0;
    for n in 0..4 {
        let mut widest: f64 = if n == 0 { paper.mm(SAMPLE) } else { 0.0 };
        for (line, row) in (0..).zip(&rows) {
            let at = Point::new(column, first - paper.mm(LINE) * f64::from(line));
            widest = widest.max(words(drawing, at, HEIGHT, &row[n], paper));
        }
        column += widest + paper.mm(COLUMN_GAP);
    }
    let y = first - paper.mm(LINE) * rows.len() as f64 + paper.mm(LINE + HEIGHT / 2.0);
    drawing.line(Layer::Mate, Point::new(0.0, y), Point::new(paper.mm(SAMPLE), y));
}

/// The bores by letter, then the outside, then the nib unit.
fn rows(section: &Section) -> Vec<Row> {
    let mut rows: Vec<Row> = section.bores.iter().filter_map(bore).collect();
    let thread = &section.unit_thread;
    let name = letter(thread.item).map(String::from).unwrap_or_default();
    let place = span(thread.from, thread.to);
    rows.push([name, "unit thread".into(), thread.designation.to_string(), place]);
    rows.sort_by(|a, b| a[0].cmp(&b[0]));
    let (grip, tenon) = (&section.grip, &section.tenon);
    let mut outside =
        |what: &str, size, place| rows.push([String::new(), what.to_owned(), size, place]);
    let shoulder = grip.length();
    let ends = format!("{} front, {} shoulder", diameter(grip.front), diameter(grip.back()));
    outside("grip", ends, span(Length::ZERO, shoulder));
    if let Some(relief) = tenon.relief {
        outside("relief", diameter(relief.diameter), span(shoulder, shoulder + relief.width));
    }
    let thread = &tenon.thread;
    outside("tenon thread", thread.designation.to_string(), span(thread.from, thread.to));
    if let Some(pilot) = tenon.pilot {
        let back = section.length();
        outside("pilot", diameter(pilot.diameter), span(back - pilot.length, back));
    }
    let unit = &section.unit;
    outside("nib unit", unit.name.clone(), unit.thread.designation.to_string());
    rows
}

fn bore(bore: &Bore) -> Option<Row> {
    let what = match bore.item {
        crate::section::Item::Recess => "collar recess",
        crate::section::Item::ClearanceBore => "clearance bore",
        crate::section::Item::TapDrill => "tap-drill bore",
        crate::section::Item::ThroughBore => "through bore",
        _ => return None,
    };
    let size = match &bore.tool {
        Some(tool) => format!("{} ({tool})", diameter(bore.diameter)),
        None => diameter(bore.diameter),
    };
    let place = match bore.depth {
        Depth::To(z) => format!("to {:.2}", z.as_mm()),
        Depth::Through => "through".to_owned(),
    };
    Some([letter(bore.item).map(String::from)?, what.to_owned(), size, place])
}

/// Hundredths are what people measure with a caliper or micrometer.
fn diameter(d: Length) -> String {
    format!("Ø{:.2}", d.as_mm())
}

fn span(from: Length, to: Length) -> String {
    format!("{:.2} to {:.2}", from.as_mm(), to.as_mm())
}

/// Draws words from a point on; gives their width.
fn words(drawing: &mut Drawing, at: Point, height: f64, words: &str, paper: Paper) -> f64 {
    let words = words.to_owned();
    let text = Text { at, height: paper.mm(height), anchor: Anchor::Start, words };
    let width = text.width();
    drawing.text(Layer::Note, text);
    width
}
