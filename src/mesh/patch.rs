//! Pieces of the mesh for the test of crossings: one triangle, or two that share an edge.

use super::Mesh;
use super::contact::{Point, Triangle};
use super::parting::{Corners, ROUNDING, across, dot, less};

/// How far, in radians, a corner may lie beside its column: the rounding to single precision, and
/// the little by which a corner near a half-plane is taken to lie on it. Larger, and columns two
/// apart could meet in a fan of very many; smaller, and sound meshes would be refused.
const BESIDE: f64 = 1e-6;

/// One triangle, or two neighbours of one column that share an edge, with its reach.
#[derive(Clone, Copy)]
pub(super) struct Patch {
    /// The first triangle's number; the second's is the next one.
    pub first: u32,
    /// Whether there is a second triangle.
    pub paired: bool,
    pub corners: Corners,
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
            let corners = Corners::new(corners, &mesh.points);
            found.push((column, Patch::new(first as u32, paired, corners, [rays[0], rays[1]])?));
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
    /// None if a corner lies beside the column between the two rays, or is no number.
    fn new(first: u32, paired: bool, corners: Corners, rays: [[f64; 2]; 2]) -> Option<Self> {
        let mut reaches = [[f64::INFINITY, f64::NEG_INFINITY]; 2];
        for n in 0..4 {
            let [x, y, z] = corners.at(n);
            let beside = BESIDE * (x.abs() + y.abs());
            let left_of = |ray: [f64; 2]| ray[0] * y - ray[1] * x;
            if !(left_of(rays[0]) >= -beside && left_of(rays[1]) <= beside && z.is_finite()) {
                return None;
            }
            for (reach, ray) in reaches.iter_mut().zip(rays) {
                let along = ray[0] * x + ray[1] * y;
                *reach = [reach[0].min(along), reach[1].max(along)];
            }
        }
        let [near, far] = reaches;
        Some(Self { first, paired, corners, z: corners.heights(), near, far })
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
            let length = |v: Point| v[0].abs() + v[1].abs() + v[2].abs();
            let size = length(e) * length(f);
            (across(e, f), size)
        };
        let ((one, size), (other, other_size)) = (normal(self.first), normal(self.first + 1));
        dot(one, other) > ROUNDING * size * other_size
    }
}

/// A triangle's corners.
pub(super) fn corners(mesh: &Mesh, triangle: usize) -> Triangle {
    let at = |n: u32| {
        let [x, y, z] = mesh.points[n as usize];
        [f64::from(x), f64::from(y), f64::from(z)]
    };
    let [a, b, c] = mesh.triangles[triangle];
    [at(a), at(b), at(c)]
}
