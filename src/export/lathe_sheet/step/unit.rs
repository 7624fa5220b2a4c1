//! The nib unit tried, the rehearsal before it, and the last look.

use super::super::content::{Line, Row};
use super::super::numbers;
use super::super::tables::name;
use super::{Step, plain, set, warning};
use crate::drawing::half_section::letter;
use crate::quantity::Length;
use crate::section::Item;
use crate::shop::{TrialFit, Work};
use crate::size::SizeId;

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
    let clearance = SizeId::BoreDepth(Item::ClearanceBore);
    let rooms = step.plan.operations.iter().flat_map(|operation| &operation.tight);
    let room = rooms.into_iter().find(|tight| tight.parameter == clearance);
    if fit.seats_untapped() {
        notes.push(warning(
            "It goes in to its seat before any thread is cut: a bore is too wide or too deep. Stop.",
        ));
    } else if fit.tells_of_clearance() {
        // A bore that is shallower by its room lets the unit stand out so much more.
        let (less, more) = room.map_or((None, None), |room| (room.less, room.more));
        let stands = fit.stands.as_mm();
        let most = less.map(|less| stands + less * fit.by_clearance);
        let least = more.map(|more| stands - more * fit.by_clearance);
        let meant = step.length(fit.stands);
        // No bound is said to lie on the wrong side of what is meant, by rounding.
        let value = |text: &str| text.parse::<f64>().unwrap_or_default();
        let most = most.map(|most| step.numbers.inner_most(most));
        let most = most.map(|most| if value(&most) < value(&meant) { meant.clone() } else { most });
        let least = least.map(|least| step.numbers.inner_least(least));
        let least =
            least.map(|least| if value(&least) > value(&meant) { meant.clone() } else { least });
        let go_on = match (&least, &most) {
            (Some(least), Some(most)) => format!("{least} to {most}: go on."),
            (Some(least), None) => format!("{least} or more: go on."),
            (None, Some(most)) => format!("{most} or less: go on."),
            (None, None) => "Go on.".to_owned(),
        };
        let more = most.map_or(String::new(), |most| {
            format!(
                " More than {most}: bore B is too shallow; deepen it by what it reads over {meant}, try \
                 again."
            )
        });
        let less = least.map_or(String::new(), |least| {
            format!(
                " Less than {least}: bore B is too deep; do not tap, measure B and ask what saves it \
                 (asmade)."
            )
        });
        notes.push(plain(format!("{go_on}{more}{less}")));
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

/// A collar that stands out, or lies under, by less than a caliper shows.
const LEVEL: Length = Length::mm(0.005);

/// The box for it.
fn stands_box(step: Step, stands: Length) -> String {
    if stands.abs() < LEVEL {
        "level".to_owned()
    } else if stands >= Length::ZERO {
        format!("stands out ({})", step.length(stands))
    } else {
        format!("lies under ({})", step.length(Length::ZERO - stands))
    }
}

/// Where the collar's front stands.
fn stands(step: Step, stands: Length) -> String {
    if stands.abs() < LEVEL {
        "collar's front is level with the face".to_owned()
    } else if stands >= Length::ZERO {
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
