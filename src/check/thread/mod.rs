//! `thread.*`: percent, turns, play and crests of two threads screwed together.

mod mating;
pub(super) mod tenon;
pub(super) mod unit;

use super::bodies::{Built, Extremes, Model};
use super::finding::{detail, finding};
use super::judge::{Measure, ROUNDING, judge, worse};
use super::slide::{Rest, Slide};
use super::{Bound, CheckInfo, Detail, Finding, words};
use crate::quantity::Length;
use crate::section::{Item, Limit, PercentLimits};
use crate::solid::CutThread;
use crate::standard::percent::{self, Base};
use mating::{Mating, mate};

/// The checks of one pair of threads.
pub(super) struct Checks {
    pub percent: CheckInfo,
    pub turns: CheckInfo,
    pub play: CheckInfo,
    pub crests: CheckInfo,
}

impl Checks {
    /// All of them, in the order of their findings.
    pub const fn list(&'static self) -> [&'static CheckInfo; 4] {
        [&self.percent, &self.turns, &self.play, &self.crests]
    }

    /// The checks of a pair, each with its code and title.
    const fn new([percent, turns, play, crests]: [(&'static str, &'static str); 4]) -> Self {
        const fn info(
            (code, title): (&'static str, &'static str),
            measures: &'static str,
            limit: &'static str,
        ) -> CheckInfo {
            CheckInfo { code, title, measures, limit }
        }
        Self {
            percent: info(
                percent,
                "How far the crests overlap where the thread has full form, as a share of 5/8 H \
                 (base A); the share of drill charts (base B, 3/4 H) stands beside it.",
                "Less than the low limit holds too little; more than the high one is too hard to \
                 tap in this material.",
            ),
            turns: info(
                turns,
                "The turns over which both threads have full form, screwed home.",
                "The fewest turns that hold.",
            ),
            play: info(
                play,
                "How far the threads can move along the axis when screwed home, less what a \
                 difference of their pitches takes over the engaged turns.",
                "Less than none binds.",
            ),
            crests: info(
                crests,
                "The least radial gap between a crest and the root it runs in.",
                "Less than none rubs.",
            ),
        }
    }
}

/// A part that is screwed into another until it rests on its seat.
pub(super) struct Pair<'a> {
    pub checks: &'static Checks,
    pub inner: &'a Extremes,
    pub inner_thread: Item,
    pub outer: &'a Extremes,
    pub outer_thread: Item,
    /// What rests on what.
    pub seat: (Item, &'a [Item]),
    /// Whether the inner part was bought and read: its extremes are then the readings'
    /// uncertainty, else tolerances like the outer part's.
    pub inner_was_read: bool,
    /// z of the section at z = 0 of the outer body.
    pub origin: f64,
    pub percent: &'a PercentLimits,
    pub least_turns: &'a Limit<f64>,
    /// The band, in millimetres.
    pub band: f64,
}

/// The pair as modelled, with the least material and with the most; once with the readings as
/// read and once at their limits.
struct States {
    drawn: Mating,
    loose: Mating,
    loose_read: Mating,
    tight: Mating,
    tight_read: Mating,
}

/// Every thread's check, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    [&unit::CHECKS, &tenon::CHECKS].into_iter().flat_map(Checks::list).collect()
}

/// All pairs of threads.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let pairs = [unit::pair(model), tenon::pair(model)];
    pairs.iter().flat_map(Pair::findings).collect()
}

impl Pair<'_> {
    /// Where the inner body rests in the outer one.
    pub fn rest(&self, inner: &Built, outer: &Built) -> Rest {
        let slide = Slide::new((inner, self.inner_thread), (outer, self.outer_thread));
        Rest::of(&slide.contacts(), self.seat.0, self.seat.1)
    }

    fn mating(&self, inner: &Built, outer: &Built) -> Option<Mating> {
        let (internal, external) =
            (outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?);
        Some(mate(internal, external, self.rest(inner, outer).advance()))
    }

    fn states(&self) -> Option<States> {
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
        })
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
        let States { drawn, loose, loose_read, tight, tight_read } = states;
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
        let States { drawn, loose, loose_read, tight, tight_read } = states;
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

    /// Axial play over the engaged run. No band, for the reason given at the percent.
    fn play(&self, states: &States) -> Finding {
        let States { drawn, loose, tight, tight_read, .. } = states;
        let uncertainty = (tight.play - tight_read.play).max(0.0);
        let measure = Measure { worst: tight.play, error: ROUNDING, uncertainty, band: 0.0 };
        let judgement = judge(measure, Bound::AtLeast, 0.0, "geometry: less than none binds");
        let mut details: Vec<Detail> = vec![
            detail("at the loosest", loose.play, "mm"),
            detail("radial play, to either side", drawn.radial_play, "mm"),
            detail("gap between flanks, centred", drawn.flank_gap, "mm"),
        ];
        details.extend(drawn.binds_after.map(|turns| detail("binds after", turns, "turns")));
        let note = self.cause(drawn).or_else(|| {
            (tight.play < -ROUNDING).then(|| "the flanks bind: the thread is cut small".to_owned())
        });
        Finding {
            judgement: Some(judgement),
            note,
            details,
            ..finding(&self.checks.play, drawn.play, "mm", ROUNDING)
        }
    }

    /// Why the leads do not agree, in words.
    fn cause(&self, drawn: &Mating) -> Option<String> {
        let turns = drawn.binds_after?;
        let internal = self.outer.drawn.thread(self.outer_thread)?;
        let external = self.inner.drawn.thread(self.inner_thread)?;
        let (inner, outer) = (words::item(self.inner_thread), words::item(self.outer_thread));
        if internal.hand != external.hand {
            return Some(format!("the {inner} and the {outer} are of opposite hands"));
        }
        if internal.starts != external.starts {
            let (a, b) = (external.starts, internal.starts);
            return Some(format!("the {inner} has {a} starts, the {outer} {b}"));
        }
        let (a, b) = (external.pitch, internal.pitch);
        Some(format!(
            "the pitches differ, {a:.4} mm in the {inner} and {b:.4} mm in the {outer}: \
             they bind after {turns:.1} turns"
        ))
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
