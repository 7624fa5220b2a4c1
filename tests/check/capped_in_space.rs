//! Cap and converter against an independent route: distances between the triangles of both meshes,
//! in space, while one is slid into the other.

use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::distance;
use parry3d_f64::shape::TriMesh;
use sectionwright::mesh::tessellate;
use sectionwright::scene::verdicts;
use sectionwright::section::{Part, Section};
use sectionwright::solid::build;

use crate::capped::{cap, capped};
use crate::common::{mm, points_of};
use crate::converter::filled;
use crate::fixtures::read;

/// Fine enough for a sharp comparison, coarse enough for a test.
const CHORD: f64 = 0.005;

/// Rounding of the mesh to single precision, and of the distance between triangles.
const BESIDE_CHORD: f64 = 0.002;

/// A part's mesh; turned round, z becomes -z and y becomes -y.
fn mesh(part: &Part, turned: bool) -> TriMesh {
    let (mesh, _) = tessellate(&build(part).unwrap(), CHORD).unwrap();
    let over = |p: Vector| if turned { Vector::new(p.x, -p.y, -p.z) } else { p };
    let points = points_of(&mesh).into_iter().map(over).collect();
    TriMesh::new(points, mesh.triangles.clone()).unwrap()
}

/// Their distance with the inner one's z = 0 at `advance` of the outer one.
fn apart(inner: &TriMesh, outer: &TriMesh, advance: f64) -> f64 {
    let at = Pose::translation(0.0, 0.0, advance);
    distance(&at, inner, &Pose::identity(), outer).unwrap().distance
}

fn measured(section: &Section, code: &str) -> f64 {
    verdicts(section).unwrap().finding(code).unwrap().measured
}

/// A steep enough cone is nearer, square to itself, than across the axis: this one by 6e-4 of the
/// gap. The way in is tried every half millimetre.
#[test]
fn the_grip_in_the_cap() {
    let mut section = capped();
    // Nothing but the grip: the inner cap is another check's matter.
    cap(&mut section).seal = None;
    let (inner, outer) =
        (mesh(&section.part(), true), mesh(&section.cap.as_ref().unwrap().part(), false));
    let way = (0..=6).map(|n| apart(&inner, &outer, 18.0 + f64::from(n) * 0.5));
    let least = way.fold(f64::MAX, f64::min);
    let gap = measured(&section, "clear.cap");
    println!("clear.cap: {gap:.6} in the half-plane, {least:.6} between triangles");
    assert!((gap - least).abs() < CHORD + BESIDE_CHORD);
    let room = measured(&section, "clear.cap-stop");
    let touches = 21.0 + room;
    assert!(apart(&inner, &outer, touches - 0.2) > 0.0);
    assert_eq!(apart(&inner, &outer, touches + 0.5), 0.0);
}

/// The rim and the front face are parallel rings: their distance is the gap.
#[test]
fn the_front_before_the_inner_cap() {
    let mut section = capped();
    cap(&mut section).seal.as_mut().unwrap().depth = read(21.15, 0.05);
    let (inner, outer) =
        (mesh(&section.part(), true), mesh(&section.cap.as_ref().unwrap().part(), false));
    let gap = measured(&section, "clear.seal");
    let least = apart(&inner, &outer, 21.0);
    println!("clear.seal: {gap:.6} in the half-plane, {least:.6} between triangles");
    assert!((gap - least).abs() < CHORD + BESIDE_CHORD);
}

/// From the back, turned round; the mouth comes to z 15.7.
#[test]
fn the_converter_in_the_section() {
    let section = filled();
    let converter = section.converter.as_ref().unwrap().part(mm(4.2));
    let (inner, outer) = (mesh(&converter, true), mesh(&section.part(), true));
    let way = (0..=6).map(|n| apart(&inner, &outer, -15.7 - f64::from(n)));
    let least = way.fold(f64::MAX, f64::min);
    let gap = measured(&section, "clear.converter");
    println!("clear.converter: {gap:.6} in the half-plane, {least:.6} between triangles");
    assert!((gap - least).abs() < CHORD + BESIDE_CHORD);
}

/// In the closed barrel: its bottom is 1.3 behind the end, and 0.75 beside it.
#[test]
fn the_converter_in_the_barrel() {
    let mut section = filled();
    section.barrel.bore.as_mut().unwrap().depth = mm(45.0);
    let converter = section.converter.as_ref().unwrap().part(mm(4.2));
    let (inner, outer) = (mesh(&converter, false), mesh(&section.barrel.whole(), false));
    let room = measured(&section, "clear.converter-end");
    let least = apart(&inner, &outer, 15.7 - 21.0);
    println!("clear.converter-end: {room:.6} in the half-plane, {least:.6} between triangles");
    assert!((room - least).abs() < CHORD + BESIDE_CHORD);
}

/// Nib and feed, taken as a cylinder, before the closed end and beside the bore of 11.5: with a bore
/// of 16 round it the tip is nearest to the end, 2.2; without, it is nearest to the side.
#[test]
fn the_nib_in_the_cap() {
    let section = capped();
    let nib = mesh(&section.unit.nib_part(), true);
    let at = 21.0 - 1.2;
    let side = mesh(&section.cap.as_ref().unwrap().part(), false);
    let beside = measured(&section, "clear.nib-side");
    let least = apart(&nib, &side, at);
    println!("clear.nib-side: {beside:.6} in the half-plane, {least:.6} between triangles");
    assert!((beside - least).abs() < CHORD + BESIDE_CHORD);
    let mut wide = capped();
    cap(&mut wide).seal = None;
    cap(&mut wide).bores[1].diameter = read(16.0, 0.02);
    let end = mesh(&wide.cap.as_ref().unwrap().part(), false);
    let before = measured(&wide, "clear.nib");
    let least = apart(&nib, &end, at);
    println!("clear.nib: {before:.6} in the half-plane, {least:.6} between triangles");
    assert!((before - least).abs() < CHORD + BESIDE_CHORD);
}
