//! The title block of ISO 7200.
//!
//! ```text
//!   +--------------+-------------------------+----------------+
//!   | legal owner  | drawn by                | date of issue  |  left out where none is given
//!   +--------------+-------------------------+----------------+
//!   |   <|  (o)    | title                   | document type  |
//!   +--------------+                         +----------------+
//!   | dimensions in| supplementary title     | number         |
//!   +--------------+------+----------+-------+--+------+------+
//!   | material            | general  | scale    | sheet | size |
//!   +---------------------+----------+----------+-------+------+
//! ```
//! A field that is not given is left out, and its neighbours grow: an empty one asks to be filled.

use super::fit::{self, descent, line};
use super::{Area, Lettering, PaperSize, Scale, projection};
use crate::drawing::part::Units;
use crate::drawing::{Drawing, Layer, Point, Polyline};

/// What a title block says. Words that are blank are taken as not given.
///
/// Fields and their names are those of ISO 7200:2004 (from memory), and what ISO 129-1 and
/// ISO 2768-1 want near it: the unit and the general tolerances.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TitleBlock {
    /// What is drawn.
    pub title: String,
    /// What it is for, or how it differs.
    pub supplement: Option<String>,
    /// The number, or name, by which it is known.
    pub number: String,
    /// The kind of document: `Component drawing`.
    pub document: String,
    /// What it is made of.
    pub material: Option<String>,
    /// General tolerances: `ISO 2768-m`.
    pub tolerances: Option<String>,
    /// The unit of all lengths.
    pub units: Units,
    /// The scale of the main view; none on a sheet without views, which has no sign of projection
    /// either.
    pub scale: Option<Scale>,
    /// The sheet's number and how many there are: `1/1`.
    pub sheet: String,
    /// Who owns the drawing.
    pub owner: Option<String>,
    /// Who drew it.
    pub creator: Option<String>,
    /// When it was issued, as ISO 8601 writes days.
    pub date: Option<String>,
}

/// Its width in mm (ISO 7200:2004: 180, to fit an upright A4 sheet).
pub const WIDTH: f64 = 180.0;
/// White between words and the line above or below, in mm. Less, and they touch on a coarse print.
const PAD: f64 = 1.0;
/// White between words and the line beside them, in mm.
const SIDE: f64 = 1.5;
/// White between a field's name and what it holds, in mm.
const GAP: f64 = 0.8;
/// A field of which the words may need two lines is this much higher than others.
const HIGH: f64 = 1.4;

/// One field, or what stands in its place.
enum Cell<'a> {
    Field(&'static str, &'a str),
    Title(&'a str, Option<&'a str>),
    Sign,
}

/// Cells above each other, each with its height in rows.
struct Column<'a> {
    width: f64,
    cells: Vec<(f64, Cell<'a>)>,
}

impl<'a> Column<'a> {
    fn of(width: f64, cell: Cell<'a>) -> Self {
        Self { width, cells: vec![(1.0, cell)] }
    }

    fn field(width: f64, name: &'static str, words: Option<&'a str>) -> Option<Self> {
        words.map(|words| Self::of(width, Cell::Field(name, words)))
    }
}

/// Draws a title block with its lower right corner at a point; gives its area.
pub fn draw(drawing: &mut Drawing, size: PaperSize, corner: Point, block: &TitleBlock) -> Area {
    let lettering = size.lettering();
    let row = row(lettering);
    let scale = block.scale.map(|scale| scale.to_string());
    let mut foot = corner.y;
    for (rows, columns) in strips(block, size, scale.as_deref()) {
        let area = Area::new([corner.x - WIDTH, foot], [corner.x, foot + rows * row]);
        if foot > corner.y {
            drawing.line(Layer::Title, area.low, Point::new(corner.x, foot));
        }
        strip(drawing, area, &columns, lettering);
        foot = area.high.y;
    }
    let all = Area::new([corner.x - WIDTH, corner.y], [corner.x, foot]);
    drawing.polyline(Layer::Frame, Polyline::straight(all.round()));
    all
}

/// Height of a field of one line.
fn row(Lettering { text, label, .. }: Lettering) -> f64 {
    PAD + label + descent(label) + GAP + text + descent(text) + PAD
}

/// Words that are there.
fn given(words: Option<&str>) -> Option<&str> {
    words.map(str::trim).filter(|words| !words.is_empty())
}

/// The strips from the bottom up, each with its height in rows and its columns.
fn strips<'a>(
    block: &'a TitleBlock,
    size: PaperSize,
    scale: Option<&'a str>,
) -> Vec<(f64, Vec<Column<'a>>)> {
    let sheet = [
        Column::field(64.0, "Material", given(block.material.as_deref())),
        Column::field(44.0, "General tolerances", given(block.tolerances.as_deref())),
        Column::field(26.0, "Scale", scale),
        Column::field(22.0, "Sheet", given(Some(&block.sheet))),
        Column::field(24.0, "Size", Some(size.name())),
    ];
    let unit = Cell::Field(
        "Dimensions in",
        match block.units {
            Units::Millimetres => "millimetres",
            Units::Inches => "inches",
        },
    );
    let mut left = vec![(1.0, unit)];
    if scale.is_some() {
        left.push((HIGH, Cell::Sign));
    }
    let title = Cell::Title(block.title.trim(), given(block.supplement.as_deref()));
    let number = given(Some(&block.number)).map(|words| (HIGH, Cell::Field("Number", words)));
    let document = given(Some(&block.document)).map(|words| (1.0, Cell::Field("Document", words)));
    let right: Vec<_> = number.into_iter().chain(document).collect();
    let mut main = vec![Column { width: 42.0, cells: left }, Column::of(78.0, title)];
    if !right.is_empty() {
        main.push(Column { width: 60.0, cells: right });
    }
    let makers = [
        Column::field(64.0, "Legal owner", given(block.owner.as_deref())),
        Column::field(56.0, "Drawn by", given(block.creator.as_deref())),
        Column::field(60.0, "Date of issue", given(block.date.as_deref())),
    ];
    let mut strips = vec![
        (1.0, sheet.into_iter().flatten().collect()),
        (1.0 + HIGH, main),
        (1.0, makers.into_iter().flatten().collect()),
    ];
    strips.retain(|(_, columns): &(f64, Vec<Column>)| !columns.is_empty());
    strips
}

/// Columns beside each other, as wide as their area together, and the lines between them.
fn strip(drawing: &mut Drawing, area: Area, columns: &[Column], lettering: Lettering) {
    let grown = area.width() / columns.iter().map(|column| column.width).sum::<f64>();
    let mut left = area.low.x;
    for (n, column) in columns.iter().enumerate() {
        let right = left + column.width * grown;
        if n > 0 {
            let ends = [area.low.y, area.high.y].map(|y| Point::new(left, y));
            drawing.line(Layer::Title, ends[0], ends[1]);
        }
        let rows: f64 = column.cells.iter().map(|(rows, _)| rows).sum();
        let mut foot = area.low.y;
        for (m, (height, cell)) in column.cells.iter().enumerate() {
            let room = Area::new([left, foot], [right, foot + area.height() * height / rows]);
            if m > 0 {
                drawing.line(Layer::Title, room.low, Point::new(right, foot));
            }
            draw_cell(drawing, room, cell, lettering);
            foot = room.high.y;
        }
        left = right;
    }
}

fn draw_cell(drawing: &mut Drawing, room: Area, cell: &Cell, lettering: Lettering) {
    let Lettering { title, text, label } = lettering;
    match cell {
        Cell::Sign => projection::first_angle(drawing, room.inset(SIDE)),
        Cell::Field(name, words) => {
            let rest = named(drawing, room, name, label);
            fit::place(drawing, under(rest, text), words, &[text, label]);
        }
        Cell::Title(name, supplement) => {
            let mut rest = under(named(drawing, room, "Title", label), text);
            if let Some(words) = supplement {
                // Two lines of the smallest letters.
                let height = label * (1.0 + fit::PITCH);
                let top = rest.low.y + height;
                let below = Area { low: rest.low, high: Point::new(rest.high.x, top) };
                fit::place(drawing, below, words, &[text, label]);
                rest.low.y = top + descent(title) + GAP;
            }
            fit::place(drawing, rest, name, &[title, text, label]);
        }
    }
}

/// Writes a field's name at the top of its room; gives what is left of it, without white.
fn named(drawing: &mut Drawing, room: Area, name: &str, label: f64) -> Area {
    let top = room.high.y - PAD - label;
    let at = Point::new(room.low.x + SIDE, top);
    drawing.text(Layer::Title, line(at, label, name));
    let high = [room.high.x - SIDE, top - descent(label) - GAP];
    Area::new([room.low.x + SIDE, room.low.y + PAD], high)
}

/// A room without what letters of a height need under the last baseline.
fn under(room: Area, text: f64) -> Area {
    let low = Point::new(room.low.x, room.low.y + descent(text));
    Area { low, ..room }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shape;

    fn words(block: &TitleBlock) -> Vec<String> {
        let mut drawing = Drawing::default();
        draw(&mut drawing, PaperSize::A3, Point::new(410.0, 10.0), block);
        let texts = drawing.entities.iter().filter_map(|entity| match &entity.shape {
            Shape::Text(text) => Some(text.words.clone()),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn a_field_without_words_is_left_out() {
        let block = TitleBlock {
            title: "Sleeve".into(),
            creator: Some("  ".into()),
            date: Some("2026-03-14".into()),
            ..TitleBlock::default()
        };
        let words = words(&block);
        let has = |name: &str| words.iter().any(|w| w == name);
        assert!(has("Title") && has("Date of issue") && has("Dimensions in"));
        for name in ["Drawn by", "Legal owner", "Material", "Scale", "General tolerances"] {
            assert!(!has(name), "{name}");
        }
    }

    /// ISO 7200:2004: 180 mm wide, whatever is in it (from memory).
    #[test]
    fn its_width_is_the_standards_and_its_rows_are_what_is_given() {
        let place = Point::new(287.0, 10.0);
        let mut block = TitleBlock::default();
        let area = |block: &TitleBlock| draw(&mut Drawing::default(), PaperSize::A4, place, block);
        let bare = area(&block);
        block.owner = Some("A shop".into());
        let more = area(&block);
        assert_eq!([bare.width(), more.width()], [180.0, 180.0]);
        assert!((more.height() - bare.height() - row(PaperSize::A4.lettering())).abs() < 1e-9);
    }
}
