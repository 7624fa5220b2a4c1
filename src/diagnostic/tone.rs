//! Colour for words on the screen.

use anstyle::{AnsiColor, Color, Style as Ansi};

use super::Style;

/// What a word's colour says. Colour never says it alone: the word does too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// All is well.
    Good,
    /// Look at this.
    Watch,
    /// This fails.
    Bad,
    /// Beside the point.
    Faint,
    /// A heading.
    Strong,
}

/// A text in its tone; as it is where the style is plain.
pub fn paint(text: &str, tone: Tone, style: Style) -> String {
    if style == Style::Plain {
        return text.to_owned();
    }
    let colour = |c: AnsiColor| Ansi::new().fg_color(Some(Color::Ansi(c)));
    let ansi = match tone {
        Tone::Good => colour(AnsiColor::Green),
        Tone::Watch => colour(AnsiColor::Yellow).bold(),
        Tone::Bad => colour(AnsiColor::Red).bold(),
        Tone::Faint => Ansi::new().dimmed(),
        Tone::Strong => Ansi::new().bold(),
    };
    format!("{ansi}{text}{ansi:#}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_text_stays_plain() {
        assert_eq!(paint("holds", Tone::Good, Style::Plain), "holds");
        assert_eq!(paint("holds", Tone::Good, Style::Coloured), "\u{1b}[32mholds\u{1b}[0m");
    }
}
