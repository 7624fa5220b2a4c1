//! A tap of the unit's thread, a stated amount over size, that clears a thread that binds.
//!
//! ```text
//!   r ^                        neck   ____________________
//!     |   lead  /\/\/\/\/\/\/|_______|  shank      |square|
//!     | _/\/\/\/                     |             |      |
//!     +---------------------------------------------------> z
//! ```
//! The solid is the body of revolution with the thread; flutes and square are drawn and not in it.
//! Its own axis: z = 0 is the tip.

use super::Flutes;
use super::{GRASP, GROOVE, HALVES, PAST_ROOT, TENTHS, TURNED_TO, down, up};
use crate::quantity::{Angle, Length, Limits};
use crate::section::outside::Pen;
use crate::section::{
    Facet, Feature, Item, Part, RunOut, Section, Side, Skin, Station, Thread, ThreadForm,
    ThreadLimits,
};
use crate::standard::iso237::{SquaredShank, shank_within};

/// How much wider than the thread it clears the tap is, on pitch and major diameter (common
/// practice, no source): more than any tap of class 2 is by itself (0.5 t, ISO 2857), or it would
/// cut nothing behind one; less than the tolerance of 6H (1.25 t), or the unit shakes. t is about
/// 0.1 in pen sizes.
const OVERSIZE: Length = Length::mm(0.08);

/// How far the root stays under the hole that is tapped, per side, where the form goes so deep:
/// less, and the tap scrapes the thread's crests.
const UNDER_HOLE: Length = Length::mm(0.05);

/// The least flat of the tap's root, in pitches (common practice, no source): less, and the tool
/// that cuts it has no edge.
const LEAST_FLAT: f64 = 1.0 / 16.0;

/// The least lead, in pitches (common practice, no source): less, and it starts crossed.
const LEAST_LEAD: f64 = 1.0;

/// Pitches of full thread beyond the thread that is cleared (common practice, no source): less,
/// and the tap is not guided by what it has cleared.
const BEYOND: f64 = 2.0;

/// How far the shank stays before the front face at full depth (common practice, no source):
/// less, and it marks the face.
const BEFORE_FACE: Length = Length::mm(1.0);

/// A sizing tap.
#[derive(Clone, Debug, PartialEq)]
pub struct SizingTap {
    /// The tap's own thread; `from` is the tip, `to` the end of full thread. Its designation is
    /// that of the thread it clears, without class.
    pub thread: Thread,
    /// How far pitch and major diameter are over those of the thread that it clears.
    pub oversize: Length,
    /// The lead chamfer, in pitches.
    pub lead_pitches: f64,
    /// The lead chamfer, along the axis.
    pub lead: Length,
    /// Diameter at the tip.
    pub tip: Length,
    /// Diameter of the neck.
    pub neck: Length,
    /// Where the neck ends and the shank begins.
    pub neck_to: Length,
    /// The shank, with the square at its end.
    pub shank: SquaredShank,
    /// From the tip to the end of the shank.
    pub length: Length,
    /// The flutes.
    pub flutes: Flutes,
    /// Between a flute's face and the radius to its edge.
    pub rake: Angle,
    /// What it is made of.
    pub steel: &'static str,
    /// How hard it is when it is tempered, Rockwell C: least and most.
    pub hardness_hrc: [u32; 2],
}

impl SizingTap {
    /// Between a flute's face and the radius (common practice, no source): more, and the edge
    /// bites into a brittle resin and breaks its crests; less, and it rubs.
    pub const RAKE: Angle = Angle::deg(0.0);

    /// A steel that is hardened in a small shop (common practice, no source).
    pub const STEEL: &str = "silver steel or O1 tool steel";

    /// Rockwell C after tempering (common practice, no source): harder, and thin teeth chip;
    /// softer, and they bend.
    pub const HARDNESS_HRC: [u32; 2] = [58, 60];
}

impl Section {
    /// The tap that clears its unit thread.
    pub fn sizing_tap(&self) -> SizingTap {
        let cleared = &self.unit_thread;
        let form = oversize_form(cleared);
        let pitch = form.pitch;
        let lead_pitches = self.tap_lead();
        let lead = pitch * lead_pitches;
        let to = up(lead + cleared.length() + pitch * BEYOND, HALVES);
        let depth = cleared.to + lead + self.allowance.facing + self.allowance.sanding;
        let neck_to = up((depth + BEFORE_FACE).max(to + pitch * GROOVE), HALVES);
        let shank = shank_within(form.crest);
        // No neck where the shank is thinner than the root.
        let neck = down(form.root - PAST_ROOT * 2.0, TENTHS).min(shank.diameter);
        let around = |size| Limits::around(size, TURNED_TO).unwrap_or(Limits::exactly(size));
        let limits = ThreadLimits {
            major: around(form.crest),
            pitch: around(form.pitch_diameter),
            minor: Limits::exactly(form.root),
        };
        let flutes = Flutes::of(form.crest);
        let tip = form.root - PAST_ROOT * 2.0;
        let thread = Thread {
            item: Item::TapThread,
            side: Side::External,
            designation: cleared.designation.with_class(None),
            form,
            from: Length::ZERO,
            to,
            phase: Length::ZERO,
            run_outs: [RunOut::Wall; 2],
            limits,
        };
        SizingTap {
            thread,
            oversize: OVERSIZE,
            lead_pitches,
            lead,
            tip,
            neck,
            neck_to,
            length: up(neck_to + GRASP + shank.square_length, 1.0),
            shank,
            flutes,
            rake: SizingTap::RAKE,
            steel: SizingTap::STEEL,
            hardness_hrc: SizingTap::HARDNESS_HRC,
        }
    }

    /// Pitches of the unit thread's tap's lead: what its thread's run-out says, else what is usual
    /// in the material, no more than the hole behind the thread has room for, and one at least.
    pub(super) fn tap_lead(&self) -> f64 {
        let thread = &self.unit_thread;
        let pitch = thread.form.pitch;
        let usual = match thread.run_outs[1] {
            RunOut::Lead(length) => length / pitch,
            RunOut::Wall | RunOut::Withdrawal { .. } => self.criteria.tap_lead.value,
        };
        let room = (self.tapped_hole_end() - thread.to) / pitch;
        // In half pitches; the noise of a quotient is none.
        let halves = |pitches: f64| (pitches * HALVES + 1e-6).floor() / HALVES;
        halves(usual.min(room)).max(LEAST_LEAD)
    }

    /// Where the hole that is tapped ends.
    pub(super) fn tapped_hole_end(&self) -> Length {
        let length = self.length();
        self.bore(Item::TapDrill).map_or(length, |bore| bore.full(length)[1])
    }
}

/// The form of a tap that is over size for a thread: crest and pitch line moved out, the root
/// under the hole where that leaves a root at all, else moved out as well.
fn oversize_form(cleared: &Thread) -> ThreadForm {
    let own = &cleared.form;
    let form = |root: Length| ThreadForm {
        flank: own.flank.mating(own.pitch),
        crest: own.root + OVERSIZE,
        pitch_diameter: own.pitch_diameter + OVERSIZE,
        root,
        crest_radius: own.root_radius,
        root_radius: Length::ZERO,
        ..own.clone()
    };
    let hole = own.crest.min(cleared.limits.minor.min());
    let deep = form(hole - UNDER_HOLE * 2.0);
    let cuts = !deep.flank_runs().is_empty() && deep.root_flat() >= deep.pitch * LEAST_FLAT;
    if cuts { deep } else { form(own.crest + OVERSIZE) }
}

impl SizingTap {
    /// Its solid, without flutes and square.
    pub fn part(&self) -> Part {
        let zero = Length::ZERO;
        let name = Feature::new;
        let (form, to) = (&self.thread.form, self.thread.to);
        let mut pen = Pen::start(Station::new(zero, zero));
        pen.to(name(Item::TapThread, Facet::Floor), Skin::End, self.tip, zero);
        pen.to(name(Item::TapThread, Facet::Chamfer), Skin::Outside, form.crest, self.lead);
        pen.to(name(Item::TapThread, Facet::Side), Skin::Outside, form.crest, to);
        pen.to(name(Item::TapNeck, Facet::Floor), Skin::Outside, self.neck, to);
        pen.to(name(Item::TapNeck, Facet::Side), Skin::Outside, self.neck, self.neck_to);
        let shank = self.shank.diameter;
        pen.to(name(Item::Shank, Facet::Floor), Skin::Outside, shank, self.neck_to);
        pen.to(name(Item::Shank, Facet::Side), Skin::Outside, shank, self.length);
        pen.to(name(Item::Shank, Facet::Floor), Skin::End, zero, self.length);
        Part { runs: pen.finish(), threads: vec![self.thread.clone()] }.snapped()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard::iso724::basic_sizes;
    use crate::standard::iso965::{Quantity, tolerance};
    use crate::standard::iso2857::{TapClass, limits};

    /// Source: ISO 2857 and ISO 965-1, for the pitches and diameters of pens.
    #[test]
    fn it_is_wider_than_a_tap_and_leaves_a_thread_of_its_class() {
        for pitch in [0.35, 0.5, 0.55, 0.6, 0.75, 1.0].map(Length::mm) {
            for diameter in [6.0, 7.9, 8.05, 10.0].map(Length::mm) {
                let tap = limits(diameter, pitch, TapClass::Two).unwrap().pitch.max();
                assert!(tap - basic_sizes(diameter, pitch).pitch < OVERSIZE, "{diameter} {pitch}");
                let class = tolerance(Quantity::PitchInternal, diameter, pitch, 6).unwrap();
                assert!(OVERSIZE < class, "{diameter} {pitch}: {class}");
            }
        }
    }
}
