//! A change of a size that is still to be made, which saves a section that came out otherwise than
//! drawn: each is applied, measured and kept only if no verdict is worse than as drawn.

use std::collections::BTreeSet;

use super::advice::{FINE_STEPS_PER_MM, LEAST_GAIN, STEPS_PER_MM, stepped};
use super::bodies::{Extremes, Mates};
use super::trial::{Score, Trial, of, scores};
use super::{Change, Verdict, parallel, verdicts};
use crate::section::{Section, faults};
use crate::size::SizeId;
use crate::solid::BuildError;

/// Farthest step to either side: 2 mm. Farther off, it is another design.
const STEPS: i32 = 40;

/// Steps at which a size is asked whether it helps at all. Fewer, and one that helps only far off
/// is not followed; more cost time where nothing helps.
const PROBES: [i32; 6] = [1, 2, 4, 8, 16, 32];

/// Fine steps in one coarse step.
const FINE: i32 = (FINE_STEPS_PER_MM / STEPS_PER_MM) as i32;

/// What is worse than as drawn: codes of checks; nothing at all is known where it can't be made.
type Bad = Option<BTreeSet<&'static str>>;

/// All single changes of some sizes that leave a section as good as it was drawn, the smallest of
/// each size to each side: on a grid of 0.05 mm; where no size has one, of 0.01 mm.
///
/// Sorted: the smallest first, those within one step of each other by which to make first.
/// Between two coarse steps at which the same check is worse, no fine one is tried.
///
/// # Errors
/// The section as drawn can't be built.
pub fn savings(
    drawn: &Section,
    made: &Section,
    sizes: &[SizeId],
) -> Result<Vec<Change>, BuildError> {
    let (part, mates) = (Extremes::of_section(drawn)?, Mates::new(drawn)?);
    let before = scores(&verdicts(drawn)?.findings);
    let as_made = verdicts(made).ok().filter(|_| faults(made).is_empty());
    let search = Search {
        trial: Trial { section: made, part: &part, mates: &mates, sound: 0 },
        before,
        made: as_made.map(|made| scores(&made.findings)),
    };
    let sides: Vec<(SizeId, i32)> =
        sizes.iter().flat_map(|size| [(*size, 1), (*size, -1)]).collect();
    let walks = parallel::map(&sides, |(size, side)| search.walk(*size, *side));
    let mut found: Vec<Change> = walks.iter().filter_map(Walk::coarse).collect();
    if found.is_empty() {
        found.extend(parallel::map(&walks, |walk| search.fine(walk)).into_iter().flatten());
    }
    let steps = |change: &Change| ((change.to - change.from).abs() * STEPS_PER_MM - 1e-6).ceil();
    found.sort_by(|a, b| {
        let rank = a.parameter.rank().cmp(&b.parameter.rank());
        steps(a).total_cmp(&steps(b)).then(rank)
    });
    Ok(found)
}

struct Search<'a> {
    trial: Trial<'a>,
    before: Vec<Score>,
    /// Scores of the section as made; none where it can't be made.
    made: Option<Vec<Score>>,
}

/// What is worse at every coarse step along one size to one side, from none on; nothing more where
/// it never helps.
struct Walk {
    parameter: SizeId,
    side: i32,
    from: f64,
    bad: Vec<Bad>,
}

impl Walk {
    fn at(&self, step: i32, steps_per_mm: f64) -> f64 {
        stepped(self.from, step * self.side, steps_per_mm)
    }

    fn change(&self, to: f64) -> Change {
        Change { parameter: self.parameter, from: self.from, to }
    }

    /// Its first step that works.
    fn coarse(&self) -> Option<Change> {
        let works = |bad: &Bad| bad.as_ref().is_some_and(BTreeSet::is_empty);
        let step = (1..).zip(self.bad.iter().skip(1)).find(|(_, bad)| works(bad))?.0;
        Some(self.change(self.at(step, STEPS_PER_MM)))
    }
}

impl Search<'_> {
    fn walk(&self, parameter: SizeId, side: i32) -> Walk {
        let from = parameter.get(self.trial.section).unwrap_or_default();
        let mut walk = Walk { parameter, side, from, bad: Vec::new() };
        let scores = |step| self.scores(parameter, walk.at(step, STEPS_PER_MM));
        if PROBES.into_iter().all(|step| !self.helps(scores(step).as_deref())) {
            return walk;
        }
        let mut bad = vec![self.bad(self.made.as_deref())];
        for step in 1..=STEPS {
            bad.push(self.bad(scores(step).as_deref()));
            if bad.last().is_some_and(|bad| bad.as_ref().is_some_and(BTreeSet::is_empty)) {
                break;
            }
        }
        walk.bad = bad;
        walk
    }

    /// The first fine step that works.
    fn fine(&self, walk: &Walk) -> Option<Change> {
        (0..).zip(walk.bad.windows(2)).find_map(|(step, ends): (i32, _)| {
            let apart = match (&ends[0], &ends[1]) {
                (Some(a), Some(b)) => a.is_disjoint(b),
                (None, None) => false,
                _ => true,
            };
            let mut between = ((step - 1) * FINE).max(1)..=(step + 1) * FINE;
            let works = |fine: i32| {
                let to = walk.at(fine, FINE_STEPS_PER_MM);
                let bad = self.bad(self.scores(walk.parameter, to).as_deref());
                bad.is_some_and(|bad| bad.is_empty()).then(|| walk.change(to))
            };
            apart.then(|| between.find_map(works)).flatten()
        })
    }

    fn scores(&self, parameter: SizeId, to: f64) -> Option<Vec<Score>> {
        (to > 0.0).then(|| self.trial.with(parameter, to).ok()).flatten()
    }

    /// Whether something that is worse as made is better here.
    fn helps(&self, here: Option<&[Score]>) -> bool {
        let (Some(here), Some(made)) = (here, &self.made) else { return here.is_some() };
        made.iter().filter(|score| self.is_worse(score)).any(|score| {
            of(here, score.code).is_none_or(|here| here.spare > score.spare + LEAST_GAIN)
        })
    }

    fn bad(&self, scores: Option<&[Score]>) -> Bad {
        let worse = |scores: &[Score]| {
            scores.iter().filter(|score| self.is_worse(score)).map(|score| score.code).collect()
        };
        scores.map(worse)
    }

    fn is_worse(&self, score: &Score) -> bool {
        let before = of(&self.before, score.code).map_or(Verdict::Holds, |before| before.verdict);
        score.verdict > before
    }
}
