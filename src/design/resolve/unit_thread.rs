//! The unit thread: its designation, class and end, from the design and the unit.

use super::{Making, thread};
use crate::design::design_file::UnitThreadFile;
use crate::design::reader::Placed;
use crate::design::unit_file::UnitFile;
use crate::design::value::CALIPER;
use crate::diagnostic::Diagnostic;
use crate::quantity::{Length, Limits};
use crate::section::{Item, Subject, Thread, ThreadLimits, Unit};
use crate::standard::{ThreadDesignation, ToleranceClass};

/// The thread's designation, with its class.
pub(super) fn designation(
    file: &UnitThreadFile,
    unit: &UnitFile,
    making: &mut Making,
) -> Option<Placed<ThreadDesignation>> {
    let own = file.designation.as_ref();
    let written = own.unwrap_or(&unit.thread.designation);
    let class = match (&file.class, own.and_then(|own| own.value.class())) {
        (Some(text), in_designation) => match text.value.parse::<ToleranceClass>() {
            Ok(class) if in_designation.is_none_or(|other| other == class) => class,
            Ok(class) => {
                making.log.push(
                    Diagnostic::error("key.both", format!("the class is {class} here"))
                        .at(text.at())
                        .also(written.at(), "and another one here")
                        .hint("keep one of the two"),
                );
                return None;
            }
            Err(error) => {
                making.log.push(
                    Diagnostic::error("value.class", error.to_string())
                        .at(text.at())
                        .hint(error.hint()),
                );
                return None;
            }
        },
        (None, Some(class)) => class,
        (None, None) => {
            making.derive("bores.thread.class", &"6H", "the usual class (ISO 965-1)");
            ToleranceClass::MEDIUM_INTERNAL
        }
    };
    let thread = written.value.with_class(Some(class));
    if own.is_none() {
        making.derive("bores.thread.designation", &thread, "the unit's thread");
    } else {
        thread::standard_or_noted(written, making);
    }
    Some(Placed::new(thread, written.at()))
}

/// Where the tap's full thread ends: one turn behind the unit's, so that the unit comes to rest on
/// its collar and not on the end of the thread.
pub(super) fn end(
    file: &UnitThreadFile,
    unit_file: &UnitFile,
    unit: &Unit,
    seat: Length,
    making: &mut Making,
) -> Length {
    if let Some(to) = &file.to {
        making.places.set(Subject::Depth(Item::UnitThread), to.at());
        making.places.station(to.value.0, to.at());
        return to.value.0;
    }
    let (ends, turn) = (unit.thread.to, unit.thread.form.lead());
    let to = seat + ends + turn;
    let why = format!("seat {seat} + the unit's thread ends at {ends} + a turn {turn}");
    making.derive("bores.thread.to", &to, why);
    making.places.set(Subject::Depth(Item::UnitThread), unit_file.thread.to.at());
    making.places.station(to, unit_file.thread.to.at());
    to
}

/// The thread as its tap cuts it, which may have been measured, in a material that springs back:
/// the thread may come out smaller than the tap by the material's spread. None where a form and a
/// tap contradict each other, which is noted.
pub(super) fn tapped(
    mut thread: Thread,
    file: &UnitThreadFile,
    spring_back: Limits,
    making: &mut Making,
) -> Option<Thread> {
    if let Some(tap) = &file.tap {
        let form = file.cut.form.as_ref();
        if let Some(form) = form.filter(|f| f.major.is_some() || f.pitch_diameter.is_some()) {
            let own = form.major.as_ref().or(form.pitch_diameter.as_ref());
            let mut both = Diagnostic::error("key.both", "the thread's diameters are the tap's")
                .at(tap.at)
                .hint("keep `tap`, or `form` with the diameters of the thread that it cut");
            if let Some(own) = own {
                both = both.also(own.at(), "and given here");
            }
            making.log.push(both);
            return None;
        }
        let uncertainty = tap.uncertainty.as_ref().map_or(CALIPER, |u| u.value.0);
        let (major, pitch) = (tap.major.value.0, tap.pitch_diameter.value.0);
        if pitch >= major || pitch <= thread.form.crest {
            let crest = thread.form.crest;
            let usual = thread.form.pitch_diameter;
            making.log.push(
                Diagnostic::error(
                    "bores.no-tap",
                    format!(
                        "a tap's pitch diameter of {pitch} does not lie between hole and major diameter"
                    ),
                )
                .at(tap.pitch_diameter.at())
                .also(tap.major.at(), "its major diameter")
                .hint(format!("over {crest} and under {major}; this thread's is {usual}")),
            );
            return None;
        }
        (thread.form.root, thread.form.pitch_diameter) = (major, pitch);
        thread.limits.major = Limits::around(major, uncertainty)?;
        thread.limits.pitch = Limits::around(pitch, uncertainty)?;
    }
    let closed = |limits: Limits| {
        Limits::new(limits.min() - spring_back.max(), limits.max() - spring_back.min())
    };
    thread.limits = ThreadLimits {
        major: closed(thread.limits.major)?,
        pitch: closed(thread.limits.pitch)?,
        ..thread.limits
    };
    Some(thread)
}
