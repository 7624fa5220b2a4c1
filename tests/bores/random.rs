//! Random tools in one section: built right or refused with a reason, never wrong.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use super::common::mm;
use super::common::random::Dice;
use super::common::section::{bore, r1};
use sectionwright::mesh::tessellate;
use sectionwright::quantity::{Angle, Limits};
use sectionwright::section::{
    Bore, Depth, Item, Mouth, Point, Section, SectionError, Skin, faults,
};
use sectionwright::solid::build;

/// How many sections every run of the tests tries. `SECTIONWRIGHT_PARTS` asks for more.
const SECTIONS: u64 = 500;

/// R1 with up to five further tools, sizes in steps of 0.1 so that they often coincide.
fn section(dice: &mut Dice) -> Section {
    let tenth = |v: f64| (v * 10.0).round() / 10.0;
    let mut section = r1();
    section.grip.front = mm(11.0);
    section.grip.runs[0].to.diameter = mm(12.5);
    if dice.percent(40) {
        section.bores.retain(|bore| bore.item != Item::ThroughBore);
    }
    let points = [60.0, 90.0, 118.0, 180.0];
    let point = dice.one_of(&points);
    let drill = section.bores.iter_mut().find(|bore| bore.item == Item::TapDrill).unwrap();
    drill.point = bore(Item::TapDrill, 1.0, 1.0, point).point;
    let (mut front, mut back, mut relief) = (0, 0, 0);
    let count = 1 + (dice.within(0.0, 4.9) as usize);
    let mut sinks = [false; 2];
    for _ in 0..count {
        let (d, point) = (tenth(dice.within(4.0, 9.3)), dice.one_of(&points));
        let made = match dice.one_of(&[0, 1, 1, 2, 3]) {
            0 => {
                front += 1;
                bore(Item::BoreStep(Mouth::Front, front), d, tenth(dice.within(0.3, 30.0)), point)
            }
            1 => {
                back += 1;
                let step = Item::BoreStep(Mouth::Back, back);
                let reaches = [tenth(dice.within(0.5, 20.0)), 18.5, 20.25];
                let depth = dice.one_of(&reaches);
                Bore { mouth: Mouth::Back, ..bore(step, d, depth, point) }
            }
            2 => {
                relief += 1;
                let starts = [11.75, 13.5, tenth(dice.within(0.5, 28.0))];
                let from = dice.one_of(&starts);
                let to = from + tenth(dice.within(0.3, 3.0));
                let depth = Depth::Between(mm(from), mm(to));
                Bore { depth, ..bore(Item::BoreRelief(relief), d, 0.0, point) }
            }
            _ => {
                let mouth = dice.one_of(&[Mouth::Front, Mouth::Back]);
                if std::mem::replace(&mut sinks[mouth as usize], true) {
                    continue;
                }
                let angle = dice.one_of(&points[..3]);
                Bore { mouth, ..bore(Item::Countersink(mouth), d + 0.2, 0.0, angle) }
            }
        };
        section.bores.push(made);
    }
    let spread = |bore: &mut Bore| {
        bore.limits = Limits::new(bore.diameter, bore.diameter + mm(0.1)).unwrap();
    };
    section.bores.iter_mut().for_each(spread);
    section
}

/// The section without those tools that leave nothing, or that would take away a hole of the unit's
/// stack: most random sets have some, and they are refused.
fn without_idle_tools(mut section: Section) -> Section {
    loop {
        let idle = faults(&section).into_iter().find_map(|fault| match fault {
            SectionError::LeavesNothing { bore, by, stays, .. } => {
                Some(if stays { by } else { bore })
            }
            SectionError::CutsUnitThread { bore, .. } => Some(bore),
            _ => None,
        });
        let Some(idle) = idle else { return section };
        section.bores.retain(|bore| bore.item != idle);
    }
}

/// Independent route: the hole at z, as the widest of all tools, each by plane geometry.
fn hole(section: &Section, z: f64) -> f64 {
    let length = section.length().as_mm();
    let of = |bore: &Bore| {
        let depth = if bore.mouth == Mouth::Front { z } else { length - z };
        let beyond = match bore.depth {
            Depth::Through => 0.0,
            Depth::To(end) => depth - end.as_mm(),
            Depth::Between(from, to) => (depth - to.as_mm()).max(from.as_mm() - depth),
        };
        let slope = |angle: Angle| 2.0 * libm::tan(angle.as_rad() / 2.0);
        match bore.point {
            _ if beyond <= 0.0 => bore.diameter.as_mm(),
            Point::Cone(angle) => (bore.diameter.as_mm() - beyond * slope(angle)).max(0.0),
            _ => 0.0,
        }
    };
    section.bores.iter().map(of).fold(0.0, f64::max)
}

/// The volume of the section without its threads: frustums outside, slices inside.
fn volume(section: &Section) -> f64 {
    const SLICES: usize = 40_000;
    let part = section.part();
    let outside = part.runs.iter().filter(|run| run.skin == Skin::Outside).map(|run| {
        let (a, b) = (run.from.radius(), run.to.radius());
        PI / 3.0 * (run.to.z - run.from.z).as_mm() * (a * a + a * b + b * b)
    });
    let step = section.length().as_mm() / SLICES as f64;
    let holes = (0..SLICES).map(|n| hole(section, (n as f64 + 0.5) * step));
    let inside: f64 = holes.map(|d| PI / 4.0 * d * d * step).sum();
    outside.sum::<f64>() - inside
}

#[test]
fn random_tools_are_built_right_or_refused() {
    let count = std::env::var("SECTIONWRIGHT_PARTS").ok().and_then(|n| n.parse().ok());
    let mut outcomes: BTreeMap<String, u32> = BTreeMap::new();
    let mut blind = 0;
    for seed in 0..count.unwrap_or(SECTIONS) {
        let mut dice = Dice(seed.wrapping_mul(0xA076_1D64_78BD_642F));
        let section = without_idle_tools(section(&mut dice));
        let found = faults(&section);
        if let Some(fault) = found.first() {
            *outcomes.entry(fault.code().to_owned()).or_default() += 1;
            continue;
        }
        let mut plain = section.part();
        plain.threads.clear();
        let body = build(&plain).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        let (exact, slices) = (body.measures().volume, volume(&section));
        assert!((exact / slices - 1.0).abs() < 2e-4, "seed {seed}: {exact} {slices}");
        // With its threads, drawn and at the worst, and as triangles.
        for state in [section.clone(), section.at_least_material()] {
            // A hole that may be cut through the outside is a wall that breaks, no solid.
            if !faults(&state).is_empty() {
                *outcomes.entry("breaks at the worst".to_owned()).or_default() += 1;
                continue;
            }
            let part = state.part();
            match build(&part) {
                Ok(body) => {
                    let (_, audit) =
                        tessellate(&body, 0.02).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
                    blind += u32::from(audit.genus == 0);
                    *outcomes.entry("built".to_owned()).or_default() += 1;
                }
                Err(refused) => {
                    println!("seed {seed}: {refused}");
                    *outcomes.entry(refused.code().to_owned()).or_default() += 1;
                }
            }
        }
    }
    println!("{outcomes:?}, {blind} of them blind");
    let built = outcomes["built"];
    let refused: u32 =
        outcomes.iter().filter(|(code, _)| code.starts_with("solid.")).map(|(_, n)| n).sum();
    assert!(built > 400 && blind > 60, "{outcomes:?}");
    assert!(refused * 20 < built, "{outcomes:?}");
}
