//! Volumes in closed form, and handles, of every kind of hole in a plain rod.

use std::f64::consts::PI;

use super::common::mm;
use super::common::section::{bore, r1};
use sectionwright::check::Verdict;
use sectionwright::design::{Library, load};
use sectionwright::mesh::tessellate;
use sectionwright::quantity::Angle;
use sectionwright::scene::verdicts;
use sectionwright::section::{
    Bore, CentrePilot, Depth, Item, LeadChamfer, Mouth, Part, Point, Section, faults,
};
use sectionwright::solid::build;

/// A section without threads: a rod of 12 mm, 20 long, and a tenon of 10 mm, 12 long, without
/// chamfer.
fn rod(bores: Vec<Bore>) -> Part {
    let mut section = r1();
    section.grip.front = mm(12.0);
    section.grip.runs[0].to.diameter = mm(12.0);
    section.grip.runs[0].to.z = mm(20.0);
    section.tenon.length = mm(12.0);
    section.tenon.chamfer = LeadChamfer::at_45(mm(0.0));
    section.bores = bores;
    let mut part = section.part();
    part.threads.clear();
    part
}

fn cylinder(d: f64, length: f64) -> f64 {
    PI / 4.0 * d * d * length
}

/// Volume of a cone's frustum (pi/12 h (D^2 + D d + d^2)), of an included angle.
fn frustum(wide: f64, narrow: f64, angle: f64) -> f64 {
    let height = (wide - narrow) / 2.0 / libm::tan((angle / 2.0).to_radians());
    PI / 12.0 * height * (wide * wide + wide * narrow + narrow * narrow)
}

fn rod_volume() -> f64 {
    cylinder(12.0, 20.0) + cylinder(10.0, 12.0)
}

fn from_back(d: f64, depth: f64, point: f64) -> Bore {
    Bore { mouth: Mouth::Back, ..bore(Item::BoreStep(Mouth::Back, 1), d, depth, point) }
}

fn sink(mouth: Mouth, d: f64, angle: f64) -> Bore {
    Bore { mouth, ..bore(Item::Countersink(mouth), d, 0.0, angle) }
}

/// The solid has this volume and this many handles, and so has its mesh.
fn holds(part: &Part, removed: f64, genus: i64) {
    let body = build(part).unwrap();
    let (found, expected) = (body.measures().volume, rod_volume() - removed);
    assert!((found / expected - 1.0).abs() < 1e-12, "{found} {expected}");
    assert_eq!(body.genus(), genus);
    let error = |chord: f64| {
        let (mesh, audit) = tessellate(&body, chord).unwrap();
        assert_eq!(audit.genus, genus);
        (audit.volume / expected - 1.0) * f64::from(mesh.sides * mesh.sides)
    };
    let (coarse, fine) = (error(0.02), error(0.005));
    assert!((coarse - fine).abs() < 0.1 * coarse.abs().max(0.5), "{coarse} {fine}");
}

#[test]
fn a_rod_without_any_hole() {
    holds(&rod(vec![]), 0.0, 0);
}

#[test]
fn blind_from_the_front() {
    let drilled = rod(vec![bore(Item::TapDrill, 8.0, 10.0, 118.0)]);
    holds(&drilled, cylinder(8.0, 10.0) + frustum(8.0, 0.0, 118.0), 0);
    let flat = rod(vec![bore(Item::TapDrill, 8.0, 10.0, 180.0)]);
    holds(&flat, cylinder(8.0, 10.0), 0);
}

#[test]
fn blind_from_the_back_alone() {
    holds(&rod(vec![from_back(6.0, 9.0, 180.0)]), cylinder(6.0, 9.0), 0);
}

#[test]
fn blind_from_both_ends() {
    let holes = vec![bore(Item::TapDrill, 8.0, 10.0, 118.0), from_back(6.0, 9.0, 90.0)];
    let removed = cylinder(8.0, 10.0)
        + frustum(8.0, 0.0, 118.0)
        + cylinder(6.0, 9.0)
        + frustum(6.0, 0.0, 90.0);
    holds(&rod(holes), removed, 0);
}

/// Two drills that meet within their points: a waist where the cones cross. Source: plane
/// geometry; both of 90 degrees, 8 and 6 wide, full diameters 5 apart: r = 4 - s = 3 - (5 - s),
/// so the waist lies 3 behind the wider one's full depth, at a radius of 1.
#[test]
fn holes_that_meet_in_their_points() {
    let holes = vec![bore(Item::TapDrill, 8.0, 10.0, 90.0), from_back(6.0, 17.0, 90.0)];
    let removed = cylinder(8.0, 10.0)
        + frustum(8.0, 2.0, 90.0)
        + frustum(6.0, 2.0, 90.0)
        + cylinder(6.0, 17.0);
    holds(&rod(holes), removed, 1);
}

#[test]
fn countersinks_take_a_frustum() {
    let through = bore(Item::ThroughBore, 6.0, f64::INFINITY, 118.0);
    let holes = vec![through, sink(Mouth::Front, 8.0, 90.0), sink(Mouth::Back, 7.0, 60.0)];
    // The cone from 8 to 6, less the bore that was there.
    let over = |wide: f64, angle: f64| {
        let height = (wide - 6.0) / 2.0 / libm::tan((angle / 2.0).to_radians());
        frustum(wide, 6.0, angle) - cylinder(6.0, height)
    };
    holds(&rod(holes), cylinder(6.0, 32.0) + over(8.0, 90.0) + over(7.0, 60.0), 1);
}

#[test]
fn reliefs_take_a_ring() {
    let relief = |point| Bore {
        depth: Depth::Between(mm(10.0), mm(13.0)),
        ..bore(Item::BoreRelief(1), 8.0, 0.0, point)
    };
    let through = || bore(Item::ThroughBore, 6.0, f64::INFINITY, 118.0);
    let flat = cylinder(6.0, 29.0) + cylinder(8.0, 3.0);
    holds(&rod(vec![through(), relief(180.0)]), flat, 1);
    // Walls of 90 degrees are 1 long.
    let sloped = cylinder(6.0, 27.0) + cylinder(8.0, 3.0) + 2.0 * frustum(8.0, 6.0, 90.0);
    holds(&rod(vec![through(), relief(90.0)]), sloped, 1);
}

#[test]
fn a_centre_drill_leaves_cone_and_pilot() {
    let (diameter, length) = (mm(3.0), mm(4.0));
    let pilot = CentrePilot { diameter, length, point: Angle::deg(118.0) };
    let point = Point::Centre(Angle::deg(60.0), pilot);
    let drill = Bore { point, ..bore(Item::Recess, 9.0, 1.0, 60.0) };
    let removed = cylinder(9.0, 1.0)
        + frustum(9.0, 3.0, 60.0)
        + cylinder(3.0, 4.0)
        + frustum(3.0, 0.0, 118.0);
    holds(&rod(vec![drill]), removed, 0);
}

fn fixture(name: &str) -> Section {
    let path = format!("{}/tests/fixtures/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    load(&Library::default(), &path).unwrap_or_else(|e| panic!("{name}: {e:?}")).section
}

/// The fixtures as whole solids: handles, mesh, and every bore feature where it should stand.
#[test]
fn fixtures_are_solids() {
    for (name, genus, features) in [
        (
            "both-ends",
            1,
            &["bore-step-front-1", "bore-step-back-1.floor", "bore-step-back-2.cone"][..],
        ),
        ("blind", 0, &["bore-step-front-1.cone", "bore-step-back-1.cone", "tap-drill.cone"]),
        ("blind-flat", 0, &["recess.cone", "centre-pilot", "centre-pilot.cone", "tap-drill.floor"]),
        (
            "reliefs",
            1,
            &["countersink-front", "countersink-back", "bore-relief-1.cone", "bore-relief-2.floor"],
        ),
    ] {
        let section = fixture(name);
        assert_eq!(faults(&section), [], "{name}");
        for state in [section.clone(), section.at_least_material()] {
            let part = state.part();
            let stands = |f: &&&str| part.runs.iter().any(|run| run.feature.to_string() == ***f);
            assert_eq!(features.iter().filter(stands).count(), features.len(), "{name}: {part:?}");
            let body = build(&part).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(body.genus(), genus, "{name}");
            let (_, audit) = tessellate(&body, 0.01).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(audit.genus, genus, "{name}");
        }
        let found = verdicts(&section).unwrap_or_else(|e| panic!("{name}: {e}"));
        assert_eq!(found.finding("wall.floor").is_some(), genus == 0, "{name}");
        let breaks = found.findings.iter().filter(|f| f.verdict() == Some(Verdict::Breaks));
        assert_eq!(breaks.map(|f| f.code).collect::<Vec<_>>(), Vec::<&str>::new(), "{name}");
    }
}

/// Source: plane geometry on the fixture's own numbers. Points of 118 degrees are r / tan 59
/// long: front 19.2 + 2.5 / tan 59, back 31 - 6 - 3 / tan 59. Alone on the axis both are nearest.
#[test]
fn the_floor_between_blind_holes_is_measured() {
    let found = verdicts(&fixture("blind")).unwrap();
    let finding = found.finding("wall.floor").unwrap();
    let tan = libm::tan(59.0_f64.to_radians());
    let expected = (25.0 - 3.0 / tan) - (19.2 + 2.5 / tan);
    assert!((finding.measured - expected).abs() < 1e-9, "{} {expected}", finding.measured);
    let judged = finding.judgement.as_ref().unwrap();
    assert!(judged.worst < finding.measured, "wider holes have longer points");
}

/// A relief's wall is judged with the hole that it widens: here round the through bore.
#[test]
fn a_reliefs_wall_is_judged() {
    let section = fixture("reliefs");
    let mut wide = section.clone();
    let relief = wide.bores.iter_mut().find(|b| b.item == Item::BoreRelief(2)).unwrap();
    *relief = relief.cutting(mm(11.0));
    relief.limits = sectionwright::quantity::Limits::new(mm(11.0), mm(11.1)).unwrap();
    let through = |section: &Section| {
        let found = verdicts(section).unwrap();
        found.finding("wall.through").unwrap().clone()
    };
    let (before, after) = (through(&section), through(&wide));
    // The outside there is about 12.1 wide.
    assert!(
        after.measured < 0.6 && before.measured > 2.0,
        "{} {}",
        after.measured,
        before.measured
    );
    let place = after.place.unwrap();
    assert_eq!(place.inner.feature.item, Item::BoreRelief(2));
}
