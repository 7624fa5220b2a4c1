//! The sheet's boxes, read back.

use sectionwright::design::{Library, load};
use sectionwright::quantity::Length;
use sectionwright::scene::Scene;
use sectionwright::section::{Bore, Cut, Depth, Item, Stage, Workpiece};
use sectionwright::shop::{PinReading, Plan, Work, plan};
use sectionwright::size::SizeId;

fn demo() -> Plan {
    let resolved = load(&Library::default(), "demo").unwrap();
    plan(&Scene::of_design(&resolved).unwrap(), &resolved.workshop).unwrap()
}

/// The workpiece before a hole is cut, and the cut.
fn before(plan: &Plan, item: Item) -> (Workpiece, Bore) {
    let mut piece = Workpiece::rod(&plan.section);
    for cut in plan.operations.iter().filter_map(|step| step.cut.as_ref()) {
        if let Cut::Bore(bore) = cut
            && bore.item == item
        {
            return (piece, bore.clone());
        }
        piece.take(cut);
    }
    panic!("no {item}");
}

/// A pin that reads otherwise than it should says how deep the hole is: the hole is cut so deep on
/// the solid, the same pin is read in it, and its reading gives the depth back.
#[test]
fn a_pins_reading_gives_the_depth_back() {
    let plan = demo();
    for (item, off) in [
        (Item::TapDrill, 0.31),
        (Item::ClearanceBore, -0.12),
        (Item::ClearanceBore, 0.4),
        (Item::Recess, 0.07),
    ] {
        let (mut piece, bore) = before(&plan, item);
        let Depth::To(depth) = bore.depth else { panic!("{bore:?}") };
        let other = Bore { depth: Depth::To(depth + Length::mm(off)), ..bore.clone() };
        let front = piece.front();
        piece.take(&Cut::Bore(other.clone()));
        let pin = PinReading::of(&other, &piece).unwrap().unwrap();
        let key = SizeId::BoreDepth(item).name();
        let boxed = key.replace(".depth", ".pin");
        let (named, found) = plan.of_box(&boxed, pin.reading).unwrap();
        assert_eq!(named, key);
        let finished = depth + Length::mm(off) + front;
        assert!((found - finished).abs() < Length::mm(1e-9), "{item}: {found} {finished}");
    }
}

/// How far the unit stands out says how deep the clearance bore is, and a length before the front is
/// sanded how long the grip will be.
#[test]
fn other_boxes() {
    let plan = demo();
    let fit = plan.operations.iter().find_map(|step| match step.work {
        Work::TryUnit(fit) => Some(fit),
        _ => None,
    });
    let stands = fit.unwrap().stands;
    let (key, depth) = plan.of_box("unit.stands", stands - Length::mm(0.25)).unwrap();
    assert_eq!(key, "bores.clearance.depth");
    assert!((depth.as_mm() - 4.55).abs() < 1e-9, "{depth}");
    let (key, length) = plan.of_box("grip.faced", Length::mm(22.15)).unwrap();
    assert_eq!(key, "grip.length");
    assert!((length.as_mm() - 22.1).abs() < 1e-9, "{length}");
    for key in ["bores.recess.diameter", "bores.through.pin", "recess", ".pin", "lid.pin"] {
        assert_eq!(plan.of_box(key, Length::mm(1.0)), None, "{key}");
    }
}

/// What is left when some of it is done: no cut that is done, every other one, and what belongs
/// behind.
#[test]
fn what_is_left() {
    let plan = demo();
    let all: Vec<Stage> = plan.section.cuts().iter().map(Cut::stage).collect();
    for done in 0..=all.len() {
        let (done, open) = all.split_at(done);
        let left = plan.left(done);
        let cuts = left.iter().filter_map(|(_, step)| step.cut.as_ref()).map(Cut::stage);
        assert_eq!(cuts.collect::<Vec<_>>(), open, "{done:?}");
        assert!(left.iter().all(|(n, step)| plan.operations[*n] == **step));
        let last = left.last().map(|(n, _)| *n);
        assert_eq!(last, Some(plan.operations.len() - 1), "the last look is left to the end");
    }
    let after_recess: Vec<Stage> = all[..8].to_vec();
    assert_eq!(after_recess.last(), Some(&Stage::Bored(Item::Recess)));
    assert!(matches!(plan.left(&after_recess)[0].1.work, Work::TryUnit(_)));
}
