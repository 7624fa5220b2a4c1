//! The drawing model: lines on layers, in millimetres of the part, for every writer.
//!
//! ```text
//!   y ^  radius: the upper half of the part is positive
//!     |
//!     +-----> x = z of the part: the finished front face lies at 0, on the left
//! ```
//! Line widths, patterns and what a sheet adds are sizes on paper.

mod dimension;
mod layer;
mod line_kind;
mod placing;
mod polyline;
mod shade;
mod sheet;
mod spread;
mod text;
mod wrap;

pub use dimension::{Dimension, Measure};
pub use layer::Layer;
pub use line_kind::LineKind;
use placing::Placing;
pub use polyline::{Polyline, Segment};
pub use shade::Shade;
pub use sheet::Sheet;
pub(super) use spread::spread;
pub use text::{Anchor, CAPITAL_PER_EM, Reads, Text};
pub(super) use wrap::{letters, wrap, wrap_by};

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

/// A shape on its layer.
#[derive(Clone, Debug, PartialEq)]
pub struct Entity {
    /// Gives it its line.
    pub layer: Layer,
    /// Gives it its place.
    pub shape: Shape,
}

/// A drawing: its entities in the order in which they are drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// Later ones lie over earlier ones.
    pub entities: Vec<Entity>,
}

impl Drawing {
    /// Adds a straight line; nothing where it has no length.
    pub fn line(&mut self, layer: Layer, from: Point, to: Point) {
        if from != to {
            self.entities.push(Entity { layer, shape: Shape::Line([from, to]) });
        }
    }

    /// Adds a chain of lines and arcs; nothing where there are not two points to join.
    pub fn polyline(&mut self, layer: Layer, chain: Polyline) {
        if chain.points().len() > 1 {
            self.entities.push(Entity { layer, shape: Shape::Polyline(chain) });
        }
    }

    /// Adds a place alone.
    pub fn point(&mut self, layer: Layer, point: Point) {
        self.entities.push(Entity { layer, shape: Shape::Point(point) });
    }

    /// Adds a filled triangle.
    pub fn triangle(&mut self, layer: Layer, corners: [Point; 3]) {
        self.entities.push(Entity { layer, shape: Shape::Triangle(corners) });
    }

    /// Adds a shaded polygon; nothing where it has no area to shade.
    pub fn area(&mut self, layer: Layer, corners: Vec<Point>, shade: Shade) {
        if corners.len() > 2 {
            self.entities.push(Entity { layer, shape: Shape::Area(corners, shade) });
        }
    }

    /// Adds words; nothing where there are none.
    pub fn text(&mut self, layer: Layer, text: Text) {
        if !text.words.is_empty() {
            self.entities.push(Entity { layer, shape: Shape::Text(text) });
        }
    }

    /// Adds a shape.
    pub fn add(&mut self, layer: Layer, shape: Shape) {
        self.entities.push(Entity { layer, shape });
    }

    /// Adds a dimension.
    pub fn dimension(&mut self, dimension: Dimension) {
        let shape = Shape::Dimension(Box::new(dimension));
        self.entities.push(Entity { layer: Layer::Dimension, shape });
    }

    /// The same drawing in another place and size: what is at `origin` comes to (0, 0), and
    /// everything is divided by `scale`. So what was laid out in mm on paper comes into a drawing
    /// of the part, of which (0, 0) lies at `origin` on paper.
    ///
    /// Letters shrink with it; a dimension then measures what it spans.
    #[must_use]
    pub fn placed(self, scale: f64, origin: Point) -> Self {
        let place = Placing { scale, origin };
        let placed = |entity: Entity| Entity { shape: place.shape(entity.shape), ..entity };
        Self { entities: self.entities.into_iter().map(placed).collect() }
    }

    /// The layers in use, in the order of [`Layer`].
    pub fn layers(&self) -> Vec<Layer> {
        let mut layers: Vec<Layer> = self.entities.iter().map(|e| e.layer).collect();
        layers.sort_unstable();
        layers.dedup();
        layers
    }

    /// The least and the greatest x and y of everything drawn, words with their estimated width;
    /// none where nothing is drawn.
    pub fn extents(&self) -> Option<[Point; 2]> {
        let corners = self.entities.iter().flat_map(|entity| entity.shape.extremes());
        corners.fold(None, |found, p| {
            let [low, high] = found.unwrap_or([p, p]);
            Some([
                Point::new(low.x.min(p.x), low.y.min(p.y)),
                Point::new(high.x.max(p.x), high.y.max(p.y)),
            ])
        })
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

    #[test]
    fn extents_and_layers_are_those_of_what_is_drawn() {
        let mut drawing = Drawing::default();
        assert_eq!(drawing.extents(), None);
        drawing.line(Layer::Axis, Point::new(-1.0, 0.0), Point::new(5.0, 0.0));
        let points = vec![Point::new(0.0, -2.0), Point::new(4.0, 3.0)];
        drawing.polyline(Layer::Outline, Polyline::straight(points));
        drawing.line(Layer::Bore, Point::new(9.0, 9.0), Point::new(9.0, 9.0));
        assert_eq!(drawing.extents(), Some([Point::new(-1.0, -2.0), Point::new(5.0, 3.0)]));
        assert_eq!(drawing.layers(), [Layer::Outline, Layer::Axis]);
    }
}
