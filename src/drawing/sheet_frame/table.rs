//! A ruled table.

use super::Area;
use super::fit::{PITCH, descent, line};
use crate::drawing::{Drawing, Layer, Point, Polyline, wrap};

/// White between words and the line above or below, in letter heights.
const PAD: f64 = 0.45;
/// White between words and the line beside them, in letter heights.
const SIDE: f64 = 0.6;
/// Between the two lines under the heading, in letter heights. Less, and they print as one.
const DOUBLE: f64 = 0.35;

/// A heading over rows of cells; a cell that is missing is blank.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Widths of the columns on paper, in mm.
    pub columns: Vec<f64>,
    /// What the columns are called.
    pub heading: Vec<String>,
    /// The rows; cells beyond the last column are not drawn.
    pub rows: Vec<Vec<String>>,
}

/// Draws a table in letters of a height, in mm on paper, with its upper left corner at a point;
/// gives its area. Words too long for their column go on in a further line, and the row grows.
pub fn table(drawing: &mut Drawing, at: Point, height: f64, table: &Table) -> Area {
    let width: f64 = table.columns.iter().sum();
    let right = at.x + width;
    let rule = |drawing: &mut Drawing, y: f64| {
        drawing.line(Layer::Title, Point::new(at.x, y), Point::new(right, y));
    };
    // Lines between columns are parted where the heading's two lines are.
    let mut strips = Vec::new();
    let mut y = at.y;
    let headed = !table.heading.is_empty();
    let rows = headed.then_some(&table.heading).into_iter().chain(&table.rows);
    for (n, cells) in rows.enumerate() {
        if n > 0 {
            rule(drawing, y);
        }
        if n == 1 && headed {
            y -= DOUBLE * height;
            rule(drawing, y);
        }
        let top = y;
        y -= row(drawing, Point::new(at.x, y), height, &table.columns, cells);
        strips.push([top, y]);
    }
    let mut x = at.x;
    for column in table.columns.iter().take(table.columns.len().saturating_sub(1)) {
        x += column;
        for [top, foot] in &strips {
            drawing.line(Layer::Title, Point::new(x, *top), Point::new(x, *foot));
        }
    }
    let area = Area::new([at.x, y], [right, at.y]);
    if y < at.y {
        drawing.polyline(Layer::Title, Polyline::straight(area.round()));
    }
    area
}

/// Writes a row's cells; gives its height.
fn row(drawing: &mut Drawing, at: Point, height: f64, columns: &[f64], cells: &[String]) -> f64 {
    let side = SIDE * height;
    let mut x = at.x;
    let mut most = 1;
    for (column, words) in columns.iter().zip(cells) {
        let lines = wrap(words, height, column - 2.0 * side);
        for (words, n) in lines.iter().zip(0..) {
            let y = at.y - height * (PAD + 1.0 + PITCH * f64::from(n));
            drawing.text(Layer::Title, line(Point::new(x + side, y), height, words));
        }
        most = most.max(lines.len());
        x += column;
    }
    height * (2.0 * PAD + 1.0 + PITCH * (most - 1) as f64) + descent(height)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shape;

    fn words(cells: &[&str]) -> Vec<String> {
        cells.iter().map(|cell| (*cell).to_owned()).collect()
    }

    fn area(rows: Vec<Vec<String>>) -> (Drawing, Area) {
        let mut drawing = Drawing::default();
        let heading = words(&["What", "Size"]);
        let thread = Table { columns: vec![40.0, 30.0], heading, rows };
        let area = table(&mut drawing, Point::new(10.0, 100.0), 2.5, &thread);
        (drawing, area)
    }

    #[test]
    fn it_is_as_wide_as_its_columns_and_grows_downwards() {
        let (_, one) = area(vec![words(&["pitch", "0.75"])]);
        assert_eq!((one.width(), one.high), (70.0, Point::new(80.0, 100.0)));
        let (_, two) = area(vec![words(&["pitch", "0.75"]), words(&["hand", "right"])]);
        let (_, long) = area(vec![words(&["pitch of the thread along the axis", "0.75"])]);
        assert!(two.height() > long.height() && long.height() > one.height());
    }

    #[test]
    fn words_stay_in_their_column() {
        let (drawing, all) = area(vec![words(&["pitchofthethreadalongtheaxis", "0.75"])]);
        let rooms = drawing.entities.iter().filter_map(|entity| match &entity.shape {
            Shape::Text(text) => Some(text.corners()),
            _ => None,
        });
        for [low, high] in rooms {
            let [left, right] = if low.x < 50.0 { [10.0, 50.0] } else { [50.0, 80.0] };
            assert!(low.x > left && high.x < right && low.y > all.low.y && high.y < all.high.y);
        }
    }

    #[test]
    fn a_table_of_nothing_takes_no_room() {
        let mut drawing = Drawing::default();
        let area = table(&mut drawing, Point::new(1.0, 2.0), 2.5, &Table::default());
        assert_eq!((area.width(), area.height(), drawing.entities.len()), (0.0, 0.0, 0));
    }
}
