//! Numbers and words as ISO 10303-21 has them.

use std::fmt::Write as _;

/// A real: the shortest digits that read back as the same value, always with a point.
///
/// Source: ISO 10303-21, 6.3.2 (real: digits, a full stop, digits or none, perhaps E and an
/// exponent).
pub(super) fn real(value: f64) -> String {
    /// Decimal exponents between which digits are written out: beyond, zeros only fill the file.
    const PLAIN: std::ops::Range<i32> = -5..15;
    let value = value + 0.0;
    let scientific = format!("{value:e}");
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    if value == 0.0 || PLAIN.contains(&exponent) {
        let plain = format!("{value}");
        return if plain.contains('.') { plain } else { plain + "." };
    }
    let point = if mantissa.contains('.') { "" } else { "." };
    format!("{mantissa}{point}E{exponent}")
}

/// A point or direction: three reals in brackets.
pub(super) fn triple(values: [f64; 3]) -> String {
    let [x, y, z] = values.map(real);
    format!("({x},{y},{z})")
}

/// A string in its apostrophes: these and the backslash doubled, what is not ASCII in hexadecimal.
///
/// Source: ISO 10303-21, 6.3.3 (`\X2\` for four digits a character, `\X4\` for eight).
pub(super) fn text(words: &str) -> String {
    let mut out = String::from("'");
    let mut open: Option<usize> = None;
    for letter in words.chars() {
        let wide = match letter {
            ' '..='~' => None,
            _ if u32::from(letter) <= 0xFFFF => Some(4),
            _ => Some(8),
        };
        if open != wide {
            if open.is_some() {
                out.push_str("\\X0\\");
            }
            if let Some(digits) = wide {
                out.push_str(if digits == 4 { "\\X2\\" } else { "\\X4\\" });
            }
            open = wide;
        }
        match (wide, letter) {
            (Some(digits), _) => {
                // Writing to a String can't fail.
                let _ = write!(out, "{:0digits$X}", u32::from(letter));
            }
            (None, '\'' | '\\') => out.extend([letter, letter]),
            (None, _) => out.push(letter),
        }
    }
    if open.is_some() {
        out.push_str("\\X0\\");
    }
    out.push('\'');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reals_have_a_point_and_read_back() {
        for (value, written) in [
            (0.0, "0."),
            (-0.0, "0."),
            (1.0, "1."),
            (-12.5, "-12.5"),
            (0.1 + 0.2, "0.30000000000000004"),
            (1e-5, "0.00001"),
            (1.25e-7, "1.25E-7"),
            (-2e-9, "-2.E-9"),
            (1e15, "1.E15"),
            (1.5e300, "1.5E300"),
            (123_456_789.0, "123456789."),
            (std::f64::consts::PI, "3.141592653589793"),
        ] {
            assert_eq!(real(value), written);
            assert_eq!(written.parse::<f64>().unwrap(), value);
        }
    }

    /// Source: ISO 10303-21, 6.3.3, and its table of examples (CAT, don't, and a Greek letter).
    #[test]
    fn strings_are_escaped() {
        for (words, written) in [
            ("CAT", "'CAT'"),
            ("don't", "'don''t'"),
            ("a\\b", "'a\\\\b'"),
            ("Füller", "'F\\X2\\00FC\\X0\\ller'"),
            ("αβ c", "'\\X2\\03B103B2\\X0\\ c'"),
            ("🖋ü", "'\\X4\\0001F58B\\X0\\\\X2\\00FC\\X0\\'"),
            ("", "''"),
        ] {
            assert_eq!(text(words), written);
        }
    }
}
