//! Triangles for one piece: a polygon of three to some eight corners within a column.

use super::boundary::Corner;
use crate::solid::Screw;

/// Lengths of a column's sides in millimetres, so that angles in a piece are true enough to
/// choose well-shaped triangles.
#[derive(Clone, Copy)]
pub(super) struct Scale {
    pub across: f64,
    pub along: f64,
}

/// Splits a counter-clockwise piece into triangles.
///
/// A four-sided piece of a flank is twisted; its diagonal goes from the lower radius at the lower
/// angle to the higher radius at the higher angle, on both flanks of a ridge alike: seen along
/// the profile that mirrors it, and what one flank's triangles add to the volume the other's take
/// away. Larger pieces (beside a thread's end) are cut ear by ear, best-shaped first.
pub(super) fn fill(piece: &[Corner], surface: &Screw, scale: Scale, out: &mut Vec<[u32; 3]>) {
    let triangle = |a: usize, b: usize, c: usize| [piece[a].index, piece[b].index, piece[c].index];
    match piece.len() {
        3 => out.push(triangle(0, 1, 2)),
        4 if surface.climb != 0.0 && surface.dr() != 0.0 && is_column(piece) => {
            let low_left = piece.iter().position(|c| c.x == 0.0 && is_inner(c, piece, surface));
            let n = low_left.unwrap_or(0);
            let at = |k: usize| (n + k) % 4;
            out.push(triangle(at(0), at(1), at(2)));
            out.push(triangle(at(0), at(2), at(3)));
        }
        _ => clip_ears(piece, scale, out),
    }
}

/// Whether a piece has two corners on either side of its column.
fn is_column(piece: &[Corner]) -> bool {
    piece.iter().filter(|c| c.x == 0.0).count() == 2
        && piece.iter().filter(|c| c.x == 1.0).count() == 2
}

/// Whether a corner is the one of the lower radius on its side.
fn is_inner(corner: &Corner, piece: &[Corner], surface: &Screw) -> bool {
    let r = surface.r(corner.v);
    piece.iter().all(|other| other.x != corner.x || surface.r(other.v) >= r)
}

fn clip_ears(piece: &[Corner], scale: Scale, out: &mut Vec<[u32; 3]>) {
    let mut rest: Vec<([f64; 2], u32)> =
        piece.iter().map(|c| ([c.x * scale.across, c.v * scale.along], c.index)).collect();
    while rest.len() > 3 {
        let count = rest.len();
        let ear = (0..count)
            .map(|n| (n, ear_quality(&rest, n)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map_or(0, |(n, _)| n);
        let [before, after] = [(ear + count - 1) % count, (ear + 1) % count];
        out.push([rest[before].1, rest[ear].1, rest[after].1]);
        rest.remove(ear);
    }
    out.push([rest[0].1, rest[1].1, rest[2].1]);
}

/// How well-shaped the triangle at a corner is: its height over its longest side; negative where
/// the corner is no ear.
fn ear_quality(polygon: &[([f64; 2], u32)], n: usize) -> f64 {
    let count = polygon.len();
    let (before, after) = ((n + count - 1) % count, (n + 1) % count);
    let [a, b, c] = [polygon[before].0, polygon[n].0, polygon[after].0];
    let area = cross(a, b, c);
    if area <= 0.0 {
        return -1.0;
    }
    let inside =
        |p: [f64; 2]| cross(a, b, p) >= 0.0 && cross(b, c, p) >= 0.0 && cross(c, a, p) >= 0.0;
    let holds_other = (0..count)
        .filter(|k| ![before, n, after].contains(k))
        .any(|k| inside(polygon[k].0) && ![a, b, c].contains(&polygon[k].0));
    if holds_other {
        return -1.0;
    }
    let side =
        |p: [f64; 2], q: [f64; 2]| (p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]);
    area / side(a, b).max(side(b, c)).max(side(c, a))
}

fn cross(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}
