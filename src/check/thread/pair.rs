//! A pair of threads: as modelled, at its loosest and its tightest; the verdicts on it.

use super::checks::Checks;
use super::mating::{Mating, mate};
use crate::check::bodies::{Built, Extremes, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge, worse};
use crate::check::slide::{Rest, Slide};
use crate::check::{Bound, Finding};
use crate::quantity::Length;
use crate::section::{Item, Limit, PercentLimits};
use crate::size::words;
use crate::solid::CutThread;
use crate::standard::percent::{self, Base};

/// What of an inner body rests on what of the outer one.
pub(super) struct Seat<'a> {
    pub inner: Item,
    pub outer: &'a [Item],
}

impl Seat<'_> {
    /// Where the inner body of a slide rests.
    pub fn rest(&self, slide: &Slide) -> Rest {
        Rest::of(&slide.contacts(), self.inner, self.outer)
    }
}

/// What ends the screwing.
pub(super) enum Stop<'a> {
    /// The inner body comes from the front and rests.
    Seat(Seat<'a>),
    /// The outer body comes from the front and stands with its z = 0 so far before the inner one's:
    /// z of the outer body at z = 0 of the inner one.
    At(f64),
}

/// Two parts that are screwed together.
pub(in crate::check) struct Pair<'a> {
    pub model: &'a Model<'a>,
    pub checks: &'static Checks,
    pub inner: &'a Extremes,
    pub inner_thread: Item,
    pub outer: &'a Extremes,
    pub outer_thread: Item,
    pub stop: Stop<'a>,
    /// Whether the inner part was bought and read: its extremes are then the readings'
    /// uncertainty, else tolerances like the outer part's.
    pub inner_was_read: bool,
    /// z of the section at z = 0 of the outer body.
    pub origin: f64,
    /// Pitches that the inner thread may have by its reading, beside its own.
    pub other_pitches: &'a [Length],
    /// By how much the outer thread may close in on its tap, on the diameter.
    pub closes_in: Length,
    /// Which of both threads is the section's.
    pub own: Item,
    /// Shear strength of the section's material in N/mm2, if it is known.
    pub shear: Option<&'a Limit<f64>>,
    pub percent: &'a PercentLimits,
    pub least_turns: &'a Limit<f64>,
    /// The band, in millimetres.
    pub band: f64,
}

/// The pair as modelled, with the least material and with the most; once with the readings as
/// read and once at their limits.
pub(super) struct States {
    pub drawn: Mating,
    pub loose: Mating,
    pub loose_read: Mating,
    pub tight: Mating,
    pub tight_read: Mating,
    /// The worst of the other pitches that the reading allows, with what it does.
    pub rival: Option<(Length, Mating)>,
}

impl Pair<'_> {
    /// z of the outer body at z = 0 of the inner one, screwed home.
    pub(super) fn advance(&self, inner: &Built, outer: &Built) -> f64 {
        match &self.stop {
            Stop::Seat(seat) => {
                let slide = || Slide::new((inner, self.inner_thread), (outer, self.outer_thread));
                self.model.rest(inner, outer, || seat.rest(&slide())).advance()
            }
            Stop::At(z) => *z,
        }
    }

    /// The threads of two of the pair's bodies: internal, external.
    pub(super) fn threads<'b>(
        &self,
        inner: &'b Built,
        outer: &'b Built,
    ) -> Option<[&'b CutThread; 2]> {
        Some([outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?])
    }

    /// What both threads do to each other.
    pub(super) fn mating(&self, inner: &Built, outer: &Built) -> Option<Mating> {
        let [internal, external] = self.threads(inner, outer)?;
        Some(mate(internal, external, self.advance(inner, outer)))
    }

    pub(super) fn states(&self) -> Option<States> {
        let Self { inner, outer, .. } = self;
        let (least, most) = if self.inner_was_read {
            (&inner.drawn, &inner.drawn)
        } else {
            (&inner.least, &inner.most)
        };
        Some(States {
            drawn: self.mating(&inner.drawn, &outer.drawn)?,
            loose: self.mating(least, &outer.least)?,
            loose_read: self.mating(&inner.least, &outer.least)?,
            tight: self.mating(most, &outer.most)?,
            tight_read: self.mating(&inner.most, &outer.most)?,
            rival: self.rival(),
        })
    }

    /// The tightest state with the pitch, of those that the reading allows, that takes most play.
    fn rival(&self) -> Option<(Length, Mating)> {
        let (inner, outer) = (&self.inner.most, &self.outer.most);
        let [internal, external] = self.threads(inner, outer)?;
        let advance = (!self.other_pitches.is_empty()).then(|| self.advance(inner, outer))?;
        let matings = self.other_pitches.iter().map(|pitch| {
            let other = CutThread { pitch: pitch.as_mm(), ..external.clone() };
            (*pitch, mate(internal, &other, advance))
        });
        matings.reduce(|a, b| if b.1.play < a.1.play { b } else { a })
    }

    /// The four findings.
    pub fn findings(&self) -> Vec<Finding> {
        let Some(states) = self.states() else { return Vec::new() };
        vec![self.height(&states), self.length(&states), self.play(&states), self.crests(&states)]
    }

    /// Percent of full depth, between a low and a high limit.
    ///
    /// No band: the sizes come from tap, die and drill, within the limits at which they are
    /// judged, and not from turning.
    fn height(&self, states: &States) -> Finding {
        let States { drawn, loose, loose_read, tight, tight_read, .. } = states;
        let of = |m: &Mating| m.percent.full_depth;
        let pitch = Length::mm(self.outer.drawn.thread(self.outer_thread).map_or(1.0, |t| t.pitch));
        let error = percent::of_overlap(Length::mm(ROUNDING), pitch, Base::FullDepth);
        let side = |worst: &Mating, read: &Mating, bound, limit: &Limit<f64>| {
            let uncertainty = (of(worst) - of(read)).abs();
            let measure = Measure { worst: of(worst), error, uncertainty, band: 0.0 };
            judge(measure, bound, limit.value, &limit.source)
        };
        let low = side(loose, loose_read, Bound::AtLeast, &self.percent.low);
        let high = side(tight, tight_read, Bound::AtMost, &self.percent.high);
        let apart = (drawn.height <= 0.0).then(|| "the threads do not reach each other".to_owned());
        Finding {
            judgement: Some(worse(low, high)),
            note: apart,
            details: vec![
                detail("height per side", drawn.height, "mm"),
                detail("on drill charts", drawn.percent.drill_chart, "%"),
                detail("at the loosest", of(loose), "%"),
                detail("at the loosest, on drill charts", loose.percent.drill_chart, "%"),
                detail("at the loosest, readings at their limits", of(loose_read), "%"),
                detail("at the fullest", of(tight), "%"),
                detail("at the fullest, on drill charts", tight.percent.drill_chart, "%"),
                detail("at the fullest, readings at their limits", of(tight_read), "%"),
            ],
            ..finding(&self.checks.percent, of(drawn), "%", error)
        }
    }

    /// Turns of full form.
    fn length(&self, states: &States) -> Finding {
        let States { drawn, loose, loose_read, tight, tight_read, .. } = states;
        let worst = loose.turns.min(tight.turns);
        let uncertainty = (worst - loose_read.turns.min(tight_read.turns)).max(0.0);
        let length = drawn.run[1] - drawn.run[0];
        let lead = self.outer.drawn.thread(self.outer_thread).map_or(1.0, CutThread::lead);
        let (error, band) = (ROUNDING / lead, self.band / lead);
        let limit = self.least_turns;
        let measure = Measure { worst, error, uncertainty, band };
        Finding {
            judgement: Some(judge(measure, Bound::AtLeast, limit.value, &limit.source)),
            details: vec![
                detail("length of full form", length, "mm"),
                detail("from z", drawn.run[0] + self.origin, "mm"),
                detail("to z", drawn.run[1] + self.origin, "mm"),
                detail("bearing area along the axis", drawn.bearing_area, "mm2"),
            ],
            ..finding(&self.checks.turns, drawn.turns, "turns", error)
        }
    }

    /// Crests against the opposite roots.
    fn crests(&self, states: &States) -> Finding {
        let States { drawn, tight, tight_read, .. } = states;
        let of = |m: &Mating| m.crest_gap.min(m.root_gap);
        let uncertainty = (of(tight) - of(tight_read)).max(0.0);
        let measure = Measure { worst: of(tight), error: ROUNDING, uncertainty, band: 0.0 };
        let judgement = judge(measure, Bound::AtLeast, 0.0, "geometry: less than none rubs");
        let note = (of(tight) < -ROUNDING).then(|| {
            let (inner, outer) = (words::item(self.inner_thread), words::item(self.outer_thread));
            if tight.crest_gap < tight.root_gap {
                format!("the crest of the {inner} rubs on the root of the {outer}")
            } else {
                format!("the crest of the {outer} rubs on the root of the {inner}")
            }
        });
        Finding {
            judgement: Some(judgement),
            note,
            details: vec![
                detail("at the major diameter", drawn.crest_gap, "mm"),
                detail("at the minor diameter", drawn.root_gap, "mm"),
            ],
            ..finding(&self.checks.crests, of(drawn), "mm", ROUNDING)
        }
    }
}
