//! The unit's thread cut by a tap: how far, how many turns, and which tap.

use crate::quantity::{Length, Limits};
use crate::section::{Item, RunOut, Section, Tap, TapLead, Thread, Workshop};

/// How a thread is tapped; lengths are from the front face as it is then.
#[derive(Clone, Debug, PartialEq)]
pub struct Tapping {
    /// The tap at hand that fits; none: it has to be ordered.
    pub tap: Option<Tap>,
    /// Pitches of its lead.
    pub lead_pitches: f64,
    /// Whether nobody measured that: it is what is usual.
    pub lead_assumed: bool,
    /// Where the full thread ends.
    pub full_to: Length,
    /// Where the tap's tip stands then: the mark on the tap, counted from its tip.
    pub mark: Length,
    /// Where the hole that takes the lead gets narrower; the tip must not come there.
    pub room_to: Option<Length>,
    /// Turns from the tap's first bite at the thread's beginning to the mark.
    pub turns: f64,
    /// How far one turn goes.
    pub per_turn: Length,
}

impl Tapping {
    /// The unit's thread of a cut, in a section, with what is at hand.
    pub fn of(thread: &Thread, section: &Section, to_come: Length, workshop: &Workshop) -> Self {
        let (pitch, per_turn) = (thread.form.pitch, thread.form.lead());
        let spring_back = section.criteria.spring_back.value;
        let tap = workshop.taps.iter().find(|tap| fits(tap, thread, spring_back)).cloned();
        let (lead, lead_assumed) = match (thread.run_outs[1], tap.as_ref().map(|tap| tap.lead)) {
            (RunOut::Lead(length), _) => (length / pitch, false),
            (_, Some(TapLead::Pitches(pitches))) => (pitches, false),
            _ => (section.criteria.tap_lead.value, true),
        };
        let full_to = thread.full()[1];
        let mark = full_to + pitch * lead;
        let hole = section.bore(Item::TapDrill);
        let room_to = hole.map(|hole| hole.full_depth(section.length()) + to_come);
        Self {
            tap,
            lead_pitches: lead,
            lead_assumed,
            full_to,
            mark,
            room_to,
            turns: (mark - thread.from) / per_turn,
            per_turn,
        }
    }
}

impl Tapping {
    /// How far the tip would go beyond the end of its hole; none where it has room.
    pub fn beyond(&self) -> Option<Length> {
        let beyond = self.mark - self.room_to?;
        (beyond > Length::mm(1e-6)).then_some(beyond)
    }
}

/// Whether a tap cuts a thread: its diameter, pitch, starts and hand; and, where it was measured,
/// whether what it leaves, sprung back, may lie within the thread's limits.
fn fits(tap: &Tap, thread: &Thread, spring_back: Limits) -> bool {
    let named = tap.thread.with_class(None) == thread.designation.with_class(None);
    let within = |measured: Option<Limits>, limits: Limits| {
        measured.is_none_or(|own| {
            own.max() - spring_back.min() >= limits.min()
                && own.min() - spring_back.max() <= limits.max()
        })
    };
    named
        && within(tap.pitch_diameter, thread.limits.pitch)
        && within(tap.major, thread.limits.major)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};
    use crate::shop::fixture::bare;

    /// By hand: the demo's thread of 0.6 pitch runs from 4.3 to 10.9; 3 pitches of lead are 1.8, so
    /// the tip goes 8.4 beyond where it bites: 14 turns.
    #[test]
    fn turns_and_mark_of_the_demo() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let of = |to_come: f64| {
            let by = Length::mm(to_come);
            let thread = Thread {
                from: section.unit_thread.from + by,
                to: section.unit_thread.to + by,
                ..section.unit_thread.clone()
            };
            Tapping::of(&thread, &section, by, &bare())
        };
        for to_come in [0.0, 0.05] {
            let found = of(to_come);
            assert!((found.mark.as_mm() - (12.7 + to_come)).abs() < 1e-9);
            assert!((found.turns - 14.0).abs() < 1e-9);
            assert!((found.room_to.unwrap().as_mm() - (13.3 + to_come)).abs() < 1e-9);
        }
        assert!(of(0.0).tap.is_none());
    }

    #[test]
    fn a_tap_fits_whatever_its_class() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let tap = |text: &str| Tap {
            thread: text.parse().unwrap(),
            major: None,
            pitch_diameter: None,
            lead: TapLead::Pitches(5.0),
            length: None,
        };
        for (text, serves) in [("M7.9x0.6-6G", true), ("M7.9x0.6-LH", false), ("M8x0.6", false)] {
            let workshop = Workshop { taps: vec![tap(text)], ..bare() };
            let found = Tapping::of(&section.unit_thread, &section, Length::ZERO, &workshop);
            assert_eq!(found.tap.is_some(), serves, "{text}");
            assert_eq!(found.lead_pitches, if serves { 5.0 } else { 3.0 }, "{text}");
        }
    }

    /// A tap that was measured and cuts another thread is none for this one; a lead that does not fit
    /// the hole is told.
    #[test]
    fn a_tap_that_was_measured_has_to_fit() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let tap = |pitch_diameter: f64, lead: f64| Tap {
            thread: "M7.9x0.6".parse().unwrap(),
            major: None,
            pitch_diameter: Limits::around(Length::mm(pitch_diameter), Length::mm(0.01)),
            lead: TapLead::Pitches(lead),
            length: None,
        };
        let of = |tap: Tap| {
            let workshop = Workshop { taps: vec![tap], ..bare() };
            Tapping::of(&section.unit_thread, &section, Length::ZERO, &workshop)
        };
        assert!(of(tap(7.1, 3.0)).tap.is_none());
        let fits = of(tap(7.55, 3.0));
        assert!(fits.tap.is_some() && fits.beyond().is_none());
        // Nine pitches are 5.4: the tip at 16.3, and the hole ends at 13.3.
        let beyond = of(tap(7.55, 9.0)).beyond().unwrap();
        assert!((beyond.as_mm() - 3.0).abs() < 1e-9);
    }
}
