//! Words in a column.

use super::flow::{Flow, Type};
use crate::drawing::{CAPITAL_PER_EM, wrap_by};
use crate::export::lathe_sheet::content::Line;

/// Lines of a column, each with the height of its capitals.
#[derive(Clone, Debug, Default)]
pub struct Cell(Vec<(String, f64)>);

impl Cell {
    /// Lines broken to a width.
    pub fn of(flow: &Flow, lines: &[Line], width: f64) -> Self {
        let kind = flow.kind;
        let mut cell = Self::default();
        for line in lines {
            let (words, height) = match line {
                Line::Set(words) => (words.clone(), kind.set),
                Line::Plain(words) => (words.clone(), kind.text),
                Line::Warning(words) => (format!("! {words}"), kind.text),
            };
            cell.add(flow, &words, height, width);
        }
        cell
    }

    /// Words of one height.
    pub fn words(flow: &Flow, words: &str, height: f64, width: f64) -> Self {
        let mut cell = Self::default();
        cell.add(flow, words, height, width);
        cell
    }

    /// The page carries its font, so widths are exact.
    fn add(&mut self, flow: &Flow, words: &str, height: f64, width: f64) {
        let em = height / CAPITAL_PER_EM;
        let lines = wrap_by(words, width, |words| flow.face.line(words).width * em);
        self.0.extend(lines.into_iter().map(|line| (line, height)));
    }

    /// How high it is.
    pub fn height(&self) -> f64 {
        self.0.iter().map(|(_, height)| Type::pitch(*height)).sum()
    }

    /// Draws it from a left top corner.
    pub fn draw(&self, flow: &mut Flow, [left, top]: [f64; 2]) {
        let mut y = top;
        for (words, height) in &self.0 {
            // Feet at the line's lower third: half of what is over stands above the capitals.
            let pitch = Type::pitch(*height);
            y -= pitch;
            flow.words([left, y + (pitch - height) * 0.55], *height, words);
        }
    }
}
