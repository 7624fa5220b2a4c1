//! A change that makes a finding hold: each is applied, measured and kept only if it works.

use std::collections::BTreeMap;

use super::{Scene, Scores};
use crate::check::{Advice, Change, Finding, Verdict};
use crate::size::SizeId;

/// Advised sizes are whole multiples of one over this, in millimetres: 0.05, which a drill index,
/// a depth stop and a caliper can all set. Coarser advice costs wall.
pub(super) const STEPS_PER_MM: f64 = 20.0;

/// The same where no such size helps, between two limits that are near each other: 0.01, which a
/// caliper shows and a boring bar can cut. Finer advice can't be followed.
pub(super) const FINE_STEPS_PER_MM: f64 = 100.0;

/// Steps that are tried to either side, coarse first: 2 mm. More would be another design.
const STRIDES: [i32; 11] = [1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 40];

/// A gain less than this is none: rounding, not the change, made it. In the finding's unit.
pub(super) const LEAST_GAIN: f64 = 1e-7;

/// A way of looking for a change.
#[derive(Clone, Copy)]
struct Search {
    /// Advised sizes are whole multiples of one over this.
    steps_per_mm: f64,
    /// Whether a size along which the first step gains nothing is followed all the same.
    patient: bool,
}

/// Which ways are tried, one after the other, until one finds a change.
///
/// A size along which the first step gains nothing is followed only where no other helps: the room
/// of a groove is the same until the ridge finds it deep enough.
const SEARCHES: [Search; 3] = [
    Search { steps_per_mm: STEPS_PER_MM, patient: false },
    Search { steps_per_mm: STEPS_PER_MM, patient: true },
    Search { steps_per_mm: FINE_STEPS_PER_MM, patient: false },
];

/// Changed sections that were measured, each only once.
struct Trials<'a> {
    scene: &'a Scene,
    before: Scores,
    parameters: Vec<SizeId>,
    /// By parameter and value.
    done: BTreeMap<(usize, u64), Option<Scores>>,
}

/// Gives every finding that does not hold its advice.
///
/// Of all single changes that make it hold, and no other verdict worse nor the section
/// impossible, the smallest; of those within one step of it, hidden sizes before those that the
/// hand feels. They are found with the size moved alone, and kept where they work as written.
pub(super) fn advise(scene: &Scene, findings: &mut [Finding]) {
    if findings.iter().filter_map(Finding::verdict).all(|verdict| verdict == Verdict::Holds) {
        return;
    }
    let mut trials = Trials {
        scene,
        before: scene.scores(),
        parameters: SizeId::of(scene.section()),
        done: BTreeMap::new(),
    };
    for finding in findings {
        if let Some(judgement) = &mut finding.judgement
            && judgement.verdict != Verdict::Holds
        {
            let change = trials.best(finding.code);
            let writes = |change: &Change| scene.writes(change.parameter, change.to);
            judgement.write = change.as_ref().and_then(writes).unwrap_or_default();
            judgement.advice = Some(change.map_or(Advice::NoSingleChange, Advice::Change));
        }
    }
}

impl Trials<'_> {
    /// The smallest change that makes a finding hold; of those within a step of it the one to
    /// make first.
    fn best(&mut self, code: &'static str) -> Option<Change> {
        SEARCHES.into_iter().find_map(|search| self.smallest(code, search))
    }

    fn smallest(&mut self, code: &'static str, search: Search) -> Option<Change> {
        let size = Change::size;
        let mut found: Vec<Change> = Vec::new();
        let mut reach = f64::INFINITY;
        for parameter in 0..self.parameters.len() {
            for side in [1, -1] {
                if let Some(change) = self.along(code, parameter, (side, search), reach) {
                    reach = reach.min(size(&change) + 1.0 / search.steps_per_mm);
                    found.push(change);
                }
            }
        }
        found.retain(|change| size(change) < reach);
        let rank = |change: &Change| change.parameter.rank();
        found
            .into_iter()
            .min_by(|a, b| rank(a).cmp(&rank(b)).then_with(|| size(a).total_cmp(&size(b))))
    }

    /// The smallest change of one parameter to one side, within a reach.
    fn along(
        &mut self,
        code: &'static str,
        parameter: usize,
        (side, search): (i32, Search),
        reach: f64,
    ) -> Option<Change> {
        let from = self.parameters[parameter].get(self.scene.section())?;
        let within = |to: f64| (to - from).abs() < reach;
        let at = |step: i32| search.stepped(from, step * side);
        let least_gain = if search.patient { -LEAST_GAIN } else { LEAST_GAIN };
        let mut last = self.before.get(code)?.spare() + least_gain;
        // The last two strides: a measure between two limits may have its best before the last.
        let mut passed = [0, 0];
        for stride in STRIDES {
            if !within(at(passed[1] + 1)) {
                return None;
            }
            let score = self.trial(parameter, at(stride)).and_then(|scores| scores.get(code));
            let better = score.copied().filter(|score| score.spare() >= last);
            if stride == 1 && better.is_none() {
                // Where the first step does harm, none helps: a measure between two limits
                // has one best value, any other is better the farther the change goes.
                return None;
            }
            if better.is_none_or(|score| score.verdict == Verdict::Holds) {
                let mut between = passed[0] + 1..=stride;
                let step = between.find(|step| self.works(code, parameter, at(*step)))?;
                let (parameter, to) = (self.parameters[parameter], at(step));
                return within(to).then_some(Change { parameter, from, to });
            }
            last = better.map_or(last, |score| score.spare());
            passed = [passed[1], stride];
        }
        None
    }

    /// Whether a change makes the finding hold and worsens nothing, moved alone and as written.
    fn works(&mut self, code: &'static str, parameter: usize, to: f64) -> bool {
        let helps = |after: &Scores, before: &Scores| {
            let holds = after.get(code).is_some_and(|score| score.verdict == Verdict::Holds);
            holds && after.worse_than(before).next().is_none()
        };
        self.trial(parameter, to);
        let Some(Some(alone)) = self.done.get(&(parameter, to.to_bits())) else { return false };
        helps(alone, &self.before)
            && self
                .scene
                .at(&[(self.parameters[parameter], to)])
                .is_ok_and(|written| helps(&written, &self.before))
    }

    /// Measures a changed section; none where it can't be made.
    fn trial(&mut self, parameter: usize, to: f64) -> Option<&Scores> {
        let (scene, size) = (self.scene, self.parameters[parameter]);
        let measured = || (to > 0.0).then(|| scene.alone(&[(size, to)]).ok()).flatten();
        self.done.entry((parameter, to.to_bits())).or_insert_with(measured).as_ref()
    }
}

impl Search {
    fn stepped(self, from: f64, steps: i32) -> f64 {
        stepped(from, steps, self.steps_per_mm)
    }
}

/// The value so many steps away, on the grid of steps and never short of the way.
pub(super) fn stepped(from: f64, steps: i32, steps_per_mm: f64) -> f64 {
    /// A value this close to the grid, in steps, lies on it.
    const ON_GRID: f64 = 1e-6;
    let here = from * steps_per_mm;
    let start = if steps > 0 { (here + ON_GRID).floor() } else { (here - ON_GRID).ceil() };
    (start + f64::from(steps)) / steps_per_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_lead_outwards_onto_the_grid() {
        assert_eq!(SEARCHES[0].stepped(8.0, 1), 8.05);
        assert_eq!(SEARCHES[0].stepped(8.0, -1), 7.95);
        assert_eq!(SEARCHES[0].stepped(7.938, 1), 7.95);
        assert_eq!(SEARCHES[0].stepped(7.938, 2), 8.0);
        assert_eq!(SEARCHES[0].stepped(7.938, -1), 7.9);
        assert_eq!(SEARCHES[2].stepped(7.4546, 1), 7.46);
    }
}
