//! A drill by its diameter and name, and how people write one.

use std::fmt;

use super::DrillName;
use crate::quantity::{Length, LengthError, parse_length};

/// A drill: its diameter, and its name if it is an inch size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrillSize {
    diameter: Length,
    name: Option<DrillName>,
}

impl DrillSize {
    /// A drill of this diameter and no name.
    ///
    /// # Errors
    /// [`SizeError::NotPositive`].
    pub fn of(diameter: Length) -> Result<Self, SizeError> {
        if diameter.is_finite() && diameter > Length::ZERO {
            Ok(Self { diameter, name: None })
        } else {
            Err(SizeError::NotPositive(diameter))
        }
    }

    /// The diameter.
    pub const fn diameter(self) -> Length {
        self.diameter
    }

    /// The name, if it is an inch size.
    pub const fn name(self) -> Option<DrillName> {
        self.name
    }
}

impl From<DrillName> for DrillSize {
    fn from(name: DrillName) -> Self {
        Self { diameter: name.diameter(), name: Some(name) }
    }
}

/// `7.3 mm`, or name and millimetres: `5/16 in (7.938 mm)`.
impl fmt::Display for DrillSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.name {
            Some(name) => write!(f, "{name} ({:.3})", self.diameter),
            None => self.diameter.fmt(f),
        }
    }
}

/// Why a text is no drill size.
#[derive(Clone, Debug, PartialEq)]
pub enum SizeError {
    /// It is no length either.
    Length(LengthError),
    /// The diameter is not above zero.
    NotPositive(Length),
    /// There is no such number drill; holds what stands for the number.
    NoSuchNumber(String),
    /// There is no such letter drill; holds what stands for the letter.
    NoSuchLetter(String),
    /// A letter that stands alone.
    BareLetter(char),
}

impl SizeError {
    /// What to write instead.
    pub fn hint(&self) -> String {
        match self {
            Self::Length(LengthError::Empty | LengthError::NotANumber(_)) => {
                "write a drill such as 7.3 mm, 5/16 in, #7 or letter F".to_owned()
            }
            Self::Length(error) => error.hint(),
            Self::NotPositive(_) => "a diameter above zero, such as 7.3 mm".to_owned(),
            Self::NoSuchNumber(_) => range("number drills", DrillName::numbers()),
            Self::NoSuchLetter(_) => range("letter drills", DrillName::letters()),
            Self::BareLetter(letter) => format!("write letter {}", letter.to_ascii_uppercase()),
        }
    }
}

/// What a series offers: `number drills run from #1 (5.791 mm) to #80 (0.343 mm)`.
fn range(series: &str, mut names: impl DoubleEndedIterator<Item = DrillName>) -> String {
    let ends = names.next().zip(names.next_back());
    ends.map_or_else(String::new, |(first, last)| {
        format!("{series} run from {} to {}", DrillSize::from(first), DrillSize::from(last))
    })
}

impl fmt::Display for SizeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(error) => error.fmt(f),
            Self::NotPositive(diameter) => write!(f, "a drill of {diameter} is none"),
            Self::NoSuchNumber(number) => write!(f, "there is no number drill `{number}`"),
            Self::NoSuchLetter(letter) => write!(f, "there is no letter drill `{letter}`"),
            Self::BareLetter(letter) => write!(f, "`{letter}` alone is no drill size"),
        }
    }
}

impl std::error::Error for SizeError {}

/// The drill that a text names: a length as [`parse_length`] reads it, `#7` (`no 7`, `no. 7`,
/// `number 7`), or `letter F`. A length in inches that is a whole number of 64ths gets its name.
///
/// # Errors
/// The first thing that is wrong; [`SizeError::hint`] says what works.
pub fn parse_size(text: &str) -> Result<DrillSize, SizeError> {
    let text = text.trim();
    let lower = text.to_ascii_lowercase();
    if let Some(number) = ["#", "number", "no.", "no"].iter().find_map(|p| lower.strip_prefix(p)) {
        let number = number.trim();
        let digits = number.chars().all(|c| c.is_ascii_digit());
        let name = number.parse().ok().filter(|_| digits).and_then(DrillName::number);
        return name.map(DrillSize::from).ok_or_else(|| SizeError::NoSuchNumber(number.to_owned()));
    }
    if let Some(letter) = lower.strip_prefix("letter") {
        let mut letters = letter.trim().chars();
        let name = letters.next().filter(|_| letters.next().is_none()).and_then(DrillName::letter);
        return name
            .map(DrillSize::from)
            .ok_or_else(|| SizeError::NoSuchLetter(letter.trim().to_owned()));
    }
    let mut letters = text.chars();
    if let (Some(letter), None) = (letters.next(), letters.next())
        && letter.is_ascii_alphabetic()
    {
        return Err(SizeError::BareLetter(letter));
    }
    let diameter = parse_length(text).map_err(SizeError::Length)?;
    let size = DrillSize::of(diameter)?;
    let in_inches = lower.ends_with("in") || lower.ends_with("inch");
    let name = if in_inches { fraction_of(diameter) } else { None };
    Ok(name.map_or(size, DrillSize::from))
}

/// The fractional drill of exactly this diameter.
fn fraction_of(diameter: Length) -> Option<DrillName> {
    /// Above the noise of the arithmetic, below the last digit of any decimal that people write
    /// for a fraction: 0.328 in is not 21/64 in.
    const SAME: f64 = 1e-9;
    let count = diameter.as_inch() * 64.0;
    if (count - count.round()).abs() > SAME || count > f64::from(u16::MAX) {
        return None;
    }
    DrillName::sixty_fourths(count.round() as u16)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_the_trade_writes() {
        // Common practice, no source: these are the names on drills.
        for (text, shown) in [
            ("7.3", "7.3 mm"),
            ("5/16 in", "5/16 in (7.938 mm)"),
            ("0.3125 in", "5/16 in (7.938 mm)"),
            ("11/32 inch", "11/32 in (8.731 mm)"),
            ("21/64in", "21/64 in (8.334 mm)"),
            ("0.328 in", "8.3312 mm"),
            ("1 3/8 in", "1 3/8 in (34.925 mm)"),
            ("7.9375 mm", "7.9375 mm"),
            ("#7", "#7 (5.105 mm)"),
            ("# 80", "#80 (0.343 mm)"),
            ("no 7", "#7 (5.105 mm)"),
            ("No. 7", "#7 (5.105 mm)"),
            ("number 7", "#7 (5.105 mm)"),
            ("letter F", "letter F (6.528 mm)"),
            ("Letter f", "letter F (6.528 mm)"),
        ] {
            let size = parse_size(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(size.to_string(), shown, "{text}");
        }
    }

    #[test]
    fn refuses_with_a_hint() {
        use SizeError as E;
        let cases = [
            ("", E::Length(LengthError::Empty)),
            ("wide", E::Length(LengthError::NotANumber("wide".into()))),
            ("0 mm", E::NotPositive(Length::ZERO)),
            ("-5/16 in", E::NotPositive(Length::mm(-7.9375))),
            ("#81", E::NoSuchNumber("81".into())),
            ("#0", E::NoSuchNumber("0".into())),
            ("#", E::NoSuchNumber(String::new())),
            ("#+7", E::NoSuchNumber("+7".into())),
            ("#7.5", E::NoSuchNumber("7.5".into())),
            ("letter AA", E::NoSuchLetter("aa".into())),
            ("letter 7", E::NoSuchLetter("7".into())),
            ("letter", E::NoSuchLetter(String::new())),
            ("f", E::BareLetter('f')),
        ];
        for (text, expected) in cases {
            let error = parse_size(text).expect_err(text);
            assert_eq!(error, expected, "{text}");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
        let hint = "number drills run from #1 (5.791 mm) to #80 (0.343 mm)";
        assert_eq!(E::NoSuchNumber("81".into()).hint(), hint);
        assert_eq!(E::BareLetter('f').hint(), "write letter F");
    }
}
