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

impl Scale {
    fn place(self, corner: &Corner) -> [f64; 2] {
        [corner.x * self.across, corner.v * self.along]
    }
}

/// Splits a counter-clockwise piece into triangles.
///
/// A four-sided piece of a flank is twisted; its diagonal goes from the lower radius at the lower
/// angle to the higher radius at the higher angle, on both flanks of a ridge alike: seen along
/// the profile that mirrors it, and what one flank's triangles add to the volume the other's take
/// away. Other pieces (beside a thread's end) are cut
/// so that their worst-shaped triangle is as good as can be.
pub(super) fn fill(piece: &[Corner], surface: &Screw, scale: Scale, out: &mut Vec<[u32; 3]>) {
    let triangle = |a: usize, b: usize, c: usize| [piece[a].index, piece[b].index, piece[c].index];
    match piece.len() {
        3 => out.push(triangle(0, 1, 2)),
        4 if surface.is_flank() && is_column(piece) => {
            let low_left = piece.iter().position(|c| c.x == 0.0 && is_inner(c, piece, surface));
            let n = low_left.unwrap_or(0);
            let at = |k: usize| (n + k) % 4;
            out.push(triangle(at(0), at(1), at(2)));
            out.push(triangle(at(0), at(2), at(3)));
        }
        4 => {
            let [one, other] = better_cut(piece, scale);
            out.push(triangle(one[0], one[1], one[2]));
            out.push(triangle(other[0], other[1], other[2]));
        }
        _ => best_shaped(piece, scale, out),
    }
}

/// The better of the two ways to cut a piece of four corners: what [`best_shaped`] finds too, and
/// most pieces are such.
fn better_cut(piece: &[Corner], scale: Scale) -> [[usize; 3]; 2] {
    let at = |n: usize| scale.place(&piece[n]);
    let (a, b, c, d) = (at(0), at(1), at(2), at(3));
    let from_second = shape(a, b, d).min(shape(b, c, d));
    let from_first = shape(a, c, d).min(shape(a, b, c));
    if from_second >= from_first { [[0, 1, 3], [1, 2, 3]] } else { [[0, 2, 3], [0, 1, 2]] }
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

/// The triangulation whose worst triangle is best, by dynamic programming over the chords of the
/// polygon: corners that lie on one line (a spiral is straight in (u, v)) are never cut off as a
/// triangle of their own.
fn best_shaped(piece: &[Corner], scale: Scale, out: &mut Vec<[u32; 3]>) {
    let count = piece.len();
    let at: Vec<[f64; 2]> = piece.iter().map(|c| scale.place(c)).collect();
    // worst[i][j]: of the best triangulation of corners i to j; split[i][j]: its third corner.
    let mut worst = vec![vec![f64::INFINITY; count]; count];
    let mut split = vec![vec![0; count]; count];
    for span in 2..count {
        for i in 0..count - span {
            let j = i + span;
            worst[i][j] = f64::NEG_INFINITY;
            for k in i + 1..j {
                let found = shape(at[i], at[k], at[j]).min(worst[i][k]).min(worst[k][j]);
                if found > worst[i][j] {
                    (worst[i][j], split[i][j]) = (found, k);
                }
            }
        }
    }
    let mut spans = vec![(0, count - 1)];
    while let Some((i, j)) = spans.pop() {
        if j - i < 2 {
            continue;
        }
        let k = split[i][j].clamp(i + 1, j - 1);
        out.push([piece[i].index, piece[k].index, piece[j].index]);
        spans.extend([(i, k), (k, j)]);
    }
}

/// How well-shaped a triangle is: twice its area (negative if it is turned over) over the square
/// of its longest side.
fn shape(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    let area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    let side = |p: [f64; 2], q: [f64; 2]| {
        let d = [p[0] - q[0], p[1] - q[1]];
        d[0] * d[0] + d[1] * d[1]
    };
    area / side(a, b).max(side(b, c)).max(side(c, a))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four corners, three of them on one line: the one way that leaves no flat triangle.
    #[test]
    fn corners_on_a_line_are_not_cut_off() {
        let corner = |x: f64, v: f64, index: u32| Corner { x, v, index };
        let piece =
            [corner(0.0, 0.0, 0), corner(0.5, 0.0, 1), corner(0.9, 0.0, 2), corner(0.1, 1.0, 3)];
        let mut found = Vec::new();
        best_shaped(&piece, Scale { across: 1.0, along: 1.0 }, &mut found);
        assert_eq!(found.len(), 2);
        assert!(found.iter().all(|t| t.contains(&1) && t.contains(&3)), "{found:?}");
    }
}
