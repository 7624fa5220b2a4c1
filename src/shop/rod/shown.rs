//! How a rod's lengths are written.

use crate::quantity::Length;

/// Writes lengths: in millimetres, or with inches beside.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Shown {
    /// Whether inches of 25.4 mm stand beside.
    pub inches: bool,
}

impl Shown {
    /// A length in a sentence: `34.35 mm`, or `34.35 mm (1.352 in)`. Hundredths are more than any
    /// saw holds.
    pub fn length(self, length: Length) -> String {
        let mm = Length::mm((length.as_mm() * 100.0).round() / 100.0);
        if self.inches { format!("{mm} ({:.3} in)", length.as_inch()) } else { mm.to_string() }
    }

    /// A length in a column: `34.35`, or `34.35 (1.352)`.
    pub fn cell(self, length: Length) -> String {
        let mm = length.as_mm() + 0.0;
        if self.inches {
            format!("{mm:.2} ({:.3})", length.as_inch() + 0.0)
        } else {
            format!("{mm:.2}")
        }
    }

    /// The unit of such a column.
    pub const fn unit(self) -> &'static str {
        if self.inches { "mm (in)" } else { "mm" }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_stand_beside() {
        let length = Length::mm(34.927);
        assert_eq!(Shown::default().length(length), "34.93 mm");
        assert_eq!(Shown { inches: true }.length(length), "34.93 mm (1.375 in)");
        assert_eq!(Shown { inches: true }.cell(length), "34.93 (1.375)");
        assert_eq!(Shown::default().cell(Length::ZERO), "0.00");
    }
}
