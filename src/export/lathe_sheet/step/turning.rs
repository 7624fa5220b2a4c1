//! What is turned, faced and sanded, and how the work is held for it.

use super::super::content::Row;
use super::super::tables::slope;
use super::{Step, plain, set, warning};
use crate::quantity::Length;
use crate::section::{Bushing, LipPlug, Why};
use crate::shop::{Outside, TenonWork};

pub(super) fn square(step: Step, length: Length, rod: Option<Length>) -> Row {
    let from = rod.map(|rod| plain(format!("the rod is {} long as sawn", step.length(rod))));
    let to_come = step.plan.section.allowance.facing;
    let spare = if to_come > Length::ZERO {
        vec![plain(format!("not critical: {} is faced off the front later", step.length(to_come)))]
    } else {
        vec![warning("no facing allowance: this is the finished length")]
    };
    Row {
        title: "Face both ends of the rod".to_owned(),
        tool: vec![set("turning tool")],
        face: step.face(),
        set: [
            vec![set(format!("{} long", step.length(length)))],
            from.into_iter().collect(),
            vec![plain("face one end, turn it round, face the other")],
        ]
        .concat(),
        check: [vec![plain("both faces clean right across")], spare].concat(),
        boxes: vec![format!("length ({})", step.length(length))],
        ..Row::default()
    }
}

pub(super) fn tenon(step: Step, work: &TenonWork) -> Row {
    let tenon = &work.tenon;
    let mut lines = vec![
        set(format!("turn to {}", step.diameter(work.turn_to))),
        plain(format!(
            "for a length of {}, to the shoulder; limits Ø{}",
            step.length(tenon.length),
            step.numbers.limits(work.major)
        )),
    ];
    lines.extend(tenon.relief.map(|relief| {
        plain(format!(
            "relief at the shoulder {}, {} wide",
            step.diameter(relief.diameter),
            step.length(relief.width)
        ))
    }));
    lines.extend(tenon.pilot.map(|pilot| {
        plain(format!(
            "pilot {}, {} long",
            step.diameter(pilot.diameter),
            step.length(pilot.length)
        ))
    }));
    let chamfer = tenon.chamfer;
    if chamfer.depth > Length::ZERO {
        let angle = libm::atan2(chamfer.depth.as_mm(), chamfer.length.as_mm()).to_degrees();
        lines.push(plain(format!(
            "chamfer {} off the radius, {angle:.0}° to the axis",
            step.length(chamfer.depth)
        )));
    }
    let check = vec![
        set(format!("Ø {}", step.numbers.limits(work.major))),
        plain(format!("shoulder {} from the back face", step.length(tenon.length))),
    ];
    Row {
        title: "Turn the tenon".to_owned(),
        tool: vec![set("turning tool, grooving tool")],
        face: step.face(),
        set: lines,
        check,
        boxes: vec![
            format!("Ø ({})", step.length(work.turn_to)),
            format!("length ({})", step.length(tenon.length)),
        ],
        ..Row::default()
    }
}

pub(super) fn seat(step: Step, bushing: &Bushing) -> Row {
    let thread = &bushing.thread;
    let offset = step.plan.section.criteria.offsets.holding;
    Row {
        title: "Bushing in place; screw the work in".to_owned(),
        tool: vec![set("boring bar, tap or single point"), plain("scrap rod in the chuck")],
        face: vec![plain("the bushing's own front face")],
        set: vec![
            set(format!("hole {}, {}", step.diameter(thread.form.crest), thread.designation)),
            plain(format!(
                "full thread to {}, behind it bored {}; mouth {} x {} deep; {} or more outside, {} long",
                step.length(thread.to),
                step.diameter(bushing.bore),
                step.diameter(bushing.counterbore.diameter),
                step.length(bushing.counterbore.depth),
                step.diameter(bushing.diameter),
                step.length(bushing.length)
            )),
        ],
        check: vec![
            plain("shoulder seated all round, by hand"),
            plain(format!(
                "an indicator beside the shoulder: off by {} at most",
                step.length(offset)
            )),
        ],
        boxes: vec!["off by".to_owned()],
        notes: vec![warning(
            "From here on neither bushing nor work is taken out until the section is done: bores, \
             thread and outside share one axis.",
        )],
        ..Row::default()
    }
}

pub(super) fn reverse(step: Step, why: Why) -> Row {
    let because = match why {
        Why::LeftHand => "its tenon's thread is left-hand: a cut would screw it out of a bushing",
        Why::FewTurns => "its tenon's thread has too few turns to be held by",
        Why::NoShoulder => "its shoulder has no face to be seated by",
    };
    Row {
        title: "Reverse the work".to_owned(),
        tool: vec![plain("indicator")],
        face: vec![plain("none")],
        set: vec![plain("true to the bore, not to the outside")],
        check: vec![plain(format!(
            "the bore is off by {} at most",
            step.length(step.plan.section.criteria.offsets.holding)
        ))],
        boxes: vec!["off by".to_owned()],
        notes: vec![plain(format!("The bores came first, for {because}."))],
        ..Row::default()
    }
}

pub(super) fn face(step: Step, [off, leaves]: [Length; 2], from_shoulder: bool) -> Row {
    let end = if from_shoulder { "shoulder" } else { "back face" };
    let to_come = step.operation.measured.to_come;
    let then = if to_come > Length::ZERO {
        format!("then {} is left for sanding", step.length(to_come))
    } else {
        "then it is the finished face".to_owned()
    };
    let mut check = vec![set(format!("{} from the {end}", step.length(leaves)))];
    if !from_shoulder {
        check.push(plain("out of its holding, or by what the slide's dial took off"));
    }
    Row {
        title: "Face the front to length".to_owned(),
        tool: vec![set("turning tool")],
        face: vec![plain(if from_shoulder { "shoulder (the bushing's face)" } else { end })],
        set: vec![set(format!("take {} off", step.length(off))), plain(then)],
        check,
        boxes: vec![format!("length ({})", step.length(leaves))],
        ..Row::default()
    }
}

pub(super) fn lip_plug(step: Step, plug: &LipPlug) -> Row {
    let stub = |name: &str, stub: &crate::section::Stub| {
        plain(format!(
            "{name} {}, to {} beyond what bears",
            step.diameter(stub.diameter),
            step.length(stub.to)
        ))
    };
    let mut lines = vec![plain(format!("body {}", step.diameter(plug.diameter)))];
    lines.extend(plug.recess.as_ref().map(|it| stub("stub in the recess", it)));
    lines.extend(plug.clearance.as_ref().map(|it| stub("stub in the clearance bore", it)));
    Row {
        title: "Support the lip".to_owned(),
        tool: vec![set("lip plug, live centre"), plain("its drawing: lip-plug")],
        face: vec![plain(format!("it bears on the {}", plug.bearing))],
        set: lines,
        check: vec![plain(
            "slides in by hand (fit it to the bore as it is); the centre touches, it does not press",
        )],
        boxes: vec!["in".to_owned()],
        ..Row::default()
    }
}

pub(super) fn outside(step: Step, outside: &Outside) -> Row {
    let grip = &step.plan.section.grip;
    let mut lines = vec![set(format!(
        "{} at the front, {} at the shoulder",
        step.diameter(grip.front),
        step.diameter(grip.back())
    ))];
    for taper in outside.tapers.iter().take(TAPERS) {
        lines.push(plain(format!(
            "{} to {}: compound {}",
            step.length(taper.from[0]),
            step.length(taper.to[0]),
            slope(taper)
        )));
    }
    lines.push(plain("all else: table, corners and template at the end"));
    let check = vec![plain("caliper by the table, template against the light, the cap goes over")];
    Row {
        title: "Turn the outside".to_owned(),
        tool: vec![set("turning tool")],
        face: step.face(),
        set: lines,
        check,
        boxes: vec!["Ø front".to_owned(), "Ø shoulder".to_owned()],
        notes: vec![warning(
            "Stop the tool by hand before what holds the work at the shoulder, and before the centre at \
             the front. Sanding takes a little more off: stay on the large side of each Ø.",
        )],
        ..Row::default()
    }
}

/// Tapers that are named in the step; all of them stand under the table.
const TAPERS: usize = 4;

pub(super) fn sand(step: Step, off: Length) -> Row {
    let length = step.plan.section.grip.length();
    Row {
        title: "Sand and polish".to_owned(),
        tool: vec![set("abrasives, wet"), plain("lathe slow, no cloth round the work")],
        face: vec![plain("shoulder")],
        set: vec![
            set(format!("{} off the front", step.length(off))),
            plain("lip plug out; the outside no more than takes the marks off"),
        ],
        check: vec![set(format!("{} from the shoulder", step.length(length)))],
        boxes: vec![format!("length ({})", step.length(length))],
        ..Row::default()
    }
}
