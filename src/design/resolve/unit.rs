//! The nib unit from its file.

use super::Making;
use super::thread::{basic_form, standard_or_noted};
use crate::design::reader::Placed;
use crate::design::resolved;
use crate::design::unit_file::{PitchFile, StepFile, UnitFile, UnitThreadFile};
use crate::design::value::{CALIPER, Measured};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Length, Limits};
use crate::section::{
    Item, Reading, RunOut, Side, Subject, Thread, ThreadForm, ThreadLimits, Unit, UnitStep,
};
use crate::standard::{ThreadDesignation, pitch_series};

/// The unit, or none where its values contradict each other, which is noted.
pub(super) fn resolve(file: &UnitFile, making: &mut Making) -> Option<Unit> {
    let mut read = |key: &str, measured: &Placed<Measured>| {
        let Measured { value, uncertainty, how } = measured.value.clone();
        let how = how.unwrap_or_else(|| "not said".to_owned());
        making.readings.push(resolved::Reading { key: key.to_owned(), value, uncertainty, how });
        Reading { value, uncertainty }
    };
    let collar = read("collar.diameter", &file.collar);
    let thickness = read("collar.thickness", &file.thickness);
    let mut steps: Vec<UnitStep> = Vec::new();
    let mut step = |item, name: &str, written: &StepFile| {
        let diameter = read(&format!("{name}.diameter"), &written.diameter);
        steps.push(UnitStep { item, diameter, to: read(&format!("{name}.to"), &written.to) });
    };
    if let Some(plain) = &file.plain {
        step(Item::Plain, "plain", plain);
    }
    let body = StepFile { diameter: file.thread.major.clone(), to: file.thread.to.clone() };
    step(Item::UnitBody, "thread", &body);
    for (item, name, written) in
        [(Item::Tail, "tail", &file.tail), (Item::Nipple, "nipple", &file.nipple)]
    {
        if let Some(written) = written {
            step(item, name, written);
        }
    }
    let nib_reach = read("nib.reach", &file.nib_reach);
    let nib_width = read("nib.width", &file.nib_width);
    let plain_to = file.plain.as_ref().map_or(Length::ZERO, |plain| plain.to.value.value);
    let from = file.thread.from.as_ref().map_or(plain_to, |from| from.value.value);
    let in_order = order(file, from, making);
    places(file, making);
    let thread = thread(&file.thread, from, making)?;
    let chamfer = file.thread.chamfer.as_ref().map_or(Length::ZERO, |chamfer| chamfer.value.0);
    let name = file.name.value.clone();
    let unit = Unit { name, collar, thickness, steps, thread, chamfer, nib_reach, nib_width };
    in_order.then_some(unit)
}

/// Whether each step ends behind the one before it, and the thread begins within its own.
fn order(file: &UnitFile, from: Length, making: &mut Making) -> bool {
    let mut ends: Vec<(&str, Length, _)> = Vec::new();
    let end = |step: &Option<StepFile>| step.as_ref().map(|s| (s.to.value.value, s.to.at()));
    let plain = end(&file.plain).map(|(to, at)| ("plain", to, at));
    let from_at = file.thread.from.as_ref().map(|written| ("thread's start", from, written.at()));
    let body = ("thread", file.thread.to.value.value, file.thread.to.at());
    let tail = end(&file.tail).map(|(to, at)| ("tail", to, at));
    let nipple = end(&file.nipple).map(|(to, at)| ("nipple", to, at));
    ends.extend(plain.into_iter().chain(from_at).chain([body]).chain(tail).chain(nipple));
    let mut good = true;
    for pair in ends.windows(2) {
        let ((before, end, end_at), (name, to, at)) = (pair[0], pair[1]);
        // A thread may begin where the plain cylinder ends, anything else is a step of its own.
        let may_touch = name == "thread's start";
        if to < end || (to == end && !may_touch) {
            good = false;
            let hint = end + Length::mm(1.0);
            making.log.push(
                Diagnostic::error(
                    "unit.steps-out-of-order",
                    format!("the unit's {name} ends at {to}, the {before} in front of it at {end}"),
                )
                .at(at)
                .also(end_at, format!("the {before} ends here"))
                .hint(format!("lengths are all from the underside of the collar: {hint}, say")),
            );
        }
    }
    good
}

fn places(file: &UnitFile, making: &mut Making) {
    let places = &mut making.places;
    places.set(Subject::UnitStep(Item::Collar), file.collar.at());
    places.set(Subject::UnitStep(Item::UnitBody), file.thread.major.at());
    for (item, step) in
        [(Item::Plain, &file.plain), (Item::Tail, &file.tail), (Item::Nipple, &file.nipple)]
    {
        if let Some(step) = step {
            places.set(Subject::UnitStep(item), step.diameter.at());
        }
    }
    let last = file.nipple.as_ref().or(file.tail.as_ref()).map_or(&file.thread.to, |s| &s.to);
    places.set(Subject::Unit, last.at());
    let chamfer = file.thread.chamfer.as_ref().map_or(file.thread.to.at(), Placed::at);
    places.set(Subject::UnitChamfer, chamfer);
    places.set(Subject::Thread(Item::UnitBody), file.thread.designation.at());
}

/// The thread as measured: the basic profile with its crest at the measured major diameter.
fn thread(file: &UnitThreadFile, from: Length, making: &mut Making) -> Option<Thread> {
    let designation = file.designation.value;
    let Measured { value: major, uncertainty, .. } = file.major.value;
    let basic = basic_form(designation, Side::External);
    let off = basic.crest - major;
    if off.abs() > designation.pitch() {
        making.log.push(
            Diagnostic::error(
                "unit.not-this-thread",
                format!("a thread with a measured major diameter of {major} is no {designation}"),
            )
            .at(file.major.at())
            .also(file.designation.at(), "called so here")
            .hint(format!("its crest should measure about {}", basic.crest)),
        );
        return None;
    }
    if off < Length::ZERO - uncertainty {
        making.log.push(
            Diagnostic::note(
                "unit.over-nominal",
                format!("the measured major diameter, {major}, is over that of {designation}"),
            )
            .at(file.major.at())
            .hint("measure it off the parting line, at two angles"),
        );
    }
    standard_or_noted(&file.designation, making);
    if let Some(pitch) = &file.pitch {
        rivals(pitch, &file.designation, making)?;
    }
    let form = ThreadForm {
        crest: basic.crest - off,
        pitch_diameter: basic.pitch_diameter - off,
        root: basic.root - off,
        ..basic
    };
    let limits = ThreadLimits {
        major: Limits::around(form.crest, uncertainty)?,
        pitch: Limits::around(form.pitch_diameter, uncertainty)?,
        minor: Limits::around(form.root, uncertainty)?,
    };
    let (item, side, phase) = (Item::UnitBody, Side::External, Length::ZERO);
    let (to, run_outs) = (file.to.value.value, [RunOut::Wall; 2]);
    Some(Thread { item, side, designation, form, from, to, phase, run_outs, limits })
}

/// Notes the pitches that the reading can't tell from the designation's; an error, and none, where
/// the reading excludes the designation's own.
fn rivals(
    file: &PitchFile,
    designation: &Placed<ThreadDesignation>,
    making: &mut Making,
) -> Option<()> {
    /// Above the noise of the arithmetic, below any step between pitches.
    const SAME: Length = Length::mm(1e-6);
    /// More turns than any thread of a pen has.
    const MOST_TURNS: f64 = 100.0;
    let turns = file.turns.value.0;
    if turns.fract() != 0.0 || !(1.0..=MOST_TURNS).contains(&turns) {
        making.log.push(
            Diagnostic::error("value.turns", format!("a pitch is not read over {turns} turns"))
                .at(file.turns.at())
                .hint("a whole number of turns, such as 6"),
        );
        return None;
    }
    let uncertainty = file.uncertainty.as_ref().map_or(CALIPER, |u| u.value.0);
    let over = file.over.value.0;
    let reading = match pitch_series::rivals(over, turns as u32, uncertainty) {
        Ok(reading) => reading,
        Err(error) => {
            making.log.push(
                Diagnostic::error("value.pitch-reading", error.to_string())
                    .at(file.over.at())
                    .hint(error.hint()),
            );
            return None;
        }
    };
    let pitch = designation.value.pitch();
    if (pitch * turns - over).abs() > uncertainty + SAME {
        making.log.push(
            Diagnostic::error(
                "unit.pitch-disagrees",
                format!("{over} over {turns} turns is no pitch of {pitch}: {reading}"),
            )
            .at(file.over.at())
            .also(designation.at(), "called so here")
            .hint(format!("a pitch of {pitch} measures {} over {turns} turns", pitch * turns)),
        );
        return None;
    }
    let others: Vec<String> = reading
        .candidates
        .iter()
        .filter(|candidate| (candidate.pitch() - pitch).abs() > SAME)
        .map(|candidate| candidate.name.to_string())
        .collect();
    if !others.is_empty() {
        making.log.push(
            Diagnostic::note(
                "unit.rival-pitches",
                format!(
                    "the reading can't tell a pitch of {pitch} from {}",
                    others.join(" or from ")
                ),
            )
            .at(file.at)
            .hint("hold a thread gauge of each against it, or measure over more turns"),
        );
    }
    Some(())
}
