//! Whether two triangles have a point in common, decided exactly on the rounded points.

use robust::{Coord, Coord3D, orient2d, orient3d};

pub(super) type Point = [f64; 3];
pub(super) type Triangle = [Point; 3];

/// Whether two triangles have a point in common beside the corners that they share.
pub(super) fn cross(indices: [[u32; 3]; 2], [a, b]: [&Triangle; 2]) -> bool {
    let own = |t: [u32; 3], other: [u32; 3]| t.map(|n| !other.contains(&n));
    let (own_a, own_b) = (own(indices[0], indices[1]), own(indices[1], indices[0]));
    let count = |own: [bool; 3]| own.into_iter().filter(|own| *own).count();
    let first = |own: [bool; 3]| own.iter().position(|own| *own).unwrap_or(0);
    // The side opposite to the common corner.
    let opposite = |own: [bool; 3], t: &Triangle| {
        let common = own.iter().position(|own| !own).unwrap_or(0);
        (t[(common + 1) % 3], t[(common + 2) % 3])
    };
    match (count(own_a), count(own_b)) {
        (0, _) | (_, 0) => true,
        // A common edge: they cross only if one is folded onto the other.
        (1, 1) => {
            let (p, q) = (first(own_a), first(own_b));
            folded(a[(p + 1) % 3], a[(p + 2) % 3], a[p], b[q])
        }
        // A common corner: the sides opposite to it decide.
        (2, 2) => {
            let ((p, q), (r, s)) = (opposite(own_a, a), opposite(own_b, b));
            pierces(p, q, b) || pierces(r, s, a)
        }
        _ => (0..3).any(|n| pierces(a[n], a[(n + 1) % 3], b) || pierces(b[n], b[(n + 1) % 3], a)),
    }
}

/// Whether two triangles on the edge e f, with corners p and q, lie in one plane on one side.
fn folded(e: Point, f: Point, p: Point, q: Point) -> bool {
    if side(e, f, p, q) != 0.0 {
        return false;
    }
    let flat = projection(&[e, f, p]);
    let (turn_p, turn_q) = (turn(flat, e, f, p), turn(flat, e, f, q));
    turn_p * turn_q > 0.0
}

/// Whether the segment from s to t has a point in common with a triangle.
fn pierces(s: Point, t: Point, triangle: &Triangle) -> bool {
    let [a, b, c] = *triangle;
    let (above, below) = (side(a, b, c, s), side(a, b, c, t));
    if above * below > 0.0 {
        return false;
    }
    if above == 0.0 && below == 0.0 {
        return meets_in_plane(s, t, triangle);
    }
    let around = [side(s, t, a, b), side(s, t, b, c), side(s, t, c, a)];
    around.iter().all(|v| *v >= 0.0) || around.iter().all(|v| *v <= 0.0)
}

/// The same where segment and triangle lie in one plane.
fn meets_in_plane(s: Point, t: Point, triangle: &Triangle) -> bool {
    let flat = projection(triangle);
    let [a, b, c] = *triangle;
    let inside = |p: Point| {
        let turns = [turn(flat, a, b, p), turn(flat, b, c, p), turn(flat, c, a, p)];
        turns.iter().all(|v| *v >= 0.0) || turns.iter().all(|v| *v <= 0.0)
    };
    let crosses = |p: Point, q: Point| {
        turn(flat, s, t, p) * turn(flat, s, t, q) < 0.0
            && turn(flat, p, q, s) * turn(flat, p, q, t) < 0.0
    };
    inside(s) || inside(t) || crosses(a, b) || crosses(b, c) || crosses(c, a)
}

/// The two axes on which a triangle's shadow is largest.
fn projection([a, b, c]: &Triangle) -> [usize; 2] {
    let (e, f): (Point, Point) =
        (std::array::from_fn(|k| b[k] - a[k]), std::array::from_fn(|k| c[k] - a[k]));
    let shadow = |[k, l]: [usize; 2]| (e[k] * f[l] - e[l] * f[k]).abs();
    let planes = [[0, 1], [1, 2], [2, 0]];
    planes.into_iter().max_by(|a, b| shadow(*a).total_cmp(&shadow(*b))).unwrap_or([0, 1])
}

/// Sign of the volume of a tetrahedron, exact.
fn side(a: Point, b: Point, c: Point, d: Point) -> f64 {
    let coord = |[x, y, z]: Point| Coord3D { x, y, z };
    orient3d(coord(a), coord(b), coord(c), coord(d)).signum_or_zero()
}

/// Sign of the area of a triangle's shadow, exact.
fn turn([k, l]: [usize; 2], a: Point, b: Point, c: Point) -> f64 {
    let coord = |p: Point| Coord { x: p[k], y: p[l] };
    orient2d(coord(a), coord(b), coord(c)).signum_or_zero()
}

trait SignumOrZero {
    fn signum_or_zero(self) -> f64;
}

impl SignumOrZero for f64 {
    /// Products of signs can't underflow, products of volumes can.
    fn signum_or_zero(self) -> f64 {
        if self == 0.0 { 0.0 } else { self.signum() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FLOOR: Triangle = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0], [0.0, 4.0, 0.0]];

    /// The floor (corners 0, 1, 2) and a triangle of its corners and others (3, 4, 5).
    fn with(others: &[Point], second: [u32; 3]) -> bool {
        let points: Vec<Point> = FLOOR.iter().chain(others).copied().collect();
        cross([[0, 1, 2], second], [&FLOOR, &second.map(|n| points[n as usize])])
    }

    #[test]
    fn apart_and_through() {
        assert!(!with(&[[1.0, 1.0, 1.0], [2.0, 1.0, 1.0], [1.0, 2.0, 2.0]], [3, 4, 5]));
        assert!(with(&[[1.0, 1.0, -1.0], [1.5, 1.0, 1.0], [1.0, 1.5, 1.0]], [3, 4, 5]));
    }

    #[test]
    fn with_a_common_corner() {
        assert!(!with(&[[-1.0, 1.0, 1.0], [-1.0, -1.0, 1.0]], [0, 3, 4]));
        assert!(with(&[[1.0, 1.0, -1.0], [1.0, 1.0, 1.0]], [0, 3, 4]));
    }

    #[test]
    fn with_a_common_edge() {
        assert!(!with(&[[2.0, -2.0, 0.0]], [1, 0, 3]), "flat beside it");
        assert!(!with(&[[2.0, 2.0, 0.5]], [1, 0, 3]), "a steep edge");
        assert!(with(&[[2.0, 1.0, 0.0]], [1, 0, 3]), "folded onto it");
    }

    #[test]
    fn in_one_plane() {
        assert!(with(&[[1.0, 1.0, 0.0], [5.0, 5.0, 0.0], [5.0, 4.0, 0.0]], [3, 4, 5]));
        assert!(!with(&[[3.0, 3.0, 0.0], [5.0, 5.0, 0.0], [5.0, 4.0, 0.0]], [3, 4, 5]));
    }
}
