//! The drawing's limits at their worst together, against the checks and closed forms.

use sectionwright::check::{Finding, Verdict};
use sectionwright::design::{Library, load};
use sectionwright::scene::{Allotment, allot, corner, verdicts};
use sectionwright::section::{Item, Limit, Section, WallLimits};
use sectionwright::size::SizeId;
use sectionwright::standard::GeneralClass;

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
    let made = corner(section, allotment, pick);
    let made = made.unwrap_or_else(|| panic!("{}: a corner can't be made", section.name));
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

/// What each check has over its limit at a corner, where the corner can be made.
fn margins(section: &Section, allotment: &Allotment, pick: &dyn Fn(usize) -> f64) -> Margins {
    let found = corner(section, allotment, pick).map(|made| verdicts(&made).unwrap().findings);
    let margin = |finding: &Finding| Some((finding.code, finding.judgement.as_ref()?.margin));
    found.iter().flatten().filter_map(margin).collect()
}

type Margins = Vec<(&'static str, f64)>;

/// Each check's worst corner, by moving every size alone to both its limits.
fn worst_corners(section: &Section, allotment: &Allotment) {
    let count = allotment.sizes.len() + allotment.angles.len();
    let alone = |n: usize, side: f64| {
        margins(section, allotment, &move |other| if other == n { side } else { 0.0 })
    };
    let moved: Vec<[Margins; 2]> = (0..count).map(|n| [alone(n, -1.0), alone(n, 1.0)]).collect();
    for (code, _) in margins(section, allotment, &|_| 0.0) {
        let at = |all: &Margins| {
            let own = all.iter().find(|(other, _)| *other == code);
            own.map_or(f64::INFINITY, |(_, margin)| *margin)
        };
        let side = |[less, more]: &[Margins; 2]| if at(less) < at(more) { -1.0 } else { 1.0 };
        let picks: Vec<f64> = moved.iter().map(side).collect();
        keeps(section, allotment, &|n| picks[n]);
    }
}

const FIXTURES: [&str; 6] = ["r1", "capped", "outside", "both-ends", "reliefs", "threads"];

fn fixture(name: &str) -> Section {
    load(&Library::default(), &format!("tests/fixtures/{name}.toml")).unwrap().section
}

#[test]
fn every_corner_of_the_fixtures_holds() {
    let demo = load(&Library::default(), "demo").unwrap().section;
    for section in FIXTURES.map(fixture).into_iter().chain([demo]) {
        let allotment = allot(&section).unwrap();
        assert!(!allotment.unmade, "{}", section.name);
        random_corners(&section, &allotment, 7);
    }
}

#[test]
fn so_does_every_checks_own_worst() {
    for section in ["r1", "capped", "both-ends"].map(fixture) {
        worst_corners(&section, &allot(&section).unwrap());
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
    let front = allotment.size(SizeId::FrontDiameter).unwrap();
    let recess = allotment.size(SizeId::BoreDiameter(Item::Recess)).unwrap();
    let offset = allotment.run_out / 2.0;
    let wall = (front.value - front.below - recess.value - recess.above) / 2.0 - offset;
    assert!(wall > mm(0.3), "{wall}");
}

/// Limiting cases, on one section: where the lip has all the room there is, its diameters have the
/// general tolerance of the coarser class; the nearer its limit comes, the tighter they are.
#[test]
fn the_nearer_the_limit_the_tighter_the_diameter() {
    let section = sound();
    let found = verdicts(&section).unwrap();
    let lip = mm(found.finding("wall.lip").unwrap().judgement.as_ref().unwrap().worst);
    let off = |spare: f64| {
        let mut section = section.clone();
        section.criteria.walls =
            WallLimits::new(|_| Limit { value: lip - mm(spare), source: "invented".to_owned() });
        let allotment = allot(&section).unwrap();
        assert!(!allotment.unheld.contains(&"wall.lip"), "{spare}");
        let front = allotment.size(SizeId::FrontDiameter).unwrap();
        (allotment.class, front.general, front.below)
    };
    let (class, general, wide) = off(0.3);
    assert_eq!((class, general), (GeneralClass::Medium, true));
    let [near, nearer] = [0.08, 0.03].map(|spare| off(spare).2);
    assert!(wide > near && near > nearer, "{wide} {near} {nearer}");
}
