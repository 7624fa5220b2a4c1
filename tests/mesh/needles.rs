//! Needles: triangles with a very small angle, where they come from, and how few there are.
//!
//! A column is as wide as the chord error asks for, and a cylinder or cone has no point between its
//! ends: its triangles are as long as the face, and thin. They lie flat on the surface to rounding,
//! more points on the way would bring it no nearer and the file more bytes. Where a fan's half-plane
//! passes close to a corner of a thread's end, small triangles are left beside it; the fan is turned
//! so that they are no thinner than a fiftieth of a column.

use sectionwright::mesh::{Mesh, tessellate};
use sectionwright::solid::{Body, build};

use crate::common::{r1, random};

/// The degrees under which a triangle counts as a needle.
const NEEDLE: f64 = 1.0;

/// Needles by cause.
#[derive(Debug, Default)]
struct Needles {
    /// On faces that go round the axis: as long as the face.
    long: usize,
    /// On the faces between the flanks at a thread's end.
    end: usize,
    /// On crests, roots and flanks.
    strip: usize,
    /// Triangles in all.
    of: usize,
}

impl Needles {
    /// Percent of the triangles that are needles for another cause than their face's length.
    fn avoidable(&self) -> f64 {
        (self.end + self.strip) as f64 / self.of as f64 * 100.0
    }
}

fn least_angle(mesh: &Mesh, n: usize) -> f64 {
    let [a, b, c] = mesh.triangles[n].map(|n| mesh.points[n as usize].map(f64::from));
    let angle = |a: [f64; 3], b: [f64; 3], c: [f64; 3]| {
        let (e, f): ([f64; 3], [f64; 3]) =
            (std::array::from_fn(|k| b[k] - a[k]), std::array::from_fn(|k| c[k] - a[k]));
        let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
        libm::acos((dot(e, f) / (dot(e, e) * dot(f, f)).sqrt()).clamp(-1.0, 1.0)).to_degrees()
    };
    angle(a, b, c).min(angle(b, c, a)).min(angle(c, a, b))
}

fn count(body: &Body, mesh: &Mesh, found: &mut Needles) {
    let faces: Vec<_> = body.faces().map(|(face, _)| face).collect();
    found.of += mesh.triangles.len();
    for n in (0..mesh.triangles.len()).filter(|n| least_angle(mesh, *n) < NEEDLE) {
        let face = faces[mesh.faces[n] as usize];
        let cause = if face.surface().climb != 0.0 {
            &mut found.strip
        } else if face.absolute_boundaries().len() == 2 {
            &mut found.long
        } else {
            &mut found.end
        };
        *cause += 1;
    }
}

#[test]
fn few_needles_on_r1() {
    let body = build(&r1()).unwrap();
    let (mesh, _) = tessellate(&body, 0.002).unwrap();
    let mut found = Needles::default();
    count(&body, &mesh, &mut found);
    println!("R1 at 0.002: {found:?}");
    // Two triangles a column on the cone and on the through bore, 21 and 18.5 mm long.
    assert!(found.long <= 4 * mesh.sides as usize + 8, "{found:?}");
    assert!(found.avoidable() < 0.1, "{found:?}");
}

#[test]
fn few_needles_on_random_parts() {
    let mut found = Needles::default();
    let mut least: Vec<f64> = Vec::new();
    for body in (0..200).filter_map(|seed| build(&random::part(seed).0).ok()) {
        let (mesh, _) = tessellate(&body, 0.005).unwrap();
        count(&body, &mesh, &mut found);
        least.extend((0..mesh.triangles.len()).map(|n| least_angle(&mesh, n)));
    }
    least.sort_by(f64::total_cmp);
    let shares = [0, 1, 5, 10, 50].map(|percent| least[least.len() * percent / 100]);
    println!("random parts at 0.005: {found:?}");
    println!("least angle in degrees of 0, 1, 5, 10, 50 %: {shares:.3?}");
    // Most of them stand between half-planes that were put in for rounded flanks.
    assert!(found.avoidable() < 1.5, "{found:?}");
}
