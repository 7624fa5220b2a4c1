//! The bands of diameters that share their tolerances.

use crate::quantity::Length;

/// The ends of the bands in mm (ISO 965-1:1998 tables 2, 6 and 7); each is over its lower end, up
/// to and including its upper.
const ENDS: [f64; 10] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0];

/// A band of diameters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DiameterBand {
    index: usize,
}

impl DiameterBand {
    /// The band of a diameter; none at 0.99 mm and below or above 355 mm.
    pub fn of(diameter: Length) -> Option<Self> {
        let diameter = diameter.as_mm();
        ENDS.windows(2)
            .position(|ends| ends[0] < diameter && diameter <= ends[1])
            .map(|index| Self { index })
    }

    /// The end that is not in the band.
    pub fn lower(self) -> Length {
        Length::mm(ENDS[self.index])
    }

    /// The greatest diameter in the band.
    pub fn upper(self) -> Length {
        Length::mm(ENDS[self.index + 1])
    }

    /// The diameter that stands for the band in the formulas: the geometric mean of its ends.
    pub fn mean(self) -> Length {
        Length::mm((ENDS[self.index] * ENDS[self.index + 1]).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_belong_to_the_band_below() {
        let upper = |mm| DiameterBand::of(Length::mm(mm)).map(|band| band.upper().as_mm());
        assert_eq!(upper(11.2), Some(11.2));
        assert_eq!(upper(11.201), Some(22.4));
        assert_eq!(upper(0.99), None);
        assert_eq!(upper(1.0), Some(1.4));
        assert_eq!(upper(355.0), Some(355.0));
        assert_eq!(upper(355.1), None);
        assert_eq!(upper(f64::NAN), None);
    }
}
