//! Each different piece from the side, in rows.

use super::Seen;
use super::names::Naming;
use super::side::{self, AXIS_BEYOND};
use crate::drawing::sheet_frame::{Area, Column, Scale};
use crate::drawing::{Anchor, Drawing, Layer, Point, Text, letters, wrap};
use crate::print::Piece;
use crate::quantity::Length;
use crate::section::Part;

/// Height of a piece's name, in letter heights.
const NAME: f64 = 1.2;
/// Least and greatest width of a piece's words, in letter heights. Less, and every line is a word;
/// more, and a long name, which is broken then, takes the row.
const WORDS: [f64; 2] = [12.0, 15.0];
/// Between neighbours, in letter heights. Less, and their words are read as one line.
const BESIDE: f64 = 2.0;
/// From a row's words to the tops of the next row, in letter heights. Less, and it is not plain
/// whose words they are.
const BETWEEN: f64 = 2.0;
/// From the line on which pieces stand to their words, in letter heights, beyond their axes.
const UNDER: f64 = 0.5;

/// A piece with its words.
struct Cell<'a> {
    of: &'a Part,
    /// Its width and height on paper.
    size: [f64; 2],
    /// Its lines of words with their heights.
    words: Vec<(String, f64)>,
    /// Its room's width.
    width: f64,
}

impl Cell<'_> {
    /// How high its words are.
    fn high(&self) -> f64 {
        self.words.iter().map(|(_, height)| height * Column::PITCH).sum()
    }
}

/// Draws them into a room from its top; none where it does not hold them.
pub fn draw(
    drawing: &mut Drawing,
    seen: Seen,
    (naming, room): (Naming, Area),
    (height, scale): (f64, Scale),
) -> Option<()> {
    let mut column = Column { drawing, left: room.low.x, width: room.width(), top: room.high.y };
    let fine = seen.pieces.iter().any(|piece| !piece.smooth.is_empty());
    let fine = if fine { "; threads too fine for the printer are left out" } else { "" };
    let heading = format!(
        "From the side as they stand on the plate, right half cut, {scale}; diameter × height in mm, \
         as in the files{fine}"
    );
    column.words(&heading, height);
    let mut top = column.top;
    let cells: Vec<Cell> =
        different(seen.pieces).iter().map(|alike| cell(alike, naming, height, scale)).collect();
    let beside = height * BESIDE;
    let mut laid = Vec::new();
    for row in rows(&cells, room.width(), beside)? {
        let tallest = row.iter().map(|cell| cell.size[1]).fold(0.0, f64::max);
        let words = row.iter().map(Cell::high).fold(0.0, f64::max);
        let ground = top - tallest - AXIS_BEYOND;
        let foot = ground - AXIS_BEYOND - height * UNDER - words;
        if foot < room.low.y {
            return None;
        }
        laid.push((row, ground));
        top = foot - height * BETWEEN;
    }
    for (row, ground) in laid {
        let mut left = room.low.x;
        for cell in row {
            let middle = left + cell.width / 2.0;
            let moved = side::standing(cell.of, scale.factor());
            let moved = moved.placed(1.0, Point::new(-middle, -ground));
            drawing.entities.extend(moved.entities);
            let under = ground - AXIS_BEYOND - height * UNDER;
            write(drawing, &cell.words, Point::new(middle, under));
            left += cell.width + beside;
        }
        let ends = [room.low.x, left - beside].map(|x| Point::new(x, ground));
        drawing.line(Layer::Extension, ends[0], ends[1]);
    }
    Some(())
}

/// Writes a piece's words from a point downwards, about their middle.
fn write(drawing: &mut Drawing, words: &[(String, f64)], at: Point) {
    let mut y = at.y;
    for (words, height) in words {
        let at = Point::new(at.x, y - height);
        drawing.text(Layer::Note, Text::new(at, *height, Anchor::Middle, words));
        y -= height * Column::PITCH;
    }
}

/// Pieces that are alike, with their numbers from 0, in the order of the first of each.
fn different(pieces: &[Piece]) -> Vec<Vec<(usize, &Piece)>> {
    let mut found: Vec<Vec<(usize, &Piece)>> = Vec::new();
    for (n, piece) in pieces.iter().enumerate() {
        let alike = |others: &&mut Vec<(usize, &Piece)>| {
            others.iter().all(|(_, other)| other.part == piece.part && other.what == piece.what)
        };
        match found.iter_mut().find(alike) {
            Some(others) => others.push((n, piece)),
            None => found.push(vec![(n, piece)]),
        }
    }
    found
}

fn cell<'a>(alike: &[(usize, &'a Piece)], naming: Naming, height: f64, scale: Scale) -> Cell<'a> {
    let piece = alike[0].1;
    let mut names: Vec<String> = alike.iter().map(|(n, p)| naming.called(*n, &p.name)).collect();
    names.dedup();
    let [wide, high] = [side::widest(&piece.part), piece.height().as_mm()];
    let sizes = format!("Ø{wide:.2} × {high:.2}");
    let size = [wide, high].map(|size| size * scale.factor());
    let line = |words: &str, height: f64| {
        Text::new(Point::new(0.0, 0.0), height, Anchor::Middle, words).width()
    };
    let longest = names.iter().map(|name| line(&format!("{name},"), height * NAME));
    let [least, most] = WORDS.map(|heights| heights * height);
    // Of what it is, what goes into one line.
    let what = what(piece);
    let short = what.iter().map(|words| line(words, height)).filter(|width| *width <= most);
    let longest = longest.chain([line(&sizes, height)]).chain(short);
    let width = longest.fold(least, f64::max).min(most).max(size[0]);
    let names = broken(&names.join(", "), width, |words| line(words, height * NAME));
    let mut words: Vec<(String, f64)> =
        names.into_iter().map(|words| (words, height * NAME)).collect();
    let below = [sizes].into_iter().chain(what);
    let below = below.flat_map(|words| wrap(&words, height, width));
    words.extend(below.map(|words| (words, height)));
    Cell { of: &piece.part, size, words, width }
}

/// Names in lines no wider than a room, broken behind a space or a hyphen, and behind any letter
/// where a part of a name is wider itself.
fn broken(names: &str, room: f64, width: impl Fn(&str) -> f64) -> Vec<String> {
    let mut lines = vec![String::new()];
    let parts = names.split_inclusive([' ', '-']);
    let parts = parts.flat_map(|part| if width(part) > room { letters(part) } else { vec![part] });
    for part in parts {
        if let Some(last) = lines.last_mut() {
            if width(&format!("{last}{}", part.trim_end())) <= room {
                last.push_str(part);
            } else {
                lines.push(part.to_owned());
            }
        }
    }
    lines.into_iter().map(|line| line.trim_end().to_owned()).filter(|l| !l.is_empty()).collect()
}

/// What a piece is, in paragraphs: of a rung what is between its flanks; and what it lacks.
fn what(piece: &Piece) -> Vec<String> {
    let mut what = match &piece.rung {
        Some(rung) if piece.smooth.is_empty() => {
            vec![clearance(rung.clearance), "between flanks".to_owned()]
        }
        // It has no flanks.
        Some(_) => Vec::new(),
        None => vec![piece.what.clone()],
    };
    let left_out: Vec<String> = piece.smooth.iter().map(ToString::to_string).collect();
    match &left_out[..] {
        [] => {}
        _ if piece.part.threads.is_empty() => what.push("without thread".to_owned()),
        some => what.push(format!("without {}", some.join(", "))),
    }
    what
}

/// A clearance in hundredths, or in as many digits as it has.
fn clearance(clearance: Length) -> String {
    /// Finer than this a clearance is not printed, in parts of a millimetre.
    const FINEST: f64 = 1e4;
    let clearance = (clearance.as_mm() * FINEST).round() / FINEST + 0.0;
    let (hundredths, all) = (format!("{clearance:.2}"), clearance.to_string());
    if all.len() > hundredths.len() { format!("{all} mm") } else { format!("{hundredths} mm") }
}

/// Cells in as few rows as a width allows, the rows about equally wide; none where one cell is wider.
fn rows<'a, 'b>(cells: &'a [Cell<'b>], width: f64, beside: f64) -> Option<Vec<&'a [Cell<'b>]>> {
    /// Steps in which rows are made narrower, in mm.
    const STEP: f64 = 1.0;
    let mut best = filled(cells, width, beside)?;
    let steps = (width / STEP).floor().max(0.0) as u32;
    for narrower in (1..=steps).map(|n| width - STEP * f64::from(n)) {
        match filled(cells, narrower, beside) {
            Some(rows) if rows.len() == best.len() => best = rows,
            _ => break,
        }
    }
    Some(best)
}

/// Cells in rows, each filled as far as it goes.
fn filled<'a, 'b>(cells: &'a [Cell<'b>], width: f64, beside: f64) -> Option<Vec<&'a [Cell<'b>]>> {
    let mut rows = Vec::new();
    let mut rest = cells;
    while !rest.is_empty() {
        let mut right = -beside;
        let fit = rest.iter().take_while(|cell| {
            right += beside + cell.width;
            right <= width
        });
        let count = fit.count();
        if count == 0 {
            return None;
        }
        let (row, after) = rest.split_at(count);
        rows.push(row);
        rest = after;
    }
    Some(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_broken_behind_hyphens_and_nothing_is_lost() {
        let count = |words: &str| words.chars().count() as f64;
        let lines = broken("coupon-front, coupon-front-2", 13.0, count);
        assert_eq!(lines, ["coupon-front,", "coupon-front-", "2"]);
        assert_eq!(broken("ladder-1", 13.0, count), ["ladder-1"]);
        assert_eq!(broken("a-unbreakable", 5.0, count), ["a-unb", "reaka", "ble"]);
        assert!(broken("", 5.0, count).is_empty());
    }

    #[test]
    fn a_clearance_has_hundredths_at_least() {
        let shown = [0.0, -0.0, 0.4, -0.06, 0.025, 0.1 + 0.2].map(|c| clearance(Length::mm(c)));
        assert_eq!(shown, ["0.00 mm", "0.00 mm", "0.40 mm", "-0.06 mm", "0.025 mm", "0.30 mm"]);
    }

    fn widths(rows: &[&[Cell]]) -> Vec<usize> {
        rows.iter().map(|row| row.len()).collect()
    }

    /// By hand: ten of width 20, 5 apart, in 180: seven would go into a row, five are in each.
    #[test]
    fn rows_are_as_few_as_can_be_and_alike() {
        let part = Part { runs: Vec::new(), threads: Vec::new() };
        let cell = || Cell { of: &part, size: [20.0, 9.0], words: Vec::new(), width: 20.0 };
        let cells: Vec<Cell> = (0..10).map(|_| cell()).collect();
        assert_eq!(widths(&filled(&cells, 180.0, 5.0).unwrap()), [7, 3]);
        assert_eq!(widths(&rows(&cells, 180.0, 5.0).unwrap()), [5, 5]);
        assert!(rows(&cells, 19.0, 5.0).is_none());
    }
}
