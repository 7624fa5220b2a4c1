//! The blank on its way: less material at every stage, and sound solids all along.

use std::f64::consts::PI;

use super::common::mm;
use super::common::section::all;
use sectionwright::design::{Library, load};
use sectionwright::mesh::tessellate;
use sectionwright::section::{Item, Part, Section, Stage, faults};
use sectionwright::solid::build;

fn designs() -> Vec<Section> {
    let library = Library::default();
    let fixture = |name: &str| format!("{}/tests/fixtures/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let paths = ["r1", "both-ends", "blind", "blind-flat", "reliefs"].map(fixture);
    let loaded = ["demo".to_owned()]
        .into_iter()
        .chain(paths)
        .map(|path| load(&library, &path).unwrap_or_else(|e| panic!("{path}: {e:?}")).section);
    loaded.chain(all()).collect()
}

#[test]
fn every_stage_is_a_solid_with_less_material_and_the_last_is_the_section() {
    for section in designs() {
        assert_eq!(faults(&section), [], "{}", section.name);
        let stages = section.stages();
        let mut before = f64::INFINITY;
        for (stage, part) in &stages {
            let name = format!("{}: {stage}", section.name);
            let body = build(part).unwrap_or_else(|e| panic!("{name}: {e}"));
            let volume = body.measures().volume;
            assert!(volume < before - 1e-6, "{name}: {volume} after {before}");
            before = volume;
            let (_, audit) = tessellate(&body, 0.02).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(audit.genus, body.genus(), "{name}");
        }
        // Depths were set from a face that lay before the finished one: a sum and its difference.
        let (last, part) = stages.last().unwrap();
        assert_eq!(*last, Stage::Finished, "{}", section.name);
        let [made, meant] = [part, &section.part()].map(|part| build(part).unwrap().measures());
        let off = (made.volume - meant.volume) / meant.volume;
        assert!(off.abs() < 1e-12, "{}: {off}", section.name);
        let faces = |part: &Part| part.runs.iter().map(|run| run.feature).collect::<Vec<_>>();
        assert_eq!(faces(part), faces(&section.part()), "{}", section.name);
    }
}

/// Source: closed forms. The rod is a cylinder; until it is faced, the front lies before z = 0 by
/// facing and sanding.
#[test]
fn a_blank_is_as_long_as_what_is_still_to_come_off() {
    let mut section = all().remove(0);
    section.blank.length = mm(40.0);
    let stages = section.stages();
    let volume = |n: usize| build(&stages[n].1).unwrap().measures();
    assert_eq!(stages[0].0, Stage::Rod);
    let base = PI / 4.0 * 14.0 * 14.0;
    assert!((volume(0).volume / (base * 40.0) - 1.0).abs() < 1e-12);
    // 32 long, 0.2 to be faced, 0.05 to be sanded.
    assert!((volume(1).volume / (base * 32.25) - 1.0).abs() < 1e-12);
    assert!((volume(1).bounds.min[2] + 0.25).abs() < 1e-12);
    let recessed = stages.iter().find(|(stage, _)| *stage == Stage::Bored(Item::Recess)).unwrap();
    let bounds = build(&recessed.1).unwrap().measures().bounds;
    // Bored into the faced front, which is still to be sanded.
    assert!((bounds.min[2] + 0.05).abs() < 1e-12 && (bounds.max[2] - 32.0).abs() < 1e-12);
}
