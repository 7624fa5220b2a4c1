//! The chord error as a bound on both sides: mesh to surface, and surface to mesh.

use parry3d_f64::math::Vector;
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::TriMesh;
use sectionwright::mesh::{Mesh, tessellate};
use sectionwright::section::{Item, Part, Side};
use sectionwright::solid::{Meridian, Polar, Screw, build};
use truck_modeling::{InnerSpace, ParametricSurface, Point3};

use crate::common::{basic_thread, chain, points_of, r1, random};

/// Rounding of the mesh's points to single precision, at some 40 mm from the origin.
const SINGLE: f64 = 4e-6;

/// Where in a triangle: at its corners and middles, and in between.
const PLACES: [[f64; 3]; 7] = [
    [1.0, 0.0, 0.0],
    [0.5, 0.5, 0.0],
    [0.5, 0.0, 0.5],
    [0.0, 0.5, 0.5],
    [0.34, 0.33, 0.33],
    [0.6, 0.2, 0.2],
    [0.2, 0.2, 0.6],
];

/// The surface parameters at a point's own angle: where the meridian is as far along as the point.
fn beside(surface: &Screw, p: Point3) -> [f64; 2] {
    let polar = Polar { theta: libm::atan2(p.y, p.x), r: libm::hypot(p.x, p.y), z: p.z };
    let u = polar.theta + surface.turns_to(polar) * std::f64::consts::TAU;
    [u, surface.v_at(u, polar).clamp(0.0, 1.0)]
}

/// Distance to the whole surface between the ends of its meridian: turned ones in closed form in
/// the half-plane, screws by Newton's method from the point's own angle.
fn distance_to(surface: &Screw, p: Point3) -> f64 {
    if surface.climb == 0.0 {
        let (r, z) = (libm::hypot(p.x, p.y), p.z);
        return match surface.meridian {
            Meridian::Line { from, to } => {
                let d = [to[0] - from[0], to[1] - from[1]];
                let t = ((r - from[0]) * d[0] + (z - from[1]) * d[1]) / (d[0] * d[0] + d[1] * d[1]);
                let t = t.clamp(0.0, 1.0);
                libm::hypot(r - from[0] - d[0] * t, z - from[1] - d[1] * t)
            }
            Meridian::Arc { centre, radius, .. } => {
                (libm::hypot(r - centre[0], z - centre[1]) - radius).abs()
            }
        };
    }
    let [mut u, mut v] = beside(surface, p);
    for _ in 0..20 {
        let (off, su, sv) = (p - surface.subs(u, v), surface.uder(u, v), surface.vder(u, v));
        // Gauss and Newton: the normal equations of two unknowns.
        let (a, b, c) = (su.dot(su), su.dot(sv), sv.dot(sv));
        let (d, e) = (su.dot(off), sv.dot(off));
        let dv = (a * e - b * d) / (a * c - b * b);
        let next = (v + dv).clamp(0.0, 1.0);
        u += (d - b * (next - v)) / a;
        v = next;
    }
    (surface.subs(u, v) - p).magnitude()
}

/// Of points of every `stride`-th triangle: the greatest distance to the surface, and, of the
/// surface's points at the same angles, the greatest to the mesh.
fn strays(part: &Part, chord: f64, stride: usize) -> (Mesh, f64, f64) {
    let body = build(part).unwrap();
    let (mesh, _) = tessellate(&body, chord).unwrap();
    let surfaces: Vec<Screw> = body.faces().map(|(face, _)| face.surface()).collect();
    let points = points_of(&mesh);
    let skin = TriMesh::new(points.clone(), mesh.triangles.clone()).unwrap();
    let (mut from_mesh, mut from_surface) = (0.0_f64, 0.0_f64);
    for n in (0..mesh.triangles.len()).step_by(stride) {
        let surface = &surfaces[mesh.faces[n] as usize];
        let [a, b, c] = mesh.triangles[n].map(|n| points[n as usize]);
        for [wa, wb, wc] in PLACES {
            let p = a * wa + b * wb + c * wc;
            let p = Point3::new(p.x, p.y, p.z);
            let mut least = distance_to(surface, p);
            if least > mesh.chord_error {
                // Beside the face's end its neighbour is nearer.
                least = surfaces.iter().map(|s| distance_to(s, p)).fold(least, f64::min);
            }
            from_mesh = from_mesh.max(least);
            let [u, v] = beside(surface, p);
            let q = surface.subs(u, v);
            let near = skin.project_local_point(Vector::new(q.x, q.y, q.z), false).point;
            let off = near - Vector::new(q.x, q.y, q.z);
            from_surface = from_surface.max(off.dot(off).sqrt());
        }
    }
    (mesh, from_mesh, from_surface)
}

fn within(name: &str, part: &Part, chord: f64, stride: usize) {
    let (mesh, from_mesh, from_surface) = strays(part, chord, stride);
    println!("{name}: asked {chord}, bound {}, {from_mesh} {from_surface}", mesh.chord_error);
    assert!(mesh.chord_error <= chord);
    assert!(from_mesh <= mesh.chord_error + SINGLE, "{name}: the mesh strays by {from_mesh}");
    assert!(from_surface <= mesh.chord_error + SINGLE, "{name}: it leaves out {from_surface}");
    // The bound is no idle one: triangles are not made for nothing.
    assert!(from_mesh.max(from_surface) > 0.7 * mesh.chord_error, "{name}: {from_mesh}");
}

#[test]
fn r1_is_within_its_chord_error() {
    within("R1", &r1(), 0.01, 3);
    within("R1", &r1(), 0.002, 11);
}

/// Twist, not the sagitta, is what strays here: six starts of 1 mm.
#[test]
fn six_starts_are_within_their_chord_error() {
    let thread = basic_thread(Item::TenonThread, Side::External, "M13xPh6P1", 2.0, 10.0);
    let runs = chain(&[(13.0, 0.0), (13.0, 12.0)], &[(8.0, 12.0), (8.0, 0.0)]);
    let part = Part { runs, threads: vec![thread] }.snapped();
    within("six starts", &part, 0.005, 3);
    within("six starts", &part, 0.0005, 29);
}

#[test]
fn random_parts_are_within_their_chord_error() {
    let buildable = (0..).map(|seed| (seed, random::part(seed).0)).filter(|p| build(&p.1).is_ok());
    for (seed, part) in buildable.take(12) {
        within(&format!("seed {seed}"), &part, 0.005, 13);
    }
}
