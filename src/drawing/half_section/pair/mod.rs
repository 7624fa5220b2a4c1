//! Two sections over each other: the first hatched, the second as a line, shoulder on shoulder, and
//! a table of the sizes that differ.
//!
//! ```text
//!        ______________________
//!       |//////////////////////|=======|    first: hatched, long-dashed double-dotted border
//!       |__/ / / / / / / / / / |_______|    second: wide lines
//!   - - - - - - - - - - - - - - - - - - - -  axis, ruler from the second's front, key, table
//! ```
//! They are laid shoulder on shoulder, for there they meet one barrel.

mod key;

use super::legend;
use super::sheet::Paper;
use crate::drawing::sheet_frame::{Table, table};
use crate::drawing::view::chain::Chain;
use crate::drawing::view::hatch::hatch;
use crate::drawing::view::{AXIS_BEYOND, HATCH_SPACING, axis, cut_border, halves};
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment, Sheet};
use crate::section::Section;

/// The parts may be this long on paper, in mm: the width of an A4 sheet with its margins. More, and
/// it is shrunk where it is shown; less, and a tenth is not seen.
const GREATEST_LENGTH: f64 = 250.0;
/// Heights of the letters of the table on paper, in mm.
const HEIGHT: f64 = 2.5;
/// Widths of the table's columns on paper, in mm: what, first, second, difference.
const COLUMNS: [f64; 4] = [105.0, 35.0, 35.0, 30.0];
/// Rows at most: more is a sheet of figures and no picture. The rest is counted under them.
const MOST_ROWS: usize = 24;

/// A size that differs, in words: what, the first's, the second's, by how much.
pub type PairRow = [String; 4];

/// The picture of two sections, with the sizes that differ.
pub fn sheet([first, second]: [&Section; 2], rows: &[PairRow]) -> Sheet {
    let shoulders = [first, second].map(|section| section.grip.length().as_mm());
    let shift = shoulders[1] - shoulders[0];
    let ends = [first, second].map(|section| section.length().as_mm());
    let length = ends[1].max(ends[0] + shift) - shift.min(0.0);
    let paper = Paper::fitting(length, GREATEST_LENGTH);
    let mut drawing = Drawing::default();
    let under = behind(&mut drawing, first, shift, paper);
    let part = second.part();
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    drawing.entities.extend(halves(&outside, &bore, &part.threads).entities);
    axis(&mut drawing, &outside, paper.mm(AXIS_BEYOND));
    let top = outside.top().max(under);
    let names = [first, second].map(|section| section.name.as_str());
    let about = format!(
        "{} hatched, {} in wide lines, shoulder on shoulder; sizes in mm",
        names[0], names[1]
    );
    let base = top + paper.mm(2.0 * legend::HEIGHT * legend::LINE);
    legend::headed(&mut drawing, [&names.join(" and "), &about], base, paper);
    let foot = legend::ruler(&mut drawing, ends[1], -top, paper);
    let foot = key::draw(&mut drawing, names, foot - paper.mm(legend::TABLE_BELOW), paper);
    sizes(&mut drawing, names, rows, foot - paper.mm(HEIGHT), paper);
    Sheet {
        area: paper.round(&drawing),
        drawing,
        scale: paper.scale,
        title: format!("{}: two sections over each other", names.join(" and ")),
        description: described(names, rows),
    }
}

/// Draws the first section, moved along the axis; gives its greatest y.
fn behind(drawing: &mut Drawing, section: &Section, shift: f64, paper: Paper) -> f64 {
    let part = section.part();
    let moved = |chain: &Polyline| {
        let place = |p: Point| Point::new(p.x + shift, p.y);
        let segments = chain.segments();
        Polyline::of(segments.map(|s| Segment { from: place(s.from), to: place(s.to), ..s }))
    };
    let outside = Chain(moved(&Chain::outside(&part).0));
    let bore = Chain(moved(&Chain::bore(&part).0));
    hatch(drawing, &cut_border(&outside, &bore), paper.mm(HATCH_SPACING));
    drawing.polyline(Layer::Mate, outside.0.clone());
    for piece in bore.off_axis() {
        drawing.polyline(Layer::Mate, piece);
    }
    drawing.polyline(Layer::Mate, Polyline::of(outside.0.segments().map(Segment::mirrored)));
    outside.top()
}

/// The table of the sizes that differ, from a top downwards.
fn sizes(drawing: &mut Drawing, names: [&str; 2], rows: &[PairRow], top: f64, paper: Paper) {
    let mut shown: Vec<Vec<String>> = rows.iter().take(MOST_ROWS).map(|row| row.to_vec()).collect();
    if rows.len() > MOST_ROWS {
        shown.push(vec![format!("and {} more", rows.len() - MOST_ROWS)]);
    }
    if shown.is_empty() {
        shown.push(vec!["no size differs".to_owned()]);
    }
    let heading = ["size", names[0], names[1], "difference"].map(str::to_owned).to_vec();
    let all = Table { columns: COLUMNS.to_vec(), heading, rows: shown };
    let mut on_paper = Drawing::default();
    table(&mut on_paper, Point::new(0.0, 0.0), HEIGHT, &all);
    let origin = Point::new(0.0, -top * paper.scale);
    drawing.entities.extend(on_paper.placed(paper.scale, origin).entities);
}

/// The same in words, for those who can't see it.
fn described([first, second]: [&str; 2], rows: &[PairRow]) -> String {
    let row = |[what, a, b, _]: &PairRow| format!("{what} {a} and {b}");
    let differ: Vec<String> = rows.iter().map(row).collect();
    let differ = if differ.is_empty() { "no size differs".to_owned() } else { differ.join("; ") };
    format!(
        "Half-sections of the grip sections of {first} and {second} over each other, shoulder on \
         shoulder, front face on the left: {differ}."
    )
}
