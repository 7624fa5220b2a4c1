//! Pieces of the mesh for the test of crossings: one triangle, or two that share an edge.

use std::f64::consts::TAU;

use super::Mesh;
use super::contact::{Point, Triangle};
use super::parting::{Corners, ROUNDING, across, dot, less};

/// How far, in radians, a corner may lie beside its column: the rounding to single precision, and
/// the little by which a corner near a half-plane is taken to lie on it. Larger, and columns two
/// apart could meet in a fan of very many; smaller, and sound meshes would be refused.
const BESIDE: f64 = 4.4e-6;

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

/// Which patches lie in which column.
pub(super) struct Columns<'a> {
    mesh: &'a Mesh,
    /// (cos, sin) of the half-planes, the first one again at the end.
    rays: Vec<[f64; 2]>,
    /// The first triangles of all patches, column by column.
    heads: Vec<u32>,
    /// Where each column's heads begin, and where the last one's end.
    starts: Vec<u32>,
}

impl<'a> Columns<'a> {
    /// Sorts all triangles by the columns they are said to lie in; None where they can't.
    pub fn new(mesh: &'a Mesh) -> Option<Self> {
        let least = mesh.angles.windows(2).map(|w| w[1] - w[0]).fold(TAU, f64::min);
        let numbered = mesh.columns.iter().all(|column| *column < mesh.sides)
            && mesh.angles.len() == mesh.sides as usize;
        if mesh.columns.len() != mesh.triangles.len() || !numbered || least < 2.0 * BESIDE {
            return None;
        }
        let ray = |angle: &f64| {
            let (sin, cos) = libm::sincos(*angle);
            [cos, sin]
        };
        let rays = mesh.angles.iter().chain(&mesh.angles[..1]).map(ray).collect();
        let mut firsts = Vec::with_capacity(mesh.triangles.len() / 2 + 1);
        let mut starts = vec![0_u32; mesh.sides as usize + 1];
        let mut first = 0;
        while first < mesh.triangles.len() {
            firsts.push(first as u32);
            starts[mesh.columns[first] as usize + 1] += 1;
            first += 1 + usize::from(joined(mesh, first).1);
        }
        for n in 1..starts.len() {
            starts[n] += starts[n - 1];
        }
        let (mut next, mut heads) = (starts.clone(), vec![0; firsts.len()]);
        for first in firsts {
            let place = &mut next[mesh.columns[first as usize] as usize];
            heads[*place as usize] = first;
            *place += 1;
        }
        Some(Self { mesh, rays, heads, starts })
    }

    /// How many.
    pub fn count(&self) -> usize {
        self.starts.len() - 1
    }

    /// The patches of one column, in the order of their least z, to take the place of others. None
    /// where one reaches out of the column: then nothing that follows would hold.
    pub fn patches(&self, column: usize, patches: &mut Vec<Patch>) -> Option<()> {
        patches.clear();
        let rays = [self.rays[column], self.rays[column + 1]];
        for first in &self.heads[self.starts[column] as usize..self.starts[column + 1] as usize] {
            let (corners, paired) = joined(self.mesh, *first as usize);
            let corners = Corners::new(corners, &self.mesh.points);
            patches.push(Patch::new(*first, paired, corners, rays)?);
        }
        patches.sort_unstable_by(|a, b| a.z[0].total_cmp(&b.z[0]));
        Some(())
    }
}

/// The corners of a triangle, and of the one after it if that shares its column and an edge.
fn joined(mesh: &Mesh, first: usize) -> ([u32; 4], bool) {
    let a = mesh.triangles[first];
    let mate = mesh.triangles.get(first + 1);
    let Some(b) = mate.filter(|_| mesh.columns[first + 1] == mesh.columns[first]) else {
        return ([a[0], a[1], a[2], a[2]], false);
    };
    let own = [!a.contains(&b[0]), !a.contains(&b[1]), !a.contains(&b[2])];
    match own {
        [true, false, false] => ([a[0], a[1], a[2], b[0]], true),
        [false, true, false] => ([a[0], a[1], a[2], b[1]], true),
        [false, false, true] => ([a[0], a[1], a[2], b[2]], true),
        _ => ([a[0], a[1], a[2], a[2]], false),
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
