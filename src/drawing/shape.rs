//! What can be drawn, and where.

use super::{Dimension, Polyline, Shade, Text};

/// A point of a drawing, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Along the axis, from the finished front face.
    pub x: f64,
    /// From the axis, upwards.
    pub y: f64,
}

impl Point {
    /// A point at x and y. A zero loses its sign, for -0 and 0 are one place and must be one
    /// text in a file.
    pub fn new(x: f64, y: f64) -> Self {
        Self { x: x + 0.0, y: y + 0.0 }
    }

    /// The same point on the other side of the axis.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self::new(self.x, -self.y)
    }
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A straight line.
    Line([Point; 2]),
    /// Straight lines and arcs from each point to the next, open or closed.
    Polyline(Polyline),
    /// A place alone: an origin to set a tool by.
    Point(Point),
    /// A filled triangle: an arrowhead.
    Triangle([Point; 3]),
    /// A shaded polygon, from each corner to the next and from the last to the first.
    Area(Vec<Point>, Shade),
    /// Words.
    Text(Text),
    /// A dimension, with its picture.
    Dimension(Box<Dimension>),
}

impl Shape {
    /// The points that it is drawn through; for words, also a dimension's, the one that they
    /// stand at.
    pub fn points(&self) -> &[Point] {
        match self {
            Self::Line(points) => points,
            Self::Polyline(chain) => chain.points(),
            Self::Point(point) => std::slice::from_ref(point),
            Self::Triangle(points) => points,
            Self::Area(corners, _) => corners,
            Self::Text(text) => std::slice::from_ref(&text.at),
            Self::Dimension(dimension) => std::slice::from_ref(&dimension.text.at),
        }
    }
}

impl Shape {
    /// Points between which all of it lies, words with their estimated width.
    pub fn extremes(&self) -> Vec<Point> {
        match self {
            Self::Text(text) => text.corners().to_vec(),
            Self::Polyline(chain) => chain.extremes(),
            Self::Dimension(dimension) => {
                let lines = dimension.picture.iter().flat_map(Self::extremes);
                dimension.text.corners().into_iter().chain(lines).collect()
            }
            other => other.points().to_vec(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_zero_has_no_sign() {
        let p = Point::new(-0.0, 0.0).mirrored();
        assert!(p.x.is_sign_positive() && p.y.is_sign_positive());
    }
}
