//! The table of the pieces.

use crate::drawing::sheet_frame::{Table, table};
use crate::drawing::{Drawing, Point};
use crate::quantity::Length;
use crate::shop::rod::{Piece, RodPlan, Shown};

/// Widths of the columns for letters of 2.5 mm, in mm: piece, for, from, to, length, comes off.
const COLUMNS: [f64; 6] = [15.0, 25.0, 19.0, 19.0, 19.0, 22.0];
/// The letters of those widths.
const OF: f64 = 2.5;
/// White between two tables beside each other, in mm.
const BESIDE: f64 = 5.0;

/// Width of the table in letters of a height.
pub fn width(height: f64) -> f64 {
    COLUMNS.iter().sum::<f64>() * height / OF
}

/// Draws the rows in as many tables beside each other as it takes, none lower than `low`; gives
/// the right end and the lowest foot, none where `room` is not wide enough.
pub fn draw(
    drawing: &mut Drawing,
    (plan, shown): (&RodPlan, Shown),
    at: Point,
    (room, low): (f64, f64),
    height: f64,
) -> Option<(f64, f64)> {
    let mut rest = &rows(plan, shown)[..];
    let (mut at, right, mut foot) = (at, at.x + room, at.y);
    loop {
        if at.x + width(height) > right {
            return None;
        }
        let fits = |count: &usize| {
            let area =
                table(&mut Drawing::default(), at, height, &part(&rest[..*count], shown, height));
            area.low.y >= low
        };
        let count = (1..=rest.len()).rev().find(fits)?;
        let area = table(drawing, at, height, &part(&rest[..count], shown, height));
        foot = foot.min(area.low.y);
        rest = &rest[count..];
        if rest.is_empty() {
            return Some((area.high.x, foot));
        }
        at.x = area.high.x + BESIDE;
    }
}

fn part(rows: &[Vec<String>], shown: Shown, height: f64) -> Table {
    let unit = shown.unit();
    let heading = ["Piece", "For", "From", "To", "Length", "Comes off"];
    let heading = heading.map(|words| match words {
        "Piece" | "For" => words.to_owned(),
        words => format!("{words}, {unit}"),
    });
    Table {
        columns: COLUMNS.map(|width| width * height / OF).to_vec(),
        heading: heading.to_vec(),
        rows: rows.to_vec(),
    }
}

/// The pieces from the free end, then what is left over and what is held.
fn rows(plan: &RodPlan, shown: Shown) -> Vec<Vec<String>> {
    let mut rows: Vec<Vec<String>> = plan.pieces.iter().map(|p| row(plan, p, shown)).collect();
    let request = &plan.request;
    let held = request.length - request.holding;
    let mut rest = |what: &str, from: Length, to: Length| {
        if to > from {
            let cells = [from, to, to - from].map(|length| shown.cell(length));
            rows.push([String::new(), what.to_owned()].into_iter().chain(cells).collect());
        }
    };
    if !plan.ends_uncut() {
        rest("left over", held - plan.left_over, held);
    }
    rest("held", held, request.length);
    rows
}

fn row(plan: &RodPlan, piece: &Piece, shown: Shown) -> Vec<String> {
    let what = match (plan.letter(piece.design), plan.role(piece)) {
        (None, role) if role.is_empty() => "section".to_owned(),
        (None, role) => role,
        (Some(letter), role) => format!("{letter}, {role}"),
    };
    let squaring = shown.cell(plan.request.squaring);
    let uncut = piece.kerf == Length::ZERO && plan.left_over > Length::ZERO;
    let over = if uncut { format!(" + {}", shown.cell(plan.left_over)) } else { String::new() };
    vec![
        piece.number.to_string(),
        what,
        shown.cell(piece.from),
        shown.cell(piece.to),
        shown.cell(piece.length()),
        format!("2 × {squaring}{over}"),
    ]
}
