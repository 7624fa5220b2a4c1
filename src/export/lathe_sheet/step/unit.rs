//! The nib unit tried, the rehearsal before it, and the last look.

use super::super::content::{Line, Row};
use super::super::numbers;
use super::super::tables::name;
use super::{Step, plain, set, warning};
use crate::check::Parameter;
use crate::export::half_section::letter;
use crate::quantity::Length;
use crate::section::Item;
use crate::shop::{TrialFit, Work};

pub(super) fn rehearse(step: Step) -> Row {
    let plan = step.plan;
    let bores = plan.operations.iter().filter_map(|operation| operation.bore());
    // The holes that the unit goes into; the through bore is no matter of tenths.
    let stack = bores.filter(|work| letter(work.bore.item).is_some() && work.has_depth());
    let boxes = stack.filter_map(|work| {
        letter(work.bore.item)
            .map(|letter| format!("{letter} Ø ({})", step.length(work.bore.diameter)))
    });
    let again = plan.operations.iter().find_map(|operation| match &operation.work {
        Work::TryAgain(fit) => Some(fit.turns),
        _ => None,
    });
    let seats = again.map_or("the unit seats".to_owned(), |turns| {
        format!("the unit seats after {} turns by hand", numbers::turns(turns))
    });
    Row {
        title: "Rehearse on an offcut".to_owned(),
        tool: vec![set("the same drills, tap and unit")],
        face: vec![plain("its own face")],
        set: vec![plain("all bores and the unit thread, as in the steps below")],
        check: vec![
            plain(seats),
            plain("measure each hole: where it differs, tell the rack and print a new sheet"),
        ],
        boxes: boxes.collect(),
        ..Row::default()
    }
}

pub(super) fn first_try(step: Step, fit: TrialFit) -> Row {
    let mut notes: Vec<Line> = Vec::new();
    let clearance = Parameter::BoreDepth(Item::ClearanceBore);
    let rooms = step.plan.operations.iter().flat_map(|operation| &operation.tight);
    let room = rooms.into_iter().find(|tight| tight.parameter == clearance);
    if fit.seats_untapped() {
        notes.push(warning(
            "It goes in to its seat before any thread is cut: a bore is too wide or too deep. Stop.",
        ));
    } else if fit.by_clearance > RESTS_THERE {
        // A bore that is shallower by its room lets the unit stand out so much more.
        let (less, more) = room.map_or((None, None), |room| (room.less, room.more));
        let stands = fit.stands.as_mm();
        let most = less.map(|less| step.numbers.inner_most(stands + less * fit.by_clearance));
        let least = more.map(|more| step.numbers.inner_least(stands - more * fit.by_clearance));
        let meant = step.length(fit.stands);
        notes.push(plain(format!(
            "{} to {}: go on. More: bore B is too shallow; deepen it by what it reads over {meant}, try \
             again. Less: bore B is too deep; do not tap, measure B and ask what saves it (asmade).",
            least.unwrap_or_else(|| "Less".to_owned()),
            most.unwrap_or_else(|| "any more".to_owned())
        )));
    } else {
        let [_, section] = fit.rests;
        notes.push(plain(format!(
            "It rests in the {}: the reading says nothing of bore B.",
            name(section.feature.item)
        )));
    }
    Row {
        title: "Try the unit, pushed in".to_owned(),
        tool: vec![set("nib unit"), plain("lathe stopped")],
        face: step.face(),
        set: vec![plain("push it in until its thread meets the hole that is to be tapped")],
        check: vec![set(stands(step, fit.stands))],
        boxes: vec![stands_box(step, fit.stands)],
        notes,
        ..Row::default()
    }
}

/// By how much less the unit has to stand for each millimetre of the clearance bore, so that it
/// counts as resting at that bore's end.
const RESTS_THERE: f64 = 0.5;

pub(super) fn second_try(step: Step, fit: TrialFit) -> Row {
    Row {
        title: "Try the unit, screwed in".to_owned(),
        tool: vec![set("nib unit"), plain("lathe stopped, chips blown out")],
        face: step.face(),
        set: vec![
            set(format!("{} turns by hand", numbers::turns(fit.turns))),
            plain(format!(
                "of {} each, from {}; then out again",
                step.length(step.plan.section.unit_thread.form.lead()),
                step.length(fit.stands)
            )),
        ],
        check: vec![
            set(stands(step, fit.seated)),
            plain("collar rests all round; if it binds: see the table at the end, never force"),
        ],
        boxes: vec!["turns".to_owned(), stands_box(step, fit.seated)],
        ..Row::default()
    }
}

/// The box for it.
fn stands_box(step: Step, stands: Length) -> String {
    if stands >= Length::ZERO {
        format!("stands out ({})", step.length(stands))
    } else {
        format!("lies under ({})", step.length(Length::ZERO - stands))
    }
}

/// Where the collar's front stands.
fn stands(step: Step, stands: Length) -> String {
    if stands >= Length::ZERO {
        format!("collar's front stands {} out of the face", step.length(stands))
    } else {
        format!("collar's front lies {} under the face", step.length(Length::ZERO - stands))
    }
}

pub(super) fn finish() -> Row {
    Row {
        title: "Finished".to_owned(),
        tool: vec![plain("unit, barrel, cap, converter")],
        face: vec![plain("none")],
        set: vec![plain("take it out of its holding; wash it as its maker says")],
        check: vec![plain("unit seats, barrel closes, cap passes, converter goes in")],
        boxes: vec!["all go together".to_owned()],
        notes: vec![plain(
            "Keep what the boxes say: `asmade` measures the part as it was really cut.",
        )],
        ..Row::default()
    }
}
