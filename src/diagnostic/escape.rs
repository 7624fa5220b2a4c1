//! Characters that would command a terminal, written so that they can be read instead.
//!
//! ```text
//!   ESC [ 2 J   ->   \u{1b}[2J
//! ```
//! Everything that is said of somebody's files goes through here before it is laid out: names and
//! texts may be a stranger's.

use std::borrow::Cow;
use std::ops::Range;

use super::Style;

/// Whether a character does something to a terminal instead of being shown: the controls of C0 and
/// C1 with DEL (ISO/IEC 6429), and those that turn the direction of what follows (Unicode Standard
/// Annex 9: embeddings, overrides, isolates and their ends).
fn commands(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text of one line, with every such character written out, line breaks and tabs among them.
pub fn escaped(text: &str) -> Cow<'_, str> {
    if !text.contains(commands) {
        return Cow::Borrowed(text);
    }
    let one = |c: char| if commands(c) { out(c) } else { c.to_string() };
    Cow::Owned(text.chars().map(one).collect())
}

/// A result as it is printed: every such character is written out, but for line breaks, tabs and,
/// where the style has colours, those.
pub fn without_commands(text: &str, style: Style) -> String {
    let mut clean = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let colour = if style == Style::Coloured { colour_length(rest) } else { None };
        let length = colour.unwrap_or(c.len_utf8());
        if colour.is_some() || !commands(c) || c == '\n' || c == '\t' {
            clean += &rest[..length];
        } else {
            clean += &out(c);
        }
        rest = &rest[length..];
    }
    clean
}

/// Bytes of the colour that a text begins with: `ESC [`, digits and semicolons, `m`.
fn colour_length(text: &str) -> Option<usize> {
    let numbers = text.strip_prefix("\u{1b}[")?;
    let end = numbers.find(|c: char| !c.is_ascii_digit() && c != ';')?;
    numbers[end..].starts_with('m').then_some(text.len() - numbers.len() + end + 1)
}

fn out(c: char) -> String {
    c.escape_unicode().to_string()
}

/// A file's text as it is shown: line breaks and tabs stay, all else that commands is written out.
pub(super) struct Excerpt {
    pub text: String,
    /// Behind which byte of the file the text is longer, and by how many bytes.
    grown: Vec<(usize, usize)>,
}

impl Excerpt {
    pub fn new(file: &str) -> Self {
        let (mut text, mut grown) = (String::with_capacity(file.len()), Vec::new());
        for (at, c) in file.char_indices() {
            let line_break = c == '\n' || file[at..].starts_with("\r\n");
            if !commands(c) || c == '\t' || line_break {
                text.push(c);
                continue;
            }
            let written = out(c);
            grown.push((at, written.len() - c.len_utf8()));
            text += &written;
        }
        Self { text, grown }
    }

    /// Where a span of the file's bytes is in the text.
    pub fn span(&self, span: Range<usize>) -> Range<usize> {
        let at = |byte: usize| {
            let before = self.grown.iter().take_while(|(at, _)| *at < byte);
            byte + before.map(|(_, by)| by).sum::<usize>()
        };
        at(span.start)..at(span.end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_commands_is_written_out_and_all_else_stays() {
        assert_eq!(escaped("Füller 7 °"), "Füller 7 °");
        assert_eq!(escaped("a\u{1b}[2J\u{9b}b\u{7f}\n"), "a\\u{1b}[2J\\u{9b}b\\u{7f}\\u{a}");
        assert_eq!(escaped("\u{202e}x\u{2066}"), "\\u{202e}x\\u{2066}");
    }

    #[test]
    fn of_a_result_only_colours_are_left() {
        let text = "\u{1b}[1;31mbreaks\u{1b}[0m\tx\n\u{1b}[2J\u{1b}";
        let coloured = "\u{1b}[1;31mbreaks\u{1b}[0m\tx\n\\u{1b}[2J\\u{1b}";
        assert_eq!(without_commands(text, Style::Coloured), coloured);
        assert_eq!(without_commands("\u{1b}[0ma°\n", Style::Plain), "\\u{1b}[0ma°\n");
    }

    #[test]
    fn a_span_is_where_its_characters_went() {
        let file = "a\u{1b}b\r\nc\rd\n\u{9b}e\tf";
        let shown = Excerpt::new(file);
        assert_eq!(shown.text, "a\\u{1b}b\r\nc\\u{d}d\n\\u{9b}e\tf");
        for c in ["a", "b", "c", "d", "e", "f"] {
            let at = file.find(c).unwrap();
            // The letter itself, not one of what was written out before it.
            assert_eq!(&shown.text[shown.span(at..at + 1)], c);
        }
        let control = file.find('\u{9b}').unwrap();
        assert_eq!(&shown.text[shown.span(control..control + 2)], "\\u{9b}");
    }
}
