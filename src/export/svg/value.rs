//! How values are written: numbers, places, words.

use crate::drawing::Point;

/// Decimals of a coordinate: a tenth of a micrometre of the part, which no screen shows. Fewer
/// would bend the slightest tapers, more only fill the file.
const DECIMALS: usize = 4;

/// A number with at most [`DECIMALS`] decimals, without trailing zeros, and never -0.
pub fn number(value: f64) -> String {
    rounded(value, DECIMALS)
}

/// A number with at most so many decimals, at least one, without trailing zeros, and never -0.
pub fn rounded(value: f64, decimals: usize) -> String {
    let fixed = format!("{value:.decimals$}");
    let short = fixed.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// SVG's y grows downwards.
pub fn place(point: Point) -> [String; 2] {
    [number(point.x), number(-point.y)]
}

/// Places, as a polyline has them.
pub fn list(points: &[Point]) -> String {
    let pairs: Vec<String> = points.iter().map(|p| place(*p).join(",")).collect();
    pairs.join(" ")
}

/// Words as XML 1.0 takes them; what it can't hold at all becomes the replacement character.
pub fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\t' | '\n' | '\r' => text.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => text.push('\u{fffd}'),
            other => text.push(other),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_have_no_minus_zero() {
        let cases =
            [(-0.0, "0"), (-0.000_01, "0"), (10.0, "10"), (0.1 + 0.2, "0.3"), (-1.5, "-1.5")];
        for (value, text) in cases {
            assert_eq!(number(value), text);
        }
        assert_eq!(number(100.0), "100");
    }

    /// XML 1.0 (5th ed.) 2.2 and 2.4.
    #[test]
    fn words_can_not_break_the_file() {
        assert_eq!(escaped("a<b> & \"c\""), "a&lt;b&gt; &amp; &quot;c&quot;");
        assert_eq!(escaped("a\u{1}b\nc"), "a\u{fffd}b c");
    }
}
