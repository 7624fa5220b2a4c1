//! Every measure of R1 against its closed form.

use sectionwright::check::{Finding, list};
use sectionwright::scene::{Examination, examine, verdicts};
use sectionwright::section::faults;

use crate::fixtures::{r1, sound};

fn r1_examined() -> Examination {
    assert_eq!(faults(&r1()), []);
    verdicts(&r1()).unwrap()
}

fn found<'a>(examination: &'a Examination, code: &str) -> &'a Finding {
    examination.finding(code).unwrap_or_else(|| panic!("no {code}"))
}

fn print(examination: &Examination) {
    for f in &examination.findings {
        let verdict = f.verdict().map_or("-".to_owned(), |v| v.to_string());
        println!("{:22} {:12.6} {:6} {verdict}", f.code, f.measured, f.unit);
        if let Some(j) = &f.judgement {
            println!(
                "    worst {:.6} limit {} margin {:.6} uncertainty {:.6} ({})",
                j.worst, j.limit, j.margin, j.uncertainty, j.limit_source
            );
            if let Some(advice) = j.advice {
                println!("    {advice}");
            }
        }
        if let Some(p) = f.place {
            println!(
                "    {} ({:.4}, {:.4}) to {} ({:.4}, {:.4})",
                p.inner.feature, p.inner.r, p.inner.z, p.outer.feature, p.outer.r, p.outer.z
            );
        }
        if let Some(note) = &f.note {
            println!("    {note}");
        }
        for d in &f.details {
            println!("      {}: {:.6} {}", d.name, d.value, d.unit);
        }
    }
}

/// Source: closed forms of plane geometry on R1's corners, computed apart from this program.
#[test]
fn r1_walls() {
    let examination = r1_examined();
    print(&examination);
    for (code, wall) in [
        ("wall.lip", 0.400_000),
        ("wall.recess", 0.448_204),
        ("wall.clearance", 0.747_959),
        ("wall.unit-thread", 1.010_363),
        ("wall.tenon", 1.144_051),
        ("wall.tenon-tip", 1.050_000),
        ("wall.least", 0.400_000),
    ] {
        let finding = found(&examination, code);
        assert!((finding.measured - wall).abs() < 1e-6, "{code}: {}", finding.measured);
        assert_eq!(finding.detail("at the worst"), Some(finding.measured), "{code}");
    }
    let place = found(&examination, "wall.recess").place.unwrap();
    assert_eq!((place.inner.r, place.inner.z), (4.45, 1.2));
    assert_eq!(place.inner.feature.to_string(), "recess.floor");
    assert_eq!(place.outer.feature.to_string(), "grip-1");
}

/// Source: closed forms (ISO 68-1 profile, reference formulas 3 and 5), computed apart from this
/// program; the interference was confirmed by a boundary-representation kernel.
#[test]
fn r1_unit_thread() {
    let examination = r1_examined();
    let near = |code: &str, value: f64, within: f64| {
        let measured = found(&examination, code).measured;
        assert!((measured - value).abs() < within, "{code}: {measured}");
    };
    let detail_near = |code: &str, name: &str, value: f64, within: f64| {
        let detail = found(&examination, code).detail(name).unwrap();
        assert!((detail - value).abs() < within, "{code}, {name}: {detail}");
    };
    near("thread.unit.percent", 91.602, 5e-4);
    detail_near("thread.unit.percent", "height per side", 0.272_696, 5e-7);
    // Base B counts 3/4 H for 5/8 H.
    detail_near("thread.unit.percent", "on drill charts", 91.602 * 5.0 / 6.0, 5e-4);
    near("thread.unit.turns", 13.0, 1e-9);
    detail_near("thread.unit.turns", "length of full form", 7.15, 1e-9);
    detail_near("thread.unit.turns", "bearing area along the axis", 86.060, 5e-4);
    near("thread.unit.play", 0.028_868, 5e-7);
    detail_near("thread.unit.play", "gap between flanks, centred", 0.0125, 5e-6);
    near("thread.unit.crests", 0.025, 1e-9);
    // Pushed 0.05 along the axis, flank stands in flank by that less half the play, over the
    // bearing area: the kernel finds 3.06 mm3 where the unit's thread runs on.
    let play = found(&examination, "thread.unit.play").measured;
    let area = found(&examination, "thread.unit.turns").detail("bearing area along the axis");
    let interference = area.unwrap() * (0.05 - play / 2.0);
    assert!((interference - 3.06).abs() < 0.005, "{interference}");
}

/// Two basic profiles fill each other; the tenon, of 11, holds over its length less what the
/// chamfer takes: 11 - 0.5 = 10.5, 14 turns of 0.75.
#[test]
fn r1_tenon_thread_and_joint() {
    let examination = r1_examined();
    assert!((found(&examination, "thread.tenon.percent").measured - 100.0).abs() < 1e-9);
    assert!((found(&examination, "thread.tenon.turns").measured - 14.0).abs() < 1e-9);
    assert!(found(&examination, "thread.tenon.play").measured.abs() < 1e-9);
    let shoulder = found(&examination, "joint.shoulder");
    assert!((shoulder.detail("behind the tenon").unwrap() - 1.0).abs() < 1e-9);
    // The barrel's full thread ends at 11.5; the tenon's 45 degree chamfer, from radius 5 at 10.5,
    // has come to the radius of the barrel's crest at 10.5 + 5 - D1/2.
    let crest = (10.0 - 0.75 * 3.0_f64.sqrt() * 5.0 / 8.0) / 2.0;
    let jam = 11.5 - (10.5 + 5.0 - crest);
    assert!((shoulder.detail("before the threads jam").unwrap() - jam).abs() < 1e-9);
    assert_eq!(found(&examination, "joint.flush").measured, 0.0);
}

#[test]
fn r1_clear() {
    let examination = r1_examined();
    // The collar rests on the floor at 1.2; the thread ends where the section's does.
    let seat = found(&examination, "clear.seat");
    assert_eq!(seat.detail("the collar rests at z"), Some(1.2));
    assert!(seat.measured.abs() < 1e-9);
    let unit = found(&examination, "clear.unit");
    assert!((unit.measured - 0.15).abs() < 1e-9);
    for (name, gap) in [
        ("collar in collar recess", 0.15),
        ("unit's plain part in clearance bore", 0.35),
        ("unit's thread in clearance bore", 0.15),
        ("unit's tail in through bore", 0.15),
    ] {
        let measured = unit.detail(name).unwrap_or_else(|| panic!("no {name}"));
        assert!((measured - gap).abs() < 1e-9, "{name}: {measured}");
    }
    assert!((found(&examination, "clear.collar").measured - 0.2).abs() < 1e-9);
}

/// Codes come in the order of the catalogue, each with its title, and every number is one.
#[test]
fn findings_follow_the_catalogue() {
    for section in [r1(), sound()] {
        let examination = examine(&section).unwrap();
        print(&examination);
        let mut codes = list().into_iter();
        for finding in &examination.findings {
            let info = codes.find(|info| info.code == finding.code);
            assert_eq!(info.map(|info| info.title), Some(finding.title));
            let judged = finding.judgement.iter();
            let judged = judged.flat_map(|j| [j.worst, j.uncertainty, j.limit, j.margin]);
            let details = finding.details.iter().map(|detail| detail.value);
            let mut numbers = judged.chain(details).chain([finding.measured, finding.error]);
            assert!(numbers.all(f64::is_finite), "{finding:?}");
        }
        assert_eq!(examine(&section).unwrap(), examination);
    }
}
