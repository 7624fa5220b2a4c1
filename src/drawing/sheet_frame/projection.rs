//! The sign of first angle projection.

use super::Area;
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment};

/// A truncated cone from the side, and what is seen from its narrow end to the right of it: the
/// view from the left stands on the right in first angle projection (ISO 5456-2:1996, ISO 128).
///
/// Proportions, in diameters of the narrow end (from memory): wide end 2, length 2, from the cone
/// to the middle of the circles 2.
pub fn first_angle(drawing: &mut Drawing, room: Area) {
    let d = (room.width() / LENGTH).min(room.height() / HEIGHT);
    let Point { x, y } = room.centre();
    let left = x - d * (LENGTH / 2.0 - AXIS_BEYOND);
    let at = |along: f64, up: f64| Point::new(left + along * d, y + up * d);
    let cone = [at(0.0, -0.5), at(2.0, -1.0), at(2.0, 1.0), at(0.0, 0.5), at(0.0, -0.5)];
    drawing.polyline(Layer::Title, Polyline::straight(cone.to_vec()));
    let middle = 2.0 + APART;
    for radius in [0.5, 1.0] {
        let half = |from: f64| Segment {
            from: at(middle + from * radius, 0.0),
            to: at(middle - from * radius, 0.0),
            bulge: 1.0,
        };
        drawing.polyline(Layer::Title, Polyline::of([half(1.0), half(-1.0)]));
    }
    let reach = 1.0 + AXIS_BEYOND;
    axis(drawing, at(-AXIS_BEYOND, 0.0), at(2.0 + AXIS_BEYOND, 0.0));
    drawing.line(Layer::Title, at(middle - reach, 0.0), at(middle + reach, 0.0));
    drawing.line(Layer::Title, at(middle, -reach), at(middle, reach));
}

/// From the cone's wide end to the middle of the circles, in diameters of the narrow end.
const APART: f64 = 2.0;
/// Axes go beyond what they are axes of by this much, in the same. Less, and they end at it.
const AXIS_BEYOND: f64 = 0.25;
/// All of it, in the same: cone, gap, circles, axes.
const LENGTH: f64 = 2.0 + APART + 1.0 + 2.0 * AXIS_BEYOND;
const HEIGHT: f64 = 2.0 * (1.0 + AXIS_BEYOND);

/// An axis too short for the pattern of its line: dash, dot, dash (as parts of its length).
fn axis(drawing: &mut Drawing, from: Point, to: Point) {
    let at =
        |part: f64| Point::new(from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part);
    for [a, b] in [[0.0, 0.42], [0.48, 0.52], [0.58, 1.0]] {
        drawing.line(Layer::Title, at(a), at(b));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5456-2: the circles stand where the view from the narrow end belongs. In first angle
    /// that is on the far side, next to the wide end.
    #[test]
    fn the_narrow_end_looks_away_from_the_circles() {
        let mut drawing = Drawing::default();
        let room = Area::new([0.0, 0.0], [44.0, 20.0]);
        first_angle(&mut drawing, room);
        let chains: Vec<Vec<Point>> = drawing
            .entities
            .iter()
            .filter(|e| matches!(e.shape, crate::drawing::Shape::Polyline(_)))
            .map(|e| e.shape.extremes())
            .collect();
        let [cone, small, large] = &chains[..] else { panic!("{chains:?}") };
        let span = |points: &[Point], f: fn(&Point) -> f64| {
            let low = points.iter().map(f).fold(f64::INFINITY, f64::min);
            [low, points.iter().map(f).fold(f64::NEG_INFINITY, f64::max)]
        };
        let across = |points: &[Point]| span(points, |p| p.y)[1] - span(points, |p| p.y)[0];
        let [left, right] = span(cone, |p| p.x);
        let end = |x: f64| {
            let points: Vec<Point> = cone.iter().copied().filter(|p| p.x == x).collect();
            across(&points)
        };
        assert!((end(left) - across(small)).abs() < 1e-9);
        assert!((end(right) - across(large)).abs() < 1e-9);
        assert!((across(large) / across(small) - 2.0).abs() < 1e-9);
        assert!(span(large, |p| p.x)[0] > right);
        let [low, high] = drawing.extents().unwrap();
        assert!(low.x >= 0.0 && low.y >= 0.0 && high.x <= 44.0 && high.y <= 20.0);
    }
}
