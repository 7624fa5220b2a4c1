//! A length in millimetres.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Millimetres in an inch, exact since 1959 (international yard and pound agreement).
/// Any other value makes every inch drill a wrong hole.
const MM_PER_INCH: f64 = 25.4;

/// Decimals that [`Length`] shows unless told otherwise: a tenth of a micrometre, well below what
/// anyone measures at a bench. Fewer would hide the difference between 21/64 in and 8.33 mm;
/// more would show the noise of the arithmetic.
const SHOWN_DECIMALS: usize = 4;

/// A length in millimetres; its sign and size are judged by whoever uses it.
///
/// Shown in millimetres with up to four decimals, trailing zeros cut (`8.334 mm`); a precision
/// asks for a fixed number of decimals: `{:.2}` shows `8.33 mm`.
#[must_use]
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0.0);

    /// A length of so many millimetres.
    pub const fn mm(millimetres: f64) -> Self {
        Self(millimetres)
    }

    /// A length of so many inches (25.4 mm each).
    pub const fn inch(inches: f64) -> Self {
        Self(inches * MM_PER_INCH)
    }

    /// The length in millimetres.
    pub const fn as_mm(self) -> f64 {
        self.0
    }

    /// The length in inches.
    pub const fn as_inch(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// The length without its sign.
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The smaller of two lengths.
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The greater of two lengths.
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// Neither infinite nor "not a number".
    pub const fn is_finite(self) -> bool {
        self.0.is_finite()
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Mul<Length> for f64 {
    type Output = Length;
    fn mul(self, length: Length) -> Length {
        Length(self * length.0)
    }
}

impl Div<f64> for Length {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}

/// How many times one length goes into another.
impl Div for Length {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = match f.precision() {
            Some(decimals) => format!("{:.decimals$}", self.0),
            None => trimmed(self.0, SHOWN_DECIMALS),
        };
        write!(f, "{} mm", without_minus_zero(&number))
    }
}

/// A number with at most so many decimals, trailing zeros cut.
fn trimmed(value: f64, decimals: usize) -> String {
    let fixed = format!("{value:.decimals$}");
    if !fixed.contains('.') {
        return fixed;
    }
    fixed.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `-0.00` says nothing that `0.00` does not.
fn without_minus_zero(number: &str) -> &str {
    match number.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest,
        _ => number,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_is_25_4_mm() {
        assert_eq!(Length::inch(1.0), Length::mm(25.4));
        // 21/64 in is 8.334 mm: common practice, no source beyond the definition of the inch.
        assert_eq!(format!("{:.3}", Length::inch(21.0 / 64.0)), "8.334 mm");
        assert!((Length::mm(7.9375).as_inch() - 0.3125).abs() < 1e-15);
    }

    #[test]
    fn shows_what_is_there_and_no_more() {
        assert_eq!(Length::mm(8.334).to_string(), "8.334 mm");
        assert_eq!(Length::mm(12.0).to_string(), "12 mm");
        assert_eq!(Length::mm(100.0).to_string(), "100 mm");
        assert_eq!(Length::mm(7.9 - 0.6).to_string(), "7.3 mm");
        assert_eq!(Length::mm(0.12345).to_string(), "0.1235 mm");
        assert_eq!(Length::mm(-0.000_01).to_string(), "0 mm");
        assert_eq!(Length::mm(-1.5).to_string(), "-1.5 mm");
        assert_eq!(format!("{:.2}", Length::mm(1.5)), "1.50 mm");
        assert_eq!(format!("{:.0}", Length::mm(100.2)), "100 mm");
        assert_eq!(format!("{:.2}", Length::mm(-0.001)), "0.00 mm");
    }

    #[test]
    fn sums_and_scales() {
        let total: Length = [Length::mm(1.0), Length::mm(2.5)].into_iter().sum();
        assert_eq!(total, Length::mm(3.5));
        assert_eq!(2.0 * total - Length::mm(1.0), Length::mm(6.0));
        assert_eq!(total / 2.0, Length::mm(1.75));
        assert_eq!(total / Length::mm(7.0), 0.5);
        assert_eq!((-total).abs(), total);
        assert_eq!(total.min(Length::ZERO), Length::ZERO);
        assert_eq!(total.max(Length::ZERO), total);
    }
}
