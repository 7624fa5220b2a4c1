//! Words from the top of a column downwards.

use super::fit::PITCH;
use crate::drawing::{Anchor, Drawing, Layer, Point, Text, wrap};

/// White between two paragraphs, in capital heights: they are told apart without their numbers.
const BETWEEN: f64 = 0.5;
/// From a number to its words, in capital heights.
const INDENT: f64 = 2.6;

/// A column that is being written: words are drawn, and its top moves down.
pub struct Column<'a> {
    pub drawing: &'a mut Drawing,
    pub left: f64,
    pub width: f64,
    pub top: f64,
}

impl Column<'_> {
    /// From one baseline to the next, in letter heights.
    pub const PITCH: f64 = PITCH;

    /// One paragraph in letters of a height.
    pub fn words(&mut self, words: &str, height: f64) {
        self.at(self.left, self.width, words, height);
    }

    /// A heading.
    pub fn heading(&mut self, words: &str, height: f64) {
        self.top -= height * BETWEEN;
        self.words(words, height * 1.4);
    }

    /// Paragraphs with numbers.
    pub fn numbered(&mut self, paragraphs: &[String], height: f64) {
        for (n, words) in (1..).zip(paragraphs) {
            let at = Point::new(self.left, self.top - height);
            self.drawing.text(Layer::Title, Text::new(at, height, Anchor::Start, format!("{n}")));
            let indent = height * INDENT;
            self.at(self.left + indent, self.width - indent, words, height);
        }
    }

    fn at(&mut self, left: f64, width: f64, words: &str, height: f64) {
        for line in wrap(words, height, width) {
            let at = Point::new(left, self.top - height);
            self.drawing.text(Layer::Title, Text::new(at, height, Anchor::Start, line));
            self.top -= height * PITCH;
        }
        self.top -= height * BETWEEN;
    }
}
