//! Hatching of cut material (ISO 128-3: narrow lines at 45 degrees, evenly spaced).

use std::f64::consts::{FRAC_PI_4, PI, TAU};

use crate::drawing::{Drawing, Layer, Point, Polyline, Segment};
use crate::solid::Meridian;

/// Hatches cut material, on its layer.
pub fn hatch(drawing: &mut Drawing, boundary: &Polyline, spacing: f64) {
    hatch_on(drawing, Layer::Hatch, boundary, spacing);
}

/// Hatches the inside of a chain that ends where it begins: lines at 45 degrees, `spacing` apart,
/// each cut to the material. The lines are those of a grid through the origin, moved by half a
/// spacing, so that equal sections are hatched alike.
pub fn hatch_on(drawing: &mut Drawing, layer: Layer, boundary: &Polyline, spacing: f64) {
    // On a line of the hatching y - x is the same everywhere; lines lie `step` apart in it.
    let step = spacing * std::f64::consts::SQRT_2;
    let sides: Vec<Side> = boundary.segments().flat_map(Side::of).collect();
    let ends = || sides.iter().flat_map(|side| [side.from, side.to]).map(across);
    let low = ends().fold(f64::INFINITY, f64::min);
    let high = ends().fold(f64::NEG_INFINITY, f64::max);
    if !(low < high && step > 0.0) {
        return;
    }
    let first = (low / step).floor() as i64;
    let last = (high / step).ceil() as i64;
    for n in first..last {
        let c = (n as f64 + 0.5) * step;
        let mut meets: Vec<Point> = sides.iter().filter_map(|side| side.crossing(c)).collect();
        meets.sort_by(|a, b| a.x.total_cmp(&b.x));
        for pair in meets.chunks_exact(2) {
            drawing.line(layer, pair[0], pair[1]);
        }
    }
}

fn across(p: Point) -> f64 {
    p.y - p.x
}

/// A piece of the boundary along which y - x only grows or only falls.
struct Side {
    from: Point,
    to: Point,
    arc: Option<(Meridian, [f64; 2])>,
}

impl Side {
    /// A line is one; an arc is cut where it runs along the hatching.
    fn of(segment: Segment) -> Vec<Self> {
        let arc = segment.meridian();
        let Meridian::Arc { start, sweep, .. } = arc else {
            return vec![Self { from: segment.from, to: segment.to, arc: None }];
        };
        // There the angle from z towards r is 135 degrees, or a half turn more or less.
        let first = ((start.min(start + sweep) - ALONG) / PI).ceil();
        let turns = (0..3).map(|n| (ALONG + (first + f64::from(n)) * PI - start) / sweep);
        let mut ends: Vec<f64> = turns.filter(|v| *v > 0.0 && *v < 1.0).collect();
        ends.extend([0.0, 1.0]);
        ends.sort_by(f64::total_cmp);
        let piece = |v: &[f64]| Self {
            from: segment.at(v[0]),
            to: segment.at(v[1]),
            arc: Some((arc, [v[0], v[1]])),
        };
        ends.windows(2).map(piece).collect()
    }

    /// Where the line y - x = c crosses it; a corner counts with the side that it lies on, so
    /// that a closed boundary is crossed an even number of times.
    fn crossing(&self, c: f64) -> Option<Point> {
        let (off_from, off_to) = (across(self.from) - c, across(self.to) - c);
        if (off_from < 0.0) == (off_to < 0.0) {
            return None;
        }
        let Some((arc, [low, high])) = self.arc else {
            let t = off_from / (off_from - off_to);
            let (a, b) = (self.from, self.to);
            return Some(Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t));
        };
        let Meridian::Arc { centre, radius, start, sweep } = arc else { return None };
        // y - x is centre's + radius sqrt 2 sin(angle - 45 degrees): two angles have the value.
        let sine = (c - (centre[0] - centre[1])) / (radius * std::f64::consts::SQRT_2);
        let base = libm::asin(sine.clamp(-1.0, 1.0));
        let middle = start + sweep * f64::midpoint(low, high);
        let angles = [base + FRAC_PI_4, PI - base + FRAC_PI_4];
        let nearest = angles.map(|a| a + ((middle - a) / TAU).round() * TAU);
        let off = |a: &f64| (a - middle).abs();
        let angle = if off(&nearest[0]) <= off(&nearest[1]) { nearest[0] } else { nearest[1] };
        let [y, x] = arc.at(((angle - start) / sweep).clamp(low, high));
        Some(Point::new(x, y))
    }
}

/// The angle at which an arc runs along the hatching, from z towards r: 135 degrees.
const ALONG: f64 = 3.0 * FRAC_PI_4;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shape;

    fn lengths(boundary: &[(f64, f64)], spacing: f64) -> Vec<f64> {
        let points: Vec<Point> = boundary.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let closed = points.iter().chain(points.first()).copied().collect();
        hatched(&Polyline::straight(closed), spacing)
    }

    fn hatched(boundary: &Polyline, spacing: f64) -> Vec<f64> {
        let mut drawing = Drawing::default();
        hatch(&mut drawing, boundary, spacing);
        let length = |shape: &Shape| {
            let p = shape.points();
            ((p[1].x - p[0].x) * (p[1].x - p[0].x) + (p[1].y - p[0].y) * (p[1].y - p[0].y)).sqrt()
        };
        drawing.entities.iter().map(|e| length(&e.shape)).collect()
    }

    /// Cavalieri: the lengths of evenly spaced lines times their spacing are the area.
    #[test]
    fn lines_cover_the_area() {
        let area = |boundary: &[(f64, f64)]| lengths(boundary, 0.001).iter().sum::<f64>() * 0.001;
        let l_shape = [(0.0, 1.0), (4.0, 1.0), (4.0, 3.0), (2.0, 3.0), (2.0, 5.0), (0.0, 5.0)];
        assert!((area(&l_shape) - 12.0).abs() < 1e-4);
        assert!((area(&[(0.0, 0.0), (3.0, 0.0), (0.0, 2.0)]) - 3.0).abs() < 1e-4);
    }

    /// Cavalieri again: a circle of radius 2, and what a hollow half circle leaves of a rectangle.
    #[test]
    fn arcs_are_covered_too() {
        let arc = |from: (f64, f64), to: (f64, f64), bulge| Segment {
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            bulge,
        };
        let area = |chain: Polyline| hatched(&chain, 0.001).iter().sum::<f64>() * 0.001;
        let circle =
            Polyline::of([arc((-1.0, 5.0), (3.0, 5.0), 1.0), arc((3.0, 5.0), (-1.0, 5.0), 1.0)]);
        assert!((area(circle) - 4.0 * PI).abs() < 1e-3);
        let hollow = Polyline::of([
            arc((0.0, 0.0), (0.0, 4.0), 0.0),
            arc((0.0, 4.0), (1.0, 4.0), 0.0),
            arc((1.0, 4.0), (3.0, 4.0), 1.0),
            arc((3.0, 4.0), (5.0, 4.0), 0.0),
            arc((5.0, 4.0), (5.0, 0.0), 0.0),
            arc((5.0, 0.0), (0.0, 0.0), 0.0),
        ]);
        assert!((area(hollow) - (20.0 - PI / 2.0)).abs() < 1e-3);
    }

    #[test]
    fn a_hole_between_two_walls_stays_empty() {
        // Two walls of width 1 joined at the left: a line across both is cut in two.
        let fork = [
            (0.0, 0.0),
            (9.0, 0.0),
            (9.0, 1.0),
            (1.0, 1.0),
            (1.0, 2.0),
            (9.0, 2.0),
            (9.0, 3.0),
            (0.0, 3.0),
        ];
        let found = lengths(&fork, 1.0);
        assert!(found.iter().filter(|l| (*l - 2.0_f64.sqrt()).abs() < 1e-12).count() > 8);
    }

    #[test]
    fn what_has_no_area_has_no_lines() {
        assert!(lengths(&[], 1.0).is_empty());
        assert!(lengths(&[(1.0, 1.0), (1.0, 1.0)], 1.0).is_empty());
    }
}
