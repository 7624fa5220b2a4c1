//! The cut of bodies: closed by count, exact by measure.

use super::*;
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Part, Run, Shape, Skin, Station};
use crate::solid::build;

/// A closed chain of runs through corners (diameter, z), each with the bulge that follows it; a
/// chain that begins on the axis is left open along it.
fn turned(corners: &[(f64, f64, f64)]) -> Body {
    let at = |n: usize| {
        let (d, z, _) = corners[n % corners.len()];
        Station::new(Length::mm(d), Length::mm(z))
    };
    let open = corners[0].0 == 0.0;
    let runs = (0..corners.len() - usize::from(open)).map(|n| Run {
        feature: Feature::new(Item::Grip(n as u8 + 1), Facet::Side),
        skin: Skin::Outside,
        from: at(n),
        to: at(n + 1),
        shape: match corners[n].2 {
            0.0 => Shape::Straight,
            bulge => Shape::Arc { bulge },
        },
    });
    build(&Part { runs: runs.collect(), threads: vec![] }).unwrap()
}

/// By Euler: a ring cut by two half-planes is two edges, four of them bound two pieces.
#[test]
fn a_tube() {
    let pieces = Pieces::new(&turned(&[
        (10.0, 0.0, 0.0),
        (10.0, 5.0, 0.0),
        (8.0, 5.0, 0.0),
        (8.0, 0.0, 0.0),
    ]))
    .unwrap();
    assert_eq!((pieces.vertices.len(), pieces.edges.len(), pieces.faces.len()), (8, 16, 8));
    assert_eq!(pieces.genus(), 1);
    assert!(pieces.vertices.iter().all(|[_, y, _]| *y == 0.0), "exactly on the half-planes");
    assert!(pieces.faces.iter().all(|face| face.cycle.len() == 4));
}

/// A cone's apex, a disc's centre, a ball: one vertex each on the axis, shared by both pieces.
#[test]
fn poles() {
    let cone = turned(&[
        (0.0, 0.0, 0.0),
        (6.0, 2.0, 0.0),
        (6.0, 5.0, -1.0),
        (4.0, 6.0, 0.0),
        (0.0, 6.0, 0.0),
    ]);
    let pieces = Pieces::new(&cone).unwrap();
    assert_eq!(pieces.genus(), 0);
    let on_axis = pieces.vertices.iter().filter(|[x, y, _]| *x == 0.0 && *y == 0.0).count();
    assert_eq!(on_axis, 2);
    assert_eq!(pieces.faces.iter().filter(|face| face.cycle.len() == 3).count(), 4);
}

/// Limiting case: all pieces of a turned part go round once, face by face. (Their volume is
/// weighed in tests/step.rs.)
#[test]
fn pieces_cover_their_faces() {
    let body = turned(&[(10.0, 0.0, 0.3), (10.0, 5.0, 0.0), (8.0, 5.0, 0.0), (8.0, 0.0, 0.0)]);
    let pieces = Pieces::new(&body).unwrap();
    let span: f64 = pieces.faces.iter().map(|face| face.u[1] - face.u[0]).sum();
    assert!((span - 4.0 * std::f64::consts::TAU).abs() < 1e-9, "{span}");
}
