//! The outside of a random part: grip, cap thread, tenon.

use sectionwright::section::{Item, Side, Thread};

use super::form::{form, run_out, thread};
use super::{Corner, Dice, Traits};

/// From the front rim to the back rim, with the tenon's thread first.
pub struct Outside {
    pub corners: Vec<Corner>,
    pub threads: Vec<Thread>,
}

pub fn outside(dice: &mut Dice, traits: &mut Traits) -> Outside {
    let crest = dice.within(9.0, 12.0);
    let outer = form(dice, Side::External, crest, traits);
    let root = outer.root.as_mm();
    let depth = (crest - root) / 2.0;
    let shoulder = dice.within(14.0, 22.0);
    let length = dice.within(5.0, 11.0);
    let back = shoulder + length;
    let (mut corners, cap) = grip(dice, traits, crest, shoulder);
    let relief = dice.percent(40);
    let mut from = shoulder;
    if relief {
        let width = dice.within(0.8, 1.6);
        let kind = dice.one_of(&["deeper", "at-root", "shallower"]);
        let d = match kind {
            "deeper" => root - dice.within(0.05, 0.3),
            "at-root" => root,
            _ => root + depth,
        };
        corners.extend([
            Corner::at(d, shoulder),
            Corner::at(d, shoulder + width),
            Corner::at(crest, shoulder + width),
        ]);
        from += width;
        traits.push(match kind {
            "deeper" => "relief-below-root",
            "at-root" => "relief-at-root",
            _ => "relief-above-root",
        });
    } else {
        corners.push(Corner::at(crest, shoulder));
    }
    let pilot = dice.percent(30);
    let pilot_length = if pilot { dice.within(0.8, 2.0) } else { 0.0 };
    let end = back - pilot_length;
    let lead = if dice.percent(25) {
        traits.push("chamfer-is-depth");
        depth
    } else {
        dice.one_of(&[0.0, 0.1, 0.15, 0.3, 0.5, 0.8])
    };
    // At any angle: this long for so deep.
    let steep = dice.one_of(&[1.0, 1.0, 0.5, 2.0, 4.0]);
    let run = lead * steep;
    if lead > 0.0 {
        corners.extend([Corner::at(crest, end - run), Corner::at(crest - 2.0 * lead, end)]);
    } else {
        traits.push("ends-at-crest");
        corners.push(Corner::at(crest, end));
    }
    let tip = crest - 2.0 * lead;
    if pilot {
        let d = if dice.percent(40) {
            traits.push("pilot-at-root");
            root
        } else {
            root - 0.2
        };
        if d < tip {
            corners.extend([Corner::at(d, end), Corner::at(d, back)]);
        } else {
            corners.push(Corner::at(tip, back));
        }
    }
    let mut tenon =
        thread(Item::TenonThread, Side::External, outer, (from, end), dice.within(0.0, 1.0));
    if !relief && dice.percent(60) {
        tenon.run_outs[0] = run_out(dice, &tenon.form, length - pilot_length - run - 1.0, traits);
    }
    Outside { corners, threads: [tenon].into_iter().chain(cap).collect() }
}

/// From the front rim to the shoulder, and the cap's thread if there is one. Nothing is thinner
/// than the tenon, but for the sagitta of a hollow arc.
fn grip(
    dice: &mut Dice,
    traits: &mut Traits,
    crest: f64,
    shoulder: f64,
) -> (Vec<Corner>, Option<Thread>) {
    let wide = |dice: &mut Dice, most: f64| dice.within(crest + 0.3, crest + most);
    let front = wide(dice, 2.0);
    let mut corners = Vec::new();
    if dice.percent(30) {
        traits.push("front-chamfer");
        corners.extend([Corner::at(front - 0.2, 0.0), Corner::at(front, 0.15)]);
    } else {
        corners.push(Corner::at(front, 0.0));
    }
    let knee = dice.within(4.0, 8.0);
    let bulge = match dice.one_of(&["straight", "straight", "convex", "concave"]) {
        "convex" => {
            traits.push("convex-arc");
            -dice.within(0.02, 0.2)
        }
        "concave" => {
            traits.push("concave-arc");
            // At most 0.1 hollow.
            0.2 / knee
        }
        _ => 0.0,
    };
    let d = wide(dice, 3.0);
    corners.push(Corner { bulge, ..Corner::at(d, knee) });
    let bead = dice.percent(25);
    let groove = !bead && dice.percent(25);
    if bead {
        traits.push("bead");
        corners.push(Corner { bulge: -dice.within(0.2, 0.9), ..Corner::at(d, knee + 1.0) });
    } else if groove {
        traits.push("square-groove");
        let bottom = d - 0.2;
        corners.extend([
            Corner::at(bottom, knee),
            Corner::at(bottom, knee + 0.8),
            Corner::at(d, knee + 0.8),
        ]);
    }
    if !dice.percent(30) {
        corners.push(Corner::at(wide(dice, 2.0), shoulder));
        return (corners, None);
    }
    traits.push("cap-thread");
    let (from, to) = (knee + 1.5, shoulder - dice.one_of(&[0.0, 0.5]));
    let cap_crest = crest + dice.within(1.4, 2.4);
    let cut = form(dice, Side::External, cap_crest, traits);
    let depth = cut.depth().as_mm();
    let chamfer = dice.one_of(&[0.0, 0.2, depth]);
    // Up to the thread by a step or its lead chamfer, on at its crest, down to the shoulder.
    corners.push(Corner::at(crest + 0.3, from));
    if chamfer > 0.0 {
        corners.push(Corner::at(cap_crest - 2.0 * chamfer, from));
    }
    corners.extend([Corner::at(cap_crest, from + chamfer), Corner::at(cap_crest, to)]);
    if to < shoulder {
        corners.extend([Corner::at(crest + 0.3, to), Corner::at(crest + 0.3, shoulder)]);
    }
    let mut cap = thread(Item::CapThread, Side::External, cut, (from, to), dice.within(0.0, 1.0));
    if dice.percent(40) {
        // It ends on its own cylinder.
        let stop = dice.within(0.3, 0.8);
        cap.to = super::super::mm(to - stop);
        cap.run_outs[1] = run_out(dice, &cap.form, to - stop - from - chamfer - 0.5, traits);
    }
    (corners, Some(cap))
}
