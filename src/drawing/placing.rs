//! Shapes in another place and size.

use super::{Dimension, Measure, Point, Polyline, Segment, Shape, Text};

/// Takes `origin` to (0, 0) and divides by `scale`.
#[derive(Clone, Copy)]
pub struct Placing {
    pub scale: f64,
    pub origin: Point,
}

impl Placing {
    pub fn shape(self, shape: Shape) -> Shape {
        match shape {
            Shape::Point(at) => Shape::Point(self.point(at)),
            Shape::Line(ends) => Shape::Line(ends.map(|p| self.point(p))),
            Shape::Polyline(chain) => Shape::Polyline(self.chain(&chain)),
            Shape::Triangle(corners) => Shape::Triangle(corners.map(|p| self.point(p))),
            Shape::Area(corners, shade) => {
                Shape::Area(corners.into_iter().map(|p| self.point(p)).collect(), shade)
            }
            Shape::Text(text) => Shape::Text(self.text(text)),
            Shape::Dimension(dimension) => Shape::Dimension(Box::new(self.dimension(*dimension))),
        }
    }

    fn point(self, p: Point) -> Point {
        Point::new((p.x - self.origin.x) / self.scale, (p.y - self.origin.y) / self.scale)
    }

    /// Bulges are angles, and stay.
    fn chain(self, chain: &Polyline) -> Polyline {
        let placed = |s: Segment| Segment { from: self.point(s.from), to: self.point(s.to), ..s };
        Polyline::of(chain.segments().map(placed))
    }

    fn text(self, text: Text) -> Text {
        Text { at: self.point(text.at), height: text.height / self.scale, ..text }
    }

    fn dimension(self, dimension: Dimension) -> Dimension {
        Dimension {
            measure: self.measure(dimension.measure),
            line: self.point(dimension.line),
            text: self.text(dimension.text),
            picture: dimension.picture.into_iter().map(|shape| self.shape(shape)).collect(),
            ..dimension
        }
    }

    fn measure(self, measure: Measure) -> Measure {
        let p = |point| self.point(point);
        match measure {
            Measure::Length { from, to } => Measure::Length { from: p(from), to: p(to) },
            Measure::Diameter { at } => Measure::Diameter { at: p(at) },
            Measure::Radius { centre, on } => Measure::Radius { centre: p(centre), on: p(on) },
            Measure::Angle { apex, on } => Measure::Angle { apex: p(apex), on: p(on) },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Anchor, Drawing, Layer, Shade};

    /// Worked by hand: 5:1, the origin at (100, 50) on paper.
    #[test]
    fn every_kind_of_shape_is_moved_and_made_smaller() {
        let p = Point::new;
        let mut drawing = Drawing::default();
        drawing.line(Layer::Title, p(100.0, 50.0), p(150.0, 25.0));
        let arc = Segment { from: p(100.0, 50.0), to: p(110.0, 50.0), bulge: 1.0 };
        drawing.polyline(Layer::Title, Polyline::of([arc]));
        drawing.triangle(Layer::Title, [p(100.0, 50.0), p(105.0, 50.0), p(100.0, 55.0)]);
        drawing.area(
            Layer::Title,
            vec![p(95.0, 50.0), p(105.0, 50.0), p(100.0, 60.0)],
            Shade::Dark,
        );
        drawing.text(Layer::Title, Text::new(p(90.0, 45.0), 3.5, Anchor::End, "half").turned());
        let measure = Measure::Radius { centre: p(100.0, 50.0), on: p(115.0, 70.0) };
        drawing.dimension(Dimension {
            measure,
            line: p(115.0, 70.0),
            words: "R<>".into(),
            decimals: 1,
            factor: 1.0,
            text: Text::new(p(120.0, 75.0), 2.5, Anchor::Start, "R5"),
            picture: vec![Shape::Line([p(120.0, 75.0), p(115.0, 70.0)])],
        });
        let shapes: Vec<Shape> =
            drawing.placed(5.0, p(100.0, 50.0)).entities.into_iter().map(|e| e.shape).collect();
        assert_eq!(shapes[0], Shape::Line([p(0.0, 0.0), p(10.0, -5.0)]));
        let arc = Segment { from: p(0.0, 0.0), to: p(2.0, 0.0), bulge: 1.0 };
        assert_eq!(shapes[1], Shape::Polyline(Polyline::of([arc])));
        assert_eq!(shapes[2], Shape::Triangle([p(0.0, 0.0), p(1.0, 0.0), p(0.0, 1.0)]));
        let corners = vec![p(-1.0, 0.0), p(1.0, 0.0), p(0.0, 2.0)];
        assert_eq!(shapes[3], Shape::Area(corners, Shade::Dark));
        let text = Text::new(p(-2.0, -1.0), 0.7, Anchor::End, "half").turned();
        assert_eq!(shapes[4], Shape::Text(text));
        let Shape::Dimension(dimension) = &shapes[5] else { panic!("{:?}", shapes[5]) };
        assert_eq!((dimension.shown().as_str(), dimension.line), ("R5.0", p(3.0, 4.0)));
        assert_eq!((dimension.text.at, dimension.text.height), (p(4.0, 5.0), 0.5));
        assert_eq!(dimension.picture, [Shape::Line([p(4.0, 5.0), p(3.0, 4.0)])]);
    }
}
