//! Sizes of every fixture: named, read, put.

use std::collections::BTreeSet;

use sectionwright::design::{Library, load};
use sectionwright::section::Section;
use sectionwright::size::SizeId;

fn section(path: &str) -> Section {
    load(&Library::default(), path).unwrap().section
}

fn fixtures() -> Vec<Section> {
    let names = ["r1", "capped", "outside", "both-ends", "reliefs", "threads"];
    let more = ["blind", "blind-flat"];
    let paths = names.iter().chain(&more).map(|name| format!("tests/fixtures/{name}.toml"));
    paths.chain(["demo".to_owned()]).map(|path| section(&path)).collect()
}

/// Every key leads back to its size, no two sizes have one key, and every size that advice may
/// change in the section itself has one.
#[test]
fn keys_and_sizes_are_each_others() {
    for section in fixtures() {
        let sizes = SizeId::cut(&section);
        let mut keys: Vec<String> = sizes.iter().map(|size| size.name()).collect();
        for (size, key) in sizes.iter().zip(&keys) {
            assert_eq!(SizeId::read(key, &section), Some(*size), "{key}");
        }
        keys.sort();
        keys.dedup();
        assert_eq!(keys.len(), sizes.len(), "{keys:?}");
        let advised = SizeId::of(&section).into_iter().filter(|size| size.is_sections());
        for size in advised {
            assert!(sizes.contains(&size), "{}: {size}", section.name);
        }
    }
}

/// Set to what they are, all one after the other, they leave the section as it is.
#[test]
fn sizes_set_to_what_they_are_change_nothing() {
    for section in fixtures() {
        let sizes = SizeId::cut(&section);
        let mut changed = section.clone();
        for size in &sizes {
            changed = size.set(&changed, size.get(&section).unwrap()).unwrap();
        }
        for size in &sizes {
            let by = size.get(&changed).unwrap() - size.get(&section).unwrap();
            assert!(by.abs() < 1e-9, "{}: {size} {by}", section.name);
        }
    }
}

/// Each takes its value whatever was set before it.
#[test]
fn sizes_set_one_after_the_other_keep_their_values() {
    for section in fixtures() {
        let sizes = SizeId::cut(&section);
        let wanted = |size: &SizeId| size.get(&section).unwrap() + 0.01;
        let mut changed = section.clone();
        for size in &sizes {
            changed = size.set(&changed, wanted(size)).unwrap();
        }
        for size in &sizes {
            let by = size.get(&changed).unwrap() - wanted(size);
            assert!(by.abs() < 1e-9, "{}: {size} {by}", section.name);
        }
    }
}

#[test]
fn keys_read_as_people_say_them() {
    let demo = section("demo");
    let keys: Vec<_> = SizeId::cut(&demo).iter().map(|s| s.name()).collect();
    for key in ["bores.clearance.depth", "bores.recess.diameter", "grip.front", "grip.run.2.to"] {
        assert!(keys.iter().any(|own| own == key), "{key} {keys:?}");
    }
    assert_eq!(SizeId::read("barrel.depht", &demo), None);
    let reliefs = section("tests/fixtures/reliefs.toml");
    for key in ["bores.countersink.back.mouth", "bores.relief.2.from", "bores.relief.2.to"] {
        assert!(SizeId::read(key, &reliefs).is_some(), "{key}");
    }
}

/// A thread cut deeper is thinner at its root, and the rod is as it was.
#[test]
fn a_thread_is_thinned_where_its_tool_cuts() {
    let demo = section("demo");
    let thinner = SizeId::TenonThreadSize.set(&demo, 9.3).unwrap();
    let (before, after) = (&demo.tenon.thread, &thinner.tenon.thread);
    let by = after.form.pitch_diameter - before.form.pitch_diameter;
    assert_eq!(after.form.crest, before.form.crest);
    assert!((after.form.root - before.form.root - by).abs().as_mm() < 1e-12);
    assert!((after.limits.minor.max() - before.limits.minor.max() - by).abs().as_mm() < 1e-12);
}

/// Every size belongs to who defines it, and no two have one name; the older names lead to the same
/// sizes.
#[test]
fn every_size_is_defined_once() {
    for section in fixtures() {
        let mut names = BTreeSet::new();
        for size in SizeId::all(&section) {
            let definition = size.definition();
            assert_eq!(definition.owner, size.owner(), "{size:?}");
            assert!(names.insert(definition.name.clone()), "{}", definition.name);
            assert_eq!(SizeId::read(&definition.name, &section), Some(size));
            if let Some(older) = size.older_name() {
                let read = SizeId::read(&older, &section);
                assert_eq!(read, Some(size), "{older}");
            }
        }
    }
}

/// Put to another value a size has it, and back again all others have theirs.
#[test]
fn what_is_put_is_got() {
    for section in fixtures() {
        for size in SizeId::all(&section) {
            let before = size.get(&section).unwrap();
            let Some(changed) = size.set(&section, before + 0.01) else { continue };
            let by = size.get(&changed).unwrap() - before - 0.01;
            assert!(by.abs() < 1e-9, "{}: {} {by}", section.name, size.name());
            let back = size.set(&changed, before).unwrap();
            for other in SizeId::all(&section) {
                let [was, is] = [other.get(&section).unwrap(), other.get(&back).unwrap()];
                assert!((was - is).abs() < 1e-9, "{}, then {}", size.name(), other.name());
            }
        }
    }
}
