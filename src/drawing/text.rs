//! Words on a drawing, and the room that they need.

use super::Point;

/// Which point of a text stands at its place; always on the baseline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

impl Anchor {
    /// How much of a width lies to the left of the anchor.
    pub fn before(self, width: f64) -> f64 {
        match self {
            Self::Start => 0.0,
            Self::Middle => width / 2.0,
            Self::End => width,
        }
    }
}

/// From where words are read (ISO 129-1: from the bottom or from the right of a drawing).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reads {
    /// Upright.
    FromBelow,
    /// Turned to the left by a right angle: the words run upwards.
    FromRight,
}

/// One line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where the anchor stands.
    pub at: Point,
    /// Height of a capital, in mm of the drawing (ISO 3098-1 counts heights so).
    pub height: f64,
    /// What stands there.
    pub anchor: Anchor,
    /// From where it is read.
    pub reads: Reads,
    /// The words.
    pub words: String,
}

/// How far a letter reaches below the baseline, in capital heights. Less, and a line's g would
/// touch the next line's capitals unseen.
const DESCENT: f64 = 0.35;

/// Capital height of a sans-serif letter over its em: 0.716 to 0.729 in the common ones. A font
/// with lower capitals shows smaller letters, nothing worse.
pub const CAPITAL_PER_EM: f64 = 0.72;

impl Text {
    /// Upright words.
    pub fn new(at: Point, height: f64, anchor: Anchor, words: impl Into<String>) -> Self {
        Self { at, height, anchor, reads: Reads::FromBelow, words: words.into() }
    }

    /// The same words, read from the right.
    #[must_use]
    pub fn turned(self) -> Self {
        Self { reads: Reads::FromRight, ..self }
    }

    /// The width of the words in any common sans-serif, rather too wide than too narrow: which
    /// font a reader has is not known, and what is measured too narrow runs into its neighbour.
    pub fn width(&self) -> f64 {
        width(&self.words, self.height)
    }

    /// Lower left and upper right corner of the room that the words need.
    pub fn corners(&self) -> [Point; 2] {
        let before = self.anchor.before(self.width());
        let after = self.width() - before;
        let (below, above) = (self.height * DESCENT, self.height);
        let Point { x, y } = self.at;
        match self.reads {
            Reads::FromBelow => {
                [Point::new(x - before, y - below), Point::new(x + after, y + above)]
            }
            Reads::FromRight => {
                [Point::new(x - above, y - before), Point::new(x + below, y + after)]
            }
        }
    }
}

fn width(words: &str, height: f64) -> f64 {
    let ems: f64 = words.chars().map(em_width).sum();
    ems * height / CAPITAL_PER_EM
}

/// The width, in ems, of a letter of which nothing is known: that of the widest in `DejaVu` Sans, the
/// sign of a ten-thousandth. Less, and a sign nobody thought of runs into its neighbour.
const WIDEST: f64 = 1.74;

/// The width of a letter in ems, not under that of the widest of the common sans-serifs (read
/// from the tables of `DejaVu` Sans, rounded up; a test holds every letter of that font to it).
fn em_width(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 'I' | 'J' | ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | '\u{a0}' => 0.36,
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '/' | '"' | '!' => 0.47,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 1.0,
        'a'..='z' | '0'..='9' | 'µ' | '√' | '⌀' => 0.65,
        'A'..='Z' | '\u{2190}'..='\u{21ff}' => 0.84,
        _ if "Ø+=<>#×±&−≤≥≈".contains(letter) => 0.84,
        '°' | '*' | '·' | '–' | '²' | '³' => 0.5,
        // Ligatures, signs of several letters, long arrows.
        'Œ' | 'œ' | 'Ǆ'..='ǆ' | 'Ǳ'..='ǳ' | 'Ƕ' | 'ʣ'..='ʥ' | '‰' | '‱' => WIDEST,
        // A control character is shown as the replacement character, which is a bit over an em.
        '\0'..='\u{3ff}' | '\u{2000}'..='\u{206f}' => 1.03,
        _ => WIDEST,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::font::Face;

    #[test]
    fn a_text_in_the_middle_reaches_as_far_to_both_sides() {
        let words = "half".to_owned();
        let at = Point::new(3.0, 1.0);
        let text = Text::new(at, 2.0, Anchor::Middle, words);
        let [low, high] = text.corners();
        assert!((low.x + high.x - 6.0).abs() < 1e-12);
        assert!((high.x - low.x - text.width()).abs() < 1e-12);
        assert!(low.y < 1.0 && high.y == 3.0);
    }

    /// A quarter turn to the left takes (x, y) to (-y, x).
    #[test]
    fn turned_words_run_upwards() {
        let at = Point::new(3.0, 1.0);
        let upright = Text::new(at, 2.0, Anchor::End, "half");
        let [low, high] = upright.corners();
        let [left, right] = upright.clone().turned().corners();
        assert!((right.x - (at.x - (low.y - at.y))).abs() < 1e-12);
        assert!((left.x - (at.x - (high.y - at.y))).abs() < 1e-12);
        assert!((left.y - (at.y + (low.x - at.x))).abs() < 1e-12);
        assert!((right.y - at.y).abs() < 1e-12 && high.x == at.x);
    }

    #[test]
    fn no_words_need_no_room() {
        let text = Text::new(Point::new(0.0, 0.0), 2.0, Anchor::Start, "");
        assert_eq!(text.width(), 0.0);
    }

    /// Independent route: the advances of the font that pictures and pages carry, for every letter
    /// that it has and the replacement character for those that it lacks.
    #[test]
    fn no_letter_is_wider_than_the_room_kept_for_it() {
        let face = Face::new();
        let mut known = 0;
        for letter in '\0'..=char::MAX {
            let line = face.line(&letter.to_string());
            known += u32::from(line.letters[0].shown == letter);
            assert!(line.width <= em_width(letter), "{letter:?}: {}", line.width);
        }
        assert!(known > 5000, "{known} letters");
        // Seven letters of ten on a drawing are digits, and room that nothing fills is lost.
        let digits = face.line("0123456789").width / 10.0;
        assert!(em_width('0') < 1.03 * digits);
    }
}
