//! The steps make the part.

use sectionwright::design::{Library, Resolved, load};
use sectionwright::mesh::tessellate;
use sectionwright::quantity::Length;
use sectionwright::scene::Scene;
use sectionwright::section::{Bore, Cut, Depth, Grip, Item, Mouth, Sequence, Thread};
use sectionwright::shop::{Holding, Operation, Plan, PlanError, Work, plan, proves};
use sectionwright::solid::build;

use super::random;

fn planned(resolved: &Resolved) -> Plan {
    plan(&Scene::of_design(resolved).unwrap(), &resolved.workshop).unwrap_or_else(|e| panic!("{e}"))
}

fn designs() -> Vec<Resolved> {
    let fixture = |name: &str| format!("{}/tests/fixtures/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let names = ["r1", "both-ends", "blind", "blind-flat", "reliefs", "capped", "outside"];
    let paths = ["demo".to_owned()].into_iter().chain(names.map(fixture));
    paths
        .map(|path| load(&Library::default(), &path).unwrap_or_else(|e| panic!("{path}: {e:?}")))
        .collect()
}

/// Random designs that are planned here, with random racks.
const RANDOM: usize = 40;

fn random_designs() -> Vec<Resolved> {
    let found: Vec<Resolved> = (1..).filter_map(random::resolved).take(RANDOM).collect();
    found
}

/// The workpiece after each step is a closed solid with less material than before; the last is
/// the section's own: the same exact volume.
fn makes_the_part(plan: &Plan, name: &str) {
    let mut before = f64::INFINITY;
    let mut last = 0.0;
    for (n, part) in plan.stages().iter().enumerate() {
        let body = build(part).unwrap_or_else(|e| panic!("{name}, cut {n}: {e}"));
        let volume = body.measures().volume;
        assert!(volume < before + 1e-9, "{name}, cut {n}: {volume} after {before}");
        let (_, audit) = tessellate(&body, 0.05).unwrap_or_else(|e| panic!("{name}, cut {n}: {e}"));
        assert_eq!(audit.genus, body.genus(), "{name}, cut {n}");
        (before, last) = (volume, volume);
    }
    let meant = build(&plan.section.part()).unwrap().measures().volume;
    assert!((last - meant).abs() < 1e-11 * meant, "{name}: {last} {meant}");
}

#[test]
fn every_step_leaves_a_solid_and_the_last_leaves_the_section() {
    for resolved in designs() {
        makes_the_part(&planned(&resolved), &resolved.section.name);
    }
}

#[test]
fn random_designs_and_racks_are_made_by_their_steps() {
    let mut orders = [0, 0];
    let mut others = 0;
    for (n, resolved) in random_designs().iter().enumerate() {
        let plan = planned(resolved);
        makes_the_part(&plan, &format!("random {n}"));
        orders[usize::from(plan.section.sequence() != Sequence::TenonFirst)] += 1;
        others += usize::from(plan.section != resolved.section);
    }
    // Both orders occur, and racks that change the section.
    assert!(orders.iter().all(|count| *count > 3) && others > 5, "{orders:?} {others}");
}

/// A sheet whose numbers do not make the part is none: any number of any step, off by two
/// hundredths, is noticed.
#[test]
fn a_step_that_is_off_is_noticed() {
    let by = Length::mm(0.02);
    let mut spoilt = 0;
    for resolved in designs() {
        let plan = planned(&resolved);
        assert_eq!(proves(&plan.section, &plan.operations), Ok(()));
        for n in 0..plan.operations.len() {
            let Some(cut) = plan.operations[n].cut.clone() else { continue };
            for wrong in wrong(&cut, by) {
                let mut operations = plan.operations.clone();
                operations[n].cut = Some(wrong.clone());
                let found = proves(&plan.section, &operations);
                let noticed =
                    matches!(found, Err(PlanError::NotTheSection { .. } | PlanError::Solid(_)));
                assert!(noticed, "{}: {wrong:?}: {found:?}", resolved.section.name);
                spoilt += 1;
            }
            // Left out altogether.
            let mut operations = plan.operations.clone();
            operations[n].cut = None;
            if !matches!(cut, Cut::Square { .. })
                || resolved.section.blank.length > resolved.section.squared_length()
            {
                assert!(proves(&plan.section, &operations).is_err(), "{cut:?}");
            }
        }
    }
    assert!(spoilt > 100, "{spoilt}");
}

/// The same cut with one of its numbers off.
fn wrong(cut: &Cut, by: Length) -> Vec<Cut> {
    match cut {
        // What is not squared off the front is faced off it.
        Cut::Square { length } => vec![Cut::Square { length: *length + by }],
        Cut::Face { off } => vec![Cut::Face { off: *off + by }],
        Cut::Sand { off } => vec![Cut::Sand { off: *off + by }],
        Cut::Bore(bore) => {
            let mut all = vec![Cut::Bore(bore.cutting(bore.diameter + by))];
            match bore.depth {
                Depth::To(depth) if depth > Length::ZERO => {
                    all.push(Cut::Bore(Bore { depth: Depth::To(depth + by), ..bore.clone() }));
                }
                Depth::Between(from, to) => {
                    let depth = Depth::Between(from, to + by);
                    all.push(Cut::Bore(Bore { depth, ..bore.clone() }));
                }
                _ => {}
            }
            all
        }
        Cut::Tenon(tenon) => {
            let mut longer = tenon.clone();
            longer.chamfer = tenon.chamfer.with_depth(tenon.chamfer.depth + by);
            vec![Cut::Tenon(longer)]
        }
        Cut::TenonThread(thread) => vec![Cut::TenonThread(shorter(thread, by))],
        Cut::Tap(thread) => vec![Cut::Tap(shorter(thread, by))],
        Cut::CapThread(_) => vec![],
        Cut::Outside(grip) => {
            vec![Cut::Outside(Box::new(Grip { front: grip.front + by, ..grip.as_ref().clone() }))]
        }
    }
}

fn shorter(thread: &Thread, by: Length) -> Thread {
    let mut other = thread.clone();
    other.form.root += if thread.form.root > thread.form.crest { by } else { Length::ZERO - by };
    other
}

fn place(plan: &Plan, of: impl Fn(&Operation) -> bool) -> usize {
    plan.operations.iter().position(of).expect("there is such a step")
}

/// Common practice, no source: what has to be done before what.
#[test]
fn the_order_keeps_things_on_one_axis() {
    let resolved = load(&Library::default(), "demo").unwrap();
    let plan = planned(&resolved);
    let at = |item: Item| place(&plan, |step| step.item() == Some(item));
    let is =
        |work: &'static str| place(&plan, move |step| format!("{:?}", step.work).starts_with(work));
    assert_eq!(is("Rehearse"), 0);
    let order = [
        is("Square"),
        is("Spot"),
        at(Item::ThroughBore),
        is("Tenon("),
        is("TenonThread"),
        is("Seat"),
        is("Face"),
        at(Item::TapDrill),
        at(Item::ClearanceBore),
        at(Item::Recess),
        is("TryUnit"),
        is("Tap"),
        is("TryAgain"),
        is("LipPlug"),
        is("Outside"),
        is("Sand"),
        is("Finish"),
    ];
    assert!(order.windows(2).all(|pair| pair[0] < pair[1]), "{order:?}");
    // From the bushing on the work is not held anew.
    let seat = is("Seat");
    assert!(plan.operations[seat].held_anew);
    let after = &plan.operations[seat + 1..];
    assert!(after.iter().all(|step| !step.held_anew && step.holding == Holding::Bushing));
    // Depths from the front count what is still to be sanded off.
    let clearance = &plan.operations[at(Item::ClearanceBore)];
    assert_eq!(clearance.measured.face, Mouth::Front);
    let still = resolved.section.allowance.sanding;
    assert!((clearance.measured.to_come - still).abs() < Length::mm(1e-9));
    let depths = clearance.bore().unwrap().depths;
    assert!((depths.full - (Length::mm(4.3) + still)).abs() < Length::mm(1e-9));
}

/// A left-hand tenon would be screwed out of its bushing by the cut: the bores come first.
#[test]
fn a_left_hand_tenon_is_not_held_by() {
    let text = "[tenon]\nthread = \"M10x0.75-6g-LH\"\n[barrel]\nthread = \"M10x0.75-6H-LH\"\n\
        [[bores.step]]\nfrom = \"back\"\ndiameter = 7.2\ndepth = 6\n";
    let resolved = super::bench::with_rack(text, "sets = [\"metric-tenths\"]");
    let plan = planned(&resolved);
    let round = place(&plan, |step| matches!(step.work, Work::Reverse(_)));
    let tap = place(&plan, |step| matches!(step.work, Work::Tap(_)));
    let tenon = place(&plan, |step| matches!(step.work, Work::Tenon(_)));
    let back = place(&plan, |step| step.item() == Some(Item::BoreStep(Mouth::Back, 1)));
    assert!(tap < round && round < back && back < tenon);
    // No tool comes in by the end that is held.
    for step in &plan.operations {
        let face = match step.holding {
            Holding::Rod { .. } => Mouth::Front,
            Holding::RodReversed { .. } => Mouth::Back,
            _ => continue,
        };
        let cuts_there = step.bore().is_some() || matches!(step.work, Work::Spot { .. });
        assert!(!cuts_there || step.measured.face == face, "{:?}", step.work);
    }
    assert!(plan.operations.iter().all(|step| step.holding != Holding::Bushing));
    makes_the_part(&plan, "left hand");
}

/// No drill in the tailstock turns faster than 600 unless the rack says so.
#[test]
fn a_drill_in_the_tailstock_is_slow() {
    let fast = "[lathe]\nspeeds = [500, 900, 2000]\n";
    let own = "[lathe]\nspeeds = [500, 900, 2000]\n\
               tailstock_drill = { value = 1000, source = \"my lathe's book\" }\n";
    let greatest = |rack: &str| {
        let rack = format!("sets = [\"metric-tenths\"]\n{rack}");
        let resolved = super::bench::with_rack("material = \"acetal\"", &rack);
        let plan = planned(&resolved);
        let drilled = plan.operations.iter().filter(|step| step.bore().is_some());
        drilled.filter_map(|step| step.speed.as_ref()).map(|speed| speed.set).fold(0.0, f64::max)
    };
    assert_eq!(greatest(fast), 500.0);
    assert_eq!(greatest(own), 900.0);
}

/// Bores first, and nothing goes through: no mandrel holds it, but a split bushing does.
#[test]
fn a_blind_section_with_a_left_hand_tenon_is_held_all_the_same() {
    let text = "converter = \"none\"\n[tenon]\nthread = \"M10x0.75-6g-LH\"\n[barrel]\n\
        thread = \"M10x0.75-6H-LH\"\n[bores]\nthrough = \"none\"\n[bores.tap_drill]\ndepth = 20\n";
    let resolved = super::bench::with_rack(text, "sets = [\"metric-tenths\"]");
    let plan = planned(&resolved);
    let outside = place(&plan, |step| matches!(step.work, Work::Outside(_)));
    assert!(matches!(plan.operations[outside].holding, Holding::SplitBushing { .. }));
    makes_the_part(&plan, "blind, left hand");
}
