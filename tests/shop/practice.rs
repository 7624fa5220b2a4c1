//! What makers know of the work. Common practice, no source, all of it.

use sectionwright::design::Resolved;
use sectionwright::quantity::Length;
use sectionwright::scene::Scene;
use sectionwright::section::{Item, Tool};
use sectionwright::shop::choose::Taken;
use sectionwright::shop::{Operation, Plan, Tight, Work, plan};
use sectionwright::size::SizeId;

use super::bench::{drills, with_rack, written};

/// A unit whose collar is 8.7, whose M7.9x0.6 thread measures 7.86, and whose tail takes a through
/// bore of 7.0; a design that says nothing of its holes. Its numbers are invented round those.
fn usual() -> Resolved {
    let unit = "format = 1\nlike = \"demo-unit\"\n[collar]\ndiameter = 8.7\nthickness = 1.1\n\
        [plain]\ndiameter = 7.6\nto = 3.2\n[thread]\ndesignation = \"M7.9x0.6\"\nmajor = 7.86\n\
        pitch = \"none\"\nto = 8.6\nchamfer = 0.2\n[tail]\ndiameter = 6.8\nto = 11.0\n\
        [nipple]\ndiameter = 4.2\nto = 17.0\n";
    let design = "format = 1\nname = \"usual\"\nunit = \"unit.toml\"\nmaterial = \"cast-resin\"\nrack = \"rack.toml\"\n\
        [grip]\nlength = 22\nfront = 10.6\n[[grip.run]]\nto = 22\ndiameter = 12.4\n\
        [tenon]\nthread = \"M10x0.75-6g\"\nlength = 9\nrelief = { width = 1.4, diameter = 8.9 }\n\
        [bores.tap_drill]\ncuts_over = [0, 0.05]\n\
        [bores.clearance]\ncuts_over = [0, 0.05]\n[bores.recess]\ncuts_over = [0, 0.05]\n\
        [bores.through]\ncuts_over = [0, 0.05]\n\
        [barrel]\ndepth = 14\ncounterbore = { diameter = 10.3, depth = 1.2 }\n\
        [allowance]\nfacing = 0.3\nsanding = 0.05\n";
    // Every tenth of a millimetre, and no scale on the quill: depths are set by a mark on the drill.
    let rack = "format = 1\nname = \"tenths\"\nsets = [\"metric-tenths\"]\n\
        [[end_mill]]\nsize = 9.0\n";
    written(&[("pen.toml", design), ("unit.toml", unit), ("rack.toml", rack)]).expect("it is sound")
}

fn planned(resolved: &Resolved) -> Plan {
    plan(&Scene::of_design(resolved).unwrap(), &resolved.workshop).unwrap()
}

fn becomes(plan: &Plan, item: Item) -> f64 {
    plan.choice(item).unwrap().becomes.as_mm()
}

fn step(plan: &Plan, item: Item) -> &Operation {
    plan.operations.iter().find(|operation| operation.item() == Some(item)).unwrap()
}

fn tight(operation: &Operation, parameter: SizeId) -> &Tight {
    operation.tight.iter().find(|tight| tight.parameter == parameter).unwrap()
}

/// Through 7.0, tap drill 7.3, clearance 8.2, recess 9.0.
#[test]
fn the_usual_unit_takes_the_usual_drills() {
    let plan = planned(&usual());
    let found = [Item::ThroughBore, Item::TapDrill, Item::ClearanceBore, Item::Recess]
        .map(|item| becomes(&plan, item));
    assert_eq!(found, [7.0, 7.3, 8.2, 9.0]);
    assert!(plan.choices.iter().all(|choice| matches!(choice.taken, Taken::Tool(_))));
}

/// The tap drill's diameter is critical, its depth beyond the thread is free; the clearance bore's
/// depth is critical, and better a trace too deep than too shallow; facing to length within a
/// millimetre is not critical.
#[test]
fn what_is_critical_and_what_is_not() {
    let plan = planned(&usual());
    let tap_drill = step(&plan, Item::TapDrill);
    assert!(tight(tap_drill, SizeId::BoreDiameter(Item::TapDrill)).critical);
    let depth = tight(tap_drill, SizeId::BoreDepth(Item::TapDrill));
    assert!(!depth.critical && depth.more.is_none());
    let clearance = step(&plan, Item::ClearanceBore);
    let depth = tight(clearance, SizeId::BoreDepth(Item::ClearanceBore));
    assert!(depth.critical, "{depth:?}");
    assert_eq!(depth.leans(), Some(1.0), "{depth:?}");
    // Less room than a mark on a drill can be set to (0.3).
    assert!(depth.less.unwrap() < 0.3 && depth.more.unwrap_or(2.0) > 0.5, "{depth:?}");
    let face = plan.operations.iter().find(|step| matches!(step.work, Work::Face { .. })).unwrap();
    let length = tight(face, SizeId::GripLength);
    assert!(!length.critical, "{length:?}");
    for side in [length.less, length.more] {
        assert!(side.is_none_or(|room| room >= 1.0), "{length:?}");
    }
}

/// Before it is tapped the unit stands proud by about the length of its thread: the thread's end
/// meets the hole that is to be tapped.
#[test]
fn an_untapped_unit_stands_proud_by_its_thread() {
    let plan = planned(&usual());
    let fit = plan.operations.iter().find_map(|step| match step.work {
        Work::TryUnit(fit) => Some(fit),
        _ => None,
    });
    let fit = fit.unwrap();
    let proud = (fit.stands - fit.seated).as_mm();
    let thread = plan.section.unit.thread.length().as_mm();
    assert!((proud - thread).abs() < 0.3, "{proud} {thread}");
    // Its reading tells the clearance bore's depth, one to one.
    assert!((fit.by_clearance - 1.0).abs() < 1e-6);
    assert!((fit.turns - proud / 0.6).abs() < 1e-9);
}

/// A rack with nothing but 8.0 and 21/64 in for the clearance bore: in 8.0 the unit's thread rubs;
/// 21/64 in is 8.334, not 8.2, and serves.
#[test]
fn a_poor_rack_is_told_what_it_costs() {
    let sizes = ["6.5", "7.3", "8.0", "\"21/64 in\""];
    let bar = "[[boring_bar]]\nleast = 8.5\nreach = 25\n";
    let resolved = with_rack("", &(drills(&sizes) + bar));
    let plan = planned(&resolved);
    let choice = plan.choice(Item::ClearanceBore).unwrap();
    let Taken::Tool(Tool { size, .. }) = &choice.taken else { panic!("{:?}", choice.taken) };
    assert_eq!(size.to_string(), "21/64 in (8.334 mm)");
    assert!((choice.becomes.as_mm() - 8.334_375).abs() < 1e-9);
    let other = &choice.runners_up[0];
    assert_eq!(other.tool.size.diameter(), Length::mm(8.0));
    let why = other.effect.why(|length| length.to_string()).unwrap();
    assert!(why.contains("the unit's thread rubs in the clearance bore"), "{why}");
    let not: Vec<String> = choice.mistaken.iter().map(|other| other.is_not.to_string()).collect();
    assert_eq!(not, ["8.2 mm", "8.3 mm", "8.4 mm"]);
    // The section is the one with that hole, and all steps lead to it.
    let bore = plan.section.bore(Item::ClearanceBore).unwrap();
    assert_eq!(bore.diameter, choice.becomes);
    assert_ne!(plan.section, resolved.section);
}
