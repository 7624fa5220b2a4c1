//! What can be made beside the section: what it meets, what its threads are checked with, what it
//! is held by, what clears a thread that binds, and the blank at every stage.
//!
//! ```text
//!   check_thread   plug and ring for every thread      bushing    holds the section by its tenon
//!   lip_plug       supports the lip                    sizing_tap clears the unit's thread
//!   tap_order      what a toolmaker has to know to make the unit thread's tap
//! ```

mod bushing;
mod check_thread;
mod flutes;
mod lip_plug;
mod part_kind;
mod sizing_tap;
mod tap_order;

pub use bushing::Bushing;
pub use check_thread::{CheckFit, check_fit, plug, ring};
pub use flutes::Flutes;
pub use lip_plug::{Bearing, LipPlug, Stub};
pub use part_kind::{NamedPart, PartKind};
pub use sizing_tap::SizingTap;
pub use tap_order::{TapEnd, TapOrder};

use super::{Item, Section, Side};
use crate::quantity::Length;

/// Wall of a ring or bushing outside its thread, and how much wider a plug's body is than its
/// thread, per side (common practice, no source): less, and there is nothing to hold; more wastes
/// a rod.
const BODY: Length = Length::mm(3.0);

/// Length by which a part is held (common practice, no source): what two fingers or a collet grip.
const GRASP: Length = Length::mm(15.0);

/// Width of the groove between a body and its thread, in pitches (common practice, no source):
/// less, and the tool has no room to run out.
const GROOVE: f64 = 2.0;

/// How far a groove, a plug's tip, a ring's mouths and the bores at the ends of a bushing's thread
/// pass the thread's root, per side: less, and burrs stand out.
const PAST_ROOT: Length = Length::mm(0.1);

/// How near a thread can be turned by measuring over wires (common practice, no source): to either
/// side of what a tap is over by, to the free side of a check. Wider, and neither is what it says;
/// narrower, and a small shop can't hold it.
const TURNED_TO: Length = Length::mm(0.01);

/// Steps in a millimetre of lengths, of diameters that are easily set by a dial, and of fits.
const HALVES: f64 = 2.0;
pub(super) const TENTHS: f64 = 10.0;
const HUNDREDTHS: f64 = 100.0;

/// The next size, up, of so many in a millimetre.
pub(super) fn up(size: Length, per_mm: f64) -> Length {
    Length::mm((size.as_mm() * per_mm - ON_A_STEP).ceil() / per_mm)
}

/// The next size, down, of so many in a millimetre.
fn down(size: Length, per_mm: f64) -> Length {
    Length::mm((size.as_mm() * per_mm + ON_A_STEP).floor() / per_mm)
}

/// A size this near to a step, in steps, is on it: the noise of a sum of decimals. Larger, and a
/// fit would lose some of its clearance; smaller, and 10.3 would become 10.4.
const ON_A_STEP: f64 = 1e-6;

impl Section {
    /// Every part that can be made of the section or for it, each by its name, always in the order
    /// of [`NamedPart::FIXED`] and then the blank at every stage.
    ///
    /// Left out is what the section does not have: a cap or converter that nobody described, a
    /// check of a thread whose pitch has no fit ([`check_fit`]), a bushing for a shoulder without
    /// a face ([`Section::bushing`]), a plug for a front without a place to bear on
    /// ([`Section::lip_plug`]).
    pub fn parts(&self) -> Vec<NamedPart> {
        let mut parts = self.mates();
        parts.extend(self.checks());
        parts.extend(self.bushing().map(|bushing| {
            let what = "a bushing to hold the section by its tenon";
            NamedPart::new("bushing", PartKind::Bushing, what, bushing.part())
        }));
        parts.extend(self.lip_plug().map(|plug| {
            let what = format!("a plug to support the lip, bearing on the {}", plug.bearing);
            NamedPart::new("lip-plug", PartKind::LipPlug, what, plug.part())
        }));
        let tap = self.sizing_tap();
        let what = format!(
            "a tap to clear the unit thread, {} over size, without its flutes and square",
            tap.oversize
        );
        parts.push(NamedPart::new("sizing-tap", PartKind::SizingTap, what, tap.part()));
        for (n, (stage, part)) in (1..).zip(self.stages()) {
            let (name, what) = (format!("blank-{n}"), format!("the blank: {stage}"));
            parts.push(NamedPart::new(name, PartKind::Blank, what, part));
        }
        parts
    }

    /// The section and what it meets.
    fn mates(&self) -> Vec<NamedPart> {
        let section = NamedPart::SECTION;
        let mut parts = vec![
            NamedPart::new(section, PartKind::Section, "the section", self.part()),
            NamedPart::new("unit", PartKind::Unit, "the nib unit", self.unit.part()),
        ];
        let what = "a ring of the barrel's mouth";
        parts.push(NamedPart::new("barrel", PartKind::Barrel, what, self.barrel.part()));
        let cap = |part| NamedPart::new("cap", PartKind::Cap, "the cap, inside", part);
        parts.extend(self.cap.as_ref().map(|it| cap(it.part())));
        let nipple = self.unit.step(Item::Nipple).map(|(_, step)| step.diameter.value);
        parts.extend(self.converter.as_ref().zip(nipple).map(|(converter, nipple)| {
            let part = converter.part(nipple);
            NamedPart::new("converter", PartKind::Converter, "the converter", part)
        }));
        parts
    }

    /// What its threads, and those that they meet, are checked with.
    fn checks(&self) -> impl Iterator<Item = NamedPart> {
        let threads = [
            ("check-plug", "the unit thread", &self.unit_thread),
            ("unit-ring", "the nib unit's thread", &self.unit.thread),
            ("check-ring", "the tenon's thread", &self.tenon.thread),
            ("barrel-plug", "the barrel's thread", &self.barrel.thread),
        ];
        threads.into_iter().filter_map(|(name, of, thread)| {
            let fit = check_fit(thread)?;
            let (shape, kind, part) = match thread.side {
                Side::Internal => ("plug", PartKind::CheckPlug, plug(thread, fit)),
                Side::External => ("ring", PartKind::CheckRing, ring(thread, fit)),
            };
            let what = format!("a {shape}, no gauge, to check {of} with");
            Some(NamedPart::new(name, kind, what, part))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand; the sums are off their decimals in the last binary digit.
    #[test]
    fn sizes_on_a_step_stay_there() {
        for (size, above, below) in [(10.3, 10.3, 10.3), (10.31, 10.4, 10.3), (0.1 + 0.2, 0.3, 0.3)]
        {
            let size = Length::mm(size);
            assert_eq!([up(size, TENTHS), down(size, TENTHS)], [above, below].map(Length::mm));
        }
    }
}
