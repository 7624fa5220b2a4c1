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
        set: vec![plain("all bores and the unit thread, at the depths below")],
        check: vec![
            plain(seats),
            plain("measure each hole: what differs goes into the rack's file, then a new sheet"),
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
        let side = |room: Option<f64>| room.map(|room| step.numbers.room(room));
        let (less, more) = room.map_or((None, None), |room| (side(room.less), side(room.more)));
        let more_than = less.map_or(String::new(), |less| format!(" by more than {less}"));
        let less_than = more.map_or(String::new(), |more| format!(" by more than {more}"));
        notes.push(plain(format!(
            "It reads more{more_than}: bore B is too shallow; deepen B by the difference. It reads \
             less{less_than}: bore B is too deep; don't tap, ask `asmade` with B's depth."
        )));
    } else {
        let [_, section] = fit.rests;
        notes.push(plain(format!(
            "It rests in the {}: the reading says nothing of bore B.",
            name(section.feature.item)
        )));
    }
    Row {
        title: "Try the unit, not turned".to_owned(),
        tool: vec![set("nib unit"), plain("lathe stopped")],
        face: step.face(),
        set: vec![plain("push it in until it stops")],
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
        title: "Try the unit, turned in".to_owned(),
        tool: vec![set("nib unit"), plain("lathe stopped, chips blown out")],
        face: step.face(),
        set: vec![set(format!("{} turns by hand", numbers::turns(fit.turns)))],
        check: vec![
            set(stands(step, fit.seated)),
            plain("collar rests all round; if it binds: see overleaf, never force"),
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
