//! The nib unit from its file.

mod pitch;

use super::Making;
use super::thread::{basic_form, standard_or_noted};
use crate::design::reader::Placed;
use crate::design::unit_file::{StepFile, UnitFile, UnitThreadFile};
use crate::design::value::Measured;
use crate::diagnostic::Diagnostic;
use crate::quantity::{Length, Limits};
use crate::section::{
    Item, RunOut, Side, Subject, Thread, ThreadForm, ThreadLimits, Unit, UnitStep,
};

/// The unit, or none where its values contradict each other, which is noted.
pub(super) fn resolve(file: &UnitFile, making: &mut Making) -> Option<Unit> {
    let mut read = |key: &str, measured: &Placed<Measured>| making.read(key, measured);
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
    let (thread, other_pitches) = thread(&file.thread, from, making)?;
    let chamfer = file.thread.chamfer.as_ref().map_or(Length::ZERO, |chamfer| chamfer.value.0);
    let name = file.name.value.clone();
    let unit = Unit {
        name,
        collar,
        thickness,
        steps,
        thread,
        other_pitches,
        chamfer,
        nib_reach,
        nib_width,
    };
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

/// The thread as measured, and the pitches that it may have besides: the basic profile with its crest at the measured major diameter.
fn thread(
    file: &UnitThreadFile,
    from: Length,
    making: &mut Making,
) -> Option<(Thread, Vec<Length>)> {
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
    let read = match &file.pitch {
        Some(pitch) => pitch::read(pitch, &file.designation, making)?,
        None => pitch::PitchRead { pitch: designation.pitch(), others: Vec::new() },
    };
    let form = ThreadForm {
        crest: basic.crest - off,
        pitch_diameter: basic.pitch_diameter - off,
        root: basic.root - off,
        pitch: read.pitch,
        ..basic
    };
    let limits = ThreadLimits {
        major: Limits::around(form.crest, uncertainty)?,
        pitch: Limits::around(form.pitch_diameter, uncertainty)?,
        minor: Limits::around(form.root, uncertainty)?,
    };
    let (item, side, phase) = (Item::UnitBody, Side::External, Length::ZERO);
    let (to, run_outs) = (file.to.value.value, [RunOut::Wall; 2]);
    let thread = Thread { item, side, designation, form, from, to, phase, run_outs, limits };
    Some((thread, read.others))
}
