//! Tolerance classes, lead errors and shear areas of whole sections against published numbers.

use sectionwright::scene::{Examination, verdicts};
use sectionwright::section::{Item, Section, Side};

use crate::common::{basic_thread, mm};
use crate::fixtures::{as_read, r1, set_diameter};
use crate::written::{examined, found, said, written};

const UNIT: &str = r#"format = 1
name = "unit"
[collar]
diameter = 8.2
thickness = 1.2
[thread]
designation = "M7.5x0.55"
major = 7.45
from = 0.2
to = 6.4
[tail]
diameter = 4.6
to = 8.0
[nib]
reach = 20
width = 6
"#;

/// How much of the tenon's thread is engaged, in mm: it runs from the shoulder to the end, without
/// chamfer or relief, into a barrel that is threaded from its face.
const ENGAGED: f64 = 9.0;

/// A section whose tenon has a thread of a class, in a barrel of a class. Invented numbers.
fn joined(thread: &str, external: &str, internal: &str) -> Section {
    let design = format!(
        r#"format = 1
name = "joint"
unit = "unit.toml"
material = "acrylic"
[grip]
length = 16
front = 11
[[grip.run]]
to = 16
diameter = 15.6
[tenon]
thread = "{thread}-{external}"
length = {ENGAGED}
chamfer = 0
[bores.recess]
depth = 1.2
[bores.thread]
to = 8.2
[bores.through]
diameter = 5
[barrel]
thread = "{thread}-{internal}"
depth = 20
outside = 15.6
"#
    );
    written(&[("pen.toml", &design), ("unit.toml", UNIT)])
}

/// Published limits of a pair: external major, pitch, minor (d1 max, d3 min), internal pitch and
/// minor; each greatest, then least.
struct Published {
    thread: &'static str,
    pitch: f64,
    nominal: f64,
    external: [[f64; 2]; 3],
    internal: [[f64; 2]; 2],
}

/// Source: tests/fixtures/standard/thread-limits.csv, rows of class 6g and 6H (their tables named
/// there).
const PUBLISHED: [Published; 4] = [
    Published {
        thread: "M8x0.75",
        pitch: 0.75,
        nominal: 8.0,
        external: [[7.978, 7.838], [7.491, 7.391], [7.166, 6.929]],
        internal: [[7.645, 7.513], [7.378, 7.188]],
    },
    Published {
        thread: "M10x0.75",
        pitch: 0.75,
        nominal: 10.0,
        external: [[9.978, 9.838], [9.491, 9.391], [9.166, 8.929]],
        internal: [[9.645, 9.513], [9.378, 9.188]],
    },
    Published {
        thread: "M10x1.5",
        pitch: 1.5,
        nominal: 10.0,
        external: [[9.968, 9.732], [8.994, 8.862], [8.344, 7.938]],
        internal: [[9.206, 9.026], [8.676, 8.376]],
    },
    Published {
        thread: "M12x1",
        pitch: 1.0,
        nominal: 12.0,
        external: [[11.974, 11.794], [11.324, 11.206], [10.891, 10.590]],
        internal: [[11.510, 11.350], [11.153, 10.917]],
    },
];

fn tan30() -> f64 {
    1.0 / 3.0_f64.sqrt()
}

/// What is judged on the tenon are the limits of its classes, to half a unit of their last printed
/// digit each.
#[test]
fn a_tenon_is_judged_at_the_limits_of_its_class() {
    const PRINTED: f64 = 0.001 + 1e-6;
    for Published { thread, pitch, nominal, external, internal } in PUBLISHED {
        println!("{thread}");
        let examination = examined(&joined(thread, "6g", "6H"));
        let [major, middle, root] = external;
        let [inner_middle, inner_minor] = internal;
        let near = |code: &str, detail: &str, expected: f64, within: f64| {
            let value = said(&examination, &format!("thread.tenon.{code}"), detail);
            assert!((value - expected).abs() < within, "{thread} {detail}: {value} {expected}");
        };
        let percent = |height: f64| 100.0 * height / (1.082_532 * pitch);
        let off = percent(PRINTED);
        near("percent", "at the loosest", percent(major[1] - inner_minor[0]), off);
        near("percent", "at the fullest", percent(major[0] - inner_minor[1]), off);
        let slack = |internal: f64, external: f64| (internal - external) * tan30();
        let off = PRINTED * tan30();
        near("play", "at the loosest", slack(inner_middle[0], middle[1]), off);
        near("play", "at the tightest", slack(inner_middle[1], middle[0]), off);
        // The least room over crests: at D min over d max, or at D1 min over d1 max.
        let crests = found(&examination, "thread.tenon.crests").judgement.as_ref().unwrap().worst;
        let expected = (nominal - major[0]).min(inner_minor[1] - root[0]) / 2.0;
        assert!((crests - expected).abs() < PRINTED / 2.0, "{thread}: {crests} {expected}");
    }
}

/// Source: thread-limits.csv, M10x0.75-4g6g: pitch diameter 9.491 to 9.428, majors as in 6g; a
/// tighter class leaves no more play at the tightest and less at the loosest.
#[test]
fn another_class_has_its_own_limits() {
    let (usual, close) = (joined("M10x0.75", "6g", "6H"), joined("M10x0.75", "4g6g", "6H"));
    let (usual, close) = (verdicts(&usual).unwrap(), verdicts(&close).unwrap());
    let of = |e: &Examination, detail: &str| said(e, "thread.tenon.play", detail);
    assert!((of(&usual, "at the tightest") - of(&close, "at the tightest")).abs() < 1e-9);
    let less = of(&usual, "at the loosest") - of(&close, "at the loosest");
    assert!((less - (9.428 - 9.391) * tan30()).abs() < 0.001, "{less}");
    let percent = |e: &Examination| said(e, "thread.tenon.percent", "at the loosest");
    assert!((percent(&usual) - percent(&close)).abs() < 1e-9);
}

/// Source: reference formulas 6 (H28; ASME B1.1-2003 appendix B), at the extremes of 6g in 6H,
/// square millimetres per mm of engagement, external then internal.
#[test]
fn shear_areas_of_four_threads() {
    for (thread, external, internal) in [
        ("M10x0.75", 15.02, 20.05),
        ("M8x0.75", 11.82, 15.97),
        ("M12x1", 18.59, 24.59),
        ("M10x1.5", 15.57, 21.48),
    ] {
        let examination = verdicts_of_told(&joined(thread, "6g", "6H"));
        let of = |detail: &str| said(&examination, "thread.tenon.strip", detail) / ENGAGED;
        let (own, other) = (of("at the loosest"), of("of the other thread, at the loosest"));
        println!("{thread}: {own:.3} {external}, {other:.3} {internal}");
        // Half a unit of the last digit, and what diameters printed to 0.001 make of it.
        assert!((own - external).abs() < 0.02, "{thread}: {own}");
        assert!((other - internal).abs() < 0.02, "{thread}: {other}");
        let turns = found(&examination, "thread.tenon.turns");
        assert!((said_length(&examination) - ENGAGED).abs() < 1e-9, "{turns:?}");
        // Force = strength x area.
        let strength = said(&examination, "thread.tenon.strip", "shear strength");
        let force =
            said(&examination, "thread.tenon.strip", "force that strips it, at the loosest");
        assert!((force - strength * own * ENGAGED).abs() < 1e-6);
    }
}

/// What is told beside the verdicts comes from a whole examination only.
fn verdicts_of_told(section: &Section) -> Examination {
    sectionwright::scene::examine(section).unwrap()
}

fn said_length(examination: &Examination) -> f64 {
    said(examination, "thread.tenon.turns", "length of full form")
}

/// Source: reference formulas 6: at nominal sizes the shares of pi D1 Le and pi D Le are 3/4 and
/// 7/8 for every pitch.
#[test]
fn shear_areas_of_basic_threads() {
    // R1's tenon, and the barrel's thread that fills it.
    let examination = verdicts_of_told(&r1());
    let (major, minor) = (10.0, 10.0 - 1.25 * 0.75 * 3.0_f64.sqrt() / 2.0);
    let engaged = said_length(&examination);
    let pi = std::f64::consts::PI;
    let own = found(&examination, "thread.tenon.strip").measured;
    let other = said(&examination, "thread.tenon.strip", "of the other thread");
    assert!((own - 0.75 * pi * minor * engaged).abs() < 1e-6, "{own}");
    assert!((other - 0.875 * pi * major * engaged).abs() < 1e-6, "{other}");
}

/// A unit of a pitch in R1 with a thread of another, over an engaged length; what the difference
/// takes from the play, as a diameter.
fn lead_error(own: f64, other: f64, engaged: f64) -> f64 {
    let mut section = r1();
    let designation = format!("M8.05x{own}");
    let internal = basic_thread(Item::UnitThread, Side::Internal, &designation, 4.6, 4.6 + engaged);
    let mut external =
        basic_thread(Item::UnitBody, Side::External, &designation, 2.5, 3.4 + engaged);
    external.form.pitch = mm(other);
    set_diameter(&mut section, Item::TapDrill, internal.form.crest.as_mm());
    section.unit.steps[1].to.value = external.to;
    section.unit_thread = internal;
    section.unit.thread = as_read(external, -0.05, 0.0);
    section.unit.steps[1].diameter.value = section.unit.thread.form.crest;
    let examination = verdicts(&section).unwrap();
    let play = found(&examination, "thread.unit.play");
    let gaps = &play.series.as_ref().unwrap().points;
    let turns = play.detail("engaged turns").unwrap();
    assert!((turns - engaged / own).abs() < 1e-9, "{turns}");
    let ends = [gaps[0][1], gaps[gaps.len() - 1][1]];
    assert!(ends.iter().all(|end| (end - play.measured / 2.0).abs() < 1e-9), "{ends:?}");
    // By the slope of the curve: what it falls over half the turns, on both sides.
    let fall = (gaps[1][1] - gaps[0][1]) / (gaps[1][0] - gaps[0][0]) * turns;
    fall / tan30()
}

/// Source: reference formulas 5: dd2 = |dp| cot 30 = 1.7321 |dp|; dp = 5 um gives 8.660 um, and
/// 0.75 mm with 34 TPI over 6 mm (dp 23.53 um) gives 40.75 um.
#[test]
fn a_lead_error_takes_its_share_of_the_pitch_diameter() {
    let inch = lead_error(0.75, 25.4 / 34.0, 6.0);
    assert!((inch - 0.040_75).abs() < 1e-5, "{inch}");
    // 5 um over 6 mm, either way.
    for error in [0.005, -0.005] {
        let small = lead_error(0.75, 0.75 * (1.0 + error / 6.0), 6.0);
        assert!((small - 0.008_660).abs() < 1e-6, "{small}");
    }
}
