//! The drawing's limits at their worst together, against the checks and closed forms.

use sectionwright::check::{Allotment, Parameter, Verdict, allot, corner, verdicts};
use sectionwright::design::{Library, load};
use sectionwright::section::{Item, Limit, Section, WallLimits};

use crate::common::mm;
use crate::common::random::Dice;
use crate::fixtures::{r1, sound};

/// Corners by chance for each section.
const CORNERS: usize = 40;

fn levels(section: &Section) -> Vec<(&'static str, Verdict)> {
    let found = verdicts(section).unwrap().findings;
    found.iter().filter_map(|finding| Some((finding.code, finding.verdict()?))).collect()
}

/// No check is worse at a corner than at the nominal sizes, but for those said not to be held.
fn keeps(section: &Section, allotment: &Allotment, pick: &dyn Fn(usize) -> f64) {
    let goals = levels(&corner(section, allotment, |_| 0.0).unwrap());
    let Some(made) = corner(section, allotment, pick) else {
        assert!(allotment.unmade, "{}: a corner can't be made", section.name);
        return;
    };
    for (code, now) in levels(&made) {
        let goal = goals.iter().find(|(other, _)| *other == code).map(|(_, level)| *level);
        let held = goal.is_none_or(|goal| now <= goal) || allotment.unheld.contains(&code);
        assert!(held, "{}: {code} {now} instead of {goal:?}", section.name);
    }
}

/// Corners by chance: a few sizes in the midst of their limits, the others at an end.
fn random_corners(section: &Section, allotment: &Allotment, seed: u64) {
    let count = allotment.sizes.len() + allotment.angles.len();
    let mut dice = Dice(seed);
    for _ in 0..CORNERS {
        let picks: Vec<f64> =
            (0..count)
                .map(|_| {
                    if dice.percent(80) {
                        dice.one_of(&[-1.0, 1.0])
                    } else {
                        dice.within(-1.0, 1.0)
                    }
                })
                .collect();
        keeps(section, allotment, &|n| picks[n]);
    }
}

#[test]
fn every_corner_of_the_fixtures_holds() {
    let fixtures = ["r1", "capped", "outside", "both-ends", "reliefs"];
    let files = fixtures.map(|name| format!("tests/fixtures/{name}.toml"));
    for design in files.iter().map(String::as_str).chain(["demo"]) {
        let section = load(&Library::default(), design).unwrap().section;
        random_corners(&section, &allot(&section).unwrap(), 7);
    }
}

/// By hand: R1's lip is a cylinder's wall at the front, (front - recess) / 2, less the offset. With
/// every length's cost to it left out, what both diameters may be off must fit in the margin.
#[test]
fn a_lip_bears_what_its_diameters_are_off() {
    let mut section = r1();
    section.criteria.walls =
        WallLimits::new(|_| Limit { value: mm(0.3), source: "invented".to_owned() });
    let allotment = allot(&section).unwrap();
    assert!(!allotment.unheld.contains(&"wall.lip"));
    let front = allotment.size(Parameter::FrontDiameter).unwrap();
    let recess = allotment.size(Parameter::BoreDiameter(Item::Recess)).unwrap();
    let offset = allotment.run_out / 2.0;
    let wall = (front.value - front.below - recess.value - recess.above) / 2.0 - offset;
    assert!(wall > mm(0.3), "{wall}");
}

/// Limiting case: walls of no thickness ask for nothing of the lip's diameter.
#[test]
fn a_thin_limit_asks_for_less() {
    let with = |least: f64| {
        let mut section = sound();
        section.criteria.walls =
            WallLimits::new(|_| Limit { value: mm(least), source: "invented".to_owned() });
        allot(&section).unwrap().size(Parameter::FrontDiameter).unwrap().below
    };
    assert!(with(0.1) >= with(0.5));
}
