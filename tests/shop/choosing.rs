//! Tools are chosen by what the checker measures.

use sectionwright::check::{Finding, Verdict};
use sectionwright::design::{Library, Resolved, load};
use sectionwright::quantity::Length;
use sectionwright::scene::{Scene, verdicts};
use sectionwright::section::{Item, Point, Section, ToolKind};
use sectionwright::shop::choose::{Choice, Taken, choose};

use super::bench::{drills, with_rack};

/// The section with the tools at hand, and what was chosen for each hole.
fn chosen(resolved: &Resolved, done: &[Item]) -> (Section, Vec<Choice>) {
    let scene = Scene::of_design(resolved).unwrap();
    let (changed, choices) = choose(&scene, &resolved.workshop, done).unwrap();
    (changed.as_ref().unwrap_or(&scene).section().clone(), choices)
}

/// The drill that a hole gets, or what is said instead.
fn taken(rack: &str, item: Item) -> String {
    let resolved = with_rack("", rack);
    let (_, choices) = chosen(&resolved, &[]);
    let choice = choices.iter().find(|choice| choice.item == item).unwrap();
    match &choice.taken {
        Taken::Tool(tool) => format!("{tool} leaves {:.3}", choice.becomes.as_mm()),
        Taken::ByHand(how) => (*how).to_owned(),
        Taken::Buy(Some(drill)) => format!("buy {drill}"),
        Taken::Buy(None) => "buy nothing".to_owned(),
    }
}

/// A drill that is known to cut 0.1 over in this material is taken where its hole fits, not its
/// name: 7.2 leaves 7.30 in cast resin, and 7.3 leaves 7.42, which is too wide for the thread.
#[test]
fn the_hole_counts_and_not_the_name() {
    let cuts = |size: &str, hole: &str, material: &str| {
        format!(
            "[[drill]]\nsize = {size}\npoint = 118\n\
             cuts = [{{ material = \"{material}\", hole = {hole}, uncertainty = 0.01 }}]\n"
        )
    };
    let rack = |material| cuts("7.2", "7.30", material) + &cuts("7.3", "7.42", material);
    assert_eq!(taken(&rack("cast-resin"), Item::TapDrill), "drill 7.2 mm leaves 7.300");
    // What they cut in another material says nothing here.
    assert_eq!(taken(&rack("brass"), Item::TapDrill), "drill 7.3 mm leaves 7.300");
}

/// A drill that measures other than it is marked is what it measures.
#[test]
fn a_measured_drill_is_what_it_measures() {
    let rack =
        "[[drill]]\nsize = 7.2\nmeasured = 7.31\npoint = 118\n".to_owned() + &drills(&["7.4"]);
    assert_eq!(taken(&rack, Item::TapDrill), "drill 7.2 mm leaves 7.310");
}

/// Where no drill serves a boring bar does; where there is none either, the drill that would serve
/// is named, and it does serve.
#[test]
fn where_nothing_at_hand_serves() {
    let bad = drills(&["7.0", "7.8"]);
    let bar = "[[boring_bar]]\nleast = 6.0\nreach = 30\n";
    assert_eq!(taken(&(bad.clone() + bar), Item::TapDrill), "boring bar 6 mm leaves 7.300");
    // Too short a bar, or one that does not enter what is drilled by then, is none.
    for bar in ["[[boring_bar]]\nleast = 6.0\nreach = 9\n", "[[boring_bar]]\nleast = 7.1\n"] {
        assert_eq!(taken(&(bad.clone() + bar), Item::TapDrill), "buy 7.3 mm", "{bar}");
    }
    let reamer = "[[reamer]]\nsize = 7.3\ncuts_over = [0, 0.01]\n";
    assert_eq!(taken(&(bad + reamer), Item::TapDrill), "reamer 7.3 mm leaves 7.300");
}

/// A drill's point leaves a cone where the collar's seat is to be flat: an end mill goes before it.
#[test]
fn a_flat_seat_wants_a_flat_tool() {
    let mill = "[[end_mill]]\nsize = 9.1\n";
    let rack = drills(&["9.1", "9.13"]) + mill;
    assert_eq!(taken(&rack, Item::Recess), "end mill 9.1 mm leaves 9.100");
    let resolved = with_rack("", &drills(&["6.5", "7.3", "8.2", "9.0"]));
    let (section, choices) = chosen(&resolved, &[]);
    let choice = choices.iter().find(|choice| choice.item == Item::Recess).unwrap();
    let Taken::Tool(tool) = &choice.taken else { panic!("{:?}", choice.taken) };
    assert!(choice.other_point && tool.kind == ToolKind::Drill);
    assert!(matches!(section.bore(Item::Recess).unwrap().point, Point::Cone(_)));
}

/// Whatever is chosen worsens no verdict, and what it is said to cost is what a check says.
#[test]
fn no_choice_worsens_a_verdict() {
    for rack in [drills(&["6.5", "7.3", "8.2", "9.0"]), "sets = [\"metric-tenths\"]".to_owned()] {
        let resolved = with_rack("", &rack);
        let before = verdicts(&resolved.section).unwrap();
        let (section, choices) = chosen(&resolved, &[]);
        let after = verdicts(&section).unwrap();
        for finding in &after.findings {
            let was = before.finding(finding.code).and_then(Finding::verdict);
            assert!(finding.verdict() <= was.or(Some(Verdict::Holds)), "{}", finding.code);
        }
        for choice in choices.iter().flat_map(|choice| &choice.runners_up) {
            assert!(
                choice.effect.why(|length| length.to_string()).is_some() || choice.effect.serves()
            );
        }
    }
}

/// What a design asks for exactly is not changed for something that would be better.
#[test]
fn what_is_asked_for_is_taken() {
    let rack =
        drills(&["6.5", "7.3", "8.14"]) + "[[end_mill]]\nsize = 9.13\n[[end_mill]]\nsize = 9.1\n";
    let resolved = with_rack("", &rack);
    let (section, choices) = chosen(&resolved, &[]);
    assert_eq!(section, resolved.section);
    let off = |choice: &sectionwright::shop::choose::Choice| (choice.becomes - choice.wanted).abs();
    assert!(choices.iter().all(|choice| off(choice) < Length::mm(1e-9)));
}

/// What breaks already is not ruined: R1's percent of thread breaks at the worst whatever its tap
/// drill is, and still no hole far off is taken for it.
#[test]
fn what_breaks_anyway_is_not_made_worse() {
    let fixture = format!("{}/tests/fixtures/r1.toml", env!("CARGO_MANIFEST_DIR"));
    let resolved = load(&Library::default(), &fixture).unwrap();
    let before = verdicts(&resolved.section).unwrap();
    assert!(before.findings.iter().any(|finding| finding.verdict() == Some(Verdict::Breaks)));
    let (_, choices) = chosen(&resolved, &[]);
    for choice in choices {
        let off = (choice.becomes - choice.wanted).abs();
        assert!(off < Length::mm(0.1), "{}: {off}", choice.item);
    }
}

/// No tool does what it can't: a mill does not go through the solid, a drill has to reach with its
/// tip, and a reamer follows a drill that is named.
#[test]
fn a_tool_can_do_what_it_is_taken_for() {
    // 31.35 long as squared, and a point of 1.95.
    let reaching = |reach: &str| format!("[[drill]]\nsize = 6.5\npoint = 118\nreach = {reach}\n");
    let mill = "[[end_mill]]\nsize = 6.5\n";
    let through = |rack: &str| taken(&(rack.to_owned() + mill), Item::ThroughBore);
    assert_eq!(through(&reaching("33.4")), "drill 6.5 mm leaves 6.500");
    assert_eq!(through(&reaching("33.2")), "buy 6.5 mm");
    let centre = "[[centre_drill]]\nbody = 8.1\nangle = 60\npilot = 3\npilot_length = 3\n";
    assert_eq!(taken(centre, Item::ClearanceBore), "buy 8.1 mm");
    let resolved = with_rack("", &(drills(&["6.5", "7.2"]) + "[[reamer]]\nsize = 7.3\n"));
    let (_, choices) = chosen(&resolved, &[]);
    let choice = choices.iter().find(|choice| choice.item == Item::TapDrill).unwrap();
    let Taken::Tool(tool) = &choice.taken else { panic!("{:?}", choice.taken) };
    assert_eq!(tool.kind, ToolKind::Reamer);
    let first = choice.first.as_ref().map(ToString::to_string);
    assert_eq!(first.as_deref(), Some("drill 7.2 mm"));
}

/// A hole that is done is not chosen for again, whatever it is like.
#[test]
fn what_is_done_stays_as_it_is() {
    let resolved =
        with_rack("[bores.clearance]\ndiameter = 8.31\n", &drills(&["6.5", "7.3", "8.2"]));
    let clearance = |done: &[Item]| {
        let (section, _) = chosen(&resolved, done);
        section.bore(Item::ClearanceBore).unwrap().diameter.as_mm()
    };
    assert_eq!([clearance(&[]), clearance(&[Item::ClearanceBore])], [8.2, 8.31]);
}
