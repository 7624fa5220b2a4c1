//! Draws in sizes on paper: coordinates are millimetres on paper from the part's own zero.

use crate::drawing::{Anchor, Dimension, Drawing, Point, Polyline, Shape, Text};

use super::label::Label;

/// Length of an arrowhead in text heights, and half its width: some 20 degrees at its tip (ISO
/// 129-1 has 15 to 90, from memory). Slimmer, and it is lost beside the lines.
const ARROW: [f64; 2] = [0.9, 0.16];

/// Between a dimension line and the words on it, in text heights. Less, and letters' tails touch the
/// line.
pub const LIFT: f64 = 0.35;
/// How far extension lines go beyond a dimension line, in text heights (ISO 129-1: slightly).
pub const BEYOND: f64 = 0.5;
/// Between the part and an extension line, on paper.
pub const GAP: f64 = 0.8;

/// A place on paper, from the part's zero: to the right, and upwards.
pub type Spot = [f64; 2];

/// Turns paper into the part's millimetres.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    /// Millimetres on paper per millimetre of the part.
    pub scale: f64,
    /// Height of a text's capitals on paper.
    pub height: f64,
}

impl Pen {
    /// A place on paper in the part's millimetres.
    pub fn point(self, [x, y]: Spot) -> Point {
        Point::new(x / self.scale, y / self.scale)
    }

    /// A point of the part, on paper.
    pub fn spot(self, p: Point) -> Spot {
        [p.x * self.scale, p.y * self.scale]
    }

    /// A straight line.
    pub fn line(self, from: Spot, to: Spot) -> Shape {
        Shape::Line([self.point(from), self.point(to)])
    }

    /// A chain of straight lines.
    pub fn path(self, spots: &[Spot]) -> Shape {
        Shape::Polyline(Polyline::straight(spots.iter().map(|s| self.point(*s)).collect()))
    }

    /// Length of an arrowhead on paper.
    pub fn arrow_length(self) -> f64 {
        ARROW[0] * self.height
    }

    /// An arrowhead at `tip` that points along `way`, of length one.
    pub fn arrow(self, tip: Spot, way: [f64; 2]) -> Shape {
        let [length, half] = ARROW.map(|size| size * self.height);
        let foot = [tip[0] - way[0] * length, tip[1] - way[1] * length];
        let barb = |side: f64| {
            self.point([foot[0] - way[1] * half * side, foot[1] + way[0] * half * side])
        };
        Shape::Triangle([self.point(tip), barb(1.0), barb(-1.0)])
    }

    /// Words; their height is the pen's.
    pub fn text(self, at: Spot, anchor: Anchor, words: &str) -> Text {
        Text::new(self.point(at), self.height / self.scale, anchor, words)
    }

    /// The width of words on paper.
    pub fn width(self, words: &str) -> f64 {
        Text::new(Point::new(0.0, 0.0), self.height, Anchor::Start, words).width()
    }

    /// Adds a size to a drawing.
    pub fn dimension(
        self,
        drawing: &mut Drawing,
        label: &Label,
        line: Spot,
        text: Text,
        picture: Vec<Shape>,
    ) {
        drawing.dimension(Dimension {
            measure: label.measure,
            line: self.point(line),
            words: label.pattern.clone(),
            decimals: label.decimals,
            factor: label.factor,
            text,
            picture,
        });
    }
}
