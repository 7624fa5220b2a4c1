//! Planes that part two patches: a quick and safe no to the question whether they cross.

use super::contact::Point;

/// Rounding of a height over a plane, as a share of the mesh's reach and the axis' length: some
/// ten roundings of 1e-16 each, with room. Smaller would trust rounding, larger would send more
/// pairs to the exact test.
pub(super) const ROUNDING: f64 = 1e-14;

/// Whether a plane parts two patches, but for corners that both have.
///
/// The plane stands across the line between the middles of their own corners, and passes through
/// the common ones: where all own corners lie strictly to either side, the patches have no point
/// in common beside a common corner or edge. No does not mean that they touch. `reach` is no less
/// than the distance of any two points along an axis.
pub(super) fn parted(a: &Corners, b: &Corners, reach: f64) -> bool {
    let common = Common::of(a.index, b.index);
    let zero = a.at(common.first as usize);
    let one = Side::new(a, common.of_one, zero);
    let two = Side::new(b, common.of_other, zero);
    // Between the middles, but as long as it comes: nothing is divided.
    let ((from, weight), (to, other_weight)) = (one.own_sum(), two.own_sum());
    let mut axis = mix(to, weight, from, other_weight);
    match common.count {
        0 | 1 => {}
        2 => {
            let edge = less(a.at(common.last as usize), zero);
            axis = mix(axis, dot(edge, edge), edge, dot(axis, edge));
        }
        _ => return false,
    }
    let least = reach * ROUNDING * (axis[0].abs() + axis[1].abs() + axis[2].abs());
    let (top, bottom) = (one.heights(axis).1, two.heights(axis).0);
    if common.count == 0 { bottom - top > least } else { top < -least && bottom > least }
}

/// The corners of a patch: four, or three with the last one twice. Kept by coordinate, so that
/// all four are worked on at once.
#[derive(Clone, Copy)]
pub(super) struct Corners {
    pub index: [u32; 4],
    coordinates: [[f32; 4]; 3],
}

impl Corners {
    pub fn new(index: [u32; 4], points: &[[f32; 3]]) -> Self {
        let mut coordinates = [[0.0; 4]; 3];
        for (n, corner) in index.into_iter().enumerate() {
            for (axis, value) in coordinates.iter_mut().zip(points[corner as usize]) {
                axis[n] = value;
            }
        }
        Self { index, coordinates }
    }

    /// One corner.
    pub fn at(&self, n: usize) -> Point {
        let [x, y, z] = &self.coordinates;
        [f64::from(x[n]), f64::from(y[n]), f64::from(z[n])]
    }

    /// Least and greatest z.
    pub fn heights(&self) -> [f32; 2] {
        let z = self.coordinates[2].iter();
        z.fold([f32::INFINITY, f32::NEG_INFINITY], |[a, b], z| [a.min(*z), b.max(*z)])
    }
}

/// The corners that two patches have in common; where they are, all bits are set.
struct Common {
    of_one: [u32; 4],
    of_other: [u32; 4],
    count: u32,
    /// The first one's place among the corners of one, and the last one's; 0 where there is none.
    first: u32,
    last: u32,
}

impl Common {
    fn of(one: [u32; 4], other: [u32; 4]) -> Self {
        let (mut of_one, mut of_other) = ([0; 4], [0; 4]);
        for i in 0..4 {
            for j in 0..4 {
                let same = if one[i] == other[j] { u32::MAX } else { 0 };
                of_one[i] |= same;
                of_other[j] |= same;
            }
        }
        // One bit a corner; a triangle has its last corner twice.
        let bits = (of_one[0] & 1) | (of_one[1] & 2) | (of_one[2] & 4) | (of_one[3] & 8);
        let bits = if one[3] == one[2] { bits & 7 } else { bits };
        let (first, last) = (bits.trailing_zeros(), bits.checked_ilog2().unwrap_or(0));
        Self { of_one, of_other, count: bits.count_ones(), first: first % 32, last }
    }
}

/// One of two patches, seen from a common corner.
struct Side {
    coordinates: [[f64; 4]; 3],
    common: [u32; 4],
}

impl Side {
    fn new(of: &Corners, common: [u32; 4], zero: Point) -> Self {
        let mut coordinates = of.coordinates.map(|axis| axis.map(f64::from));
        for (axis, zero) in coordinates.iter_mut().zip(zero) {
            for coordinate in axis {
                *coordinate -= zero;
            }
        }
        Self { coordinates, common }
    }

    /// The sum of its own corners, and how many they are; with none, nothing is parted.
    fn own_sum(&self) -> (Point, f64) {
        let own = self.common.map(|common| if common == 0 { 1.0 } else { 0.0 });
        let sum = |v: &[f64; 4]| v[0] * own[0] + v[1] * own[1] + v[2] * own[2] + v[3] * own[3];
        let [x, y, z] = &self.coordinates;
        ([sum(x), sum(y), sum(z)], own[0] + own[1] + own[2] + own[3])
    }

    /// The least and the greatest height of its own corners along an axis.
    fn heights(&self, axis: Point) -> (f64, f64) {
        let ([x, y, z], mut low, mut high) = (&self.coordinates, [0.0; 4], [0.0; 4]);
        for n in 0..4 {
            let height = x[n] * axis[0] + y[n] * axis[1] + z[n] * axis[2];
            low[n] = if self.common[n] == 0 { height } else { f64::INFINITY };
            high[n] = if self.common[n] == 0 { height } else { f64::NEG_INFINITY };
        }
        let least = |a: f64, b: f64| if a < b { a } else { b };
        let most = |a: f64, b: f64| if a > b { a } else { b };
        (
            least(least(low[0], low[1]), least(low[2], low[3])),
            most(most(high[0], high[1]), most(high[2], high[3])),
        )
    }
}

/// `a m - b n`.
fn mix(a: Point, m: f64, b: Point, n: f64) -> Point {
    [a[0] * m - b[0] * n, a[1] * m - b[1] * n, a[2] * m - b[2] * n]
}

pub(super) fn less(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(super) fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn across(a: Point, b: Point) -> Point {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
