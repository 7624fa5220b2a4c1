//! A change of a size that is still to be made, which saves a section that came out otherwise than
//! drawn: each is applied, measured and kept only if no verdict is worse than as drawn.

use std::collections::BTreeSet;

use rayon::prelude::*;

use super::advice::{FINE_STEPS_PER_MM, LEAST_GAIN, STEPS_PER_MM, stepped};
use super::{Scene, Scores};
use crate::check::Change;
use crate::section::{Section, faults};
use crate::size::SizeId;

/// Farthest step to either side: 2 mm. Farther off, it is another design.
const STEPS: i32 = 40;

/// Steps at which a size is asked whether it helps at all. Fewer, and one that helps only far off
/// is not followed; more cost time where nothing helps.
const PROBES: [i32; 6] = [1, 2, 4, 8, 16, 32];

/// Fine steps in one coarse step.
const FINE: i32 = (FINE_STEPS_PER_MM / STEPS_PER_MM) as i32;

/// What is worse than as drawn: codes of checks; nothing at all is known where it can't be made.
type Bad = Option<BTreeSet<&'static str>>;

impl Scene {
    /// All single changes of some sizes that leave a section that came out as `made` as good as this
    /// one, as it was drawn: the smallest of each size to each side, on a grid of 0.05 mm; where no
    /// size has one, of 0.01 mm.
    ///
    /// Sorted: the smallest first, those within one step of each other by which to make first.
    /// Between two coarse steps at which the same check is worse, no fine one is tried.
    pub fn savings(&self, made: &Section, sizes: &[SizeId]) -> Vec<Change> {
        let as_made = self.measure(made).ok().filter(|_| faults(made).is_empty());
        let search = Search { drawn: self, section: made, before: self.scores(), made: as_made };
        let sides: Vec<(SizeId, i32)> =
            sizes.iter().flat_map(|size| [(*size, 1), (*size, -1)]).collect();
        let walks: Vec<Walk> =
            sides.par_iter().map(|(size, side)| search.walk(*size, *side)).collect();
        let mut found: Vec<Change> = walks.iter().filter_map(Walk::coarse).collect();
        if found.is_empty() {
            let fine: Vec<_> = walks.par_iter().map(|walk| search.fine(walk)).collect();
            found.extend(fine.into_iter().flatten());
        }
        let steps = |change: &Change| (change.size() * STEPS_PER_MM - 1e-6).ceil();
        found.sort_by(|a, b| {
            let rank = a.parameter.rank().cmp(&b.parameter.rank());
            steps(a).total_cmp(&steps(b)).then(rank)
        });
        found
    }
}

struct Search<'a> {
    drawn: &'a Scene,
    /// As made.
    section: &'a Section,
    before: Scores,
    /// Scores of the section as made; none where it can't be made.
    made: Option<Scores>,
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
        let from = parameter.get(self.section).unwrap_or_default();
        let mut walk = Walk { parameter, side, from, bad: Vec::new() };
        let scores = |step| self.scores(parameter, walk.at(step, STEPS_PER_MM));
        if PROBES.into_iter().all(|step| !self.helps(scores(step).as_ref())) {
            return walk;
        }
        let mut bad = vec![self.bad(self.made.as_ref())];
        for step in 1..=STEPS {
            bad.push(self.bad(scores(step).as_ref()));
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
                let bad = self.bad(self.scores(walk.parameter, to).as_ref());
                bad.is_some_and(|bad| bad.is_empty()).then(|| walk.change(to))
            };
            apart.then(|| between.find_map(works)).flatten()
        })
    }

    /// Of the section as made with one size more that is otherwise; it must be sound.
    fn scores(&self, parameter: SizeId, to: f64) -> Option<Scores> {
        let section = (to > 0.0).then(|| self.section.with(&[(parameter, to)])).flatten()?;
        faults(&section).is_empty().then(|| self.drawn.measure(&section).ok()).flatten()
    }

    /// Whether something that is worse as made is better here.
    fn helps(&self, here: Option<&Scores>) -> bool {
        let (Some(here), Some(made)) = (here, &self.made) else { return here.is_some() };
        made.worse_than(&self.before).any(|score| {
            let here = here.get(score.code);
            here.is_none_or(|here| here.spare() > score.spare() + LEAST_GAIN)
        })
    }

    fn bad(&self, scores: Option<&Scores>) -> Bad {
        let worse = |scores: &Scores| scores.worse_than(&self.before).map(|it| it.code).collect();
        scores.map(worse)
    }
}
