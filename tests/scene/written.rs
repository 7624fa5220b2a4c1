//! A size laid over what is written is the size written, to the bit; and what is promised of it
//! comes true.

use sectionwright::check::{Advice, Verdict};
use sectionwright::design::{InFile, Origin, Resolved, Write};
use sectionwright::scene::{Room, Scene, Scores, Worse};
use sectionwright::size::SizeId;

use super::files::{Files, fixtures, random_designs};

/// Every size of every fixture and of random designs, to either side: the section is the one that
/// the changed file gives, and wrong where that is wrong.
#[test]
fn laid_over_is_as_written() {
    let (mut same, mut wrong, mut nowhere) = (0, 0, 0);
    for (name, files) in fixtures().into_iter().chain(random_designs()) {
        let Resolved { section, values, .. } = files.read().unwrap();
        for (n, size) in SizeId::all(&section).into_iter().enumerate() {
            let by = [0.07, -0.13, 0.011, -0.4][n % 4];
            let to = size.get(&section).unwrap() + by;
            let Some(writes) = values.writes(&section, size, to) else {
                nowhere += 1;
                continue;
            };
            // The unit of a random design is none of its files.
            if name.starts_with("random") && writes.iter().any(|it| it.file == InFile::Unit) {
                continue;
            }
            // What only the design has that it is like.
            let Ok(read) = files.read_with(&writes) else { continue };
            let laid = values.with(&section, &[(size, to)]);
            match (read, laid) {
                (Some(read), Ok(laid)) => {
                    assert_eq!(laid, read.section, "{name}: {} = {to}", size.name());
                    same += 1;
                }
                (None, Err(_)) => wrong += 1,
                (read, laid) => panic!(
                    "{name}: {} = {to}, {writes:?}: read {}, laid over {}",
                    size.name(),
                    read.is_some(),
                    laid.is_ok()
                ),
            }
        }
    }
    println!("{same} the same, {wrong} wrong both ways, {nowhere} that no key says");
    assert!(same > 1500 && wrong > 20, "{same} {wrong}");
}

/// Advice, typed into the file: the check holds, and no verdict is worse.
#[test]
fn advice_holds_when_it_is_written() {
    let mut followed = 0;
    for (name, files) in fixtures().into_iter().chain(random_designs()) {
        let resolved = files.read().unwrap();
        let scene = Scene::of_design(&resolved).unwrap();
        for finding in scene.examine().unwrap().findings {
            let Some(judged) = finding.judgement else { continue };
            let Some(Advice::Change(change)) = judged.advice else { continue };
            assert!(!judged.write.is_empty(), "{name}: {}", change.parameter.name());
            let Ok(Some(changed)) = files.read_with(&judged.write) else {
                panic!("{name}: {:?}", judged.write)
            };
            let now = Scene::of(&changed.section).unwrap().scores();
            assert_eq!(now.verdict(finding.code), Verdict::Holds, "{name}: {:?}", judged.write);
            assert!(now.worse_than(&scene.scores()).next().is_none(), "{name}: {:?}", judged.write);
            followed += 1;
        }
    }
    println!("{followed} pieces of advice followed");
    assert!(followed > 20, "{followed}");
}

/// Everything that the files leave out, written as it was worked out: then a size that is typed
/// moves alone.
fn pinned(resolved: &Resolved) -> Vec<Write> {
    let Resolved { section, values, .. } = resolved;
    let derived = SizeId::all(section).into_iter().filter(|size| {
        // An arc that the file has tangent, or through a point, is written; a cap stops at the
        // shoulder, wherever that is; no rod's size that goes with the section's is its own.
        let own = !matches!(
            size,
            SizeId::ArcRadius(_) | SizeId::CapStop | SizeId::BlankDiameter | SizeId::BlankLength
        );
        own && values.origin(section, *size) == Some(Origin::Derived)
    });
    derived
        .filter_map(|size| values.writes(section, size, size.get(section)?))
        .flatten()
        .filter(|write| write.file == InFile::Design)
        .collect()
}

/// How far a size may be off, typed into the file with all others as they are: just within, no
/// verdict is worse; just beyond, the one is that was named.
#[test]
fn room_is_as_written() {
    let mut sides = 0;
    let random = random_designs().into_iter().take(6);
    for (name, files) in fixtures().into_iter().chain(random) {
        let resolved = files.read().unwrap();
        let scene = Scene::of_design(&resolved).unwrap();
        let pinned = pinned(&resolved);
        let Ok(Some(settled)) = files.read_with(&pinned) else { panic!("{name}: {pinned:?}") };
        let before = Scene::of(&settled.section).unwrap().scores();
        alike(&name, &before, &scene.scores());
        for room in scene.room() {
            sides += type_room(&name, &files, (&settled, &pinned, &before), room);
        }
    }
    println!("{sides} sides typed");
    assert!(sides > 300, "{sides}");
}

/// Written out, a design is what it was.
fn alike(name: &str, a: &Scores, b: &Scores) {
    for (a, b) in a.iter().zip(b) {
        assert_eq!((a.code, a.verdict), (b.code, b.verdict), "{name}");
        assert!((a.margin - b.margin).abs() < 1e-6, "{name}: {a:?} {b:?}");
    }
}

fn type_room(
    name: &str,
    files: &Files,
    (settled, pinned, before): (&Resolved, &[Write], &Scores),
    room: &Room,
) -> u32 {
    /// More than what is searched to: 0.05 halved four times.
    const APART: f64 = 0.005;
    let mut sides = 0;
    let Resolved { section, values, .. } = settled;
    for (side, sign) in [(room.less.as_ref(), -1.0), (Some(&room.more), 1.0)] {
        let Some(side) = side else { continue };
        // That there is none is said by another key, or by none.
        if room.value + sign * side.room <= 0.0 {
            continue;
        }
        let typed = |off: f64| {
            let writes = values.writes(section, room.parameter, room.value + sign * off)?;
            // What is typed goes over what is pinned.
            let others = pinned.iter().filter(|it| writes.iter().all(|own| own.key != it.key));
            let all: Vec<Write> = others.chain(&writes).cloned().collect();
            files.read_with(&all).ok()
        };
        let Some(within) = typed(side.room) else { continue };
        let what = format!("{name}: {} by {:.4}", room.parameter.name(), sign * side.room);
        let within = within.unwrap_or_else(|| panic!("{what}: nothing is left within"));
        let now = Scene::of(&within.section).unwrap().scores();
        let worse = now.worse_than(before).next();
        assert_eq!(worse, None, "{what}: worse within");
        if let (Some(Worse::Verdict { code, .. }), Some(Some(beyond))) =
            (&side.then, typed(side.room + APART))
        {
            let now = Scene::of(&beyond.section).unwrap().scores();
            assert!(now.verdict(code) > before.verdict(code), "{what}: {code} is no worse beyond");
        }
        sides += 1;
    }
    sides
}
