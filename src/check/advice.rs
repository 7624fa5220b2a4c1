//! A change that makes a finding hold: each is applied, measured and kept only if it works.

use std::collections::BTreeMap;

use super::bodies::{Extremes, Mates, Model};
use super::enclosing::{CapBodies, ConverterBodies};
use super::{Advice, Change, Finding, Parameter, Verdict, measure};
use crate::section::{Section, faults};

/// Advised sizes are whole multiples of one over this, in millimetres: 0.05, which a drill index,
/// a depth stop and a caliper can all set. Finer advice can't be followed, coarser costs wall.
const STEPS_PER_MM: f64 = 20.0;

/// Steps that are tried to either side, coarse first: 2 mm. More would be another design.
const STRIDES: [i32; 11] = [1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 40];

/// A gain less than this is none: rounding, not the change, made it. In the finding's unit.
const LEAST_GAIN: f64 = 1e-7;

/// A finding's code and verdict, and what it has beyond its needs.
#[derive(Clone, Copy)]
struct Score {
    code: &'static str,
    verdict: Verdict,
    spare: f64,
}

/// Changed sections that were measured, each only once.
struct Trials<'a> {
    section: &'a Section,
    mates: &'a Mates,
    before: Vec<Score>,
    sound: usize,
    parameters: Vec<Parameter>,
    done: BTreeMap<(usize, i32), Option<Vec<Score>>>,
}

/// Gives every finding that does not hold its advice.
///
/// Of all single changes that make it hold, and no other verdict worse nor the section
/// impossible, the smallest; of those within one step of it, hidden sizes before those that the
/// hand feels.
pub(super) fn advise(section: &Section, mates: &Mates, findings: &mut [Finding]) {
    if findings.iter().filter_map(Finding::verdict).all(|verdict| verdict == Verdict::Holds) {
        return;
    }
    let mut trials = Trials {
        section,
        mates,
        before: scores(findings),
        sound: faults(section).len(),
        parameters: Parameter::of(section),
        done: BTreeMap::new(),
    };
    for finding in findings {
        if let Some(judgement) = &mut finding.judgement
            && judgement.verdict != Verdict::Holds
        {
            let change = trials.best(finding.code);
            judgement.advice = Some(change.map_or(Advice::NoSingleChange, Advice::Change));
        }
    }
}

fn scores(findings: &[Finding]) -> Vec<Score> {
    let score = |finding: &Finding| {
        let judged = finding.judgement.as_ref()?;
        let spare = judged.margin - judged.uncertainty - judged.band;
        Some(Score { code: finding.code, verdict: judged.verdict, spare })
    };
    findings.iter().filter_map(score).collect()
}

fn of(scores: &[Score], code: &str) -> Option<Score> {
    scores.iter().copied().find(|score| score.code == code)
}

impl Trials<'_> {
    /// The smallest change that makes a finding hold; of those within a step of it the one to
    /// make first.
    fn best(&mut self, code: &'static str) -> Option<Change> {
        let size = |change: &Change| (change.to - change.from).abs();
        let mut found: Vec<Change> = Vec::new();
        let mut reach = f64::INFINITY;
        for parameter in 0..self.parameters.len() {
            for side in [1, -1] {
                if let Some(change) = self.along(code, parameter, side, reach) {
                    reach = reach.min(size(&change) + 1.0 / STEPS_PER_MM);
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
        side: i32,
        reach: f64,
    ) -> Option<Change> {
        let from = self.parameters[parameter].get(self.section)?;
        let within = |to: f64| (to - from).abs() < reach;
        let mut last = of(&self.before, code)?.spare + LEAST_GAIN;
        // The last two strides: a measure between two limits may have its best before the last.
        let mut passed = [0, 0];
        for stride in STRIDES {
            if !within(stepped(from, (passed[1] + 1) * side)) {
                return None;
            }
            let score = self.trial(parameter, stride * side).and_then(|s| of(s, code));
            let better = score.filter(|score| score.spare >= last);
            if stride == 1 && better.is_none() {
                // Where the first step does not help, none does: a measure between two limits
                // has one best value, any other is better the farther the change goes.
                return None;
            }
            if better.is_none_or(|score| score.verdict == Verdict::Holds) {
                let mut between = passed[0] + 1..=stride;
                let step = between.find(|step| self.works(code, parameter, step * side))?;
                let (parameter, to) = (self.parameters[parameter], stepped(from, step * side));
                return within(to).then_some(Change { parameter, from, to });
            }
            last = better.map_or(last, |score| score.spare);
            passed = [passed[1], stride];
        }
        None
    }

    /// Whether a change makes the finding hold and worsens nothing.
    fn works(&mut self, code: &'static str, parameter: usize, step: i32) -> bool {
        self.trial(parameter, step);
        let Some(Some(after)) = self.done.get(&(parameter, step)) else { return false };
        let no_worse = |score: &Score| {
            let before = of(&self.before, score.code);
            score.verdict <= before.map_or(Verdict::Holds, |before| before.verdict)
        };
        of(after, code).is_some_and(|score| score.verdict == Verdict::Holds)
            && after.iter().all(no_worse)
    }

    /// Measures a changed section; none where it can't be made.
    fn trial(&mut self, parameter: usize, step: i32) -> Option<&Vec<Score>> {
        let key = (parameter, step);
        if !self.done.contains_key(&key) {
            let scores = self.scores_of(self.parameters[parameter], step);
            self.done.insert(key, scores);
        }
        self.done.get(&key)?.as_ref()
    }

    fn scores_of(&self, parameter: Parameter, step: i32) -> Option<Vec<Score>> {
        let to = stepped(parameter.get(self.section)?, step);
        let section = parameter.set(self.section, to).filter(|_| to > 0.0)?;
        if faults(&section).len() > self.sound {
            return None;
        }
        let part = Extremes::of_section(&section).ok()?;
        let (barrel, cap, converter);
        let mut model = Model::new(&section, &part, self.mates);
        if parameter.is_barrels() {
            barrel = Extremes::of_barrel(&section.barrel).ok()?;
            converter = ConverterBodies::of(&section).ok()?;
            (model.barrel, model.converter) = (&barrel, converter.as_ref());
        }
        if parameter.is_caps() {
            cap = CapBodies::of(&section).ok()?;
            model.cap = cap.as_ref();
        }
        Some(scores(&measure(&model)))
    }
}

/// The value so many steps away, on the grid of steps and never short of the way.
fn stepped(from: f64, steps: i32) -> f64 {
    /// A value this close to the grid, in steps, lies on it.
    const ON_GRID: f64 = 1e-6;
    let here = from * STEPS_PER_MM;
    let start = if steps > 0 { (here + ON_GRID).floor() } else { (here - ON_GRID).ceil() };
    (start + f64::from(steps)) / STEPS_PER_MM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_lead_outwards_onto_the_grid() {
        assert_eq!(stepped(8.0, 1), 8.05);
        assert_eq!(stepped(8.0, -1), 7.95);
        assert_eq!(stepped(7.938, 1), 7.95);
        assert_eq!(stepped(7.938, 2), 8.0);
        assert_eq!(stepped(7.938, -1), 7.9);
    }
}
