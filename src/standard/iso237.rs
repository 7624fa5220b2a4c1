//! ISO 237:1975, the shanks of turned tools and the squares that drive them. From memory.

use crate::quantity::Length;

/// A shank with its square.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SquaredShank {
    /// The shank's diameter.
    pub diameter: Length,
    /// The square, across its flats.
    pub across_flats: Length,
    /// The square, along the axis, at the shank's end.
    pub square_length: Length,
}

/// Diameter, square across its flats and its length, in mm.
const SIZES: [(f64, f64, f64); 16] = [
    (2.5, 2.0, 4.0),
    (2.8, 2.24, 5.0),
    (3.15, 2.5, 5.0),
    (3.55, 2.8, 5.0),
    (4.0, 3.15, 6.0),
    (4.5, 3.55, 6.0),
    (5.0, 4.0, 7.0),
    (5.6, 4.5, 7.0),
    (6.3, 5.0, 8.0),
    (7.1, 5.6, 8.0),
    (8.0, 6.3, 9.0),
    (9.0, 7.1, 10.0),
    (10.0, 8.0, 11.0),
    (11.2, 9.0, 12.0),
    (12.5, 10.0, 13.0),
    (14.0, 11.2, 14.0),
];

/// The widest shank that is no wider than a diameter, the narrowest of all where none is.
pub fn shank_within(diameter: Length) -> SquaredShank {
    let fits = SIZES.iter().rfind(|size| size.0 <= diameter.as_mm());
    let (shank, flats, length) = *fits.unwrap_or(&SIZES[0]);
    let [diameter, across_flats, square_length] = [shank, flats, length].map(Length::mm);
    SquaredShank { diameter, across_flats, square_length }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: ISO 3, R20: diameters and squares are both of that series, the square two members
    /// below its shank, a ratio of 10^-0.1; its corners are therefore cut by the shank (a square
    /// whole on its shank is 0.707 of it).
    #[test]
    fn squares_are_two_members_below_their_shanks() {
        for (shank, flats, _) in SIZES {
            let ratio = flats / shank;
            assert!((ratio / libm::pow(10.0, -0.1) - 1.0).abs() < 0.013, "{shank}: {ratio}");
        }
        assert!(SIZES.windows(2).all(|w| w[0].0 < w[1].0 && w[0].2 <= w[1].2));
    }

    #[test]
    fn the_widest_within_is_taken() {
        for (diameter, shank) in [(8.1, 8.0), (8.0, 8.0), (7.99, 7.1), (1.0, 2.5), (40.0, 14.0)] {
            assert_eq!(shank_within(Length::mm(diameter)).diameter, Length::mm(shank));
        }
    }
}
