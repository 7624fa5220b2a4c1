//! Triangles that pass through each other, decided exactly on the rounded points.

use robust::{Coord, Coord3D, orient2d, orient3d};

use super::Mesh;

type Point = [f64; 3];
type Triangle = [Point; 3];

/// A corner of the first pair of triangles found that cross, or touch beside their common
/// corners.
///
/// Pairs come from a grid of cubes; each is decided with exact predicates, so the answer holds
/// for the points as stored.
pub(super) fn first_crossing(mesh: &Mesh) -> Option<[f32; 3]> {
    let triangles: Vec<Triangle> =
        mesh.triangles.iter().map(|t| t.map(|n| mesh.points[n as usize].map(f64::from))).collect();
    let boxes: Vec<[Point; 2]> = triangles.iter().map(bounding_box).collect();
    let size = cube_size(&triangles);
    let cube = |p: &Point| p.map(|v| (v / size).floor() as i32);
    let mut members: Vec<([i32; 3], u32)> = Vec::with_capacity(triangles.len() * 3);
    for (n, [low, high]) in boxes.iter().enumerate() {
        let (a, b) = (cube(low), cube(high));
        for x in a[0]..=b[0] {
            for y in a[1]..=b[1] {
                for z in a[2]..=b[2] {
                    members.push(([x, y, z], n as u32));
                }
            }
        }
    }
    members.sort_unstable();
    for cell in members.chunk_by(|a, b| a.0 == b.0) {
        for (n, (here, a)) in cell.iter().enumerate() {
            for (_, b) in &cell[n + 1..] {
                let ([low_a, high_a], [low_b, high_b]) = (boxes[*a as usize], boxes[*b as usize]);
                let low: Point = std::array::from_fn(|k| low_a[k].max(low_b[k]));
                let apart = (0..3).any(|k| low[k] > high_a[k].min(high_b[k]));
                // A pair is judged in the one cube that holds the low corner of its overlap.
                if apart || cube(&low) != *here {
                    continue;
                }
                let indices = [mesh.triangles[*a as usize], mesh.triangles[*b as usize]];
                if cross(indices, [&triangles[*a as usize], &triangles[*b as usize]]) {
                    return Some(mesh.points[indices[0][0] as usize]);
                }
            }
        }
    }
    None
}

fn bounding_box(t: &Triangle) -> [Point; 2] {
    let fold = |f: fn(f64, f64) -> f64| std::array::from_fn(|k| f(f(t[0][k], t[1][k]), t[2][k]));
    [fold(f64::min), fold(f64::max)]
}

/// The side of the cubes: about a triangle's own size. Larger cubes hold more pairs, smaller ones
/// hold each long triangle more often.
fn cube_size(triangles: &[Triangle]) -> f64 {
    let middle = |t: &Triangle| {
        let [low, high] = bounding_box(t);
        let mut sides: [f64; 3] = std::array::from_fn(|k| high[k] - low[k]);
        sides.sort_by(f64::total_cmp);
        sides[1]
    };
    let sum: f64 = triangles.iter().map(middle).sum();
    (2.0 * sum / triangles.len().max(1) as f64).max(1e-3)
}

/// Whether two triangles have a point in common beside the corners that they share.
fn cross(indices: [[u32; 3]; 2], [a, b]: [&Triangle; 2]) -> bool {
    let shared = |t: [u32; 3], n: usize, other: [u32; 3]| other.contains(&t[n]);
    let own_a: Vec<usize> = (0..3).filter(|n| !shared(indices[0], *n, indices[1])).collect();
    let own_b: Vec<usize> = (0..3).filter(|n| !shared(indices[1], *n, indices[0])).collect();
    match (own_a.as_slice(), own_b.as_slice()) {
        ([], _) | (_, []) => true,
        // A common edge: they cross only if one is folded onto the other.
        (&[p], &[q]) => folded(a[(p + 1) % 3], a[(p + 2) % 3], a[p], b[q]),
        // A common corner: the sides opposite to it decide.
        (&[p, q], &[r, s]) => pierces(a[p], a[q], b) || pierces(b[r], b[s], a),
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

    fn mesh(points: &[[f32; 3]], triangles: &[[u32; 3]]) -> Mesh {
        let faces = vec![0; triangles.len()];
        let (points, triangles) = (points.to_vec(), triangles.to_vec());
        Mesh { points, triangles, faces, chord_error: 0.0, sides: 0 }
    }

    const FLOOR: [[f32; 3]; 3] = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0], [0.0, 4.0, 0.0]];

    fn with(others: &[[f32; 3]], second: [u32; 3]) -> bool {
        let points: Vec<_> = FLOOR.iter().chain(others).copied().collect();
        first_crossing(&mesh(&points, &[[0, 1, 2], second])).is_some()
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
