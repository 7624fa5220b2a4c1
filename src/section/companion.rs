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

use super::outside::Pen;
use super::{Facet, Feature, Item, Part, RunOut, Section, Side, Skin, Station, Thread, ThreadForm};
use crate::quantity::{Length, Limits};
use crate::standard::iso965::{Position, ToleranceClass, fundamental_deviation};

/// Wall of a ring outside its thread, and how much wider a plug's body is than its thread, per
/// side (common practice, no source): less, and there is nothing to hold; more wastes a rod.
const BODY: Length = Length::mm(3.0);

/// Length of a plug's body (common practice, no source): what two fingers hold.
const GRASP: Length = Length::mm(15.0);

/// Width of the groove between a plug's body and its thread, in pitches (common practice, no
/// source): less, and the tool has no room to run out.
const GROOVE: f64 = 2.0;

/// How far the groove, a plug's tip and a ring's mouths pass the thread's root, per side: less,
/// and burrs stand out.
const PAST_ROOT: Length = Length::mm(0.1);

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

/// A part that can be made of a section or for it.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedPart {
    /// Its name, which is its file's: `unit-plug`, `blank-3`.
    pub name: String,
    /// What it is, for people.
    pub what: String,
    /// Its half-section.
    pub part: Part,
}

impl NamedPart {
    /// The name of the section itself among its parts.
    pub const SECTION: &str = "section";
}

impl Section {
    /// The section, what it meets, what its threads are checked with, and the blank at every
    /// stage: each by its name, always in the same order.
    pub fn parts(&self) -> Vec<NamedPart> {
        let named = |name: &str, what: &str, part| NamedPart {
            name: name.to_owned(),
            what: what.to_owned(),
            part,
        };
        let mut parts = vec![
            named(NamedPart::SECTION, "the section", self.part()),
            named("unit", "the nib unit", self.unit.part()),
            named("barrel", "a ring of the barrel's mouth", self.barrel.part()),
        ];
        parts.extend(self.cap.as_ref().map(|cap| named("cap", "the cap, inside", cap.part())));
        let nipple = self.unit.step(Item::Nipple).map(|(_, step)| step.diameter.value);
        parts.extend(self.converter.as_ref().zip(nipple).map(|(converter, nipple)| {
            named("converter", "the converter", converter.part(nipple))
        }));
        let threads = [
            ("unit-plug", "a plug to check the unit thread with", &self.unit_thread),
            ("unit-ring", "a ring to check the nib unit's thread with", &self.unit.thread),
            ("tenon-ring", "a ring to check the tenon's thread with", &self.tenon.thread),
            ("barrel-plug", "a plug to check the barrel's thread with", &self.barrel.thread),
        ];
        for (name, what, thread) in threads {
            parts.extend(check_fit(thread).map(|fit| {
                let part = match thread.side {
                    Side::Internal => plug(thread, fit),
                    Side::External => ring(thread, fit),
                };
                named(name, what, part)
            }));
        }
        for (n, (stage, part)) in (1..).zip(self.stages()) {
            parts.push(named(&format!("blank-{n}"), &format!("the blank: {stage}"), part));
        }
        parts
    }
}

/// The counterpart of a thread at its most material, `clearance` away on every diameter: its
/// crests are as round as the roots that they go into, its own roots sharp.
fn counterpart(thread: &Thread, item: Item, fit: CheckFit) -> Thread {
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
    let (from, to) = (Length::ZERO, thread.full_length());
    Thread { item, side, form, from, to, run_outs: [RunOut::Wall; 2], ..thread.clone() }
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
