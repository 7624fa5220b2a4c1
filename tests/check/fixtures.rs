//! Sections made by hand: R1 with its mates, and one in which everything holds. Invented numbers.

use sectionwright::quantity::{Angle, Length, Limits};
use sectionwright::section::{
    Allowance, Barrel, Blank, Bore, Criteria, Depth, FitLimits, Grip, GripRun, Item, LeadChamfer,
    Limit, Mouth, Offsets, PercentLimits, Point, Reading, Relief, Section, Side, Station, Tenon,
    Thread, ThreadLimits, Unit, UnitStep, WallLimits, Zone,
};

use crate::common::{basic_thread, mm};

pub const DRILL: Point = Point::Cone(Angle::deg(118.0));

/// A hole that its tool leaves between its diameter and `over` more.
pub fn bore(item: Item, diameter: f64, over: f64, depth: Depth, point: Point) -> Bore {
    let limits = Limits::new(mm(diameter), mm(diameter + over)).unwrap();
    let mouth = Mouth::Front;
    Bore { item, mouth, diameter: mm(diameter), depth, point, limits, tool: None }
}

pub fn to(z: f64) -> Depth {
    Depth::To(mm(z))
}

pub fn read(value: f64, uncertainty: f64) -> Reading {
    Reading { value: mm(value), uncertainty: mm(uncertainty) }
}

pub fn step(item: Item, diameter: Reading, to: Reading) -> UnitStep {
    UnitStep { item, diameter, to }
}

/// The limits of the material file for cast resin: common practice, no source.
pub fn criteria(holding: f64, long_hole: f64) -> Criteria {
    let source = "common practice".to_owned();
    let percent = |low, high| PercentLimits {
        low: Limit { value: low, source: source.clone() },
        high: Limit { value: high, source: source.clone() },
    };
    let walls = WallLimits::new(|zone| {
        let value = match zone {
            Zone::Lip => 0.4,
            Zone::Recess => 0.45,
            Zone::UnitThread | Zone::TapDrill | Zone::Through => 0.8,
            _ => 0.6,
        };
        Limit { value: mm(value), source: source.clone() }
    });
    Criteria {
        walls,
        unit_thread: percent(60.0, 90.0),
        tenon_thread: percent(55.0, 100.0),
        least_turns: Limit { value: 4.0, source: source.clone() },
        lost_turns: Limit { value: 2.0, source: source.clone() },
        // Cut with a single-point tool: no lead to speak of.
        tap_lead: Limit { value: 0.5, source: source.clone() },
        spring_back: Limit { value: Limits::exactly(mm(0.0)), source: source.clone() },
        shear: Some(Limit { value: 40.0, source: source.clone() }),
        least_clearance: Limit { value: mm(0.05), source: source.clone() },
        cap_thread: percent(55.0, 100.0),
        fits: FitLimits::built_in(),
        band: mm(0.02),
        offsets: Offsets { holding: mm(holding), long_hole: mm(long_hole) },
    }
}

fn limits(major: [f64; 2], pitch: [f64; 2], minor: [f64; 2]) -> ThreadLimits {
    let of = |[min, max]: [f64; 2]| Limits::new(mm(min), mm(max)).unwrap();
    ThreadLimits { major: of(major), pitch: of(pitch), minor: of(minor) }
}

/// A basic thread moved outwards on the diameter, each size read to within `uncertainty`.
pub fn as_read(mut thread: Thread, over: f64, uncertainty: f64) -> Thread {
    let around = |size: &mut Length| {
        *size += mm(over);
        Limits::around(*size, mm(uncertainty)).unwrap()
    };
    thread.limits = ThreadLimits {
        major: around(&mut thread.form.crest),
        pitch: around(&mut thread.form.pitch_diameter),
        minor: around(&mut thread.form.root),
    };
    thread
}

fn grip(front: f64, back: f64, length: f64) -> Grip {
    let to = Station::new(mm(back), mm(length));
    Grip::plain(mm(front), vec![GripRun::straight(to)])
}

/// R1, the reference part, with a unit whose thread measures 8.00 instead of 8.05 throughout and
/// ends exactly where the section's does, and a barrel of the basic profile. Nothing has a
/// tolerance, nothing is off the axis: what is measured is what is modelled.
pub fn r1() -> Section {
    let unit_thread = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.55", 4.6, 11.75);
    let tap_drill = unit_thread.form.crest.as_mm();
    let tenon = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 21.0, 32.0);
    let barrel = basic_thread(Item::BarrelThread, Side::Internal, "M10x0.75", 0.0, 11.5);
    let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 2.5, 10.55);
    Section {
        name: "R1".to_owned(),
        grip: grip(9.7, 11.4, 21.0),
        tenon: Tenon {
            thread: tenon,
            length: mm(11.0),
            chamfer: LeadChamfer::at_45(mm(0.5)),
            relief: None,
            pilot: None,
        },
        bores: vec![
            bore(Item::Recess, 8.9, 0.0, to(1.2), Point::Flat),
            bore(Item::ClearanceBore, 8.3, 0.0, to(4.6), Point::Flat),
            bore(Item::TapDrill, tap_drill, 0.0, to(13.5), Point::Flat),
            bore(Item::ThroughBore, 6.9, 0.0, Depth::Through, DRILL),
        ],
        unit_thread,
        unit: Unit {
            name: "invented".to_owned(),
            collar: read(8.6, 0.0),
            thickness: read(1.0, 0.0),
            steps: vec![
                step(Item::Plain, read(7.6, 0.0), read(2.5, 0.0)),
                step(Item::UnitBody, read(8.0, 0.0), read(10.55, 0.0)),
                step(Item::Tail, read(6.6, 0.0), read(14.0, 0.0)),
            ],
            thread: as_read(own, -0.05, 0.0),
            other_pitches: vec![],
            chamfer: mm(0.0),
            nib_reach: read(20.0, 0.5),
            nib_width: read(7.0, 0.1),
        },
        barrel: Barrel {
            thread: barrel,
            depth: mm(12.0),
            counterbore: None,
            bore: None,
            outside: mm(11.4),
        },
        cap: None,
        converter: None,
        material: "cast-resin".to_owned(),
        blank: Blank { diameter: mm(16.0), length: mm(40.0) },
        allowance: Allowance { facing: mm(0.0), sanding: mm(0.0) },
        criteria: criteria(0.0, 0.0),
    }
}

/// A section in which everything holds, with tolerances, readings and offsets.
///
/// M10x0.75-6g and 6H: published limits (three published tables agree on 6g; 6H: ISO 965-1).
pub fn sound() -> Section {
    let mut section = r1();
    section.name = "sound".into();
    section.criteria = criteria(0.05, 0.10);
    section.grip = grip(10.6, 12.0, 21.0);
    section.bores = vec![
        bore(Item::Recess, 9.0, 0.05, to(1.2), Point::Flat),
        bore(Item::ClearanceBore, 8.3, 0.05, to(4.6), Point::Flat),
        bore(Item::TapDrill, 7.5, 0.10, to(13.5), DRILL),
        bore(Item::ThroughBore, 7.0, 0.15, Depth::Through, DRILL),
    ];
    let thread = &mut section.unit_thread;
    thread.form.crest = mm(7.5);
    thread.limits = limits([8.05, 8.15], [7.6928, 7.79], [7.5, 7.6]);
    section.tenon.length = mm(10.0);
    section.tenon.relief = Some(Relief { width: mm(1.0), diameter: mm(8.9) });
    section.tenon.thread.from = mm(22.0);
    section.tenon.thread.to = mm(31.0);
    section.tenon.thread.limits = limits([9.838, 9.978], [9.391, 9.491], [8.929, 9.166]);
    section.barrel.thread.limits = limits([10.0, 10.24], [9.513, 9.645], [9.188, 9.378]);
    section.barrel.outside = mm(12.0);
    let unit = &mut section.unit;
    let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 2.5, 10.0);
    unit.thread = as_read(own, -0.05, 0.02);
    unit.collar = read(8.7, 0.02);
    unit.thickness = read(1.0, 0.02);
    unit.chamfer = mm(0.2);
    unit.steps = vec![
        step(Item::Plain, read(7.6, 0.02), read(2.5, 0.05)),
        step(Item::UnitBody, read(8.0, 0.02), read(10.0, 0.05)),
        step(Item::Tail, read(6.6, 0.02), read(14.0, 0.05)),
    ];
    section
}

/// A hole of a section, to be changed.
pub fn hole(section: &mut Section, item: Item) -> &mut Bore {
    section.bores.iter_mut().find(|bore| bore.item == item).unwrap()
}

/// Gives a hole another diameter; the tap drill's carries the thread's crest with it.
pub fn set_diameter(section: &mut Section, item: Item, diameter: f64) {
    let over = hole(section, item).limits.width();
    let bore = hole(section, item);
    bore.diameter = mm(diameter);
    bore.limits = Limits::new(mm(diameter), mm(diameter) + over).unwrap();
    if item == Item::TapDrill {
        section.unit_thread.form.crest = mm(diameter);
        section.unit_thread.limits.minor = Limits::new(mm(diameter), mm(diameter) + over).unwrap();
    }
}
