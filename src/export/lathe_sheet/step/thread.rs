//! Threads: the tenon's, the unit's, the cap's.

use super::super::content::{Line, Row};
use super::super::numbers;
use super::{Step, plain, set, warning};
use crate::quantity::Length;
use crate::section::Thread;
use crate::shop::{Holding, Tapping, ThreadWork};
use crate::standard::designation::Hand;

/// How a thread on the outside is cut.
fn outer(thread: &Thread) -> Vec<Line> {
    let form = &thread.form;
    let single = format!("or single point, {} a turn", form.lead());
    let hand = if form.hand == Hand::Left { "left hand! " } else { "" };
    if form.starts > 1 {
        vec![
            set(format!("{hand}single point, {} starts", form.starts)),
            plain(format!("lead {}, pitch {}", form.lead(), form.pitch)),
        ]
    } else {
        vec![set(format!("{hand}die {}", thread.designation)), plain(single)]
    }
}

pub(super) fn tenon(step: Step, work: &ThreadWork) -> Row {
    let thread = &work.thread;
    let [from, to] = work.full.map(|z| z.max(Length::ZERO));
    let full = if from > Length::ZERO {
        format!("full thread {} to {}", step.length(from), step.length(to))
    } else {
        format!("thread to {}, chamfer included", step.length(to))
    };
    Row {
        title: format!("Cut the tenon's thread, {}", thread.designation),
        tool: outer(thread),
        face: step.face(),
        set: vec![
            set(full),
            plain(if thread.form.starts > 1 {
                "each start from the same place, the slide set on by a pitch"
            } else {
                "a die by hand: spindle locked, power off"
            }),
        ],
        check: vec![
            plain("barrel or check ring goes on by hand, shoulder closes all round"),
            plain(format!("pitch diameter {}", step.numbers.limits(thread.limits.pitch))),
        ],
        boxes: vec!["goes on to the shoulder".to_owned()],
        ..Row::default()
    }
}

pub(super) fn cap(step: Step, work: &ThreadWork) -> Row {
    let thread = &work.thread;
    let [from, to] = work.full.map(|z| step.length(z));
    Row {
        title: format!("Cut the cap's thread, {}", thread.designation),
        tool: outer(thread),
        face: step.face(),
        set: vec![
            set(format!("full thread {from} to {to}")),
            plain(format!("cylinder first to Ø{}", step.numbers.limits(thread.limits.major))),
        ],
        check: vec![plain("the cap screws on by hand and stops where it should")],
        boxes: vec!["cap goes on".to_owned()],
        ..Row::default()
    }
}

pub(super) fn tap(step: Step, tapping: &Tapping) -> Row {
    let thread = &step.plan.section.unit_thread;
    let tool = match &tapping.tap {
        Some(tap) => vec![set(tap.to_string())],
        None => vec![
            set(format!("tap {}", thread.designation)),
            warning("not at hand: order it (drawing: tap-order), or single point"),
        ],
    };
    let left =
        (thread.form.hand == Hand::Left).then(|| warning("Left hand: turn it the other way."));
    let mut row = Row {
        title: format!("C: tap the unit thread, {}", thread.designation),
        tool: [tool, vec![lead(tapping)]].concat(),
        face: step.face(),
        set: vec![
            set(format!("mark: {} from the tip", step.length(tapping.mark))),
            plain(format!(
                "about {} turns from the first bite, {} a turn; full thread to {}",
                numbers::turns(tapping.turns),
                step.length(tapping.per_turn),
                step.length(tapping.full_to)
            )),
        ],
        check: vec![plain("it runs straight: tap guided by the tailstock, quill loose")],
        boxes: vec!["turns".to_owned()],
        notes: vec![warning(format!(
            "By hand, spindle locked, power off. Back a quarter turn every half turn, clear the chips. {}",
            holds(step, thread.form.hand)
        ))],
        ..Row::default()
    };
    row.notes.extend(left);
    row.notes.extend(tapping.beyond().map(|beyond| {
        warning(format!(
            "This tap's taper goes {} beyond the bore: take one with a shorter taper, or drill D deeper, \
             or the thread is not full to its end.",
            step.length(beyond)
        ))
    }));
    if let Some(room) = tapping.room_to {
        let words = format!("no deeper than {}: the bore ends", step.length(room));
        row.check.push(plain(words));
    }
    row
}

/// What is known of the tap's taper.
fn lead(tapping: &Tapping) -> Line {
    let pitches = tapping.lead_pitches;
    if tapping.lead_assumed {
        return plain(format!("taper of {pitches:.0} pitches assumed: measure it"));
    }
    plain(format!("its first {pitches:.0} pitches taper"))
}

/// Which way a tap turns the work out of what holds it.
fn holds(step: Step, hand: Hand) -> &'static str {
    match (&step.operation.holding, hand) {
        (Holding::Bushing, Hand::Right) => {
            "Hold the work by hand while you turn back, or it comes out of its bushing."
        }
        (Holding::Bushing, Hand::Left) => {
            "Hold the work by hand all the while: a left-hand tap turns it out of its bushing."
        }
        _ => "See that the work does not turn in what holds it.",
    }
}
