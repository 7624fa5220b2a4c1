//! The audit on broken meshes: a corner moved, so that triangles cross, seen by another library.

use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::{distance, intersection_test};
use parry3d_f64::shape::Triangle;
use sectionwright::mesh::{Mesh, MeshError, audit, tessellate};
use sectionwright::solid::{Measures, build};

use crate::common::r1;
use crate::common::random::Dice;

/// Coarse, so that all pairs can be tried.
const CHORD: f64 = 0.02;

/// Corners that are moved.
const MOVES: usize = 400;

/// Two triangles nearer than this touch or not by rounding; the other library counts in f64, and
/// judges no such pair.
const UNSURE: f64 = 1e-9;

fn triangle(mesh: &Mesh, n: usize) -> Triangle {
    let [a, b, c] = mesh.triangles[n].map(|n| {
        let [x, y, z] = mesh.points[n as usize].map(f64::from);
        Vector::new(x, y, z)
    });
    Triangle::new(a, b, c)
}

/// Whether a triangle round `corner` passes through one with which it has no corner in common:
/// every one of them tried. None where rounding decides.
fn crosses(mesh: &Mesh, corner: u32) -> Option<bool> {
    let still = Pose::identity();
    let round = (0..mesh.triangles.len()).filter(|n| mesh.triangles[*n].contains(&corner));
    let mut unsure = false;
    for one in round {
        for other in 0..mesh.triangles.len() {
            if mesh.triangles[one].iter().any(|n| mesh.triangles[other].contains(n)) {
                continue;
            }
            let (a, b) = (triangle(mesh, one), triangle(mesh, other));
            let apart = |k: fn(Vector) -> f64| {
                let reach = |t: &Triangle| {
                    let v = [k(t.a), k(t.b), k(t.c)];
                    (v.into_iter().fold(f64::MAX, f64::min), v.into_iter().fold(f64::MIN, f64::max))
                };
                reach(&a).0 > reach(&b).1 || reach(&b).0 > reach(&a).1
            };
            if apart(|v| v.x) || apart(|v| v.y) || apart(|v| v.z) {
                continue;
            }
            if intersection_test(&still, &a, &still, &b).unwrap().intersecting {
                return Some(true);
            }
            unsure |= distance(&still, &a, &still, &b).unwrap().distance < UNSURE;
        }
    }
    (!unsure).then_some(false)
}

/// A mesh with one corner moved within its half-plane.
fn moved(mesh: &Mesh, corner: usize, out: f64, along: f64) -> Mesh {
    let mut mesh = mesh.clone();
    let [x, y, z] = mesh.points[corner].map(f64::from);
    let share = 1.0 + out / (x * x + y * y).sqrt();
    mesh.points[corner] = [x * share, y * share, z + along].map(|v| v as f32);
    mesh
}

fn sound() -> (Mesh, Measures) {
    let body = build(&r1()).unwrap();
    let (mesh, _) = tessellate(&body, CHORD).unwrap();
    (mesh, body.measures())
}

/// Independent route: another library's test of triangles, on every pair.
#[test]
fn a_corner_that_is_moved_through_a_face_is_seen() {
    let (mesh, measures) = sound();
    let mut dice = Dice(1);
    let (mut crossing, mut clear) = (0, 0);
    for _ in 0..MOVES {
        let corner = (dice.within(0.0, 1e6) * 100.0) as usize % mesh.points.len();
        let reach = dice.one_of(&[0.1, 1.0, 2.0, 4.0]);
        let (out, along) = (dice.within(-1.0, 1.0) * reach, dice.within(-1.0, 1.0) * reach);
        let broken = moved(&mesh, corner, out, along);
        let found = audit(&broken, &measures, 1);
        match crosses(&broken, corner as u32) {
            Some(true) => {
                assert!(found.is_err(), "corner {corner} by {out} {along} crosses");
                crossing += usize::from(matches!(found, Err(MeshError::Crossing { .. })));
            }
            // Triangles with a common corner may still be folded onto each other.
            Some(false) => clear += usize::from(found.is_ok()),
            None => {}
        }
    }
    println!("{crossing} crossings found, {clear} moves without one");
    assert!(crossing * 5 > MOVES && clear * 20 > MOVES, "{crossing} {clear} of {MOVES}");
}

#[test]
fn other_faults_are_named() {
    let (mesh, measures) = sound();
    let fault = |change: &dyn Fn(&mut Mesh)| {
        let mut mesh = mesh.clone();
        change(&mut mesh);
        audit(&mesh, &measures, 1).unwrap_err().code()
    };
    assert_eq!(fault(&|mesh| mesh.triangles.truncate(mesh.triangles.len() - 1)), "mesh.open");
    assert_eq!(fault(&|mesh| mesh.triangles[7].reverse()), "mesh.open");
    assert_eq!(fault(&|mesh| mesh.columns[7] = (mesh.columns[7] + 3) % mesh.sides), "mesh.beside");
    assert_eq!(
        fault(&|mesh| mesh.angles.iter_mut().for_each(|angle| *angle += 0.01)),
        "mesh.beside"
    );
    // A corner on its neighbour: a triangle without area. Two far corners in one place: no such.
    let [a, b, _] = mesh.triangles[mesh.triangles.len() / 4].map(|n| n as usize);
    assert_eq!(fault(&|mesh| mesh.points[a] = mesh.points[b]), "mesh.degenerate");
    let twin = |mesh: &Mesh| {
        let ([x, y, z], at) =
            (mesh.points[a].map(f64::from), |n: usize| mesh.points[n].map(f64::from));
        // On the same half-plane, some way along it.
        let far = |n: &usize| {
            let [p, q, r] = at(*n);
            (x * q - y * p).abs() < 1e-4 && x * p + y * q > 0.0 && (r - z).abs() > 0.3
        };
        (0..mesh.points.len()).find(far).unwrap()
    };
    assert_eq!(fault(&|mesh| mesh.points[a] = mesh.points[twin(mesh)]), "mesh.coincident");
}
