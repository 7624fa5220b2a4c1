//! Threads to check threads with: a plug for an internal one, a ring for an external one.
//!
//! ```text
//!   plug     ______                       ring  _________
//!           |      |_  _________               |/////////|  chamfers at both ends
//!           |      | ||/\/\/\/\/|\             |\/\/\/\/\|
//!   axis - -| - - -|- - - - - - - |- > z       |- - - - -|- - > z
//! ```
//! They are made with the workpiece to try its thread while it is still held, and are no gauges:
//! nothing about them is calibrated.

use super::{BODY, GRASP, GROOVE, PAST_ROOT, TURNED_TO};
use crate::quantity::{Length, Limits};
use crate::section::outside::Pen;
use crate::section::{
    Facet, Feature, Item, Part, RunOut, Side, Skin, Station, Thread, ThreadForm, ThreadLimits,
};
use crate::standard::iso965::{Position, ToleranceClass, fundamental_deviation};

/// How a check thread fits the thread it is made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckFit {
    /// On the diameter, between the check thread and the checked one at its most material: the
    /// checked thread must be this much on the free side of its class's limit to go at all.
    pub clearance: Length,
}

/// The fit of a check thread for a thread of this pitch and class: the fundamental deviation of
/// position g (ISO 965-1:1998, clause 13), which a 6g thread has in a 6H one. For a class finer
/// than grade 6 half of it (common practice, no source). None for a pitch outside 0.2 to 8 mm.
pub fn check_fit(thread: &Thread) -> Option<CheckFit> {
    /// The grade of the medium fit (ISO 965-1, 6H/6g).
    const MEDIUM: u8 = 6;
    let deviation = fundamental_deviation(Position::ExternalG, thread.form.pitch).ok()?.abs();
    let grade = thread.designation.class().map_or(MEDIUM, ToleranceClass::pitch_grade);
    let clearance = if grade < MEDIUM { deviation / 2.0 } else { deviation };
    Some(CheckFit { clearance })
}

/// The counterpart of a thread at its most material, `clearance` away on every diameter, without
/// class and with limits of its own: its crests are as round as the roots that they go into, its
/// own roots sharp.
pub(super) fn counterpart(thread: &Thread, item: Item, fit: CheckFit) -> Thread {
    let (limits, away) = (&thread.limits, fit.clearance);
    let sizes = |limit: fn(Limits) -> Length, away: Length| {
        [limits.minor, limits.pitch, limits.major].map(|size| limit(size) + away)
    };
    let (side, [crest, pitch_diameter, root]) = match thread.side {
        Side::Internal => {
            let [minor, pitch, major] = sizes(Limits::min, -away);
            (Side::External, [major, pitch, minor])
        }
        Side::External => (Side::Internal, sizes(Limits::max, away)),
    };
    let form = ThreadForm {
        flank: thread.form.flank.mating(thread.form.pitch),
        crest,
        pitch_diameter,
        root,
        crest_radius: thread.form.root_radius,
        root_radius: Length::ZERO,
        ..thread.form.clone()
    };
    let limits = own_limits(side, &form);
    let designation = thread.designation.with_class(None);
    let (from, to, run_outs) = (Length::ZERO, thread.full_length(), [RunOut::Wall; 2]);
    Thread { item, side, designation, form, from, to, run_outs, limits, ..thread.clone() }
}

/// What a check thread itself may be off, all of it to the free side: a check that rubs where the
/// checked thread is right tells nothing.
fn own_limits(side: Side, form: &ThreadForm) -> ThreadLimits {
    let free = |size: Length| {
        let limits = match side {
            Side::External => Limits::new(size - TURNED_TO, size),
            Side::Internal => Limits::new(size, size + TURNED_TO),
        };
        limits.unwrap_or(Limits::exactly(size))
    };
    let (major, minor) = match side {
        Side::External => (form.crest, form.root),
        Side::Internal => (form.root, form.crest),
    };
    ThreadLimits { major: free(major), pitch: free(form.pitch_diameter), minor: free(minor) }
}

/// A plug for an internal thread: body, groove, thread as long as the checked one is at full depth,
/// lead chamfer of 45 degrees. z = 0 is the groove's end, where the thread begins.
pub fn plug(thread: &Thread, fit: CheckFit) -> Part {
    let cut = counterpart(thread, Item::PlugThread, fit);
    let (form, end) = (&cut.form, cut.to);
    let zero = Length::ZERO;
    let body = form.crest + BODY * 2.0;
    let thin = form.root - PAST_ROOT * 2.0;
    let lead = ((form.crest - thin) / 2.0).min(end / 2.0);
    let groove = zero - form.pitch * GROOVE;
    let name = Feature::new;
    let mut pen = Pen::start(Station::new(zero, groove - GRASP));
    pen.to(name(Item::Plug, Facet::Floor), Skin::End, body, groove - GRASP);
    pen.to(name(Item::Plug, Facet::Side), Skin::Outside, body, groove);
    pen.to(name(Item::Plug, Facet::Floor), Skin::Outside, thin, groove);
    pen.to(name(Item::Relief, Facet::Side), Skin::Outside, thin, zero);
    pen.to(name(Item::Relief, Facet::Floor), Skin::Outside, form.crest, zero);
    pen.to(name(Item::PlugThread, Facet::Side), Skin::Outside, form.crest, end - lead);
    let tip = form.crest - lead * 2.0;
    pen.to(name(Item::PlugThread, Facet::Chamfer), Skin::Outside, tip, end);
    pen.to(name(Item::PlugThread, Facet::Floor), Skin::End, zero, end);
    Part { runs: pen.finish(), threads: vec![cut] }.snapped()
}

/// A ring for an external thread, as long as the thread, with a lead chamfer of 45 degrees at
/// both ends. z = 0 is its front face.
pub fn ring(thread: &Thread, fit: CheckFit) -> Part {
    let cut = counterpart(thread, Item::RingThread, fit);
    let (form, end) = (&cut.form, cut.to);
    let zero = Length::ZERO;
    let lead = ((form.root - form.crest) / 2.0 + PAST_ROOT).min(end / 4.0);
    let (mouth, body) = (form.crest + lead * 2.0, form.root + BODY * 2.0);
    let name = Feature::new;
    let mut pen = Pen::start(Station::new(mouth, zero));
    pen.to(name(Item::Ring, Facet::Floor), Skin::End, body, zero);
    pen.to(name(Item::Ring, Facet::Side), Skin::Outside, body, end);
    pen.to(name(Item::Ring, Facet::Floor), Skin::End, mouth, end);
    pen.to(name(Item::RingThread, Facet::Chamfer), Skin::Bore, form.crest, end - lead);
    pen.to(name(Item::RingThread, Facet::Side), Skin::Bore, form.crest, lead);
    pen.to(name(Item::RingThread, Facet::Chamfer), Skin::Bore, mouth, zero);
    Part { runs: pen.finish(), threads: vec![cut] }.snapped()
}
