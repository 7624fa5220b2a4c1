//! The two limits of a size.

use std::fmt;

use super::Length;

/// The least and the greatest size allowed (limits of size, ISO 286-1), or a span that holds one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    min: Length,
    max: Length,
}

impl Limits {
    /// Limits from `min` to `max`; none when they are the wrong way round or not finite.
    pub fn new(min: Length, max: Length) -> Option<Self> {
        (min.is_finite() && max.is_finite() && min <= max).then_some(Self { min, max })
    }

    /// One size, without a spread.
    pub const fn exactly(size: Length) -> Self {
        Self { min: size, max: size }
    }

    /// The limits at `distance` on either side of `mid`; the sign of the distance is dropped.
    pub fn around(mid: Length, distance: Length) -> Option<Self> {
        Self::new(mid - distance.abs(), mid + distance.abs())
    }

    /// The least size.
    pub const fn min(self) -> Length {
        self.min
    }

    /// The greatest size.
    pub const fn max(self) -> Length {
        self.max
    }

    /// The size half-way between the limits.
    pub fn mid(self) -> Length {
        self.min + (self.max - self.min) / 2.0
    }

    /// The distance between the limits: the tolerance of the size.
    pub fn width(self) -> Length {
        self.max - self.min
    }

    /// Whether a size lies between the limits or on one.
    pub fn contains(self, size: Length) -> bool {
        self.min <= size && size <= self.max
    }
}

impl fmt::Display for Limits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match f.precision() {
            Some(decimals) => {
                write!(f, "{:.decimals$} to {:.decimals$} mm", self.min.as_mm(), self.max.as_mm())
            }
            None => write!(f, "{} to {}", self.min, self.max),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keeps_its_order() {
        assert!(Limits::new(Length::mm(2.0), Length::mm(1.0)).is_none());
        assert!(Limits::new(Length::mm(f64::NAN), Length::mm(1.0)).is_none());
        assert!(Limits::new(Length::mm(1.0), Length::mm(f64::INFINITY)).is_none());
        let point = Limits::new(Length::mm(1.0), Length::mm(1.0)).expect("a point is a limit");
        assert_eq!(point.width(), Length::ZERO);
        assert_eq!(point.mid(), Length::mm(1.0));
    }

    #[test]
    fn contains_its_ends() {
        let limits = Limits::around(Length::mm(9.5), Length::mm(-0.5)).expect("ordered");
        assert!(limits.contains(Length::mm(9.0)) && limits.contains(Length::mm(10.0)));
        assert!(!limits.contains(Length::mm(8.999)) && !limits.contains(Length::mm(10.001)));
        assert_eq!(limits.mid(), Length::mm(9.5));
        assert_eq!(limits.to_string(), "9 mm to 10 mm");
        assert_eq!(format!("{limits:.2}"), "9.00 to 10.00 mm");
    }
}
