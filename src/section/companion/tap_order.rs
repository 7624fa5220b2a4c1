//! What a toolmaker has to know to make the tap of the unit's thread: a sheet, no solid.

use super::{Flutes, GRASP, up};
use crate::quantity::{Angle, Length, Limits};
use crate::section::{Bore, Flank, Item, Mouth, Section, SizingTap};
use crate::standard::designation::{Hand, ThreadDesignation};
use crate::standard::iso237::{SquaredShank, shank_within};
use crate::standard::iso2857::{self, TapClass};
use crate::standard::{System, ToleranceClass, iso68, iso724};

/// Pitches of full thread on the tap (common practice, no source): fewer, and it has no guide when
/// it is ground again; more only rubs.
const FULL_THREAD: f64 = 10.0;

/// How far the shank stays before the front face at full depth (common practice, no source).
const BEFORE_FACE: Length = Length::mm(3.0);

/// Width of the pitch diameter's limits where ISO 2857 has none for the thread (common practice,
/// no source): as wide as class 2 gives a thread of pen sizes.
const WIDTH: Length = Length::mm(0.02);

/// The hole that is tapped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapEnd {
    /// It is narrower, or ends, behind the thread, and leaves this much room for the tap's lead.
    Blind {
        /// From the end of full thread to the end of the hole.
        room: Length,
    },
    /// The tap can go on to the back face.
    Through,
}

/// An order for a tap.
#[derive(Clone, Debug, PartialEq)]
pub struct TapOrder {
    /// The thread that is to be cut.
    pub thread: ThreadDesignation,
    /// Which way it winds.
    pub hand: Hand,
    /// Its number of starts.
    pub starts: u32,
    /// The tap's class by ISO 2857; none for a thread that the standard does not cover.
    pub class: Option<TapClass>,
    /// Basic pitch diameter of the thread.
    pub basic_pitch_diameter: Length,
    /// What ISO 2857 makes the tap's own pitch diameter, in a material that leaves the thread as
    /// wide as its tap.
    pub pitch_without_spring_back: Limits,
    /// How much narrower than its tap the material leaves a thread, on the diameter.
    pub spring_back: Limits,
    /// The limits of the tap's own pitch diameter: those, and all of the spring-back.
    pub pitch_diameter: Limits,
    /// Its least major diameter, all of the spring-back on top.
    pub least_major: Length,
    /// The hole that is tapped.
    pub hole: Length,
    /// Whether it is blind.
    pub end: TapEnd,
    /// The lead, in pitches.
    pub lead_pitches: f64,
    /// The lead, along the axis.
    pub lead: Length,
    /// Lead and full thread, along the axis.
    pub thread_length: Length,
    /// From the tip to where the shank may begin: what goes into the part.
    pub reach: Length,
    /// From end to end.
    pub length: Length,
    /// The flutes.
    pub flutes: Flutes,
    /// Between a flute's face and the radius to its edge.
    pub rake: Angle,
    /// The shank and its square.
    pub shank: SquaredShank,
    /// What is tapped.
    pub material: String,
    /// How many are wanted.
    pub quantity: u32,
}

impl Section {
    /// The order for the tap of its unit thread.
    pub fn tap_order(&self) -> TapOrder {
        let thread = &self.unit_thread;
        let (designation, form) = (thread.designation, &thread.form);
        let spring_back = self.criteria.spring_back.value;
        let (d, p) = (designation.diameter(), form.pitch);
        let class =
            TapClass::cutting(designation.class().unwrap_or(ToleranceClass::MEDIUM_INTERNAL));
        let of_standard = designation.system() == System::Metric
            && form.half_angle == iso68::HALF_ANGLE
            && form.flank == Flank::Straight;
        let standard = iso2857::limits(d, p, class).ok().filter(|_| of_standard);
        let basic = if of_standard { iso724::basic_sizes(d, p).pitch } else { form.pitch_diameter };
        let (pitch, major) = standard.map_or_else(
            || {
                let low = form.pitch_diameter;
                let width = Limits::new(low, low + WIDTH).unwrap_or(Limits::exactly(low));
                (width, form.root)
            },
            |limits| (limits.pitch, limits.major_min),
        );
        let back = spring_back.max();
        let over = Limits::new(pitch.min() + back, pitch.max() + back).unwrap_or(pitch);
        let lead_pitches = self.tap_lead();
        let lead = p * lead_pitches;
        let allowance = self.allowance.facing + self.allowance.sanding;
        let thread_length = up(lead + (p * FULL_THREAD).max(thread.length()), 1.0);
        let reach = up((thread.to + lead + allowance + BEFORE_FACE).max(thread_length), 1.0);
        let shank = shank_within(major + back);
        TapOrder {
            thread: designation,
            hand: form.hand,
            starts: form.starts,
            class: standard.map(|_| class),
            basic_pitch_diameter: basic,
            pitch_without_spring_back: pitch,
            spring_back,
            pitch_diameter: over,
            least_major: major + back,
            hole: form.crest,
            end: self.tap_end(),
            lead_pitches,
            lead,
            thread_length,
            reach,
            length: up(reach + GRASP + shank.square_length, 1.0),
            flutes: Flutes::of(major),
            rake: SizingTap::RAKE,
            shank,
            material: self.material.clone(),
            quantity: 1,
        }
    }

    /// Whether the tap can go on to the back face: no hole narrower than the one that is tapped,
    /// and no solid, behind it.
    fn tap_end(&self) -> TapEnd {
        let (length, end) = (self.length(), self.tapped_hole_end());
        let crest = self.unit_thread.form.crest;
        let passes = |bore: &&Bore| bore.diameter >= crest;
        let reaches = self.bores.iter().filter(passes).fold(end, |reach, bore| {
            let [from, to] = bore.full(length);
            let opens = bore.mouth == Mouth::Back || bore.item == Item::ThroughBore;
            if opens && from <= reach { reach.max(to) } else { reach }
        });
        if reaches >= length {
            TapEnd::Through
        } else {
            TapEnd::Blind { room: end - self.unit_thread.to }
        }
    }
}
