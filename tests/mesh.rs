//! The mesh against the exact solid, and against an independent mesh library's measures.

mod common;
#[path = "mesh/distance.rs"]
mod distance;
#[path = "mesh/needles.rs"]
mod needles;
#[path = "mesh/planted.rs"]
mod planted;

use common::{r1, r1_with};
use sectionwright::mesh::tessellate;
use sectionwright::section::Part;
use sectionwright::solid::build;
use truck_meshalgo::prelude::{CalcVolume, Topology};
use truck_topology::shell::ShellCondition;

fn meshed(part: &Part, chord: f64) -> (f64, f64) {
    let body = build(part).unwrap();
    let exact = body.measures().volume;
    let (mesh, audit) = tessellate(&body, chord).unwrap();
    let truck = mesh.to_truck();
    assert_eq!(truck.shell_condition(), ShellCondition::Closed);
    assert!((truck.volume() / audit.volume - 1.0).abs() < 1e-12);
    println!(
        "{chord}: {} triangles, {} sides, {:.4} %",
        mesh.triangles.len(),
        mesh.sides,
        (audit.volume / exact - 1.0) * 100.0
    );
    (exact, audit.volume)
}

#[test]
fn r1_volume_tends_to_the_exact_one() {
    let shares = [(0.01, 0.0025), (0.005, 0.00125), (0.002, 0.0005)];
    let errors = shares.map(|(chord, bound)| {
        let (exact, volume) = meshed(&r1(), chord);
        let error = volume / exact - 1.0;
        assert!(error.abs() < bound, "{error} at {chord}");
        error / chord
    });
    // In proportion to the chord: what a fold or a lost face would not do.
    assert!((errors[0] / errors[2] - 1.0).abs() < 0.5, "{errors:?}");
}

#[test]
fn coincidences() {
    // 5/8 H of P = 0.75: the depth of the basic profile (ISO 68-1).
    let depth = 0.75 * 3.0_f64.sqrt() / 2.0 * 5.0 / 8.0;
    for (chamfer, clearance) in [(depth, 8.3), (0.2, 8.3), (0.5, 8.05), (0.5, 7.8), (depth, 8.05)] {
        meshed(&r1_with(chamfer, clearance), 0.005);
    }
}
