//! How far sizes may be off, against closed forms and a search that goes every step.

use sectionwright::check::Verdict;
use sectionwright::quantity::Limits;
use sectionwright::scene::{Room, Scene, SideRoom, Worse, verdicts};
use sectionwright::section::{Item, Section, faults};
use sectionwright::size::{Owner, SizeId};

use crate::capped::{capped, threaded};
use crate::common::mm;
use crate::fixtures::{hole, r1, sound};

/// To what the room is found.
const FOUND_TO: f64 = 0.005;

fn of(section: &Section, parameter: SizeId) -> Room {
    let all = Scene::of(section).unwrap().room().to_vec();
    all.into_iter().find(|room| room.parameter == parameter).unwrap()
}

fn code(side: &SideRoom) -> &'static str {
    match &side.then {
        Some(Worse::Verdict { code, .. }) => code,
        other => panic!("{other:?}"),
    }
}

fn near(side: &SideRoom, expected: f64) {
    let short = expected - side.room;
    assert!((-1e-9..=FOUND_TO).contains(&short), "{side:?}, not {expected}");
}

/// By hand: R1's lip is (9.7 - 8.9) / 2 = 0.4 thick with nothing off the axis. With a limit of
/// 0.35 and a band of 0.02 it holds down to 0.37, so the recess may be 2 x 0.03 wider and the
/// front 0.06 thinner: nothing else gets worse before.
#[test]
fn a_lip_gives_half_of_what_its_diameters_take() {
    let mut section = r1();
    section.criteria.walls = sectionwright::section::WallLimits::new(|_| {
        sectionwright::section::Limit { value: mm(0.35), source: "invented".to_owned() }
    });
    let recess = of(&section, SizeId::BoreDiameter(Item::Recess));
    near(&recess.more, 0.06);
    assert_eq!(code(&recess.more), "wall.lip");
    let front = of(&section, SizeId::FrontDiameter);
    near(front.less.as_ref().unwrap(), 0.06);
    assert_eq!(code(front.less.as_ref().unwrap()), "wall.lip");
    // A change of holding takes its offset from the wall whole.
    let holding = of(&section, SizeId::HoldingOffset);
    near(&holding.more, 0.03);
    assert!(holding.less.is_none());
}

/// Common practice, no source: a clearance bore that is 0.3 too deep costs half a turn of a 0.6
/// pitch. By hand: 0.3 / 0.6.
#[test]
fn a_clearance_bore_too_deep_costs_turns() {
    use sectionwright::design::{Library, load};
    let section = load(&Library::default(), "demo").unwrap().section;
    assert_eq!(section.unit_thread.form.pitch, mm(0.6));
    let depth = SizeId::BoreDepth(Item::ClearanceBore);
    let turns = |section: &Section| {
        verdicts(section).unwrap().finding("thread.unit.turns").unwrap().measured
    };
    let from = depth.get(&section).unwrap();
    // From where it already takes thread.
    let [a, b] = [0.3, 0.6].map(|by| turns(&depth.set(&section, from + by).unwrap()));
    assert!((a - b - 0.5).abs() < 1e-9, "{a} {b}");
}

/// What is worse than before, the long way round.
fn gets_worse(before: &[(&'static str, Verdict)], section: Option<Section>) -> bool {
    let Some(section) = section.filter(|section| faults(section).is_empty()) else { return true };
    let Ok(after) = verdicts(&section) else { return true };
    after.findings.iter().any(|finding| {
        let Some(now) = finding.verdict() else { return false };
        let then = before.iter().find(|(code, _)| *code == finding.code);
        now > then.map_or(Verdict::Holds, |(_, verdict)| *verdict)
    })
}

/// Independent route: every 0.005 mm outwards, all checks each time and no halving. The two may
/// differ where something gets worse and better again within one step.
fn agrees(section: &Section, of: impl Fn(SizeId) -> bool) -> usize {
    let before: Vec<_> = verdicts(section)
        .unwrap()
        .findings
        .iter()
        .filter_map(|finding| Some((finding.code, finding.verdict()?)))
        .collect();
    let mut limited = 0;
    for found in
        Scene::of(section).unwrap().room().to_vec().into_iter().filter(|room| of(room.parameter))
    {
        let sides = [(-1.0, found.less.as_ref()), (1.0, Some(&found.more))];
        for (sign, side) in sides.into_iter().filter_map(|(sign, side)| Some((sign, side?))) {
            let at = |off: f64| {
                gets_worse(&before, found.parameter.set(section, found.value + sign * off))
            };
            let steps = (1..=400).map(|n| f64::from(n) * FOUND_TO);
            let first = steps.into_iter().find(|off| at(*off));
            let expected = first.map_or(2.0, |off| off - FOUND_TO);
            let off = (side.room - expected).abs();
            assert!(off <= FOUND_TO + 1e-9, "{} {sign}: {side:?}, {expected}", found.parameter);
            assert_eq!(side.then.is_some(), first.is_some(), "{}", found.parameter);
            limited += usize::from(first.is_some());
        }
    }
    limited
}

#[test]
fn agrees_with_a_search_that_goes_every_step() {
    let limited = agrees(&sound(), |_| true);
    assert!(limited > 20, "{limited} sides are limited");
}

#[test]
fn agrees_where_only_some_checks_are_asked() {
    let of =
        |parameter: SizeId| parameter.owner() == Owner::Cap || parameter.owner() == Owner::Barrel;
    for section in [capped(), threaded()] {
        let limited = agrees(&section, of);
        assert!(limited > 6, "{limited} sides are limited");
    }
}

/// Critical is what has less room than can be held: a maker who holds it better has no trouble.
#[test]
fn critical_is_a_matter_of_the_maker() {
    let mut section = sound();
    let depth = SizeId::BoreDepth(Item::TapDrill);
    let found = of(&section, depth);
    let less = found.less.as_ref().unwrap().room;
    assert!(found.less.as_ref().unwrap().then.is_some());
    section.maker.depth.value = mm(less - 0.01);
    assert!(!of(&section, depth).critical);
    section.maker.depth.value = mm(less + 0.01);
    let found = of(&section, depth);
    assert!(found.critical);
    assert_eq!(found.held, [less + 0.01; 2].map(|v| mm(v).as_mm()));
}

/// What a drill is said to cut over its size is in every verdict already; only what it may cut
/// beyond that counts against the room.
#[test]
fn a_drills_spread_is_counted_once() {
    let mut section = sound();
    let drill = SizeId::BoreDiameter(Item::ThroughBore);
    assert_eq!(of(&section, drill).held, [0.0, 0.0]);
    let through = hole(&mut section, Item::ThroughBore);
    through.limits = Limits::new(through.diameter, through.diameter + mm(0.10)).unwrap();
    let held = of(&section, drill).held;
    assert!(held[0] == 0.0 && (held[1] - 0.05).abs() < 1e-9, "{held:?}");
}
