//! Frame, centring marks and grid references of ISO 5457.
//!
//! ```text
//!   +--1---|---2---|---3---|--  grid border, 5 mm outside the frame
//!   A +---------- | ----------  frame; the centring marks reach into it
//!   -+|
//!   B |    drawing space
//! ```

use super::PaperSize;
use super::fit::descent;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text};

/// Length of a field of the grid, from the axes of the sheet outwards, in mm; what is left over
/// goes to the fields in the corners (ISO 5457:1999, from memory).
const FIELD: f64 = 50.0;
/// From the frame to the border of the grid, in mm (ISO 5457:1999, from memory).
const GRID: f64 = 5.0;
/// The centring marks reach this far into the drawing space, in mm. ISO 5457:1999 has 10 (from
/// memory) and leaves their form free; longer ones would take room from the views.
pub const MARK: f64 = 5.0;
/// Height of the grid's letters in mm. ISO 5457:1999 has 3.5 (from memory); in a strip of 5 mm
/// their room, tails and all, would touch the lines.
const LETTER: f64 = 2.5;
/// Letters of the grid from the top down; I and O are left out (ISO 5457:1999).
const LETTERS: [char; 12] = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K', 'L', 'M'];

/// A side of the frame.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Top,
    Bottom,
    Left,
    Right,
}

/// Draws them all.
pub fn draw(drawing: &mut Drawing, size: PaperSize) {
    let frame = size.drawing_space();
    for area in [frame, frame.inset(-GRID)] {
        let layer = if area == frame { Layer::Frame } else { Layer::Title };
        drawing.polyline(layer, Polyline::straight(area.round()));
    }
    // Of A4 only the top and the right side are marked (ISO 5457:1999, from memory).
    let sides: &[Side] = match size {
        PaperSize::A4 => &[Side::Top, Side::Right],
        _ => &[Side::Top, Side::Bottom, Side::Left, Side::Right],
    };
    for side in [Side::Top, Side::Bottom, Side::Left, Side::Right] {
        mark(drawing, size, side);
    }
    for side in sides {
        grid(drawing, size, *side);
    }
}

/// The mark at the middle of a side of the sheet. At the bottom it ends at the frame, for there
/// stand notes and title block.
fn mark(drawing: &mut Drawing, size: PaperSize, side: Side) {
    let at = size.sheet().centre();
    let inwards = if side == Side::Bottom { 0.0 } else { MARK };
    let along = if is_level(side) { at.x } else { at.y };
    drawing.line(Layer::Frame, on(size, side, along, GRID), on(size, side, along, -inwards));
}

const fn is_level(side: Side) -> bool {
    matches!(side, Side::Top | Side::Bottom)
}

/// The point of a side of the frame at x, or at y for an upright side, `out` outside of it.
fn on(size: PaperSize, side: Side, along: f64, out: f64) -> Point {
    let frame = size.drawing_space();
    match side {
        Side::Top => Point::new(along, frame.high.y + out),
        Side::Bottom => Point::new(along, frame.low.y - out),
        Side::Left => Point::new(frame.low.x - out, along),
        Side::Right => Point::new(frame.high.x + out, along),
    }
}

/// Lines and letters between a side of the frame and the border of the grid.
fn grid(drawing: &mut Drawing, size: PaperSize, side: Side) {
    let limits = limits(size, is_level(side));
    for along in &limits[1..limits.len() - 1] {
        // The middle has its centring mark.
        let [from, to] = [0.0, GRID].map(|out| on(size, side, *along, out));
        let middle = size.sheet().centre();
        let middle = if is_level(side) { middle.x } else { middle.y };
        if *along != middle {
            drawing.line(Layer::Title, from, to);
        }
    }
    let count = limits.len() - 1;
    for (n, ends) in limits.windows(2).enumerate() {
        let words = if is_level(side) {
            (n + 1).to_string()
        } else {
            LETTERS.get(count - 1 - n).map(char::to_string).unwrap_or_default()
        };
        let mut at = on(size, side, f64::midpoint(ends[0], ends[1]), GRID / 2.0);
        at.y -= (LETTER - descent(LETTER)) / 2.0;
        drawing.text(Layer::Title, Text::new(at, LETTER, Anchor::Middle, words));
    }
}

/// Where the fields of a level or upright side begin and end.
fn limits(size: PaperSize, level: bool) -> Vec<f64> {
    let (frame, middle) = (size.drawing_space(), size.sheet().centre());
    let [low, high, middle] = if level {
        [frame.low.x, frame.high.x, middle.x]
    } else {
        [frame.low.y, frame.high.y, middle.y]
    };
    // As many whole fields on each side of the middle as the shorter one nearly has; what is left
    // at the ends is part of the outermost.
    let half = (((high - low) / 2.0) / FIELD).round().max(1.0) as i32;
    let inner = (1 - half..half).map(|n| middle + f64::from(n) * FIELD);
    [low].into_iter().chain(inner).chain([high]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5457:1999, table 2 (from memory): A3 has 8 fields along and 6 across, A4 has 6 along
    /// its long side and 4 along its short one.
    #[test]
    fn fields_are_as_many_as_in_the_standard() {
        let count = |size, level| limits(size, level).len() - 1;
        assert_eq!([count(PaperSize::A3, true), count(PaperSize::A3, false)], [8, 6]);
        assert_eq!([count(PaperSize::A4, true), count(PaperSize::A4, false)], [6, 4]);
    }

    /// Worked by hand: A3 has its middle at 210; the frame goes from 20 to 410.
    #[test]
    fn fields_are_counted_from_the_middle() {
        let fields = [20.0, 60.0, 110.0, 160.0, 210.0, 260.0, 310.0, 360.0, 410.0];
        assert_eq!(limits(PaperSize::A3, true), fields);
        assert_eq!(limits(PaperSize::A4, false), [10.0, 55.0, 105.0, 155.0, 200.0]);
    }

    #[test]
    fn letters_have_room_in_their_strip() {
        let letter = Text::new(Point::new(0.0, 0.0), LETTER, Anchor::Middle, "W");
        assert!(letter.width() < GRID && LETTER + descent(LETTER) < GRID);
    }

    #[test]
    fn everything_lies_on_the_sheet() {
        for size in PaperSize::ALL {
            let mut drawing = Drawing::default();
            draw(&mut drawing, size);
            let [low, high] = drawing.extents().unwrap();
            assert!(low.x > 0.0 && low.y > 0.0, "{size}");
            assert!(high.x < size.sheet().width() && high.y < size.sheet().height(), "{size}");
        }
    }
}
