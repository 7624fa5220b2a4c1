//! The bore of a random part, with the unit's thread.

use sectionwright::quantity::Angle;
use sectionwright::section::{Item, Side, Thread};

use super::form::{form, run_out, thread};
use super::{Corner, Dice, Traits};

/// From the back (or, if it is blind, from the axis) to the front.
pub struct Bore {
    pub corners: Vec<Corner>,
    pub thread: Thread,
    pub blind: bool,
}

/// `root` is the diameter of the tenon's root, `back` the part's length.
pub fn bore(dice: &mut Dice, traits: &mut Traits, root: f64, back: f64) -> Bore {
    let through = dice.within(4.5, root - 2.6);
    let minor = through + dice.within(0.1, 0.6);
    let inner = form(dice, Side::Internal, minor, traits);
    let major = inner.root.as_mm();
    let clearance = match dice.one_of(&["wide", "wide", "major", "between", "minor"]) {
        "major" => {
            traits.push("bore-is-major");
            major
        }
        "between" => {
            traits.push("bore-between");
            f64::midpoint(major, minor)
        }
        "minor" => {
            traits.push("bore-is-minor");
            minor
        }
        _ => major + dice.within(0.05, 0.4),
    };
    let start = dice.within(2.0, 4.0);
    let lead_of = inner.lead().as_mm();
    let under_one_turn = dice.percent(15);
    let threaded = if under_one_turn {
        traits.push("under-one-turn");
        lead_of * dice.within(0.2, 0.9)
    } else {
        dice.within(2.0, 6.0)
    };
    let stop = start + threaded;
    let drilled = if dice.percent(20) {
        traits.push("thread-to-the-floor");
        stop
    } else {
        stop + dice.within(0.2, 2.0)
    };
    let blind = dice.percent(10);
    let cone = dice.percent(50);
    let half = Angle::deg(59.0);
    let mut corners = Vec::new();
    if blind {
        traits.push("blind");
        let tip = if cone { minor / 2.0 / half.tan() } else { 0.0 };
        corners.push(Corner::at(0.0, drilled + tip));
    } else {
        from_the_back(dice, traits, through, back, &mut corners);
        let drop = if cone { (minor - through) / 2.0 / half.tan() } else { 0.0 };
        corners.push(Corner::at(through, drilled + drop));
    }
    corners.push(Corner::at(minor, drilled));
    let mut cut =
        thread(Item::UnitThread, Side::Internal, inner, (start, stop), dice.within(0.0, 1.0));
    let room = drilled - stop;
    if room > 0.15 && dice.percent(35) {
        // A groove behind the thread, in which it ends.
        let kind = dice.one_of(&[
            "bore-relief-below-root",
            "bore-relief-at-root",
            "bore-relief-above-root",
        ]);
        traits.push(kind);
        let d = match kind {
            "bore-relief-below-root" => major + 0.1,
            "bore-relief-at-root" => major,
            _ => f64::midpoint(major, minor),
        };
        let end = stop + room / 2.0;
        corners.extend([
            Corner::at(minor, end),
            Corner::at(d, end),
            Corner::at(d, stop),
            Corner::at(minor, stop),
        ]);
    } else if !under_one_turn && dice.percent(60) {
        cut.run_outs[1] = run_out(dice, &cut.form, threaded - 1.0, traits);
    }
    if clearance > minor {
        corners.extend([Corner::at(minor, start), Corner::at(clearance, start)]);
    }
    if dice.percent(25) {
        traits.push("front-countersink");
        corners.extend([Corner::at(clearance, 0.15), Corner::at(clearance + 0.3, 0.0)]);
    } else {
        corners.push(Corner::at(clearance, 0.0));
    }
    Bore { corners, thread: cut, blind }
}

/// What is cut from the back: a counterbore with a flat or conical floor, a countersink.
fn from_the_back(
    dice: &mut Dice,
    traits: &mut Traits,
    through: f64,
    back: f64,
    corners: &mut Vec<Corner>,
) {
    let counterbore = dice.percent(25);
    let countersink = !counterbore && dice.percent(25);
    if counterbore {
        traits.push("back-counterbore");
        let (wide, depth) = (through + dice.within(0.2, 0.8), dice.within(1.0, 3.0));
        let floor = if dice.percent(50) { 0.3 } else { 0.0 };
        corners.extend([
            Corner::at(wide, back),
            Corner::at(wide, back - depth),
            Corner::at(through, back - depth - floor),
        ]);
    } else if countersink {
        traits.push("back-countersink");
        corners.extend([Corner::at(through + 0.4, back), Corner::at(through, back - 0.2)]);
    } else {
        corners.push(Corner::at(through, back));
    }
}
