//! Random thread forms and threads.

use sectionwright::quantity::{Angle, Length, Limits};
use sectionwright::section::{
    Flank, FlankPoint, Item, RunOut, Side, Thread, ThreadForm, ThreadLimits,
};
use sectionwright::standard::designation::{Hand, ThreadDesignation};

use super::super::mm;
use super::{Dice, Traits};

/// A random thread form, by crest diameter.
pub fn form(dice: &mut Dice, side: Side, crest: f64, traits: &mut Traits) -> ThreadForm {
    let pitch = dice.one_of(&[0.5, 0.55, 0.6, 0.75, 0.8, 1.0]);
    let starts = dice.one_of(&[1, 1, 1, 2, 3, 4, 6]);
    let left = dice.percent(25);
    let kind = dice.one_of(&["iso-60", "iso-60", "iso-60", "trapezoidal", "free-profile"]);
    let half_angle = Angle::deg(if kind == "trapezoidal" { 15.0 } else { 30.0 });
    // Depth and flats: of ISO 68-1 (5/8 H, P/8 or P/4), or half a pitch deep (ISO 2901).
    let depth = if kind == "trapezoidal" { 0.5 * pitch } else { 0.541_265_877 * pitch };
    let crest_flat = match (kind, side) {
        ("trapezoidal", _) => 0.366 * pitch,
        (_, Side::External) => pitch / 8.0,
        (_, Side::Internal) => pitch / 4.0,
    };
    let sign = if side == Side::External { -1.0 } else { 1.0 };
    // ridge(d) = P/2 + (towards root) tan(a) is the crest's flat at the crest.
    let pitch_diameter = crest + sign * (pitch / 2.0 - crest_flat) / half_angle.tan();
    let flank = if kind == "free-profile" {
        let point = |depth: f64, ridge: f64| FlankPoint {
            depth: mm(depth * pitch),
            ridge: mm(ridge * pitch),
        };
        // Steeper above than below the pitch line, or the other way round.
        let bend = dice.one_of(&[0.02, -0.04, 0.05]);
        Flank::Points(vec![point(-0.25, 0.25 + bend), point(0.0, 0.5), point(0.2, 0.73 + bend)])
    } else {
        Flank::Straight
    };
    traits.extend([
        if left { "left-hand" } else { "right-hand" },
        kind,
        if starts > 1 { "multi-start" } else { "one-start" },
    ]);
    let mut form = ThreadForm {
        pitch: mm(pitch),
        starts,
        hand: if left { Hand::Left } else { Hand::Right },
        half_angle,
        flank,
        crest: mm(crest),
        pitch_diameter: mm(pitch_diameter),
        root: mm(crest + sign * 2.0 * depth),
        crest_radius: mm(0.0),
        root_radius: mm(0.0),
    };
    if dice.percent(35) {
        let share = dice.one_of(&[0.6, 1.0]);
        traits.push(if share == 1.0 { "root-all-round" } else { "root-radius" });
        form.root_radius = form.radius_that_fits()[1] * share;
    }
    if dice.percent(20) {
        let share = dice.one_of(&[0.6, 1.0]);
        traits.push(if share == 1.0 { "crest-all-round" } else { "crest-radius" });
        // What is left beside the root's rounding: a piece of the flank stays straight.
        form.crest_radius = form.radius_that_fits()[0];
        form.crest_radius = form.radius_that_fits()[0].min(form.crest_radius) * share;
        form.root_radius = form.radius_that_fits()[1].min(form.root_radius);
    }
    form
}

/// A thread of a form, its run-outs still walls.
pub fn thread(
    item: Item,
    side: Side,
    form: ThreadForm,
    (from, to): (f64, f64),
    phase: f64,
) -> Thread {
    let size = |d: Length| Limits::new(d, d).unwrap();
    let limits = ThreadLimits {
        major: size(form.crest),
        pitch: size(form.pitch_diameter),
        minor: size(form.root),
    };
    let designation: ThreadDesignation = "M10x0.75".parse().unwrap();
    let (from, to, phase, run_outs) = (mm(from), mm(to), mm(phase), [RunOut::Wall; 2]);
    Thread { item, side, designation, form, from, to, phase, run_outs, limits }
}

/// How a tool leaves the end at which it stops; both ways of a lathe, or neither.
pub fn run_out(dice: &mut Dice, form: &ThreadForm, room: f64, traits: &mut Traits) -> RunOut {
    let lead = form.pitch.as_mm() * dice.one_of(&[1.0, 2.5, 4.0]);
    match dice.one_of(&["wall", "lead", "lead", "drawn-out", "drawn-out"]) {
        "lead" if lead < room => {
            traits.push("tool-lead");
            RunOut::Lead(mm(lead))
        }
        "drawn-out" if form.crest_flat() > Length::ZERO => {
            traits.push("drawn-out");
            let share = dice.one_of(&[0.2, 0.5, 0.9]);
            RunOut::Withdrawal { turns: share / f64::from(form.starts) }
        }
        _ => RunOut::Wall,
    }
}
