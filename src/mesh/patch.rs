//! Pieces of the mesh for the test of crossings: one triangle, or two that share an edge.

use super::Mesh;
use super::contact::{Point, Triangle};

/// How far, in radians, a corner may lie beside its column: the rounding to single precision, and
/// the little by which a corner near a half-plane is taken to lie on it. Larger, and columns two
/// apart could meet in a fan of very many; smaller, and sound meshes would be refused.
const BESIDE: f64 = 1e-6;

/// One triangle, or two neighbours of one column that share an edge, with its reach.
#[derive(Clone, Copy)]
pub(super) struct Patch {
    /// The first triangle's number; the second's is the next one.
    pub first: u32,
    /// Three corners, the last one twice, or four.
    pub corners: [u32; 4],
    /// Whether there is a second triangle.
    pub paired: bool,
    /// Least and greatest z.
    pub z: [f32; 2],
    /// Least and greatest distance along the half-plane at which its column begins.
    pub near: [f64; 2],
    /// The same along the half-plane at which its column ends.
    pub far: [f64; 2],
}

/// Patches by columns; those of one column in the order of their least z.
pub(super) struct Columns {
    patches: Vec<Patch>,
    /// Where each column's patches begin, and where the last one's end.
    starts: Vec<u32>,
}

impl Columns {
    /// Sorts all triangles into their columns. None where one reaches out of its column: then
    /// nothing that follows would hold.
    pub fn new(mesh: &Mesh) -> Option<Self> {
        let step = std::f64::consts::TAU / f64::from(mesh.sides);
        if mesh.sides < 3 || step < 4.0 * BESIDE || mesh.columns.len() != mesh.triangles.len() {
            return None;
        }
        let ray = |n: u32| {
            let (sin, cos) = libm::sincos(mesh.start + step * f64::from(n));
            [cos, sin]
        };
        let rays: Vec<[f64; 2]> = (0..=mesh.sides).map(ray).collect();
        let mut found: Vec<(u32, Patch)> = Vec::with_capacity(mesh.triangles.len() / 2 + 1);
        let mut first = 0;
        while first < mesh.triangles.len() {
            let column = mesh.columns[first];
            let second = mesh.triangles.get(first + 1);
            let mate = second.filter(|_| mesh.columns[first + 1] == column);
            let (corners, paired) = joined(mesh.triangles[first], mate);
            let rays = rays.get(column as usize..column as usize + 2)?;
            let mut patch = Patch::new(first as u32, corners, paired);
            for p in corners.map(|n| mesh.points[n as usize]) {
                patch.stretch(p, [rays[0], rays[1]])?;
            }
            found.push((column, patch));
            first += 1 + usize::from(paired);
        }
        Some(Self::sorted(&found, mesh.sides))
    }

    fn sorted(found: &[(u32, Patch)], count: u32) -> Self {
        let mut starts = vec![0_u32; count as usize + 1];
        found.iter().for_each(|(column, _)| starts[*column as usize + 1] += 1);
        for n in 1..starts.len() {
            starts[n] += starts[n - 1];
        }
        let mut next = starts.clone();
        let mut order = vec![0_u32; found.len()];
        for (n, (column, _)) in found.iter().enumerate() {
            let place = &mut next[*column as usize];
            order[*place as usize] = n as u32;
            *place += 1;
        }
        let low = |n: &u32| found[*n as usize].1.z[0];
        for pair in starts.windows(2) {
            order[pair[0] as usize..pair[1] as usize]
                .sort_unstable_by(|a, b| low(a).total_cmp(&low(b)));
        }
        Self { patches: order.iter().map(|n| found[*n as usize].1).collect(), starts }
    }

    /// How many.
    pub fn count(&self) -> usize {
        self.starts.len() - 1
    }

    /// The patches of one column.
    pub fn of(&self, column: usize) -> &[Patch] {
        &self.patches[self.starts[column] as usize..self.starts[column + 1] as usize]
    }
}

/// The corners of a triangle and of its neighbour, if they share an edge.
fn joined(a: [u32; 3], b: Option<&[u32; 3]>) -> ([u32; 4], bool) {
    let alone = ([a[0], a[1], a[2], a[2]], false);
    let Some(b) = b else { return alone };
    let mut own = b.iter().filter(|n| !a.contains(n));
    match (own.next(), own.next()) {
        (Some(n), None) => ([a[0], a[1], a[2], *n], true),
        _ => alone,
    }
}

impl Patch {
    fn new(first: u32, corners: [u32; 4], paired: bool) -> Self {
        let none = [f64::INFINITY, f64::NEG_INFINITY];
        let z = [f32::INFINITY, f32::NEG_INFINITY];
        Self { first, corners, paired, z, near: none, far: none }
    }

    /// Takes in a corner; None if it lies beside the column between the two rays, or is no number.
    fn stretch(&mut self, [x, y, z]: [f32; 3], [near, far]: [[f64; 2]; 2]) -> Option<()> {
        let (x, y) = (f64::from(x), f64::from(y));
        let along = |ray: [f64; 2]| ray[0] * x + ray[1] * y;
        let left_of = |ray: [f64; 2]| ray[0] * y - ray[1] * x;
        let beside = BESIDE * (x.abs() + y.abs());
        if !(left_of(near) >= -beside && left_of(far) <= beside && z.is_finite()) {
            return None;
        }
        let widen = |reach: &mut [f64; 2], v: f64| *reach = [reach[0].min(v), reach[1].max(v)];
        widen(&mut self.near, along(near));
        widen(&mut self.far, along(far));
        self.z = [self.z[0].min(z), self.z[1].max(z)];
        Some(())
    }

    /// Its triangles, by their numbers.
    pub fn triangles(&self) -> impl Iterator<Item = usize> + use<> {
        let first = self.first as usize;
        first..=first + usize::from(self.paired)
    }

    /// Whether its two triangles are seen not to be folded onto each other: their normals do not
    /// look away from each other.
    pub fn open(&self, mesh: &Mesh) -> bool {
        let normal = |n: u32| {
            let [a, b, c] = corners(mesh, n as usize);
            let (e, f) = (less(b, a), less(c, a));
            let size = e.map(f64::abs).iter().sum::<f64>() * f.map(f64::abs).iter().sum::<f64>();
            let across = |k: usize, l: usize| e[k] * f[l] - e[l] * f[k];
            ([across(1, 2), across(2, 0), across(0, 1)], size)
        };
        let ((one, size), (other, other_size)) = (normal(self.first), normal(self.first + 1));
        dot(one, other) > ROUNDING * size * other_size
    }

    /// Whether a plane parts it from another patch, but for corners that both have.
    ///
    /// The plane stands across the line between the middles of their own corners, and passes
    /// through the common ones: where all own corners lie strictly to either side, the patches
    /// have no point in common beside a common corner or edge. No does not mean that they touch.
    pub fn parted(&self, other: &Self, points: &[[f32; 3]], reach: f64) -> bool {
        let common = |a: &Self, b: &Self| a.corners.map(|n| b.corners.contains(&n));
        let (held, shared) = (common(self, other), common(other, self));
        let mut origin = None;
        let mut second = None;
        for (n, corner) in self.corners.iter().enumerate().filter(|(n, _)| held[*n]) {
            match (origin, second) {
                (None, _) => origin = Some(*corner),
                (Some(first), None) if first != *corner => second = Some(*corner),
                (Some(first), Some(next)) if first != *corner && next != *corner => return false,
                _ => {}
            }
            debug_assert!(n < 4);
        }
        let at = |n: u32| points[n as usize].map(f64::from);
        let zero = at(origin.unwrap_or(self.corners[0]));
        let from_zero = |n: u32| less(at(n), zero);
        let (own, others) = (self.corners.map(from_zero), other.corners.map(from_zero));
        let mut axis = less(middle(&others, shared), middle(&own, held));
        if let Some(second) = second {
            let edge = from_zero(second);
            let share = dot(axis, edge) / dot(edge, edge);
            axis = std::array::from_fn(|k| axis[k] - edge[k] * share);
        }
        let least = reach * ROUNDING * axis.iter().map(|v| v.abs()).sum::<f64>();
        let heights = |of: &[Point; 4]| of.map(|p| dot(p, axis));
        let (low, high) = (heights(&own), heights(&others));
        if origin.is_none() {
            let top = low.into_iter().fold(f64::NEG_INFINITY, f64::max);
            let bottom = high.into_iter().fold(f64::INFINITY, f64::min);
            return bottom - top > least;
        }
        (0..4).all(|n| held[n] || low[n] < -least) && (0..4).all(|n| shared[n] || high[n] > least)
    }
}

/// Rounding of a height over a plane, as a share of the mesh's reach and the axis' length: some
/// ten roundings of 1e-16 each, with room. Smaller would trust rounding, larger would send more
/// pairs to the exact test.
const ROUNDING: f64 = 1e-14;

fn less(a: Point, b: Point) -> Point {
    std::array::from_fn(|k| a[k] - b[k])
}

fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// The middle of those corners that are not common.
fn middle(of: &[Point; 4], common: [bool; 4]) -> Point {
    let (mut sum, mut count) = ([0.0; 3], 0.0);
    for (p, _) in of.iter().zip(common).filter(|(_, common)| !common) {
        sum = std::array::from_fn(|k| sum[k] + p[k]);
        count += 1.0;
    }
    sum.map(|v| v / count)
}

/// A triangle's corners.
pub(super) fn corners(mesh: &Mesh, triangle: usize) -> Triangle {
    mesh.triangles[triangle].map(|n| mesh.points[n as usize].map(f64::from))
}
