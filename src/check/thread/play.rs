//! The play of a pair of threads, and why there is none.

use super::mating::Mating;
use super::pair::{Pair, States, Stop};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::{Bound, Detail, Finding, Series};
use crate::quantity::Length;
use crate::size::words;
use crate::solid::CutThread;

/// Lacking less, in millimetres, is shown as nothing.
const SHOWN: f64 = 0.0005;

impl Pair<'_> {
    /// Axial play over the engaged run. No band, for the reason given at the percent.
    pub(super) fn play(&self, states: &States) -> Finding {
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
        let [internal, external] = self.threads(&self.inner.drawn, &self.outer.drawn)?;
        let front = |thread: &CutThread| thread.full[0] - thread.extent[0];
        let back = |thread: &CutThread| thread.extent[1] - thread.full[1];
        let (own, other) = match self.stop {
            Stop::Seat(_) => (back(external), front(internal)),
            Stop::At(_) => (front(external), back(internal)),
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
                if lacking < SHOWN {
                    return format!(
                        "with the readings at their limits the {outer} leaves no play{why}"
                    );
                }
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
        let [internal, external] = self.threads(&self.inner.drawn, &self.outer.drawn)?;
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
