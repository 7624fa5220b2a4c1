//! Whole sections made by hand, without the design file. All numbers are invented.

use super::{basic_thread, mm};
use sectionwright::quantity::{Angle, Limits};
use sectionwright::section::{
    Allowance, Barrel, Blank, Bore, CapThread, Corner, Counterbore, Criteria, Curve, Depth,
    FitLimits, Grip, GripRun, Item, LeadChamfer, Limit, Mouth, Offsets, PercentLimits, Pilot,
    Point, Reading, Relief, Ring, RingForm, Section, Side, Station, Tenon, Unit, UnitStep,
    WallLimits,
};

/// A hole to a depth (through where it is not finite), with an included angle (flat at 180).
pub fn bore(item: Item, diameter: f64, depth: f64, point: f64) -> Bore {
    let (d, angle) = (mm(diameter), Angle::deg(point));
    Bore {
        item,
        mouth: Mouth::Front,
        diameter: d,
        depth: if depth.is_finite() { Depth::To(mm(depth)) } else { Depth::Through },
        point: if point < 180.0 { Point::Cone(angle) } else { Point::Flat },
        limits: Limits::new(d, d + mm(0.1)).unwrap(),
        tool: None,
    }
}

/// A straight run of the grip to a diameter and z.
pub fn run(diameter: f64, z: f64) -> GripRun {
    GripRun::straight(Station::new(mm(diameter), mm(z)))
}

fn read(value: f64) -> Reading {
    Reading { value: mm(value), uncertainty: mm(0.02) }
}

/// A unit whose thread is M8.05x0.55, 3.5 behind its collar.
pub fn unit() -> Unit {
    let step = |item, d, to| UnitStep { item, diameter: read(d), to: read(to) };
    Unit {
        name: "demo unit".to_owned(),
        collar: read(8.7),
        thickness: read(1.1),
        steps: vec![
            step(Item::Plain, 7.9, 3.6),
            step(Item::UnitBody, 8.0, 10.5),
            step(Item::Tail, 6.6, 13.0),
            step(Item::Nipple, 4.4, 18.0),
        ],
        thread: basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 3.6, 10.5),
        other_pitches: vec![],
        chamfer: mm(0.3),
        nib_reach: read(22.0),
        nib_width: read(8.0),
    }
}

fn criteria() -> Criteria {
    fn limit<T>(value: T) -> Limit<T> {
        Limit { value, source: "invented for tests".to_owned() }
    }
    let percent = || PercentLimits { low: limit(60.0), high: limit(95.0) };
    Criteria {
        walls: WallLimits::new(|_| limit(mm(0.4))),
        unit_thread: percent(),
        tenon_thread: percent(),
        least_turns: limit(5.0),
        lost_turns: limit(1.0),
        tap_lead: limit(1.0),
        spring_back: limit(Limits::exactly(mm(0.0))),
        shear: None,
        least_clearance: limit(mm(0.05)),
        cap_thread: percent(),
        fits: FitLimits::built_in(),
        band: mm(0.03),
        offsets: Offsets { holding: mm(0.05), long_hole: mm(0.1) },
    }
}

/// R1, the reference part, with its mates: a cone, five flat steps, two threads.
pub fn r1() -> Section {
    let unit_thread = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.55", 4.6, 11.75);
    let tap_drill = unit_thread.form.crest.as_mm();
    let flat = |item, d, depth| bore(item, d, depth, 180.0);
    let barrel = Barrel {
        thread: basic_thread(Item::BarrelThread, Side::Internal, "M10x0.75", 0.0, 13.0),
        depth: mm(14.0),
        counterbore: None,
        bore: None,
        outside: mm(12.5),
    };
    Section {
        name: "R1".to_owned(),
        grip: Grip::plain(mm(9.7), vec![run(11.4, 21.0)]),
        tenon: Tenon {
            thread: basic_thread(Item::TenonThread, Side::External, "M10x0.75", 21.0, 32.0),
            length: mm(11.0),
            chamfer: LeadChamfer::at_45(mm(0.5)),
            relief: None,
            pilot: None,
        },
        bores: vec![
            flat(Item::Recess, 8.9, 1.2),
            flat(Item::ClearanceBore, 8.3, 4.6),
            flat(Item::TapDrill, tap_drill, 13.5),
            flat(Item::ThroughBore, 6.9, f64::INFINITY),
        ],
        unit_thread,
        unit: unit(),
        barrel,
        cap: None,
        converter: None,
        material: "cast resin".to_owned(),
        blank: Blank { diameter: mm(14.0), length: mm(64.0) },
        allowance: Allowance { facing: mm(0.2), sanding: mm(0.05) },
        criteria: criteria(),
    }
}

/// R1 with a waisted grip, a relief behind the shoulder and a pilot at the tenon's end.
pub fn relieved() -> Section {
    let mut section = r1();
    "Waisted, <relief> & pilot".clone_into(&mut section.name);
    section.grip.runs = vec![run(9.2, 9.0), run(9.6, 16.0), run(11.8, 21.0)];
    section.grip.front = mm(10.2);
    section.tenon.relief = Some(Relief { width: mm(1.5), diameter: mm(8.8) });
    section.tenon.pilot = Some(Pilot { length: mm(2.0), diameter: mm(8.6) });
    section.tenon.thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 22.5, 30.0);
    let counterbore = Counterbore { diameter: mm(10.4), depth: mm(1.5) };
    section.barrel.counterbore = Some(counterbore);
    section
}

/// R1 drilled instead of bored: a centre drill's seat, drill points, a drill by its name.
pub fn drilled() -> Section {
    let mut section = r1();
    "Drilled".clone_into(&mut section.name);
    section.bores[0] = bore(Item::Recess, 8.9, 0.9, 60.0);
    section.bores[1] = bore(Item::ClearanceBore, 8.3, 4.6, 118.0);
    let tap_drill = bore(Item::TapDrill, 7.5, 13.5, 118.0);
    section.unit_thread.form.crest = mm(7.5);
    section.bores[2] = Bore { tool: Some("19/64 in".to_owned()), ..tap_drill };
    section.bores[3] = bore(Item::ThroughBore, 6.9, f64::INFINITY, 118.0);
    section
}

/// Short, with steps close together and a thread that ends short of the shoulder.
pub fn crowded() -> Section {
    let mut section = r1();
    "Short".clone_into(&mut section.name);
    section.grip.front = mm(10.6);
    section.grip.runs = vec![run(11.0, 8.0)];
    section.tenon.length = mm(5.0);
    section.tenon.thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 8.9, 13.0);
    section.unit_thread = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.55", 1.0, 4.0);
    section.bores[0] = bore(Item::Recess, 8.9, 0.4, 180.0);
    section.bores[1] = bore(Item::ClearanceBore, 8.3, 1.0, 180.0);
    section.bores[2].depth = Depth::To(mm(4.3));
    section.unit.steps.truncate(2);
    section.unit.steps[0].to = read(0.5);
    section.unit.steps[1].to = read(3.0);
    section.unit.thread = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 0.5, 3.0);
    section
}

/// Long, with a long name and a long tool name.
pub fn long() -> Section {
    let mut section = r1();
    "A long section for a pen with a very long name, number twelve of a series"
        .clone_into(&mut section.name);
    section.grip.runs = vec![run(11.0, 30.0), run(12.6, 48.0)];
    section.tenon.length = mm(14.0);
    section.tenon.thread = basic_thread(Item::TenonThread, Side::External, "M11x1", 48.0, 62.0);
    section.barrel.depth = mm(16.0);
    section
}

/// A ring of the grip.
fn ring(item: Item, form: RingForm, at: f64, width: f64, height: f64) -> Ring {
    Ring { item, form, at: mm(at), width: mm(width), height: mm(height) }
}

/// R1 with everything on its outside: flares, a hollow, fillets and chamfers, rings and a thread
/// for the cap; a tenon with a slender lead.
pub fn shaped() -> Section {
    let mut section = r1();
    "Shaped".clone_into(&mut section.name);
    let chamfer = |leg| Corner::Chamfer { before: mm(leg), after: mm(leg) };
    section.grip.front = mm(11.2);
    section.grip.rim = Corner::Fillet(mm(0.3));
    section.grip.runs = vec![
        GripRun { curve: Curve::TangentAfter, ..run(10.6, 3.0) },
        GripRun {
            curve: Curve::Concave(mm(60.0)),
            corner: Corner::Fillet(mm(3.0)),
            ..run(10.8, 8.0)
        },
        run(10.8, 13.0),
        GripRun {
            curve: Curve::Through(Station::new(mm(11.3), mm(14.0))),
            corner: Corner::Fillet(mm(0.2)),
            ..run(11.6, 15.0)
        },
        GripRun { corner: chamfer(0.4), ..run(13.0, 15.0) },
        GripRun { corner: chamfer(0.5), ..run(13.0, 18.0) },
        run(11.6, 18.0),
        run(11.6, 19.0),
        GripRun { curve: Curve::TangentBefore, corner: chamfer(0.2), ..run(12.4, 21.0) },
    ];
    section.grip.rings = vec![
        ring(Item::Bead(1), RingForm::Bead, 10.4, 1.2, 0.3),
        ring(Item::Groove(1), RingForm::SquareGroove, 11.6, 0.6, 0.2),
        ring(Item::Groove(2), RingForm::RoundGroove, 12.4, 0.8, 0.25),
    ];
    let thread = basic_thread(Item::CapThread, Side::External, "M13xPh2.4P0.8", 15.0, 18.0);
    section.grip.thread = Some(CapThread { run: 5, thread });
    section.tenon.chamfer = LeadChamfer::at_angle(mm(0.7), Angle::deg(30.0));
    section
}

/// Every section above.
pub fn all() -> Vec<Section> {
    vec![r1(), relieved(), drilled(), crowded(), long(), shaped()]
}
