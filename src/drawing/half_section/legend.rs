//! What the letters of a half-section mean: a table under it, a ruler, and a title over it.

use super::label::letter;
use super::sheet::Paper;
use crate::drawing::{Anchor, Drawing, Layer, Point, Text, wrap};
use crate::quantity::Length;
use crate::section::{Bore, Depth, Facet, Item, Mouth, Point as End, Section};
use crate::solid::Meridian;

/// Height of the title on paper, in mm (ISO 3098-1: 2.5, 3.5, 5).
const TITLE: f64 = 5.0;
/// Height of all other words. Greater, and the table outweighs the picture.
pub const HEIGHT: f64 = 2.5;
/// From one line of words to the next, in heights. Less, and g touches the next line's M.
pub const LINE: f64 = 1.8;
/// Between two columns, on paper, in mm.
pub const COLUMN_GAP: f64 = 5.0;
/// Between the part and the ruler, on paper, in mm: the chain of the outside stays apart.
const RULER_BELOW: f64 = 5.0;
/// Length of a ruler's ticks, on paper, in mm.
const TICK: f64 = 1.5;
/// The least distance of two ticks on paper, in mm: a number of three digits fits.
const TICK_GAP: f64 = 9.0;
/// Steps that a ruler may have, in mm of the part.
const STEPS: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
/// Between the ruler and the table, on paper, in mm. Less, and they are read as one.
pub const TABLE_BELOW: f64 = 9.0;
/// Length of the sample of the mate's line, on paper, in mm: a pattern and a dash, somewhat
/// shortened.
const SAMPLE: f64 = 12.0;
/// From the line under the title to the title, on paper, in mm. Less, and a g hangs into it.
const TITLE_ABOVE: f64 = 6.5;
/// A title may be this wide on paper, in mm, before it is broken between words. More, and a long
/// name makes the picture of a small part wide and the part small.
const TITLE_WIDTH: f64 = 160.0;

/// A line of the table: letter, what, its size, where it lies.
type Row = [String; 4];

/// What a legend has to know of the picture.
pub struct Place {
    /// The least y of the part.
    pub bottom: f64,
    /// The greatest y of the part and its letters.
    pub top: f64,
    /// The z on which the unit's collar rests.
    pub seat: f64,
}

/// Draws title, ruler and table.
pub fn draw(drawing: &mut Drawing, section: &Section, place: &Place, paper: Paper) {
    title(drawing, section, place.top, paper);
    let under = ruler(drawing, section.length().as_mm(), place.bottom, paper);
    let first = under - paper.mm(TABLE_BELOW);
    table(drawing, &rows(section, place.seat), first, paper);
}

fn title(drawing: &mut Drawing, section: &Section, top: f64, paper: Paper) {
    let about = format!(
        "{}, {:.2} long; upper half cut, lower half from outside",
        section.material,
        section.length()
    );
    headed(drawing, [&section.name, &about], top + paper.mm(2.0 * HEIGHT * LINE), paper);
}

/// Draws a name, and under it a line about it with its feet at `base`.
pub fn headed(drawing: &mut Drawing, [name, about]: [&str; 2], mut base: f64, paper: Paper) {
    words(drawing, Point::new(0.0, base), HEIGHT, about, paper);
    base += paper.mm(TITLE_ABOVE);
    for line in wrap(name, TITLE, TITLE_WIDTH).iter().rev() {
        words(drawing, Point::new(0.0, base), TITLE, line, paper);
        base += paper.mm(TITLE * LINE);
    }
}

/// A ruler from the front face; gives the y of its foot.
pub fn ruler(drawing: &mut Drawing, length: f64, bottom: f64, paper: Paper) -> f64 {
    let y = bottom - paper.mm(RULER_BELOW);
    let step = STEPS.into_iter().find(|s| *s >= paper.mm(TICK_GAP)).unwrap_or(100.0);
    let at = |x: f64, down: f64| Point::new(x, y - paper.mm(down));
    drawing.line(Layer::Note, at(0.0, 0.0), at(length, 0.0));
    let ticks = (length / step).floor() as u32;
    let foot = TICK + 1.0 + HEIGHT;
    for tick in 0..=ticks {
        let x = f64::from(tick) * step;
        drawing.line(Layer::Note, at(x, 0.0), at(x, TICK));
        let (height, anchor, words) = (paper.mm(HEIGHT), Anchor::Middle, format!("{x}"));
        drawing.text(Layer::Note, Text::new(at(x, foot), height, anchor, words));
    }
    let unit = Point::new(length + paper.mm(COLUMN_GAP), at(0.0, foot).y);
    words(drawing, unit, HEIGHT, "mm", paper);
    at(0.0, foot).y
}

fn table(drawing: &mut Drawing, rows: &[Row], first: f64, paper: Paper) {
    let pitch = paper.mm(HEIGHT * LINE);
    let mut column = 0.0;
    for n in 0..4 {
        let mut widest: f64 = if n == 0 { paper.mm(SAMPLE) } else { 0.0 };
        for (line, row) in (0..).zip(rows) {
            let at = Point::new(column, first - pitch * f64::from(line));
            let width = words(drawing, at, HEIGHT, &row[n], paper);
            // The last words of a row may go on under the next column.
            if row[n + 1..].iter().any(|words| !words.is_empty()) {
                widest = widest.max(width);
            }
        }
        column += widest + paper.mm(COLUMN_GAP);
    }
    // The nib unit's row is the last one; the sample runs at half the height of its words.
    let y = first - pitch * (rows.len() as f64 - 1.0) + paper.mm(HEIGHT / 2.0);
    drawing.line(Layer::Mate, Point::new(0.0, y), Point::new(paper.mm(SAMPLE), y));
}

/// The bores by letter, then the outside, then the nib unit.
fn rows(section: &Section, seat: f64) -> Vec<Row> {
    let mut rows: Vec<Row> = section.bores.iter().filter_map(bore).collect();
    let thread = &section.unit_thread;
    let name = letter(thread.item).map(String::from).unwrap_or_default();
    let place = span(thread.from, thread.to);
    rows.push([name, "unit thread".into(), thread.designation.to_string(), place]);
    rows.sort_by(|a, b| a[0].cmp(&b[0]));
    rows.extend(section.bores.iter().filter_map(tool));
    rows.insert(0, ["", "", "mm", "mm from the front face"].map(String::from));
    let (grip, tenon) = (&section.grip, &section.tenon);
    let mut outside =
        |what: &str, size, place| rows.push([String::new(), what.to_owned(), size, place]);
    let shoulder = grip.length();
    outside("grip", across(section), span(Length::ZERO, shoulder));
    if let Some(cap) = &grip.thread {
        let thread = &cap.thread;
        outside("cap thread", thread.designation.to_string(), span(thread.from, thread.to));
    }
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
    let about = format!("{}, {}, seat at {seat:.2}", unit.name, unit.thread.designation);
    outside("nib unit", about, String::new());
    rows
}

fn bore(bore: &Bore) -> Option<Row> {
    let what = match bore.item {
        Item::Recess => "collar recess",
        Item::ClearanceBore => "clearance bore",
        Item::TapDrill => "tap-drill bore",
        Item::ThroughBore => "through bore",
        _ => return None,
    };
    let size = match &bore.tool {
        Some(tool) => format!("{} ({tool})", diameter(bore.diameter)),
        None => diameter(bore.diameter),
    };
    Some([letter(bore.item).map(String::from)?, what.to_owned(), size, reach(bore)])
}

/// A tool beyond the unit's stack: it has no letter.
fn tool(bore: &Bore) -> Option<Row> {
    let what = match bore.item {
        Item::BoreStep(Mouth::Front, n) => format!("bore step {n} from the front"),
        Item::BoreStep(Mouth::Back, n) => format!("bore step {n} from the back"),
        Item::Countersink(Mouth::Front) => "countersink, front".to_owned(),
        Item::Countersink(Mouth::Back) => "countersink, back".to_owned(),
        Item::BoreRelief(n) => format!("relief {n} in the bore"),
        _ => return None,
    };
    let size = match &bore.tool {
        Some(tool) => format!("{} ({tool})", diameter(bore.diameter)),
        None => diameter(bore.diameter),
    };
    Some([String::new(), what, size, reach(bore)])
}

/// How far a tool goes, and how it ends.
fn reach(bore: &Bore) -> String {
    let from_back = if bore.mouth == Mouth::Back { " from the back face" } else { "" };
    let depth = match bore.depth {
        Depth::To(z) if z == Length::ZERO => {
            return bore.point.cone().map_or(String::new(), |angle| format!("{angle} cone"));
        }
        Depth::To(z) => format!("to {:.2}{from_back}", z.as_mm()),
        Depth::Between(from, to) => span(from, to),
        Depth::Through => return "through".to_owned(),
    };
    match (bore.depth, bore.point) {
        (_, End::Flat) => depth,
        (Depth::Between(..), End::Cone(angle)) => format!("{depth}, walls of a {angle} cone"),
        (_, End::Cone(angle)) => format!("{depth}, then its {angle} point"),
        (_, End::Centre(angle, pilot)) => {
            format!("{depth}, then its {angle} cone and {} pilot", diameter(pilot.diameter))
        }
    }
}

/// Least and greatest diameter of the grip, its shoulder's foot and cut corners left out.
fn across(section: &Section) -> String {
    let grip = |item| matches!(item, Item::Grip(_) | Item::Bead(_) | Item::Groove(_));
    let runs = section.part().runs;
    let own = runs.iter().filter(|run| {
        grip(run.feature.item) && !matches!(run.feature.facet, Facet::Fillet | Facet::Chamfer)
    });
    let radii: Vec<f64> = own
        .flat_map(|run| {
            let meridian = Meridian::of(run);
            meridian.extremes().into_iter().map(move |v| meridian.at(v)[0])
        })
        .collect();
    let [least, greatest] = [
        radii.iter().copied().fold(f64::INFINITY, f64::min),
        radii.iter().copied().fold(0.0, f64::max),
    ]
    .map(|r| diameter(Length::mm(r * 2.0)));
    if least == greatest { least } else { format!("{least} to {greatest}") }
}

/// Hundredths are what people measure with a caliper or micrometer.
fn diameter(d: Length) -> String {
    format!("Ø{:.2}", d.as_mm())
}

fn span(from: Length, to: Length) -> String {
    format!("{:.2} to {:.2}", from.as_mm(), to.as_mm())
}

/// Draws words from a point on; gives their width.
pub fn words(drawing: &mut Drawing, at: Point, height: f64, words: &str, paper: Paper) -> f64 {
    let text = line(at, paper.mm(height), words);
    let width = text.width();
    drawing.text(Layer::Note, text);
    width
}

fn line(at: Point, height: f64, words: &str) -> Text {
    Text::new(at, height, Anchor::Start, words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_rounded_to_what_people_measure() {
        assert_eq!(diameter(Length::mm(7.9375)), "Ø7.94");
        assert_eq!(span(Length::mm(4.6), Length::mm(11.75)), "4.60 to 11.75");
    }
}
