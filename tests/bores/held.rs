//! What the section is held and supported by: the bushing on its tenon, the plug in its front.

use super::common::section::{drilled, r1};
use super::common::{basic_thread, mm};
use super::variety::{fixed, random};
use sectionwright::design::{Library, load};
use sectionwright::quantity::Length;
use sectionwright::scene::examine;
use sectionwright::section::{
    Allowance, Barrel, Bearing, Bushing, Item, Part, PartKind, Run, Section, Side, Skin, TapEnd,
    Thread, ThreadForm, envelope,
};

/// The diameter of a straight outline at z, of one skin: the least outside where it steps, the
/// widest inside; none where there is no such skin.
fn at(runs: &[Run], skin: Skin, z: Length) -> Option<Length> {
    let here = runs.iter().filter(|run| run.skin == skin).filter_map(|run| {
        let (from, to) = (run.from, run.to);
        if (z - from.z).as_mm() * (z - to.z).as_mm() > 0.0 || from.z == to.z {
            return None;
        }
        Some(from.diameter + (to.diameter - from.diameter) * ((z - from.z) / (to.z - from.z)))
    });
    here.reduce(|a, b| if skin == Skin::Outside { a.min(b) } else { a.max(b) })
}

/// As much material as the thread's limits allow.
fn at_most_material(thread: &Thread) -> ThreadForm {
    ThreadForm {
        crest: thread.limits.major.max(),
        pitch_diameter: thread.limits.pitch.max(),
        root: thread.limits.minor.max(),
        ..thread.form.clone()
    }
}

/// Plane geometry: at every depth ridge and ridge leave room within the pitch, and each crest is
/// clear of the other's root.
pub(super) fn threads_are_clear(bushing: &Bushing, section: &Section) {
    let (outer, tenon) = (&bushing.thread.form, &section.tenon.thread);
    for inner in [&tenon.form, &at_most_material(tenon)] {
        let name = &section.name;
        assert!(outer.pitch_diameter > inner.pitch_diameter, "{name}");
        assert!(outer.root > inner.crest && outer.crest > inner.root, "{name}");
        for n in 0..=50 {
            let d = outer.crest + (inner.crest - outer.crest) * (f64::from(n) / 50.0);
            let room = outer.pitch - outer.ridge_at(d) - inner.ridge_at(d);
            assert!(room > Length::ZERO, "{name}: {room} at {d}");
        }
        assert_eq!(
            (outer.pitch, outer.starts, outer.hand),
            (inner.pitch, inner.starts, inner.hand)
        );
    }
}

/// By hand: M10x0.75-6g in a bushing for it. The thread is in the middle of 6H, which is 132 wide
/// on D2 (9.513) and 190 on D1 (9.188; ISO 965-1): 9.579 and 9.283, and the root as far out as the
/// pitch line, 10.066. With 0.1 on either side the counterbore is 10.266, so 10.3; the relief is
/// 1.4 wide; the tenon is 9 long and a pitch more is 9.75, so 10; with 15 to hold 25; root and 3 mm
/// on either side is 16.066, so 17.
#[test]
fn the_demos_bushing_by_hand() {
    let section = load(&Library::default(), "demo").unwrap().section;
    let bushing = section.bushing().unwrap();
    let near = |found: Length, mm: f64| assert!((found.as_mm() - mm).abs() < 5e-4, "{found} {mm}");
    near(bushing.thread.form.pitch_diameter, 9.579);
    near(bushing.thread.form.crest, 9.283);
    near(bushing.thread.form.root, 10.066);
    near(bushing.counterbore.diameter, 10.3);
    near(bushing.counterbore.depth, 1.4);
    near(bushing.thread.to, 10.0);
    near(bushing.length, 25.0);
    near(bushing.diameter, 17.0);
    assert_eq!(bushing.thread.designation.to_string(), "M10x0.75-6H");
}

/// The tenon goes in to its shoulder and touches nothing else: outlines by their stations.
#[test]
fn a_tenon_in_its_bushing_touches_at_the_shoulder_alone() {
    let mut tried = 0;
    for section in fixed().into_iter().chain(random(30)) {
        let Some(bushing) = section.bushing() else { continue };
        tried += 1;
        threads_are_clear(&bushing, &section);
        let (tenon, around) = (section.part(), bushing.part());
        let shoulder = section.grip.length();
        let steps = 4000;
        for n in 1..steps {
            let z = section.tenon.length * (f64::from(n) / f64::from(steps));
            let own = at(&tenon.runs, Skin::Outside, shoulder + z).unwrap();
            let hole = at(&around.runs, Skin::Bore, z).unwrap();
            // Within the thread the tenon's crests go into the grooves, which are held apart above.
            let in_thread = z > bushing.thread.from && z < bushing.thread.to;
            let hole = if in_thread { bushing.thread.form.root } else { hole };
            assert!(own < hole, "{}: {own} in {hole} at {z}", section.name);
        }
        // The seat is a ring of the front face under the shoulder.
        let seat = tenon.runs.iter().filter(|run| run.feature.item == Item::Shoulder);
        let edge = seat.map(|run| run.from.diameter).reduce(Length::max).unwrap();
        assert!(edge - bushing.counterbore.diameter >= mm(0.09), "{}", section.name);
        assert!(bushing.diameter >= edge && bushing.thread.full_length() > mm(0.0));
        // A drill for the section's own holes passes.
        let holes = envelope(&section.bores, section.length());
        let back = holes.iter().map(|run| run.to).rfind(|to| to.z == section.length());
        let widest = back.map_or(Length::ZERO, |to| to.diameter);
        assert!(bushing.thread.form.crest > widest, "{}", section.name);
    }
    assert!(tried > 40, "{tried}");
}

/// Independent route: the checks' own measure of the pair, the bushing in the barrel's place. The
/// shoulder closes, the threads have no interference, and all of a class's depth is there.
#[test]
fn the_checks_find_no_fault_with_a_bushing_for_a_barrel() {
    for name in ["demo", "tests/fixtures/r1.toml", "tests/fixtures/threads.toml"] {
        let mut section = load(&Library::default(), name).unwrap().section;
        let bushing = section.bushing().unwrap();
        section.barrel = Barrel {
            thread: Thread { item: Item::BarrelThread, ..bushing.thread.clone() },
            depth: bushing.thread.to,
            counterbore: Some(bushing.counterbore),
            bore: None,
            outside: bushing.diameter,
        };
        (section.cap, section.converter) = (None, None);
        let found = examine(&section).unwrap();
        let finding = |code| found.finding(code).unwrap_or_else(|| panic!("{code}"));
        let interference = finding("thread.tenon.interference");
        assert_eq!(interference.measured, 0.0, "{}", section.name);
        assert!(finding("thread.tenon.play").measured > 0.0);
        assert!(finding("thread.tenon.crests").measured > 0.0);
        if section.tenon.thread.designation.diameter() == mm(10.0) {
            // By hand, D1 in the middle of 6H: (10 - 9.283) / (1.082532 x 0.75).
            let percent = finding("thread.tenon.percent").measured;
            assert!((percent - 88.3).abs() < 0.1, "{percent}");
        }
    }
}

/// Limiting cases: a shoulder that hardly stands out, and one that stands out by a little.
#[test]
fn a_bushing_needs_a_shoulder() {
    let with_back = |diameter: f64| {
        let mut section = r1();
        section.grip.runs.last_mut().unwrap().to.diameter = mm(diameter);
        section.bushing()
    };
    // By hand: the root is 10.066, as the demo's; half of what a shoulder of 10.3 has over it is
    // 0.117.
    assert_eq!(with_back(10.2), None);
    let narrow = with_back(10.3).unwrap();
    assert_eq!(narrow.counterbore.diameter, mm(10.18));
    assert_eq!(with_back(11.4).unwrap().counterbore.diameter, mm(10.3));
}

/// A finer class of the barrel's thread is the bushing's too; an external or no class is not.
#[test]
fn the_bushing_has_the_barrels_class() {
    let mut section = load(&Library::default(), "demo").unwrap().section;
    let barrel =
        |designation| basic_thread(Item::BarrelThread, Side::Internal, designation, 0.0, 9.0);
    for (designation, class) in [("M10x0.75-5H", "5H"), ("M10x0.75", "6H"), ("M10x0.75-6G", "6G")] {
        section.barrel.thread = barrel(designation);
        let thread = section.bushing().unwrap().thread;
        assert_eq!(thread.designation.class().unwrap().to_string(), class);
        let fits = |limits: sectionwright::quantity::Limits, size: Length| {
            size >= limits.min() - mm(1e-9) && size <= limits.max() + mm(1e-9)
        };
        assert!(fits(thread.limits.pitch, thread.form.pitch_diameter), "{class}");
        assert!(fits(thread.limits.minor, thread.form.crest), "{class}");
    }
}

/// The section's holes at their least, as a part without threads.
fn least_holes(section: &Section) -> Part {
    section.clone().with_holes(|bore| bore.limits.min()).plain_part()
}

/// The plug's outline in the section's holes at their least: `fit` smaller on the diameter, no
/// wall touched but where it bears, whatever is still to come off the front.
#[test]
fn a_lip_plug_enters_the_least_holes_and_bears_on_one_plane() {
    let (mut on_floor, mut on_face) = (0, 0);
    for section in fixed().into_iter().chain(random(30)) {
        let Some(plug) = section.lip_plug() else { continue };
        let name = &section.name;
        let least = least_holes(&section);
        let recess = section.bore(Item::Recess).unwrap();
        let origin = match plug.bearing {
            Bearing::RecessFloor => recess.full_depth(section.length()),
            Bearing::FrontFace => Length::ZERO,
        };
        let body = plug.part();
        let end = [plug.recess, plug.clearance].into_iter().flatten().map(|stub| stub.to);
        let inner = end.fold(Length::ZERO, Length::max);
        let steps = 2000;
        for n in 1..steps {
            let z = (origin + inner) * (f64::from(n) / f64::from(steps));
            let own = at(&body.runs, Skin::Outside, z - origin).unwrap();
            let hole = at(&least.runs, Skin::Bore, z).unwrap();
            assert!(hole - own > mm(0.0199), "{name}: {own} in {hole} at {z}");
        }
        // What it bears on: the recess's own floor, or the face outside its mouth.
        match plug.bearing {
            Bearing::RecessFloor => {
                on_floor += 1;
                // Another hole may end in the same plane, and the floor have its name.
                let lies = |run: &&Run| run.from.z == origin && run.to.z == origin;
                let floor = least.runs.iter().filter(|run| run.skin == Skin::Bore).find(lies);
                let run = floor.unwrap_or_else(|| panic!("{name}: no floor at {origin}"));
                let narrow = run.from.diameter.min(run.to.diameter);
                assert!(plug.diameter - narrow > mm(0.15), "{name}");
                assert!(plug.diameter < section.grip.front, "{name}");
            }
            Bearing::FrontFace => {
                on_face += 1;
                assert!(plug.diameter - recess.limits.max() > mm(0.15), "{name}");
                assert!(section.grip.front - plug.diameter > mm(0.15), "{name}");
            }
        }
        // The body reaches out of a front with all its allowance on, the centre hole in its end.
        let Allowance { facing, sanding } = section.allowance;
        // Within the rounding of these sums.
        assert!(plug.length - origin - facing - sanding > mm(12.0 - 1e-9), "{name}");
        assert!(plug.centre.mouth < plug.diameter && plug.centre.depth() < plug.length);
    }
    assert!(on_floor > 10 && on_face > 2, "{on_floor} {on_face}");
}

/// By hand: the demo's recess and bore at their least, less 0.02, down to hundredths; and a seat
/// that is a 60 degree cone, which a plug in the recess would wedge apart.
#[test]
fn a_conical_seat_is_not_borne_on() {
    let section = load(&Library::default(), "demo").unwrap().section;
    let plug = section.lip_plug().unwrap();
    assert_eq!(plug.bearing, Bearing::RecessFloor);
    let recess = section.bore(Item::Recess).unwrap().limits.min();
    assert!((0.02..0.0301).contains(&(recess - plug.diameter).as_mm()));
    // R1 drilled: 9.7 at the front, recess 8.9 and 0.9 deep, bore 8.3 to 4.6.
    let plug = drilled().lip_plug().unwrap();
    assert_eq!((plug.bearing, plug.diameter), (Bearing::FrontFace, mm(9.5)));
    let (recess, clearance) = (plug.recess.unwrap(), plug.clearance.unwrap());
    assert_eq!((recess.diameter, recess.to), (mm(8.88), mm(0.6)));
    assert_eq!((clearance.diameter, clearance.to), (mm(8.28), mm(4.3)));
}

/// Limiting cases: nothing to bear on, and no recess at all, is no plug, and no fault.
#[test]
fn a_front_without_a_place_to_bear_has_no_plug() {
    let mut thin = drilled();
    thin.grip.front = mm(9.25);
    assert_eq!(thin.lip_plug(), None);
    let mut bare = r1();
    bare.bores.retain(|bore| bore.item != Item::Recess);
    assert_eq!(bare.lip_plug(), None);
    assert!(bare.parts().iter().all(|part| part.kind != PartKind::LipPlug));
    let mut empty = r1();
    empty.bores.clear();
    empty.grip.runs.clear();
    assert!(empty.parts().len() > 5);
    assert_eq!(empty.tap_order().end, TapEnd::Through);
}
