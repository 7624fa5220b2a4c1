//! Lengths as people write them.
//!
//! ```text
//! length   = [sign] amount [unit]
//! amount   = decimal | fraction | whole (" " | "-") fraction      12.5   5/16   1 3/8   1-3/8
//! unit     = "mm" | "in" | "inch"                                 none means mm
//! ```
//! A fraction needs its unit: `5/16` alone is an inch drill to one reader and 0.3125 mm to another.

use std::fmt;

use super::Length;

/// Why a text is no length.
#[derive(Clone, Debug, PartialEq)]
pub enum LengthError {
    /// Nothing is written.
    Empty,
    /// What stands where the number should be is none; holds that text.
    NotANumber(String),
    /// The number is infinite or too large to hold.
    NotFinite(String),
    /// A comma stands in the number; holds the text with a point in its place.
    Comma(String),
    /// The unit is none of those that work; holds the unit.
    UnknownUnit(String),
    /// The fraction divides by zero.
    ZeroDenominator(String),
    /// The fraction behind a whole number is one or more, as in `1 9/8`.
    ImproperFraction(String),
    /// A fraction without a unit; holds the fraction.
    FractionWithoutUnit(String),
}

impl LengthError {
    /// What to write instead.
    pub fn hint(&self) -> String {
        match self {
            Self::Empty | Self::NotANumber(_) | Self::NotFinite(_) => {
                "write a length such as 12.5 mm, 5/16 in, 1 3/8 in or 0.3281 in".to_owned()
            }
            Self::Comma(with_point) => format!("write a decimal point: {with_point}"),
            Self::UnknownUnit(_) => "the units are mm, in and inch; no unit means mm".to_owned(),
            Self::ZeroDenominator(_) => "write a fraction such as 5/16 in".to_owned(),
            Self::ImproperFraction(_) => {
                "write the fraction below one, as in 1 3/8 in, or one fraction, as in 11/8 in"
                    .to_owned()
            }
            Self::FractionWithoutUnit(fraction) => format!("write {fraction} in"),
        }
    }
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "there is no length"),
            Self::NotANumber(text) => write!(f, "`{text}` is not a number"),
            Self::NotFinite(text) => write!(f, "`{text}` is not a finite number"),
            Self::Comma(_) => write!(f, "a comma is not a decimal point"),
            Self::UnknownUnit(unit) => write!(f, "unknown unit `{unit}`"),
            Self::ZeroDenominator(text) => write!(f, "`{text}` divides by zero"),
            Self::ImproperFraction(text) => write!(f, "the fraction in `{text}` is not below one"),
            Self::FractionWithoutUnit(text) => write!(f, "the fraction `{text}` has no unit"),
        }
    }
}

impl std::error::Error for LengthError {}

/// The length that a text says: `12.5`, `12.5 mm`, `5/16 in`, `1 3/8 in`, `0.3281 inch`.
///
/// Blanks around it and between number and unit do not count; the unit's case does not either.
/// A negative length is a length: who uses it judges its sign.
///
/// # Errors
/// The first thing that is wrong, reading from the left; [`LengthError::hint`] says what works.
pub fn parse_length(text: &str) -> Result<Length, LengthError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LengthError::Empty);
    }
    if text.contains(',') {
        return Err(LengthError::Comma(text.replace(',', ".")));
    }
    let (sign, unsigned) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').map_or(text, str::trim_start)),
    };
    let lower = unsigned.to_ascii_lowercase();
    if ["inf", "infinity", "nan"].contains(&lower.as_str()) {
        return Err(LengthError::NotFinite(text.to_owned()));
    }
    let (amount, unit) = split_unit(unsigned);
    if amount.is_empty() {
        return Err(LengthError::NotANumber(text.to_owned()));
    }
    let amount = Amount::read(amount)?;
    let length = match unit.to_ascii_lowercase().as_str() {
        "" => match amount {
            Amount::Fraction { .. } => {
                return Err(LengthError::FractionWithoutUnit(text.to_owned()));
            }
            Amount::Decimal(_) => amount.times(Length::mm(1.0)),
        },
        "mm" => amount.times(Length::mm(1.0)),
        "in" | "inch" => amount.times(Length::inch(1.0)),
        _ => return Err(LengthError::UnknownUnit(unit.to_owned())),
    };
    if length.is_finite() {
        Ok(length * sign)
    } else {
        Err(LengthError::NotFinite(text.to_owned()))
    }
}

/// The number and the unit behind it, each without blanks around it.
fn split_unit(text: &str) -> (&str, &str) {
    let is_of_number = |c: char| c.is_ascii_digit() || c.is_whitespace() || "./-+".contains(c);
    let end = text.find(|c| !is_of_number(c)).unwrap_or(text.len());
    (text[..end].trim(), text[end..].trim())
}

/// An amount as written; a fraction keeps its terms so that 5/16 in is exactly 7.9375 mm.
#[derive(Clone, Copy)]
enum Amount {
    Decimal(f64),
    Fraction { numerator: f64, denominator: f64 },
}

impl Amount {
    fn read(text: &str) -> Result<Self, LengthError> {
        let Some((before, denominator)) = text.split_once('/') else {
            return decimal(text).map(Self::Decimal);
        };
        let (whole, numerator) = match before.trim().rsplit_once([' ', '-']) {
            Some((whole, numerator)) => (digits(whole.trim(), text)?, numerator),
            None => (0.0, before),
        };
        let mixed = before.trim().contains([' ', '-']);
        let numerator = digits(numerator.trim(), text)?;
        let denominator = digits(denominator.trim(), text)?;
        if denominator == 0.0 {
            return Err(LengthError::ZeroDenominator(text.to_owned()));
        }
        if mixed && numerator >= denominator {
            return Err(LengthError::ImproperFraction(text.to_owned()));
        }
        Ok(Self::Fraction { numerator: whole * denominator + numerator, denominator })
    }

    fn times(self, unit: Length) -> Length {
        match self {
            Self::Decimal(value) => unit * value,
            Self::Fraction { numerator, denominator } => unit * numerator / denominator,
        }
    }
}

/// A number of digits with at most one point among them.
fn decimal(text: &str) -> Result<f64, LengthError> {
    let not_a_number = || LengthError::NotANumber(text.to_owned());
    if !text.chars().all(|c| c.is_ascii_digit() || c == '.') {
        return Err(not_a_number());
    }
    text.parse().map_err(|_| not_a_number())
}

/// A whole number, named in errors by the text it stands in.
fn digits(part: &str, text: &str) -> Result<f64, LengthError> {
    let not_a_number = || LengthError::NotANumber(text.to_owned());
    if part.is_empty() || !part.chars().all(|c| c.is_ascii_digit()) {
        return Err(not_a_number());
    }
    part.parse().map_err(|_| not_a_number())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> f64 {
        parse_length(text).unwrap_or_else(|error| panic!("{text}: {error}")).as_mm()
    }

    #[test]
    fn reads_what_people_write() {
        assert_eq!(mm("12.5"), 12.5);
        assert_eq!(mm(" 12.5mm "), 12.5);
        assert_eq!(mm(".5 MM"), 0.5);
        assert_eq!(mm("5/16 in"), 7.9375);
        assert_eq!(mm("5 / 16in"), 7.9375);
        assert_eq!(mm("1 3/8 in"), 34.925);
        assert_eq!(mm("1-3/8 inch"), 34.925);
        assert!((mm("0.3281 in") - 8.333_74).abs() < 1e-12);
        assert_eq!(mm("-2 mm"), -2.0);
        assert_eq!(mm("- 1 3/8 in"), -34.925);
        assert_eq!(mm("+2"), 2.0);
        assert_eq!(mm("1/2 mm"), 0.5);
    }

    #[test]
    fn refuses_the_rest_and_says_what_works() {
        use LengthError as E;
        let cases = [
            ("", E::Empty),
            ("  ", E::Empty),
            ("mm", E::NotANumber("mm".into())),
            ("abc", E::NotANumber("abc".into())),
            ("1.2.3", E::NotANumber("1.2.3".into())),
            (".", E::NotANumber(".".into())),
            ("--1", E::NotANumber("-1".into())),
            ("1 2 mm", E::NotANumber("1 2".into())),
            ("5/ in", E::NotANumber("5/".into())),
            ("1/2/3 in", E::NotANumber("1/2/3".into())),
            ("1.5 3/8 in", E::NotANumber("1.5 3/8".into())),
            ("1 9/8 in", E::ImproperFraction("1 9/8".into())),
            ("1/0 in", E::ZeroDenominator("1/0".into())),
            ("inf", E::NotFinite("inf".into())),
            ("NaN", E::NotFinite("NaN".into())),
            ("12,5 mm", E::Comma("12.5 mm".into())),
            ("5/16", E::FractionWithoutUnit("5/16".into())),
            ("0.5\"", E::UnknownUnit("\"".into())),
            ("3 cm", E::UnknownUnit("cm".into())),
            ("1e3", E::UnknownUnit("e3".into())),
        ];
        for (text, expected) in cases {
            let error = parse_length(text).expect_err(text);
            assert_eq!(error, expected, "{text}");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
        let long = "9".repeat(400);
        assert_eq!(parse_length(&long), Err(E::NotFinite(long.clone())));
        assert_eq!(E::Comma("12.5 mm".into()).hint(), "write a decimal point: 12.5 mm");
        assert_eq!(E::FractionWithoutUnit("5/16".into()).hint(), "write 5/16 in");
    }
}
