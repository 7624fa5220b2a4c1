//! Walls against an independent route: distances between the triangles of the mesh, in space.

use std::collections::BTreeSet;

use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::distance;
use parry3d_f64::shape::{TriMesh, Triangle};
use sectionwright::mesh::tessellate;
use sectionwright::scene::verdicts;
use sectionwright::section::{Facet, Feature, Item, LeadChamfer, Section, Skin, faults};
use sectionwright::size::SizeId;
use sectionwright::solid::{FaceName, build};

use crate::common::random::Dice;
use crate::common::{mm, points_of};
use crate::fixtures::{hole, r1, sound, to};

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

/// What each zone of the outside is called in features, for zones whose walls lie between a hole
/// and a surface that is turned, or between a hole and one thread: there the swept wall is exact.
fn of_outside(code: &str, item: Item, facet: Facet) -> bool {
    match code {
        "wall.cap-thread" => item == Item::CapThread,
        "wall.relief" => item == Item::Relief,
        "wall.tenon" => item == Item::TenonThread || (item == Item::Tenon && facet == Facet::Side),
        "wall.tenon-tip" => item == Item::Pilot || (item == Item::Tenon && facet != Facet::Side),
        _ => false,
    }
}

/// The triangles of a section, with the names of their faces.
struct Triangles {
    points: Vec<Vector>,
    named: Vec<([u32; 3], FaceName)>,
}

impl Triangles {
    fn of(section: &Section) -> Self {
        let body = build(&section.part()).unwrap();
        let (mesh, _) = tessellate(&body, CHORD).unwrap();
        let names: Vec<_> = body.faces().map(|(_, name)| *name).collect();
        let named = mesh.triangles.iter().zip(&mesh.faces);
        let named = named.map(|(t, face)| (*t, names[*face as usize])).collect();
        Self { points: points_of(&mesh), named }
    }

    /// The least distance from the bores to some of the outside, the bores moved along x.
    fn apart(&self, off: f64, pick: impl Fn(Feature, Skin) -> bool) -> Option<f64> {
        let on = |skin: Skin| {
            let picked = self.named.iter().filter(|(_, n)| n.skin == skin && pick(n.feature, skin));
            picked.map(|(triangle, _)| *triangle).collect::<Vec<_>>()
        };
        let outside = on(Skin::Outside);
        if outside.is_empty() {
            return None;
        }
        let outside = TriMesh::new(self.points.clone(), outside).unwrap();
        let moved = Pose::translation(off, 0.0, 0.0);
        let found = on(Skin::Bore).into_iter().map(|triangle| {
            let [a, b, c] = triangle.map(|n| self.points[n as usize]);
            let triangle = Triangle::new(a, b, c);
            distance(&moved, &triangle, &Pose::identity(), &outside).unwrap().distance
        });
        found.reduce(f64::min)
    }

    /// The same for the surfaces of a check's zone.
    fn of_zone(&self, off: f64, code: &str) -> Option<f64> {
        self.apart(off, |feature, skin| {
            let all = ["wall.least", "wall.worst"].contains(&code);
            all || skin == Skin::Bore || of_outside(code, feature.item, feature.facet)
        })
    }
}

/// The bore really moved over: the wall at the worst side is what is left. Nothing of R1 has a
/// tolerance, so the worst is the offset's alone; all bores move as far.
#[test]
fn a_bore_moved_over_leaves_the_worst_wall() {
    for off in [0.05, 0.2] {
        let mut section = r1();
        section.tenon.chamfer = LeadChamfer::at_45(mm(0.9));
        section.criteria.offsets.holding = mm(off);
        let examination = verdicts(&section).unwrap();
        let triangles = Triangles::of(&section);
        for code in ["wall.worst", "wall.tenon", "wall.tenon-tip"] {
            let in_space = triangles.of_zone(off, code).unwrap();
            let worst = examination.finding(code).and_then(|f| f.detail("at the worst")).unwrap();
            println!("{code} off {off}: {worst:.6}, {in_space:.6} between triangles");
            assert!((worst - in_space).abs() < CHORD + BESIDE_CHORD, "{code}");
        }
    }
}

/// Random sections: every size of three bases changed at once, as far as they can be made. Of
/// every zone of the outside, the wall is the distance between the triangles; of threads over
/// threads, which are swept through phases that were not cut, it is no more than that.
#[test]
fn random_walls_between_triangles() {
    let mut dice = Dice(20_261_125);
    let (mut compared, mut zones) = (0, BTreeSet::new());
    let mut shaped = sound();
    shaped.grip = crate::common::section::shaped().grip;
    let mut over = sound();
    over.grip = crate::common::section::shaped().grip;
    over.unit_thread.to = mm(16.0);
    hole(&mut over, Item::TapDrill).depth = to(18.0);
    for round in 0..12 {
        let base = [sound(), shaped.clone(), over.clone()][round % 3].clone();
        let section = SizeId::of(&base).into_iter().fold(base, |section, parameter| {
            let by = dice.within(-0.12, 0.12);
            let changed = parameter.get(&section).and_then(|v| parameter.set(&section, v + by));
            changed.filter(|changed| faults(changed).is_empty()).unwrap_or(section)
        });
        let Ok(examination) = verdicts(&section) else { continue };
        let triangles = Triangles::of(&section);
        // The worst of them is of another section: the one with the least material.
        let walls = examination.findings.iter().filter(|f| f.code.starts_with("wall."));
        for finding in walls.filter(|f| f.code != "wall.worst") {
            let (code, wall) = (finding.code, finding.measured);
            assert!(wall.is_finite(), "{finding:?}");
            if code == "wall.thread-over-thread" {
                let threads = [Item::UnitThread, Item::CapThread, Item::TenonThread];
                let in_space = triangles.apart(0.0, |f, _| threads.contains(&f.item)).unwrap();
                assert!(
                    wall < in_space + CHORD + BESIDE_CHORD,
                    "{round} {code}: {wall} {in_space}"
                );
                zones.insert(code);
            } else if let Some(in_space) = triangles.of_zone(0.0, code) {
                let off = wall - in_space;
                assert!(off.abs() < CHORD + BESIDE_CHORD, "{round} {code}: {off}");
                zones.insert(code);
                compared += 1;
            }
        }
    }
    assert!(compared >= 40 && zones.len() == 6, "{compared} {zones:?}");
}
