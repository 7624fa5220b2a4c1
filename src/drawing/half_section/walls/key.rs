//! Under the picture: what the shades mean, a table of the marked places, and the shop's caution.

use super::Row;
use super::band::{LITTLE, Level, SOME, swatch};
use crate::check::Bound;
use crate::drawing::CAUTION;
use crate::drawing::half_section::legend::{COLUMN_GAP, HEIGHT, LINE, TABLE_BELOW, words};
use crate::drawing::half_section::sheet::Paper;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text};

/// Width and height of a sample of a shade on paper, in mm: a crossing of its hatching shows.
const SAMPLE: [f64; 2] = [9.0, 4.0];
/// Between a sample and its words, on paper.
const SAMPLE_GAP: f64 = 1.5;
/// Columns of the table: number, verdict, zone, as drawn, at worst, limit, place, source.
const COLUMNS: usize = 8;

/// How long a line of the caution is at most, on paper in mm: as the table over it.
const CAUTION_LENGTH: f64 = 240.0;

/// Draws scale, table and caution under `top`.
pub fn draw(drawing: &mut Drawing, rows: &[Row], band: f64, top: f64, paper: Paper) {
    let pitch = paper.mm(HEIGHT * LINE);
    let mut y = top - paper.mm(TABLE_BELOW);
    words(drawing, Point::new(0.0, y), HEIGHT, "Wall over its limit, at the worst", paper);
    y -= paper.mm(SAMPLE[1] + HEIGHT);
    scale(drawing, band, y, paper);
    y -= paper.mm(TABLE_BELOW);
    y = table(drawing, rows, y, paper);
    for line in lines(CAUTION, paper) {
        y -= pitch;
        words(drawing, Point::new(0.0, y), HEIGHT, &line, paper);
    }
}

/// A text in lines of at most [`CAUTION_LENGTH`].
fn lines(text: &str, paper: Paper) -> Vec<String> {
    let fits = |words: &str| {
        let (at, height, anchor) = (Point::new(0.0, 0.0), paper.mm(HEIGHT), Anchor::Start);
        let text = Text::new(at, height, anchor, words);
        text.width() <= paper.mm(CAUTION_LENGTH)
    };
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let longer = lines.last().map(|line| format!("{line} {word}")).filter(|line| fits(line));
        match (longer, lines.last_mut()) {
            (Some(longer), Some(last)) => *last = longer,
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A sample of each shade with what it stands for.
fn scale(drawing: &mut Drawing, band: f64, y: f64, paper: Paper) {
    let [width, height] = SAMPLE.map(|size| paper.mm(size));
    let gap = paper.mm(SAMPLE_GAP);
    let mut x = 0.0;
    for level in Level::ALL {
        let says = match level {
            Level::Breaks => "less than 0: breaks".to_owned(),
            Level::Close => format!("0 to {band:.2}: close"),
            Level::Little if band < LITTLE => format!("{band:.2} to {LITTLE:.2}: holds"),
            Level::Some if band < SOME => format!("{:.2} to {SOME:.2}: holds", band.max(LITTLE)),
            Level::Much => format!("more than {:.2}: holds", band.max(SOME)),
            // A maker who can hold no better has no wall between.
            _ => continue,
        };
        sample(drawing, level, Point::new(x, y), [width, height], paper);
        x += width + gap;
        let foot = y + (height - paper.mm(HEIGHT)) / 2.0;
        x += words(drawing, Point::new(x, foot), HEIGHT, &says, paper) + paper.mm(COLUMN_GAP);
    }
}

/// A framed sample of a shade, its lower left corner at a point.
fn sample(drawing: &mut Drawing, level: Level, at: Point, [width, height]: [f64; 2], paper: Paper) {
    let corner = |x: f64, y: f64| Point::new(at.x + x * width, at.y + y * height);
    let corners = vec![corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)];
    let frame = corners.iter().chain(corners.first()).copied().collect();
    drawing.polyline(Layer::Note, Polyline::straight(frame));
    swatch(drawing, corners, level, paper);
}

/// One line a zone; gives the y of the last line's foot.
fn table(drawing: &mut Drawing, rows: &[Row], first: f64, paper: Paper) -> f64 {
    let head = ["", "", "", "as drawn", "at worst", "limit", "from the front", "limit from"];
    let lines: Vec<[String; COLUMNS]> = std::iter::once(head.map(str::to_owned))
        .chain((1..).zip(rows).map(|(number, row)| line(number, row)))
        .collect();
    let pitch = paper.mm(HEIGHT * LINE);
    let foot = |n: u32| first - pitch * f64::from(n);
    for (n, row) in (1..).zip(rows) {
        let size = [paper.mm(SAMPLE[0] / 2.0), paper.mm(HEIGHT)];
        sample(drawing, row.level(), Point::new(0.0, foot(n)), size, paper);
    }
    let mut x = paper.mm(SAMPLE[0] / 2.0 + COLUMN_GAP / 2.0);
    for column in 0..COLUMNS {
        let mut widest: f64 = 0.0;
        for (n, line) in (0..).zip(&lines) {
            let at = Point::new(x, foot(n));
            widest = widest.max(words(drawing, at, HEIGHT, &line[column], paper));
        }
        x += widest + paper.mm(COLUMN_GAP);
    }
    foot(lines.len() as u32)
}

/// A zone's line: what is measured has the digits of a caliper.
fn line(number: usize, Row { finding, judged }: &Row) -> [String; COLUMNS] {
    let z = finding.place.map_or(String::new(), |place| format!("{:.2}", place.z()));
    let side = match judged.bound {
        Bound::AtLeast => "at least",
        Bound::AtMost => "at most",
    };
    [
        number.to_string(),
        judged.verdict.to_string(),
        finding.title.to_owned(),
        format!("{:.2}", finding.measured),
        format!("{:.2}", judged.worst),
        format!("{side} {:.2}", judged.limit),
        z,
        judged.limit_source.clone(),
    ]
}
