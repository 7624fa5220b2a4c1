//! A designation made into a thread's form and limits.

use super::Making;
use crate::design::reader::Placed;
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::{Length, Limits};
use crate::section::{Flank, Item, RunOut, Side, Thread, ThreadForm, ThreadLimits};
use crate::standard::{
    System, ThreadDesignation, ToleranceClass, ToleranceError, iso68, iso724, iso965, iso2904,
};

/// The basic profile of a designation, with both its flats.
pub(super) fn basic_form(designation: ThreadDesignation, side: Side) -> ThreadForm {
    let (nominal, pitch) = (designation.diameter(), designation.pitch());
    let (half_angle, pitch_diameter, [major, minor]) = match designation.system() {
        System::Metric => {
            let sizes = iso724::basic_sizes(nominal, pitch);
            (iso68::HALF_ANGLE, sizes.pitch, [sizes.major, sizes.minor])
        }
        System::Trapezoidal => {
            let sizes = iso2904::basic_sizes(nominal, pitch);
            let ends = match side {
                Side::External => [sizes.major, sizes.external_minor],
                Side::Internal => [sizes.internal_major, sizes.internal_minor],
            };
            (iso2904::HALF_ANGLE, sizes.pitch, ends)
        }
    };
    let (crest, root) = match side {
        Side::External => (major, minor),
        Side::Internal => (minor, major),
    };
    ThreadForm {
        pitch,
        starts: designation.starts(),
        hand: designation.hand(),
        half_angle,
        crest,
        pitch_diameter,
        root,
        flank: Flank::Straight,
        crest_radius: Length::ZERO,
        root_radius: Length::ZERO,
    }
}

/// Limits of a trapezoidal thread: its sizes, with the tolerance that grade 6 of ISO 965-1 gives
/// the pitch diameter of a metric thread of this pitch, into the material. ISO 2903's own are not
/// known here.
fn trapezoidal_limits(form: &ThreadForm, side: Side, pitch: Limits) -> Option<ThreadLimits> {
    let tolerance = pitch.max() - pitch.min();
    let limits = |size: Length| match side {
        Side::External => Limits::new(size - tolerance, size),
        Side::Internal => Limits::new(size, size + tolerance),
    };
    let (major, minor) =
        if side == Side::External { (form.crest, form.root) } else { (form.root, form.crest) };
    Some(ThreadLimits {
        major: limits(major)?,
        pitch: limits(form.pitch_diameter)?,
        minor: limits(minor)?,
    })
}

/// The external thread of a designation, with the limits of its class (6g unless it has one).
pub(super) fn external(
    designation: &Placed<ThreadDesignation>,
    item: Item,
    (from, to): (Length, Length),
    making: &mut Making,
) -> Option<Thread> {
    let class = designation.value.class().unwrap_or(ToleranceClass::MEDIUM_EXTERNAL);
    let classed = designation.value.with_class(Some(class));
    let limits = iso965::external(classed.diameter(), classed.pitch(), class);
    let limits = noted(limits, designation.at(), making)?;
    let limits = ThreadLimits {
        major: limits.major,
        pitch: limits.pitch,
        minor: Limits::new(limits.root_min, limits.minor_flat_max)?,
    };
    standard_or_noted(designation, making);
    let (side, phase, run_outs) = (Side::External, Length::ZERO, [RunOut::Wall; 2]);
    let form = basic_form(classed, side);
    if classed.system() == System::Trapezoidal {
        let limits = trapezoidal_limits(&form, side, limits.pitch)?;
        let designation = designation.value;
        return Some(Thread { item, side, designation, form, from, to, phase, run_outs, limits });
    }
    Some(Thread { item, side, designation: classed, form, from, to, phase, run_outs, limits })
}

/// The internal thread of a designation that has its class; its crest is as in the basic profile.
pub(super) fn internal(
    designation: ThreadDesignation,
    at: Place,
    item: Item,
    (from, to): (Length, Length),
    making: &mut Making,
) -> Option<Thread> {
    let class = designation.class().unwrap_or(ToleranceClass::MEDIUM_INTERNAL);
    let classed = designation.with_class(Some(class));
    let limits = iso965::internal(classed.diameter(), classed.pitch(), class);
    let limits = noted(limits, at, making)?;
    let limits = ThreadLimits {
        major: Limits::new(limits.major_min, limits.major_max)?,
        pitch: limits.pitch,
        minor: limits.minor,
    };
    let (side, phase, run_outs) = (Side::Internal, Length::ZERO, [RunOut::Wall; 2]);
    let form = basic_form(classed, side);
    if classed.system() == System::Trapezoidal {
        let limits = trapezoidal_limits(&form, side, limits.pitch)?;
        let designation = designation.with_class(None);
        return Some(Thread { item, side, designation, form, from, to, phase, run_outs, limits });
    }
    Some(Thread { item, side, designation: classed, form, from, to, phase, run_outs, limits })
}

/// Limits, or their error noted.
pub(super) fn noted<T>(
    limits: Result<T, ToleranceError>,
    at: Place,
    making: &mut Making,
) -> Option<T> {
    limits
        .map_err(|error| {
            let diagnostic = Diagnostic::error("value.class", error.to_string()).at(at);
            making.log.push(diagnostic.hint(error.hint()));
        })
        .ok()
}

/// Notes a thread that ISO 261 does not list: its tap and die have to be found or made.
pub(super) fn standard_or_noted(designation: &Placed<ThreadDesignation>, making: &mut Making) {
    let plain = designation.value.with_class(None);
    if plain.system() == System::Trapezoidal {
        making.log.push(
            Diagnostic::note(
                "thread.trapezoidal",
                format!("the limits of {plain} follow ISO 965-1's grade 6, not ISO 2903"),
            )
            .at(designation.at())
            .hint("prove it on the mating part"),
        );
    } else if !plain.is_standard() {
        making.log.push(
            Diagnostic::note(
                "thread.not-standard",
                format!("{plain} is not a thread of ISO 261; its limits follow from the formulas"),
            )
            .at(designation.at())
            .hint("make sure of a tap or a threading tool for it"),
        );
    }
}
