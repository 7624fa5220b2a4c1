//! Hatching of cut material (ISO 128-3: narrow lines at 45 degrees, evenly spaced).

use crate::export::drawing::{Drawing, Layer, Point};

/// Hatches the inside of a closed chain of points: lines at 45 degrees, `spacing` apart, each
/// cut to the material. The lines are those of a grid through the origin, moved by half a
/// spacing, so that equal sections are hatched alike.
pub fn hatch(drawing: &mut Drawing, boundary: &[Point], spacing: f64) {
    // On a line of the hatching y - x is the same everywhere; lines lie `step` apart in it.
    let step = spacing * std::f64::consts::SQRT_2;
    let across = |p: &Point| p.y - p.x;
    let low = boundary.iter().map(across).fold(f64::INFINITY, f64::min);
    let high = boundary.iter().map(across).fold(f64::NEG_INFINITY, f64::max);
    if !(low < high && step > 0.0) {
        return;
    }
    let first = (low / step).floor() as i64;
    let last = (high / step).ceil() as i64;
    for n in first..last {
        let mut meets = crossings(boundary, (n as f64 + 0.5) * step);
        meets.sort_by(|a, b| a.x.total_cmp(&b.x));
        for pair in meets.chunks_exact(2) {
            drawing.line(Layer::Hatch, pair[0], pair[1]);
        }
    }
}

/// Where the line y - x = c crosses the boundary: an even number of points, for a corner counts
/// with the side that it lies on.
fn crossings(boundary: &[Point], c: f64) -> Vec<Point> {
    let sides = boundary.iter().zip(boundary.iter().cycle().skip(1));
    let crossing = |(a, b): (&Point, &Point)| {
        let (off_a, off_b) = (a.y - a.x - c, b.y - b.x - c);
        ((off_a < 0.0) != (off_b < 0.0)).then(|| {
            let t = off_a / (off_a - off_b);
            Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)
        })
    };
    sides.filter_map(crossing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::drawing::Shape;

    fn lengths(boundary: &[(f64, f64)], spacing: f64) -> Vec<f64> {
        let points: Vec<Point> = boundary.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let mut drawing = Drawing::default();
        hatch(&mut drawing, &points, spacing);
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
