//! Words that have to fit into a room: smaller letters first, then more lines.

use crate::drawing::{Anchor, Drawing, Layer, Point, Text, letters, wrap};

use super::Area;

/// From one baseline to the next, in capital heights. ISO 3098-1 has 1.5 for lettering B without
/// marks over capitals (from memory); less, and an accent touches the line above it.
pub const PITCH: f64 = 1.6;

/// Ends words of which not all fit.
const CUT: char = '…';

/// Words in lines, with the height of their capitals in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    pub height: f64,
    pub lines: Vec<String>,
}

/// Width of words in mm.
pub fn width(words: &str, height: f64) -> f64 {
    line(Point::new(0.0, 0.0), height, words).width()
}

/// How far letters of a height reach below their baseline.
pub fn descent(height: f64) -> f64 {
    -line(Point::new(0.0, 0.0), height, "").corners()[0].y
}

/// One line of words from a point on.
pub fn line(at: Point, height: f64, words: &str) -> Text {
    Text::new(at, height, Anchor::Start, words)
}

/// Words in a room of some width and height, in letters of one of some heights, the greatest
/// first: in the fewest lines that any height allows, and of the heights that allow them the
/// greatest. What does not fit in the smallest letters ends with dots.
pub fn fit(words: &str, heights: &[f64], [wide, high]: [f64; 2]) -> Fitted {
    let smallest = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let most = |height: f64| (((high - height) / (height * PITCH)).floor().max(0.0)) as usize + 1;
    for count in 1..=most(smallest) {
        for height in heights.iter().copied().filter(|h| most(*h) >= count) {
            let lines = wrap(words, height, wide);
            if lines.len() <= count {
                return Fitted { height, lines };
            }
        }
    }
    let mut lines = wrap(words, smallest, wide);
    lines.truncate(most(smallest));
    if let Some(last) = lines.last_mut() {
        while !last.is_empty() && width(&format!("{last}{CUT}"), smallest) > wide {
            let rest = letters(last).last().map_or(0, |letter| last.len() - letter.len());
            last.truncate(rest);
        }
        last.truncate(last.trim_end().len());
        last.push(CUT);
    }
    Fitted { height: smallest, lines }
}

/// Draws words into a room, half way between its top and its bottom; the room begins at the top
/// of the capitals and ends at the last baseline.
pub fn place(drawing: &mut Drawing, room: Area, words: &str, heights: &[f64]) {
    let Fitted { height, lines } = fit(words, heights, [room.width(), room.height()]);
    let pitch = height * PITCH;
    let needed = height + pitch * lines.len().saturating_sub(1) as f64;
    let mut y = room.high.y - (room.height() - needed) / 2.0 - height;
    for words in lines {
        drawing.text(Layer::Title, line(Point::new(room.low.x, y), height, &words));
        y -= pitch;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rooms in which the words fit in two ways: one line of small letters is taken before two of
    /// large ones.
    #[test]
    fn letters_grow_smaller_before_lines_are_broken() {
        let words = "a title of words";
        let heights = [5.0, 3.5, 2.5];
        let wide = |height| width(words, height) + 1e-9;
        assert_eq!(fit(words, &heights, [wide(5.0), 20.0]).height, 5.0);
        let smaller = fit(words, &heights, [wide(3.5), 20.0]);
        assert_eq!((smaller.height, smaller.lines.len()), (3.5, 1));
        let two = fit(words, &heights, [wide(2.5) * 0.7, 20.0]);
        assert_eq!(two.lines.len(), 2);
        assert_eq!(two.lines.join(" "), words);
    }

    #[test]
    fn what_does_not_fit_ends_with_dots_within_the_room() {
        let words = ["ünïcödé", "名前の長い"].repeat(30).join(" ");
        let fitted = fit(&words, &[3.5, 2.5], [40.0, 7.0]);
        assert_eq!((fitted.height, fitted.lines.len()), (2.5, 2));
        assert!(fitted.lines.iter().all(|l| width(l, 2.5) <= 40.0));
        assert!(fitted.lines[1].ends_with(CUT) && !fitted.lines[0].ends_with(CUT));
        assert_eq!(fit("", &[2.5], [40.0, 7.0]).lines, Vec::<String>::new());
    }

    #[test]
    fn a_room_too_narrow_for_a_letter_shows_that_there_are_some() {
        assert_eq!(fit("WWW", &[2.5], [0.5, 3.0]).lines, ["…"]);
    }
}
