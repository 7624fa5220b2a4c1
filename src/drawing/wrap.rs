//! Words in lines of a greatest width.

use super::{Anchor, Point, Text};

fn width(words: &str, height: f64) -> f64 {
    Text::new(Point::new(0.0, 0.0), height, Anchor::Start, words).width()
}

/// Words in lines no wider than `room`, broken between words; a word that is wider itself is
/// broken after any of its letters, but before no combining mark.
///
/// Widths are those of any common sans-serif ([`Text::width`]).
pub fn wrap(words: &str, height: f64, room: f64) -> Vec<String> {
    wrap_by(words, room, |words| width(words, height))
}

/// The same for letters of which somebody knows how wide they are.
pub fn wrap_by(words: &str, room: f64, width: impl Fn(&str) -> f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(last) if width(&format!("{last} {word}")) <= room => {
                last.push(' ');
                last.push_str(word);
            }
            _ => lines.extend(broken(word, room, &width)),
        }
    }
    lines
}

/// A word in pieces no wider than `room`, of a letter each at least.
fn broken(word: &str, room: f64, width: impl Fn(&str) -> f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for letter in letters(word) {
        if let Some(last) = pieces.last_mut() {
            if last.is_empty() || width(&format!("{last}{letter}")) <= room {
                last.push_str(letter);
            } else {
                pieces.push(letter.to_owned());
            }
        }
    }
    pieces
}

/// The letters of a word, each with the marks that combine with it.
pub fn letters(word: &str) -> Vec<&str> {
    let starts = word.char_indices().filter(|(at, c)| *at == 0 || !combines(*c));
    let mut ends: Vec<usize> = starts.map(|(at, _)| at).collect();
    ends.push(word.len());
    ends.windows(2).map(|ends| &word[ends[0]..ends[1]]).collect()
}

/// Whether it is a mark on the letter before it (Unicode's blocks of combining marks), a choice of
/// its form, or joins it to the next.
const fn combines(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}'
        | '\u{20d0}'..='\u{20ff}' | '\u{fe00}'..='\u{fe0f}' | '\u{fe20}'..='\u{fe2f}' | '\u{200d}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_broken_between_them_and_nothing_is_lost() {
        assert!(wrap("  ", 2.5, 10.0).is_empty());
        let words = ["word"; 40].join(" ");
        let lines = wrap(&words, 2.5, 60.0);
        assert!(lines.len() > 1 && lines.iter().all(|l| width(l, 2.5) <= 60.0));
        assert_eq!(lines.join(" "), words);
        // One more word would not have fitted.
        let first = format!("{} word", lines[0]);
        assert!(width(&first, 2.5) > 60.0);
    }

    #[test]
    fn a_word_too_wide_is_broken_after_letters_not_before_their_marks() {
        let word = "e\u{301}".repeat(30);
        let lines = wrap(&word, 2.5, 30.0);
        assert!(
            lines.len() > 1 && lines.iter().all(|l| l.starts_with('e') && l.ends_with('\u{301}'))
        );
        assert_eq!(lines.concat(), word);
    }
}
