//! The flutes of a tap.

use super::{TENTHS, up};
use crate::quantity::Length;

/// A tap's flutes, as they are milled with a ball-ended cutter along the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flutes {
    /// How many.
    pub count: u32,
    /// Their form.
    pub form: &'static str,
    /// Radius of their bottom.
    pub radius: Length,
    /// Diameter that is left between them.
    pub core: Length,
}

impl Flutes {
    /// From this diameter on a tap has four flutes, below three (common practice, no source):
    /// four leave a thinner tap no core.
    const FOUR_FROM: Length = Length::mm(6.0);

    /// The flutes of a tap of this major diameter, about as wide as the lands between them
    /// (common practice, no source): wider, and the core twists off; narrower, and chips pack.
    pub(super) fn of(major: Length) -> Self {
        const CORE: f64 = 0.45;
        let (count, radius) = if major < Self::FOUR_FROM { (3, 0.25) } else { (4, 0.2) };
        let [radius, core] = [radius, CORE].map(|share| up(major * share, TENTHS));
        Self { count, form: "straight, round-bottomed", radius, core }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Plane geometry: a cutter's circle and the tap's meet at half the angle of a flute, by the
    /// law of cosines; flutes take between a third and three fifths of the circle.
    #[test]
    fn flutes_are_about_as_wide_as_lands() {
        for tenths in 30..=160 {
            let major = Length::mm(f64::from(tenths) / 10.0);
            let flutes = Flutes::of(major);
            let (r, c) =
                (flutes.radius / major * 2.0, flutes.core / major + flutes.radius / major * 2.0);
            let half = libm::acos((1.0 + c * c - r * r) / (2.0 * c));
            let share = 2.0 * half * f64::from(flutes.count) / std::f64::consts::TAU;
            assert!((0.33..0.6).contains(&share), "{major}: {share}");
        }
    }
}
