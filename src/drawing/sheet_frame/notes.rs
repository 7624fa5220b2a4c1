//! Numbered notes, left of the title block and, where that is not enough, above it.
//!
//! ```text
//!   +-------------------+
//!   | 1  ..... | 4  ... |  <- columns have one top
//!   |    ..... | 5  ... |
//!   | 2  ..... +--------+
//!   | 3  ..... | title  |
//!   +----------+--------+
//! ```

use super::fit::{PITCH, descent, line, width};
use super::{Area, Lettering};
use crate::drawing::{Anchor, Drawing, Layer, Point, Text, wrap};

/// White round the notes, and between their columns, in mm. Less, and they run into the frame.
const WHITE: f64 = 3.0;
/// White between a note's number and its words, in letter heights.
const INDENT: f64 = 0.8;
/// White between two notes, in letter heights: they are told apart without their numbers.
const BETWEEN: f64 = 0.3;
/// Notes may take this part of the drawing space's height. More, and nothing is left for views.
const GREATEST: f64 = 0.5;
/// Notes may rise by this many letter heights to save a column: one note alone in a column is
/// overlooked. More, and views lose the room.
const SAVED: f64 = 4.0;
/// Least width of a column, in mm. Less, and lines are too short to be read with ease.
const COLUMN: f64 = 80.0;

/// Notes in lines, and where they stand.
struct Set {
    height: f64,
    indent: f64,
    notes: Vec<Vec<String>>,
}

/// Draws notes into a drawing space of which the title block takes the lower right corner; gives
/// the y of their top, with white above; none where they take more than half of its height.
pub fn draw(
    drawing: &mut Drawing,
    space: Area,
    block: Area,
    lettering: Lettering,
    notes: &[String],
) -> Option<f64> {
    if notes.is_empty() {
        return Some(space.low.y);
    }
    let columns = columns(space, block);
    let room = columns.iter().map(|c| c.width()).fold(f64::INFINITY, f64::min);
    // Letters shrink where notes would be higher than the title block: views need the room.
    let mut chosen = None;
    for height in [lettering.text, lettering.label] {
        let set = Set::new(notes, height, room);
        let top = set.top(&columns);
        let is_low = top.is_some_and(|top| top <= block.high.y);
        chosen = top.map(|top| (set, top)).or(chosen);
        if is_low {
            break;
        }
    }
    let (set, top) = chosen?;
    set.draw(drawing, &columns, top);
    Some(top + WHITE)
}

/// The columns, in the order in which they are read, as high as they may be, without white.
fn columns(space: Area, block: Area) -> Vec<Area> {
    let high = space.low.y + space.height() * GREATEST;
    let beside = Area::new([space.low.x, space.low.y], [block.low.x, high]);
    let above = Area::new([block.low.x, block.high.y], [block.high.x, high]);
    let split = |area: Area| {
        let count = (area.width() / (COLUMN + WHITE)).floor().max(1.0);
        let step = area.width() / count;
        (0..count as u32).map(move |n| {
            let left = area.low.x + step * f64::from(n);
            Area::new([left, area.low.y], [left + step, area.high.y]).inset(WHITE)
        })
    };
    let mut columns: Vec<Area> = split(beside).chain(split(above)).collect();
    columns.retain(|column| column.height() > 0.0);
    columns
}

impl Set {
    fn new(notes: &[String], height: f64, room: f64) -> Self {
        let indent = width(&notes.len().to_string(), height) + INDENT * height;
        let notes = notes.iter().map(|note| wrap(note, height, room - indent)).collect();
        Self { height, indent, notes }
    }

    /// From the top of a note's first capitals to the last baseline's tails.
    fn needed(&self, note: &[String]) -> f64 {
        let more = note.len().saturating_sub(1) as f64;
        self.height * (1.0 + more * PITCH) + descent(self.height)
    }

    fn between(&self) -> f64 {
        self.height * (PITCH - 1.0 + BETWEEN) - descent(self.height)
    }

    /// The column of each note and the y of its first capitals' top, where all columns begin at
    /// `top`; none where they do not hold all. No note is parted.
    fn places(&self, columns: &[Area], top: f64) -> Option<Vec<Point>> {
        let mut rest = columns.iter().filter(|column| column.low.y < top);
        let mut column = rest.next()?;
        let mut y = top;
        let mut places = Vec::with_capacity(self.notes.len());
        for note in &self.notes {
            while y - self.needed(note) < column.low.y {
                column = rest.next()?;
                y = top;
            }
            places.push(Point::new(column.low.x, y));
            y -= self.needed(note) + self.between();
        }
        Some(places)
    }

    /// The top at which the columns hold all notes: the least, or a little more where that saves
    /// a column.
    fn top(&self, columns: &[Area]) -> Option<f64> {
        let least = self.least_top(columns)?;
        let few = (1..columns.len()).filter_map(|count| self.least_top(&columns[..count]));
        let near = |top: &f64| *top <= least + SAVED * self.height;
        few.into_iter().find(near).or(Some(least))
    }

    /// The least top at which the columns hold all notes, by steps of a letter's height.
    fn least_top(&self, columns: &[Area]) -> Option<f64> {
        let foot = columns.iter().map(|c| c.low.y).fold(f64::INFINITY, f64::min);
        let roof = columns.iter().map(|c| c.high.y).fold(f64::INFINITY, f64::min);
        let steps = ((roof - foot) / self.height).floor() as u32;
        let tops = (1..=steps).map(|n| foot + f64::from(n) * self.height);
        tops.into_iter().find(|top| self.places(columns, *top).is_some())
    }

    fn draw(&self, drawing: &mut Drawing, columns: &[Area], top: f64) {
        let places = self.places(columns, top).unwrap_or_default();
        for (n, (note, place)) in self.notes.iter().zip(places).enumerate() {
            let mut at = Point::new(place.x + self.indent, place.y - self.height);
            let number = Point::new(at.x - INDENT * self.height, at.y);
            let words = (n + 1).to_string();
            drawing.text(Layer::Title, Text::new(number, self.height, Anchor::End, words));
            for words in note {
                drawing.text(Layer::Title, line(at, self.height, words));
                at.y -= self.height * PITCH;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shape;
    use crate::drawing::sheet_frame::PaperSize;

    const BLOCK: f64 = 40.0;

    fn drawn(count: usize) -> (Drawing, Option<f64>) {
        let mut drawing = Drawing::default();
        let space = PaperSize::A4.drawing_space();
        let corner = [space.high.x, space.low.y + BLOCK];
        let block = Area::new([space.high.x - 180.0, space.low.y], corner);
        let notes =
            vec!["Break all sharp edges 0.1 to 0.2, but for the lip of the bore.".into(); count];
        let top = draw(&mut drawing, space, block, PaperSize::A4.lettering(), &notes);
        (drawing, top)
    }

    fn heights(drawing: &Drawing) -> Vec<f64> {
        let height = |shape: &Shape| match shape {
            Shape::Text(text) => Some(text.height),
            _ => None,
        };
        drawing.entities.iter().filter_map(|entity| height(&entity.shape)).collect()
    }

    #[test]
    fn few_notes_stay_beside_the_title_block() {
        let foot = PaperSize::A4.drawing_space().low.y;
        assert_eq!(drawn(0), (Drawing::default(), Some(foot)));
        let (drawing, top) = drawn(3);
        assert!(top.unwrap() < foot + BLOCK);
        assert!(heights(&drawing).iter().all(|height| *height == 2.5));
    }

    #[test]
    fn letters_shrink_then_columns_rise_then_it_is_said() {
        let (many, top) = drawn(5);
        assert!(heights(&many).iter().all(|height| *height == 1.8));
        assert!(top.unwrap() < 10.0 + BLOCK + WHITE);
        let (more, top) = drawn(20);
        let top = top.unwrap();
        assert!(top > 10.0 + BLOCK && top <= 10.0 + 190.0 * GREATEST);
        let numbers = more.entities.iter().filter(
            |entity| matches!(&entity.shape, Shape::Text(text) if text.anchor == Anchor::End),
        );
        assert_eq!(numbers.count(), 20);
        assert_eq!(drawn(200).1, None);
    }
}
