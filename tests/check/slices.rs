//! Play against an independent route: half-sections of both meshes, overlapped as polygons.

use std::collections::{BTreeMap, BTreeSet};

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use sectionwright::mesh::tessellate;
use sectionwright::scene::verdicts;
use sectionwright::section::Part;
use sectionwright::solid::build;

use crate::fixtures::r1;

/// The outline of a part in the half-plane of angle 0, where its mesh has corners that lie
/// exactly on the solid: the edges of the mesh in that half-plane, joined end to end.
fn slice(part: &Part) -> Vec<[f64; 2]> {
    let (mesh, _) = tessellate(&build(part).unwrap(), 0.01).unwrap();
    let here = |n: u32| {
        let [x, y, _] = mesh.points[n as usize];
        y == 0.0 && x >= 0.0
    };
    let mut edges = BTreeSet::new();
    for [a, b, c] in &mesh.triangles {
        for (p, q) in [(*a, *b), (*b, *c), (*c, *a)] {
            if here(p) && here(q) {
                edges.insert((p.min(q), p.max(q)));
            }
        }
    }
    let mut neighbours: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for (p, q) in &edges {
        neighbours.entry(*p).or_default().push(*q);
        neighbours.entry(*q).or_default().push(*p);
    }
    assert!(neighbours.values().all(|n| n.len() <= 2), "one simple outline");
    // From the axis, where the outline has an end, or round from anywhere.
    let end = neighbours.iter().find(|(_, n)| n.len() == 1).map(|(p, _)| *p);
    let first = end.unwrap_or(*neighbours.keys().next().unwrap());
    let (mut outline, mut last, mut at) = (vec![first], None, first);
    while let Some(next) = neighbours[&at].iter().copied().find(|n| Some(*n) != last) {
        if next == first {
            break;
        }
        (last, at) = (Some(at), next);
        outline.push(next);
    }
    assert_eq!(outline.len(), neighbours.len(), "all of it");
    let point = |n: &u32| {
        let [x, _, z] = mesh.points[*n as usize];
        [f64::from(x), f64::from(z)]
    };
    outline.iter().map(point).collect()
}

fn area(shapes: &[Vec<Vec<[f64; 2]>>]) -> f64 {
    let cross = |w: (&[f64; 2], &[f64; 2])| w.0[0] * w.1[1] - w.1[0] * w.0[1];
    let contour =
        |c: &Vec<[f64; 2]>| c.iter().zip(c.iter().cycle().skip(1)).map(cross).sum::<f64>();
    shapes.iter().flatten().map(contour).sum::<f64>().abs() / 2.0
}

/// Source: an independent boundary-representation kernel on the solids: pushed 0.0140 along the
/// axis nothing touches, at 0.0145 it does. Half the play lies between.
#[test]
fn r1_touches_at_half_its_play() {
    let section = r1();
    let (outer, inner) = (slice(&section.part()), slice(&section.unit.part()));
    // The unit's ridges into the middle of the grooves, its collar a little above the floor so
    // that its end stays clear of the thread's: ridges at 2.5 + k 0.55, grooves at 4.6 + k 0.55.
    let centred = (4.6 - 2.5) - 2.0 * 0.55;
    let overlap = |push: f64| {
        let moved: Vec<_> = inner.iter().map(|[r, z]| [*r, z + centred + push]).collect();
        area(&outer.overlay(&moved, OverlayRule::Intersect, FillRule::EvenOdd))
    };
    for push in [-0.0140, 0.0, 0.0140] {
        assert!(overlap(push) < 1e-5, "{push}: {}", overlap(push));
    }
    for push in [-0.0145, 0.0145] {
        assert!(overlap(push) > 1e-4, "{push}: {}", overlap(push));
    }
    let play = verdicts(&section).unwrap().finding("thread.unit.play").unwrap().measured;
    assert!((0.0140..0.0145).contains(&(play / 2.0)), "{play}");
}
