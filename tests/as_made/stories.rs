//! Mistakes whose cost is known without the tool.

use sectionwright::check::Verdict;
use sectionwright::scene::{Examination, Scene};
use sectionwright::section::{Cut, Item, Stage};
use sectionwright::shop::as_made::Remedy;

use super::{made, made_with, section};
use sectionwright::size::SizeId;

/// How much a measure changed.
fn change(made: &sectionwright::shop::as_made::AsMade, code: &str) -> f64 {
    let measured = |e: &sectionwright::scene::Examination| e.finding(code).unwrap().measured;
    measured(made.made.examination().unwrap()) - measured(&made.drawn)
}

/// By hand: 0.3 of a pitch of 0.6 is half a turn, where unit and section have thread.
#[test]
fn a_clearance_bore_too_deep_costs_turns_of_thread() {
    let made = made(&section("demo"), "bores.clearance.depth", 4.6);
    assert!((change(&made, "thread.unit.turns") + 0.5).abs() < 1e-9);
    let start = made.section.unit_thread.from.as_mm();
    assert!((start - 4.6).abs() < 1e-12, "{start}");
    // The other way on nothing is lost, as the unit's own thread begins there.
    assert!(made.worse().is_empty() && made.rescues.is_empty());
}

/// By hand: the collar rests so much deeper, and everything of the unit with it.
#[test]
fn a_deeper_recess_moves_the_seat() {
    let made = made(&section("demo"), "bores.recess.depth", 1.2);
    let by = made.section.seat() - section("demo").seat();
    assert!((by.as_mm() - 0.1).abs() < 1e-12);
    assert!((change(&made, "clear.seat") + 0.1).abs() < 1e-9);
    assert!((change(&made, "clear.collar") - 0.1).abs() < 1e-9);
    assert!((change(&made, "wall.lip")).abs() < 0.02);
}

/// Common practice, no source: a recess bored too wide is saved by a wider outside in front.
#[test]
fn a_recess_too_wide_is_saved_by_what_is_turned_later() {
    let demo = section("demo");
    let made = made(&demo, "bores.recess.diameter", 9.3);
    assert!(made.made.breaks());
    let rescue = &made.rescues[0];
    let Remedy::Change(change) = rescue.remedy else { panic!("{rescue:?}") };
    assert_eq!((change.parameter, change.from), (SizeId::FrontDiameter, 10.2));
    let lip = rescue.examination.finding("wall.lip").unwrap();
    assert!(lip.verdict() <= made.drawn.finding("wall.lip").unwrap().verdict());
    let Some(Cut::Outside(grip)) =
        rescue.remaining.iter().find(|cut| cut.stage() == Stage::OutsideTurned)
    else {
        panic!("{:?}", rescue.remaining)
    };
    assert_eq!(grip.front.as_mm(), change.to, "the work that is left has the change in it");
}

/// By hand: facing 0.25 off leaves a bore cut 5.4 deep 5.15 deep, and a grip of 22 at 21.75; the unit
/// sits in the recess that is still to be cut, so that it finds 0.25 more of thread.
#[test]
fn a_bore_too_deep_is_saved_by_facing() {
    let demo = section("demo");
    let made = made(&demo, "bores.clearance.depth", 5.4);
    let lost = |e: &Examination| e.finding("made.reach").unwrap().measured;
    let back = made.rescues.iter().find_map(|rescue| match rescue.remedy {
        Remedy::FaceBack { off } => Some((off.as_mm(), rescue)),
        Remedy::Change(_) => None,
    });
    let (off, rescue) = back.unwrap();
    assert_eq!(off, 0.25);
    let (start, grip) = (rescue.section.unit_thread.from, rescue.section.grip.length());
    assert!((start.as_mm() - 5.15).abs() < 1e-12 && (grip.as_mm() - 21.75).abs() < 1e-12);
    let recess = rescue.section.bore(Item::Recess).unwrap();
    assert_eq!(Some(recess), demo.bore(Item::Recess), "it is to come, and is as drawn");
    let by = lost(made.made.examination().unwrap()) - lost(&rescue.examination);
    assert!((by - 0.25 / 0.6).abs() < 1e-9, "{by}");
    assert!(matches!(rescue.remaining[0], Cut::Face { off } if off.as_mm() == 0.25));
}

/// What is tapped can't be tapped shallower: there is nothing to advise, and it is said.
#[test]
fn a_hole_too_wide_for_its_thread_is_lost() {
    let made = made(&section("demo"), "bores.tap_drill.diameter", 7.45);
    let percent = made.made.examination().unwrap().finding("thread.unit.percent").unwrap();
    assert_eq!(percent.verdict(), Some(Verdict::Breaks));
    assert!(made.rescues.is_empty());
}

/// A front that was not faced yet makes up for a tenon that was turned otherwise, as far as there
/// is something to come off.
#[test]
fn another_tenon_is_faced_away_or_told() {
    let demo = section("demo");
    let short = made(&demo, "tenon.length", 8.8);
    let Some(Cut::Face { off }) = short.remaining.iter().find(|cut| cut.stage() == Stage::Faced)
    else {
        panic!("{:?}", short.remaining)
    };
    assert!((off.as_mm() - 0.5).abs() < 1e-12, "0.3 and what the tenon is shorter: {off}");
    assert_eq!(short.rod_leaves, None);
    let long = made(&demo, "tenon.length", 9.4);
    let (size, left) = long.rod_leaves.unwrap();
    assert!(size == SizeId::GripLength && (left.as_mm() - 21.9).abs() < 1e-9);
    // R1 has no facing: its shoulder lies where both say.
    let r1 = section("tests/fixtures/r1.toml");
    let (size, left) = made(&r1, "grip.length", 21.2).rod_leaves.unwrap();
    assert!(size == SizeId::TenonLength && (left.as_mm() - 10.8).abs() < 1e-9);
}

/// Several at once: each as it was cut, and done up to the last of them.
#[test]
fn several_sizes_are_set_together() {
    use sectionwright::quantity::Length;
    use sectionwright::shop::as_made::{MadeSize, Said, as_made};
    let demo = section("demo");
    let size = |key: &str, to: f64| {
        let parameter = SizeId::read(key, &demo).unwrap();
        MadeSize::of(&demo, parameter, Length::mm(to))
    };
    let sizes = vec![size("bores.clearance.depth", 4.4), size("tenon.chamfer", 0.4)];
    let made = as_made(&Scene::of(&demo).unwrap(), &Said { sizes: sizes.clone(), after: None });
    for size in sizes {
        assert_eq!(size.parameter.get(&made.section), Some(size.made.as_mm()));
    }
    assert_eq!(made.done.last().unwrap().to_string(), "clearance-bore bored");
    let nothing = made_with(&demo, SizeId::FrontDiameter, 10.2, None);
    assert!(nothing.worse().is_empty() && nothing.better().is_empty());
}
