//! What makers know, from the design file to the finding. Common practice, no source.

use sectionwright::check::{Advice, Change, Verdict};
use sectionwright::section::Section;
use sectionwright::size::SizeId;

use crate::written::{examined, found, like_the_demo, said, verdict, written};

const PLAY: &str = "thread.unit.play";
const TURNS: &str = "thread.unit.turns";

/// Pitch diameter of M7.9x0.6 by ISO 68-1.
const D2: f64 = 7.9 - 0.6 * 0.649_519;

/// The demo with its unit's lead chamfer half a pitch long, tapped by a tap of these diameters.
fn tapped_by(major: f64, pitch_diameter: f64) -> Section {
    let tap = format!(
        "format = 1\nlike = \"demo\"\nunit = \"unit.toml\"\n[bores.thread]\n\
         tap = {{ major = {major:.4}, pitch_diameter = {pitch_diameter:.4}, uncertainty = 0.005 }}\n"
    );
    let unit = "format = 1\nlike = \"demo-unit\"\n[thread]\nchamfer = 0.3\n";
    written(&[("pen.toml", &tap), ("unit.toml", unit)])
}

/// Common practice, no source: a thread cut slightly small lets the unit turn in about half a
/// turn and stop; opening it cures that.
#[test]
fn a_thread_cut_small_stops_the_unit_after_half_a_turn() {
    let small = 0.06;
    let section = tapped_by(7.9 - small, D2 - small);
    let examination = examined(&section);
    assert_eq!(verdict(&examination, PLAY), Verdict::Breaks);
    let turns = said(&examination, PLAY, "stops after");
    assert!((0.2..0.8).contains(&turns), "{turns}");
    // Nothing blames the pitch.
    assert_eq!(found(&examination, PLAY).detail("binds after"), None);
    let note = found(&examination, PLAY).note.clone().unwrap();
    assert!(note.contains("too small on its pitch diameter"), "{note}");

    let Some(Advice::Change(change)) = found(&examination, PLAY).advice() else {
        panic!("{:?}", found(&examination, PLAY))
    };
    let Change { parameter, from, to } = change;
    assert_eq!(parameter, SizeId::UnitThreadSize);
    println!("opened from {from:.4} to {to:.4}");
    assert!((from - (D2 - small)).abs() < 1e-4, "{from}");
    // Cured as the maker would: with another tap, written into the file.
    let opened = tapped_by(7.9 - small + (to - from), to);
    let after = examined(&opened);
    assert_eq!(verdict(&after, PLAY), Verdict::Holds);
    assert_ne!(verdict(&after, "thread.unit.percent"), Verdict::Breaks);
}

/// Common practice, no source: a clearance bore 0.3 too deep costs half a turn of a 0.6 pitch.
#[test]
fn a_clearance_bore_too_deep_costs_its_depth_in_turns() {
    let depth = |over: f64| {
        // Seat 1.1 and 3.2 of plain cylinder.
        let text = format!("[bores.clearance]\ndepth = {:.2}\n", 4.3 + over);
        examined(&like_the_demo(&text))
    };
    let (right, deep) = (depth(0.0), depth(0.3));
    let turns = found(&right, TURNS).measured - found(&deep, TURNS).measured;
    assert!((turns - 0.5).abs() < 1e-9, "{turns}");
    let lost = said(&deep, "made.reach", "in front") - said(&right, "made.reach", "in front");
    assert!((lost - 0.5).abs() < 1e-9, "{lost}");
}

/// Common practice, no source: a softer resin cuts nearer to size than acrylic, so one tap leaves
/// more play in it.
#[test]
fn a_softer_resin_cuts_nearer_to_size_than_acrylic() {
    let of = |material: &str| like_the_demo(&format!("material = \"{material}\"\n"));
    let (soft, acrylic) = (of("cast-resin"), of("acrylic"));
    let back = |section: &Section| section.criteria.spring_back.value;
    assert!(back(&soft).max() < back(&acrylic).max());
    assert!(back(&soft).min() < back(&acrylic).min());
    let tightest = |section: &Section| said(&examined(section), PLAY, "at the tightest");
    let less = tightest(&soft) - tightest(&acrylic);
    // All of the difference in spring-back goes from the pitch diameter.
    let lost = (back(&acrylic).max() - back(&soft).max()).as_mm() / 3.0_f64.sqrt();
    assert!((less - lost).abs() < 1e-9, "{less} {lost}");
    let at_least = |section: &Section| section.unit_thread.limits.pitch.min();
    assert!(at_least(&acrylic) < at_least(&soft));
}

/// Common practice, no source: sections are tapped 4 to 7 mm deep.
#[test]
fn tapping_four_to_seven_millimetres_deep_is_usual() {
    for depth in [4.0, 5.0, 6.0, 7.0] {
        // A unit whose thread is as long as leaves a turn behind it.
        let to = 3.2 + depth - 0.6;
        let unit = format!(
            "format = 1\nlike = \"demo-unit\"\n[thread]\nto = {to}\n[tail]\nto = {}\n\
             [nipple]\nto = {}\n",
            to + 2.0,
            to + 8.0
        );
        let text = format!(
            "format = 1\nlike = \"demo\"\nunit = \"unit.toml\"\n[bores.clearance]\ndepth = 4.3\n\
             [bores.thread]\nto = {}\n",
            4.3 + depth
        );
        let section = written(&[("pen.toml", &text), ("unit.toml", &unit)]);
        let examination = examined(&section);
        let tapped = section.unit_thread.to - section.unit_thread.from;
        assert!((tapped.as_mm() - depth).abs() < 1e-9);
        for code in [
            "thread.unit.percent",
            TURNS,
            PLAY,
            "thread.unit.crests",
            "clear.seat",
            "made.reach",
            "made.tap-lead",
            "wall.unit-thread",
        ] {
            assert_eq!(verdict(&examination, code), Verdict::Holds, "{code} at {depth}");
        }
    }
}
