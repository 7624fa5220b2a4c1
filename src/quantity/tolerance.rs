//! A distance that must be more than nothing.

use super::Length;

/// A tolerance: a length above zero and finite, so that dividing by it or stepping by it ends.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Tolerance(Length);

impl Tolerance {
    /// A tolerance of this length; none when it is zero, below, or not finite.
    pub fn new(length: Length) -> Option<Self> {
        (length.is_finite() && length > Length::ZERO).then_some(Self(length))
    }

    /// The tolerance as a length.
    pub const fn length(self) -> Length {
        self.0
    }

    /// The tolerance in millimetres.
    pub const fn as_mm(self) -> f64 {
        self.0.as_mm()
    }
}

impl From<Tolerance> for Length {
    fn from(tolerance: Tolerance) -> Self {
        tolerance.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_is_no_tolerance() {
        for bad in [0.0, -0.0, -0.1, f64::NAN, f64::INFINITY] {
            assert!(Tolerance::new(Length::mm(bad)).is_none(), "{bad}");
        }
        assert_eq!(Tolerance::new(Length::mm(0.01)).map(Tolerance::as_mm), Some(0.01));
    }
}
