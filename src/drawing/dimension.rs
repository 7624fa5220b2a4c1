//! Dimensions: what is measured between which points, and how that is drawn.

use super::{Point, Shape, Text};

/// What a dimension measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// A length along the axis.
    Length {
        /// On the datum.
        from: Point,
        /// On what is measured.
        to: Point,
    },
    /// A diameter: from a point to the same point on the other side of the axis.
    Diameter {
        /// The point; its y is the radius, or its negative.
        at: Point,
    },
    /// The radius of an arc.
    Radius {
        /// The arc's centre.
        centre: Point,
        /// A point of the arc.
        on: Point,
    },
    /// The angle of a cone of which the drawing's half-plane shows both sides.
    Angle {
        /// The cone's tip.
        apex: Point,
        /// A point of its surface; the other side is its mirror image.
        on: Point,
    },
}

impl Measure {
    /// The measured value, in millimetres or degrees.
    pub fn value(&self) -> f64 {
        match *self {
            Self::Length { from, to } => (to.x - from.x).abs(),
            Self::Diameter { at } => at.y.abs() * 2.0,
            Self::Radius { centre, on } => libm::hypot(on.x - centre.x, on.y - centre.y),
            Self::Angle { apex, on } => {
                2.0 * libm::atan2((on.y - apex.y).abs(), (on.x - apex.x).abs()).to_degrees()
            }
        }
    }
}

/// A dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// What it measures.
    pub measure: Measure,
    /// A point of the dimension line, or, where there is none, the arrow's tip.
    pub line: Point,
    /// What a reader shows: `<>` stands for the measured value, times [`Self::factor`], with
    /// [`Self::decimals`]. Where no `<>` is in it, as in a thread's designation, the words stand
    /// for themselves.
    pub words: String,
    /// Decimals of the value.
    pub decimals: usize,
    /// What a millimetre is shown as: 1, or 1/25.4 for inches. Angles are not multiplied.
    pub factor: f64,
    /// The words as drawn, with the value in its place.
    pub text: Text,
    /// Lines and arrowheads.
    pub picture: Vec<Shape>,
}

impl Dimension {
    /// The words, with the measured value in its place.
    pub fn shown(&self) -> String {
        let factor = if matches!(self.measure, Measure::Angle { .. }) { 1.0 } else { self.factor };
        let value = format!("{:.*}", self.decimals, self.measure.value() * factor);
        self.words.replace("<>", &value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Anchor;

    /// Source: plane geometry; a cone of 90 degrees is as long as its radius.
    #[test]
    fn values_are_measured_between_the_points() {
        let p = Point::new;
        let length = Measure::Length { from: p(2.0, 5.0), to: p(-1.0, 0.0) };
        assert_eq!(length.value(), 3.0);
        assert_eq!(Measure::Diameter { at: p(1.0, -4.0) }.value(), 8.0);
        assert_eq!(Measure::Radius { centre: p(1.0, 1.0), on: p(4.0, 5.0) }.value(), 5.0);
        let cone = Measure::Angle { apex: p(9.0, 0.0), on: p(5.0, 4.0) };
        assert!((cone.value() - 90.0).abs() < 1e-12);
    }

    #[test]
    fn the_value_stands_where_its_sign_is() {
        let at = Point::new(0.0, 0.0);
        let dimension = Dimension {
            measure: Measure::Diameter { at: Point::new(0.0, 6.35) },
            line: at,
            words: "\u{d8}<> \u{b1}0.001".to_owned(),
            decimals: 3,
            factor: 1.0 / 25.4,
            text: Text::new(at, 1.0, Anchor::Start, ""),
            picture: Vec::new(),
        };
        assert_eq!(dimension.shown(), "\u{d8}0.500 \u{b1}0.001");
    }
}
