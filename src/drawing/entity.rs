//! Shapes on their layers, and all of them together.

use super::placing::Placing;
use super::{Dimension, Layer, Point, Polyline, Shade, Shape, Text};

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
