//! The least place of each zone: a line between its two points, and a number over the part.

use super::Row;
use crate::check::Place;
use crate::drawing::half_section::label::HEIGHT;
use crate::drawing::half_section::sheet::Paper;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text, spread};

/// Both points of two marks nearer than this, in mm of the part: one mark. A tenth of what a
/// caliper reads; more, and a mark stands where its wall is not.
const ONE_MARK: f64 = 0.01;
/// Between two numbers on paper, in mm. Less, and they read as one.
const NUMBER_GAP: f64 = 3.0;
/// From the part's top to where leaders bend, on paper.
const KNEE: f64 = 4.0;
/// From there to the numbers' feet. Less, and leaders lie too flat to be followed.
const RISE: f64 = 9.0;
/// Between a leader and its number, on paper. Less, and it touches a comma.
const FOOT: f64 = 1.5;
/// Half the length of the stroke across each end of a mark, on paper: as on a dimension line.
const TICK: f64 = 1.0;

/// A line between two points, with the numbers of the zones whose least place it is.
struct Mark {
    inner: Point,
    outer: Point,
    numbers: String,
}

/// Draws marks and numbers, each row's by its place in the table; gives the y of the numbers' top.
pub fn draw(drawing: &mut Drawing, rows: &[Row], top: f64, paper: Paper) -> f64 {
    let mut marks = marks(rows);
    marks.sort_by(|a, b| a.outer.x.total_cmp(&b.outer.x));
    let (knee, foot) = (top + paper.mm(KNEE), top + paper.mm(KNEE + RISE));
    let height = paper.mm(HEIGHT);
    let text = |at, words: &str| Text::new(at, height, Anchor::Middle, words);
    let widths = marks.iter().map(|m| text(m.outer, &m.numbers).width());
    let gap = widths.fold(0.0, f64::max) + paper.mm(NUMBER_GAP);
    let wanted: Vec<f64> = marks.iter().map(|mark| mark.outer.x).collect();
    for (mark, x) in marks.iter().zip(spread(&wanted, gap)) {
        line(drawing, mark, paper);
        let bend = Point::new(mark.outer.x, knee);
        let end = Point::new(x, foot - paper.mm(FOOT));
        set_off(drawing, &[mark.outer, bend]);
        drawing.polyline(Layer::Note, Polyline::straight(vec![bend, end]));
        drawing.text(Layer::Note, text(Point::new(x, foot), &mark.numbers));
    }
    foot + height
}

/// The marks, those of one place joined.
fn marks(rows: &[Row]) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    for (number, row) in (1..).zip(rows) {
        let Some(Place { inner, outer }) = row.finding.place else { continue };
        let (inner, outer) = (Point::new(inner.z, inner.r), Point::new(outer.z, outer.r));
        let near =
            |a: Point, b: Point| (a.x - b.x).abs() < ONE_MARK && (a.y - b.y).abs() < ONE_MARK;
        match marks.iter_mut().find(|m| near(m.inner, inner) && near(m.outer, outer)) {
            Some(mark) => mark.numbers += &format!(", {number}"),
            None => marks.push(Mark { inner, outer, numbers: number.to_string() }),
        }
    }
    marks
}

/// The mark itself, with a stroke across each end.
fn line(drawing: &mut Drawing, mark: &Mark, paper: Paper) {
    let (a, b) = (mark.inner, mark.outer);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let length = (dx * dx + dy * dy).sqrt();
    set_off(drawing, &[a, b]);
    if length == 0.0 {
        return;
    }
    let by = paper.mm(TICK) / length;
    for end in [a, b] {
        let stroke = |side: f64| Point::new(end.x - dy * by * side, end.y + dx * by * side);
        set_off(drawing, &[stroke(1.0), stroke(-1.0)]);
    }
}

/// A black line on a white one, to be seen on any shade.
fn set_off(drawing: &mut Drawing, points: &[Point]) {
    for layer in [Layer::Seam, Layer::Note] {
        drawing.polyline(layer, Polyline::straight(points.to_vec()));
    }
}
