//! The font that files carry with them: `DejaVu` Sans 2.37, whole and unchanged.
//!
//! Every letter stands after the one before it by its advance: no kerning, no ligatures, no
//! writing from right to left. What the font lacks is shown as
//! the replacement character.

mod outline;

pub use outline::{Outline, Step};

use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, GlyphId, MetadataProvider};

/// The font's file. Its licence lies beside it and asks to be handed on with every copy of it.
pub const FILE: &[u8] = include_bytes!("DejaVuSans.ttf");

/// Height of a capital over the em, 1493 of 2048 units. Greater, and letters are lower than the
/// drawing says; smaller, and they outgrow the room kept for them.
pub const CAPITAL_PER_EM: f64 = 1493.0 / 2048.0;

/// A letter of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Letter {
    /// What is seen: the letter, or the replacement character where the font lacks it.
    pub shown: char,
    /// The number of its glyph.
    pub glyph: u32,
    /// Where it begins, in ems from the line's left end.
    pub x: f64,
    /// How far it goes, in ems.
    pub advance: f64,
}

/// Words, letter by letter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    /// What is written: the words without control characters.
    pub words: String,
    /// Its letters, from left to right.
    pub letters: Vec<Letter>,
    /// Its length, in ems.
    pub width: f64,
}

/// The font, read.
pub struct Face {
    font: FontRef<'static>,
    letters: Charmap<'static>,
    metrics: GlyphMetrics<'static>,
    em: f64,
}

impl Face {
    /// The font that this program carries.
    pub fn new() -> Self {
        let font = FontRef::new(FILE).expect("the file that is built in is a font");
        let em = font.metrics(Size::unscaled(), LocationRef::default()).units_per_em;
        let metrics = font.glyph_metrics(Size::unscaled(), LocationRef::default());
        Self { letters: font.charmap(), metrics, em: f64::from(em), font }
    }

    /// Units of the outlines in an em.
    pub fn em(&self) -> f64 {
        self.em
    }

    /// Words, letter by letter.
    pub fn line(&self, words: &str) -> Line {
        let mut line = Line { words: printable(words), ..Line::default() };
        for letter in line.words.chars() {
            let glyph = |letter| self.letters.map(letter).filter(|glyph| *glyph != GlyphId::NOTDEF);
            let shown = if glyph(letter).is_some() { letter } else { char::REPLACEMENT_CHARACTER };
            let glyph = glyph(shown).unwrap_or(GlyphId::NOTDEF);
            let advance = self.metrics.advance_width(glyph).map_or(0.0, f64::from) / self.em;
            line.letters.push(Letter { shown, glyph: glyph.to_u32(), x: line.width, advance });
            line.width += advance;
        }
        line
    }

    /// A glyph's outline; empty for a space.
    pub fn outline(&self, glyph: u32) -> Outline {
        let glyph = self.font.outline_glyphs().get(GlyphId::new(glyph));
        glyph.as_ref().map(Outline::of).unwrap_or_default()
    }
}

/// Words with spaces for tabs and ends of lines, and the replacement character for what is no
/// character to be written (Unicode 2.4: control characters and noncharacters).
pub fn printable(words: &str) -> String {
    let seen = |letter: char| match letter {
        '\t' | '\n' | '\r' => ' ',
        '\u{fdd0}'..='\u{fdef}' => char::REPLACEMENT_CHARACTER,
        _ if letter.is_control() || u32::from(letter) & 0xfffe == 0xfffe => {
            char::REPLACEMENT_CHARACTER
        }
        other => other,
    };
    words.chars().map(seen).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The widths are those of the font's hmtx table, as another program prints them: 1401 for A,
    /// 651 for the space, 1612 for the sign of a diameter (Ø), of 2048.
    #[test]
    fn letters_stand_after_one_another() {
        let line = Face::new().line("A Ø");
        let x: Vec<f64> = line.letters.iter().map(|letter| letter.x * 2048.0).collect();
        assert_eq!(x, [0.0, 1401.0, 2052.0]);
        assert_eq!(line.width * 2048.0, 3664.0);
    }

    #[test]
    fn what_drawings_say_is_in_the_font() {
        let face = Face::new();
        let signs = "Ø±°×²³µ½¼¾/⌀↗↧→≤≥≈−–—…·√∠□Δ∅";
        let plain = (' '..='~').chain('\u{a0}'..='\u{17f}');
        for letter in plain.chain(signs.chars()) {
            let line = face.line(&letter.to_string());
            assert_eq!(line.letters[0].shown, letter);
        }
    }

    #[test]
    fn what_the_font_lacks_is_seen_to_be_lacking() {
        let face = Face::new();
        let line = face.line("漢\u{1}\n\u{ffff}");
        assert_eq!(line.words, "漢\u{fffd} \u{fffd}", "what can be written stays as it is");
        let shown: String = line.letters.iter().map(|letter| letter.shown).collect();
        assert_eq!(shown, "\u{fffd}\u{fffd} \u{fffd}");
        assert!(line.letters[0].glyph != 0 && !face.outline(line.letters[0].glyph).is_empty());
    }

    /// The top of an H, whose stem is straight.
    #[test]
    fn a_capital_is_as_high_as_said() {
        let face = Face::new();
        let glyph = face.line("H").letters[0].glyph;
        let top = face.outline(glyph).points().map(|[_, y]| y).fold(f64::MIN, f64::max);
        assert_eq!(top / face.em(), CAPITAL_PER_EM);
    }
}
