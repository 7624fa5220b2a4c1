//! A pair of threads: as modelled, at its loosest and its tightest; the verdicts on it.

use super::checks::Checks;
use super::mating::{Mating, mate};
use super::overlap::Overlap;
use super::strip::Strip;
use crate::check::bodies::{Built, Extremes};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge, worse};
use crate::check::slide::{Rest, Slide};
use crate::check::{Bound, Detail, Finding, Place, Series, Spot, words};
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Limit, PercentLimits};
use crate::solid::CutThread;
use crate::standard::percent::{self, Base};

/// A part that is screwed into another until it rests on its seat.
pub(in crate::check) struct Pair<'a> {
    pub checks: &'static Checks,
    pub inner: &'a Extremes,
    pub inner_thread: Item,
    pub outer: &'a Extremes,
    pub outer_thread: Item,
    /// What rests on what; nothing where `stands_at` says where it comes to stand.
    pub seat: (Item, &'a [Item]),
    /// z of the outer body at z = 0 of the inner one, where no seat stops it: of a part that is
    /// put on from the front.
    pub stands_at: Option<f64>,
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
struct States {
    drawn: Mating,
    loose: Mating,
    loose_read: Mating,
    tight: Mating,
    tight_read: Mating,
    /// The worst of the other pitches that the reading allows, with what it does.
    rival: Option<(Length, Mating)>,
}

impl Pair<'_> {
    /// Where the inner body rests in the outer one.
    pub fn rest(&self, inner: &Built, outer: &Built) -> Rest {
        let slide = Slide::new((inner, self.inner_thread), (outer, self.outer_thread));
        Rest::of(&slide.contacts(), self.seat.0, self.seat.1)
    }

    fn advance(&self, inner: &Built, outer: &Built) -> f64 {
        self.stands_at.unwrap_or_else(|| self.rest(inner, outer).advance())
    }

    /// What both threads do to each other.
    pub(super) fn mating(&self, inner: &Built, outer: &Built) -> Option<Mating> {
        let (internal, external) =
            (outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?);
        Some(mate(internal, external, self.advance(inner, outer)))
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
            rival: self.rival(),
        })
    }

    /// The tightest state with the pitch, of those that the reading allows, that takes most play.
    fn rival(&self) -> Option<(Length, Mating)> {
        let (inner, outer) = (&self.inner.most, &self.outer.most);
        let (internal, external) =
            (outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?);
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

    /// Axial play over the engaged run. No band, for the reason given at the percent.
    fn play(&self, states: &States) -> Finding {
        let States { drawn, loose, tight, tight_read, rival, .. } = states;
        let read = rival.as_ref().map_or(tight_read.play, |(_, m)| m.play.min(tight_read.play));
        let uncertainty = (tight.play - read).max(0.0);
        let measure = Measure { worst: tight.play, error: ROUNDING, uncertainty, band: 0.0 };
        let judgement = judge(measure, Bound::AtLeast, 0.0, "geometry: less than none binds");
        let mut details: Vec<Detail> = vec![
            detail("at the loosest", loose.play, "mm"),
            detail("at the tightest", tight.play, "mm"),
            detail("at the tightest, readings at their limits", tight_read.play, "mm"),
            detail("radial play, to either side", drawn.radial_play, "mm"),
            detail("gap between flanks, centred", drawn.flank_gap, "mm"),
            detail("engaged turns", drawn.turns, "turns"),
        ];
        details.extend(drawn.binds_after.map(|turns| detail("binds after", turns, "turns")));
        if let Some((pitch, mating)) = rival {
            details.push(detail("a pitch that the reading allows", pitch.as_mm(), "mm"));
            details.push(detail("play with that pitch", mating.play, "mm"));
            let binds =
                mating.binds_after.map(|turns| detail("binds with it after", turns, "turns"));
            details.extend(binds);
        }
        if tight.play < -ROUNDING && drawn.binds_after.is_none() {
            details.push(detail("too small on the pitch diameter", self.too_small(tight), "mm"));
            details.extend(self.lead_in().map(|turns| detail("stops after", turns, "turns")));
        }
        let note = self.cause(drawn).or_else(|| self.cut_small(tight, tight_read)).or_else(|| {
            let (pitch, mating) = rival.as_ref().filter(|(_, m)| m.play < -ROUNDING)?;
            let turns = mating.binds_after?;
            Some(format!(
                "its pitch may be {:.4} mm by the reading, and would bind after {turns:.1} turns: hold a \
                 thread gauge against it",
                pitch.as_mm()
            ))
        });
        Finding {
            judgement: Some(judgement),
            note,
            details,
            series: Some(turn_by_turn(drawn)),
            ..finding(&self.checks.play, drawn.play, "mm", ROUNDING)
        }
    }

    /// By how much the internal thread lacks pitch diameter, where the flanks bind.
    fn too_small(&self, tight: &Mating) -> f64 {
        let half = self.outer.drawn.thread(self.outer_thread).map_or(30.0, |t| t.half_angle);
        (-tight.play / libm::tan(half.to_radians())).max(0.0)
    }

    /// Turns from the first catch of the threads until both have their full form in each other:
    /// a thread that is too small goes in so far, with its chamfered beginning, and stops.
    fn lead_in(&self) -> Option<f64> {
        let internal = self.outer.drawn.thread(self.outer_thread)?;
        let external = self.inner.drawn.thread(self.inner_thread)?;
        let front = |thread: &CutThread| thread.full[0] - thread.extent[0];
        let back = |thread: &CutThread| thread.extent[1] - thread.full[1];
        let (own, other) = if self.stands_at.is_some() {
            (front(external), back(internal))
        } else {
            (back(external), front(internal))
        };
        Some((own + other) / internal.lead())
    }

    /// Said of flanks that bind though the leads agree.
    fn cut_small(&self, tight: &Mating, tight_read: &Mating) -> Option<String> {
        let outer = words::item(self.outer_thread);
        let why = if self.closes_in > Length::ZERO {
            format!(" (it closes in by up to {:.2} mm when the tap is out)", self.closes_in.as_mm())
        } else {
            String::new()
        };
        let turns = self.lead_in().unwrap_or(0.0);
        if tight.play >= -ROUNDING {
            let lacking = self.too_small(tight_read);
            return (tight_read.play < ROUNDING).then(|| {
                format!(
                    "with the readings at their limits the {outer} is cut {lacking:.3} mm too small on its \
                     pitch diameter{why}"
                )
            });
        }
        let lacking = self.too_small(tight);
        Some(format!(
            "the {outer} is cut up to {lacking:.3} mm too small on its pitch diameter{why}: it binds \
             {turns:.1} turns in"
        ))
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

    /// What is told beside the verdicts: interference and shear.
    pub fn told(&self) -> Vec<Finding> {
        let Some(states) = self.states() else { return Vec::new() };
        [self.interference(&states), self.strip(&states)].into_iter().flatten().collect()
    }

    /// The volume in common; none where the leads have not even hand and starts in common.
    fn interference(&self, states: &States) -> Option<Finding> {
        let Self { inner, outer, .. } = self;
        let between = |inner: &Built, outer: &Built, mating: &Mating| {
            let (internal, external) =
                (outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?);
            Overlap::of(internal, external, mating.run)
        };
        let drawn = between(&inner.drawn, &outer.drawn, &states.drawn)?;
        let tight = if self.inner_was_read { &inner.drawn } else { &inner.most };
        let tight = between(tight, &outer.most, &states.tight)?;
        let read = between(&inner.most, &outer.most, &states.tight_read)?;
        let spot = |item, z: f64| Spot {
            feature: Feature::new(item, Facet::FlankFront),
            r: drawn.radius,
            z: z + self.origin,
        };
        let place = (drawn.volume > 0.0).then(|| Place {
            inner: spot(self.inner_thread, drawn.z),
            outer: spot(self.outer_thread, drawn.z),
        });
        let details = vec![
            detail("at the tightest", tight.volume, "mm3"),
            detail("at the tightest, readings at their limits", read.volume, "mm3"),
            detail("width along the axis", drawn.width, "mm"),
            detail("width along the axis at the tightest", tight.width, "mm"),
            detail("widest at z, at the tightest", tight.z + self.origin, "mm"),
            detail("widest at a diameter of, at the tightest", 2.0 * tight.radius, "mm"),
        ];
        let checks = &self.checks.interference;
        Some(Finding { place, details, ..finding(checks, drawn.volume, "mm3", drawn.error) })
    }

    /// The area that shears in the section's own thread, and in the other one.
    fn strip(&self, states: &States) -> Option<Finding> {
        let Self { inner, outer, .. } = self;
        let of = |inner: &Built, outer: &Built, mating: &Mating| {
            let (internal, external) =
                (outer.thread(self.outer_thread)?, inner.thread(self.inner_thread)?);
            Some(Strip::of(internal, external, mating.turns))
        };
        let drawn = of(&inner.drawn, &outer.drawn, &states.drawn)?;
        let loose = if self.inner_was_read { &inner.drawn } else { &inner.least };
        let loose = of(loose, &outer.least, &states.loose)?;
        let own = |strip: &Strip| {
            if self.own == self.outer_thread {
                (strip.internal, strip.external)
            } else {
                (strip.external, strip.internal)
            }
        };
        let mut details = vec![
            detail("at the loosest", own(&loose).0, "mm2"),
            detail("of the other thread", own(&drawn).1, "mm2"),
            detail("of the other thread, at the loosest", own(&loose).1, "mm2"),
            detail("bearing area along the axis", states.drawn.bearing_area, "mm2"),
        ];
        if let Some(shear) = self.shear {
            details.push(detail("shear strength", shear.value, "N/mm2"));
            details.push(detail(
                "force that strips it, at the loosest",
                shear.value * own(&loose).0,
                "N",
            ));
        }
        let note = self.shear.map(|shear| format!("shear strength: {}", shear.source));
        let error = ROUNDING * own(&drawn).0.max(1.0);
        Some(Finding { note, details, ..finding(&self.checks.strip, own(&drawn).0, "mm2", error) })
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

/// The room of the tighter flank along the axis, screwed home and centred, from turn to turn:
/// even where the leads agree; where they differ it is least at both ends.
fn turn_by_turn(mating: &Mating) -> Series {
    let whole = (0..=mating.turns.floor() as u32).map(f64::from);
    let mut turns: Vec<f64> = whole.collect();
    if turns.last().is_some_and(|last| *last < mating.turns) {
        turns.push(mating.turns);
    }
    let gap =
        |turn: f64| mating.slack / 2.0 - mating.lead_error * (turn - mating.turns / 2.0).abs();
    Series {
        name: "room of the tighter flank",
        along: "turn",
        along_unit: "turns",
        unit: "mm",
        points: turns.into_iter().map(|turn| [turn, gap(turn)]).collect(),
    }
}
