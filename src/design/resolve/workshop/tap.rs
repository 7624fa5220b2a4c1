//! Taps, as measured where somebody did.

use crate::design::rack_file::{RackFile, RackTapFile};
use crate::design::reader::Placed;
use crate::design::resolve::Making;
use crate::design::resolve::thread::{basic_form, noted};
use crate::design::value::{CALIPER, Size};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Length, Limits};
use crate::section::{Side, Tap, TapLead};
use crate::standard::iso965;

/// More taps are no rack: every thread of ISO 261 to 30 mm is a quarter of them.
const MOST: usize = 1000;

/// All taps, in the order of the files; those that are wrong are noted and left out.
pub(super) fn resolve(racks: &[RackFile], making: &mut Making) -> Vec<Tap> {
    let taps: Vec<&RackTapFile> = racks.iter().flat_map(|rack| &rack.taps).collect();
    if let Some(over) = taps.get(MOST) {
        making.log.push(
            Diagnostic::error("rack.too-many-taps", format!("more than {MOST} taps are no rack"))
                .at(over.thread.at())
                .hint(format!("{MOST} at most, sets and all")),
        );
    }
    taps.into_iter().take(MOST).filter_map(|tap| one(tap, making)).collect()
}

fn one(file: &RackTapFile, making: &mut Making) -> Option<Tap> {
    let designation = file.thread.value;
    let noted_before = making.log.len();
    if let Some(class) = designation.class() {
        let limits = iso965::internal(designation.diameter(), designation.pitch(), class);
        noted(limits, file.thread.at(), making);
    }
    let form = basic_form(designation, Side::Internal);
    let uncertainty = file.uncertainty.as_ref().map_or(CALIPER, |u| u.value.0);
    for (written, basic, what) in [
        (&file.major, form.root, "major diameter"),
        (&file.pitch_diameter, form.pitch_diameter, "pitch diameter"),
    ] {
        if let Some(written) = written {
            is_this_tap(written, basic, what, file, making);
        }
    }
    let readings = [&file.pitch_diameter, &file.major].into_iter().flatten();
    if let Some(read) = readings.into_iter().find(|read| uncertainty >= read.value.0) {
        let at = file.uncertainty.as_ref().map_or(read.at(), Placed::at);
        making.log.push(super::tool::uncertain(read.value.0, uncertainty, at));
    }
    if let (Some(major), Some(pitch)) = (&file.major, &file.pitch_diameter)
        && pitch.value.0 >= major.value.0
    {
        let message =
            format!("a tap's pitch diameter of {} is not under its major diameter", pitch.value.0);
        making.log.push(
            Diagnostic::error("rack.tap-diameters", message)
                .at(pitch.at())
                .also(major.at(), "its major diameter")
                .hint(format!("this thread's is {:.3}", form.pitch_diameter)),
        );
    }
    if let (Some(lead), Some(length)) = (&file.lead, &file.length) {
        let (pitches, long) = (lead.value.0, form.pitch * lead.value.0);
        if long >= length.value.0 {
            let message =
                format!("a lead of {pitches} pitches is {long}: the tap has no full thread");
            making.log.push(
                Diagnostic::error("rack.tap-lead", message)
                    .at(lead.at())
                    .also(length.at(), "from its tip to the end of its thread")
                    .hint("pitches of the chamfered end, such as lead = 4, and length in mm"),
            );
        }
    }
    let around = |written: &Option<Placed<Size>>| {
        written.as_ref().and_then(|written| Limits::around(written.value.0, uncertainty))
    };
    (making.log.len() == noted_before).then(|| Tap {
        thread: designation,
        major: around(&file.major),
        pitch_diameter: around(&file.pitch_diameter),
        lead: file.lead.as_ref().map_or(TapLead::Unknown, |lead| TapLead::Pitches(lead.value.0)),
        length: file.length.as_ref().map(|length| length.value.0),
    })
}

/// Notes a diameter that no tap of this thread has: a larger one for a fit, and one for another
/// class, are off by much less than a pitch; a slip of the pen or of the caliper by more.
fn is_this_tap(
    written: &Placed<Size>,
    basic: Length,
    what: &str,
    file: &RackTapFile,
    making: &mut Making,
) {
    let (read, thread) = (written.value.0, file.thread.value);
    if (read - basic).abs() <= thread.pitch() {
        return;
    }
    let message = format!("a {what} of {read} is not that of a tap {thread}");
    making.log.push(
        Diagnostic::error("rack.not-this-tap", message)
            .at(written.at())
            .also(file.thread.at(), "as it is marked")
            .hint(format!("this thread's is {basic:.3}; or write the thread that it cuts")),
    );
}
