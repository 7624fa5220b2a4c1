//! Walls against an independent route: distances between the triangles of the mesh, in space.

use std::collections::BTreeSet;

use parry3d_f64::math::Pose;
use parry3d_f64::query::distance;
use parry3d_f64::shape::{TriMesh, Triangle};
use sectionwright::check::verdicts;
use sectionwright::mesh::tessellate;
use sectionwright::section::{Section, Skin};
use sectionwright::solid::build;

use crate::common::points_of;
use crate::fixtures::{r1, sound};

/// Fine enough for a sharp comparison, coarse enough for a test.
const CHORD: f64 = 0.005;

/// Rounding of the mesh to single precision, and of the distance between triangles.
const BESIDE_CHORD: f64 = 0.002;

fn compare(section: &Section) {
    let body = build(&section.part()).unwrap();
    let (mesh, _) = tessellate(&body, CHORD).unwrap();
    let names: Vec<_> = body.faces().map(|(_, name)| *name).collect();
    let points = points_of(&mesh);
    let on = |skin: Skin| {
        let triangles = mesh.triangles.iter().zip(&mesh.faces);
        triangles.filter(move |(_, face)| names[**face as usize].skin == skin)
    };
    let outside: Vec<[u32; 3]> = on.clone()(Skin::Outside).map(|(t, _)| *t).collect();
    let outside = TriMesh::new(points.clone(), outside).unwrap();
    let here = Pose::identity();
    let names: Vec<_> = body.faces().map(|(_, name)| *name).collect();
    let mut least = std::collections::BTreeMap::new();
    for (triangle, face) in on(Skin::Bore) {
        let [a, b, c] = triangle.map(|n| points[n as usize]);
        let found = distance(&here, &Triangle::new(a, b, c), &here, &outside).unwrap().distance;
        let feature = names[*face as usize].feature;
        let best = least.entry(feature).or_insert(f64::INFINITY);
        *best = found.min(*best);
    }
    let examination = verdicts(section).unwrap();
    let mut compared = BTreeSet::new();
    let overall = least.values().copied().fold(f64::INFINITY, f64::min);
    let item = |prefix: &str| {
        let of = least.iter().filter(|(f, _)| f.item.to_string() == prefix);
        of.map(|(_, d)| *d).fold(f64::INFINITY, f64::min)
    };
    let named = |name: &str| least.iter().find(|(f, _)| f.to_string() == name).map(|(_, d)| *d);
    for (code, in_space) in [
        ("wall.lip", named("recess").unwrap()),
        ("wall.recess", named("recess.floor").unwrap()),
        ("wall.clearance", item("clearance-bore")),
        ("wall.unit-thread", item("unit-thread")),
        ("wall.tap-drill", item("tap-drill")),
        ("wall.least", overall),
    ] {
        let measured = examination.finding(code).unwrap().measured;
        println!("{code}: {measured:.6} in the half-plane, {in_space:.6} between triangles");
        assert!((measured - in_space).abs() < CHORD + BESIDE_CHORD, "{code}");
        compared.insert(code);
    }
    assert_eq!(compared.len(), 6);
}

#[test]
fn r1_walls_between_triangles() {
    compare(&r1());
}

#[test]
fn sound_walls_between_triangles() {
    compare(&sound());
}

/// With hollows, rings, fillets and a cap thread on the outside.
#[test]
fn shaped_walls_between_triangles() {
    let mut section = sound();
    section.grip = crate::common::section::shaped().grip;
    compare(&section);
}
