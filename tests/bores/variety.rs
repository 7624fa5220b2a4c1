//! Sections of every kind for the parts beside them, and those parts as solids.

use std::fs;

use super::common::random::Dice;
use super::common::random::form::form;
use super::common::{section, slices};
use super::held::threads_are_clear;
use sectionwright::design::{Library, load};
use sectionwright::mesh::tessellate;
use sectionwright::quantity::Limits;
use sectionwright::section::{NamedPart, PartKind, Section, Side, Thread, ThreadLimits, faults};
use sectionwright::size::SizeId;
use sectionwright::solid::build;

/// The demo, every fixture that is a design, and the sections made by hand.
pub(super) fn fixed() -> Vec<Section> {
    let mut files: Vec<_> = fs::read_dir("tests/fixtures")
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|kind| kind == "toml"))
        .filter(|path| !path.to_str().unwrap().ends_with("unit.toml"))
        .map(|path| path.to_str().unwrap().to_owned())
        .collect();
    files.sort();
    let designs = ["demo".to_owned()].into_iter().chain(files);
    let loaded = designs.map(|name| {
        load(&Library::default(), &name).unwrap_or_else(|_| panic!("{name} is sound")).section
    });
    let all: Vec<Section> = loaded.chain(section::all()).collect();
    assert!(all.len() > 12, "{}", all.len());
    all
}

/// So many random sections: one of the fixed ones with up to three of its sizes changed by up to
/// 1.5 mm.
pub(super) fn random(count: usize) -> Vec<Section> {
    let fixed = fixed();
    let sections = (0..).filter_map(|seed| {
        let mut dice = Dice(seed);
        let mut section = fixed[seed as usize % fixed.len()].clone();
        for _ in 0..3 {
            let parameters = SizeId::of(&section);
            let share = dice.within(0.0, 1.0) * (parameters.len() - 1) as f64;
            let parameter = parameters[share as usize];
            let value = parameter.get(&section)? + dice.within(-1.5, 1.5);
            section = parameter.set(&section, value)?;
        }
        section.name = format!("{} changed by {seed}", section.name);
        faults(&section).is_empty().then_some(section)
    });
    sections.take(count).collect()
}

/// A section with a thread of any form where its unit thread, and one where its tenon's, is; the
/// rest of the section is as it was, for the parts that only look at the threads.
fn with_random_threads(seed: u64) -> Section {
    let mut section = section::relieved();
    let mut dice = Dice(seed);
    let mut traits = Vec::new();
    let mut put = |thread: &mut Thread, side: Side, crest: f64| {
        thread.form = form(&mut dice, side, crest, &mut traits);
        let (major, minor) = match side {
            Side::External => (thread.form.crest, thread.form.root),
            Side::Internal => (thread.form.root, thread.form.crest),
        };
        let [major, pitch, minor] = [major, thread.form.pitch_diameter, minor].map(Limits::exactly);
        thread.limits = ThreadLimits { major, pitch, minor };
    };
    put(&mut section.unit_thread, Side::Internal, 7.5);
    put(&mut section.tenon.thread, Side::External, 10.0);
    section.name = format!("random threads {seed}");
    section
}

/// Whether it is one of the parts that hold, support or clear.
fn is_new(part: &NamedPart) -> bool {
    matches!(part.kind, PartKind::Bushing | PartKind::LipPlug | PartKind::SizingTap)
}

/// Sound, meshed, and of the volume that slices of its outline and thread add up to.
fn examine(section: &Section, named: &NamedPart) {
    let whose = format!("{} of {}", named.name, section.name);
    assert_eq!(named.part.step_too_small(), None, "{whose}");
    let body = build(&named.part).unwrap_or_else(|e| panic!("{whose}: {e}"));
    assert_eq!(body.genus(), i64::from(named.kind == PartKind::Bushing), "{whose}");
    let exact = body.measures().volume;
    let (mesh, audit) = tessellate(&body, 0.02).unwrap_or_else(|e| panic!("{whose}: {e}"));
    // Off the surface by no more than the chord error, all over.
    let most = body.measures().area * mesh.chord_error;
    assert!((audit.volume - exact).abs() < most, "{whose}: {} {exact}", audit.volume);
    let sliced = slices::volume(&named.part);
    assert!((sliced / exact - 1.0).abs() < 1e-4, "{whose}: {exact}, by slices {sliced}");
}

/// Independent route: slices. Every fixed section has all three parts but for those named.
#[test]
fn parts_beside_the_section_are_sound_solids() {
    for section in fixed() {
        let parts: Vec<NamedPart> = section.parts().into_iter().filter(is_new).collect();
        let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
        assert_eq!(names, ["bushing", "lip-plug", "sizing-tap"], "{}", section.name);
        for part in &parts {
            examine(&section, part);
        }
    }
}

#[test]
fn they_are_so_for_random_sections() {
    let mut made = 0;
    for section in random(30) {
        let parts: Vec<NamedPart> = section.parts().into_iter().filter(is_new).collect();
        for part in &parts {
            examine(&section, part);
        }
        made += parts.len();
    }
    assert!(made >= 80, "{made} of 90");
}

/// Threads of any flank, flats, roundings, starts and hand.
#[test]
fn they_are_so_for_random_threads() {
    for seed in 0..40 {
        let section = with_random_threads(seed);
        let tap = section.sizing_tap().part();
        let bushing = section.bushing();
        if let Some(bushing) = &bushing {
            threads_are_clear(bushing, &section);
        }
        let bushing = bushing.map(|bushing| bushing.part());
        for part in [Some(tap), bushing].into_iter().flatten() {
            let body = build(&part).unwrap_or_else(|e| panic!("{}: {e}", section.name));
            tessellate(&body, 0.02).unwrap_or_else(|e| panic!("{}: {e}", section.name));
        }
    }
}
