//! Corners of the drawing's limits, built and measured.

use super::nominal::{Drawn, can_be_made};
use crate::check::bodies::{Extremes, Mates, Model};
use crate::check::{Finding, Verdict, measure, parallel};
use crate::section::Section;
use crate::solid::BuildError;

/// What a check must keep at every corner, and how much it has of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Goal {
    pub code: &'static str,
    /// Holds, or close: then it must not break.
    pub level: Verdict,
}

impl Goal {
    /// By how much more than it needs a check of this goal has it; at and under zero it fails.
    fn spare(self, finding: &Finding) -> Option<f64> {
        let judged = finding.judgement.as_ref()?;
        Some(match self.level {
            Verdict::Holds => judged.margin - finding.error - judged.uncertainty - judged.band,
            _ => judged.margin + finding.error,
        })
    }
}

/// What all checks have to spare at a corner, in the order of the goals; none of a check that the
/// corner has not.
#[derive(Clone, Debug)]
pub(super) struct Measured {
    pub spare: Vec<Option<f64>>,
    /// Which goals fail.
    pub failed: Vec<usize>,
}

/// The drawing with all that it meets.
pub(super) struct Scene {
    pub drawn: Drawn,
    mates: Mates,
    pub goals: Vec<Goal>,
    /// Checks that break at the nominal sizes.
    pub broken: Vec<&'static str>,
}

impl Scene {
    pub fn new(drawn: Drawn) -> Result<Self, BuildError> {
        let mates = Mates::new(&drawn.section)?;
        let mut scene = Self { drawn, mates, goals: Vec::new(), broken: Vec::new() };
        for finding in scene.findings(&scene.drawn.section)? {
            match finding.verdict() {
                Some(Verdict::Breaks) => scene.broken.push(finding.code),
                Some(level) => scene.goals.push(Goal { code: finding.code, level }),
                None => {}
            }
        }
        Ok(scene)
    }

    /// Nothing that the section's own sizes change is looked at anew in barrel, cap and converter.
    fn findings(&self, section: &Section) -> Result<Vec<Finding>, BuildError> {
        let part = Extremes::of_section(section)?;
        Ok(measure(&Model::new(section, &part, &self.mates)))
    }

    /// The checks at a corner; none where it can't be made.
    pub fn measure(&self, off: &[f64]) -> Option<Measured> {
        let section = self.made(off)?;
        let findings = self.findings(&section).ok()?;
        let mut measured = Measured { spare: Vec::new(), failed: Vec::new() };
        for (n, goal) in self.goals.iter().enumerate() {
            let finding = findings.iter().find(|finding| finding.code == goal.code);
            measured.spare.push(finding.and_then(|finding| goal.spare(finding)));
            let verdict = finding.and_then(Finding::verdict);
            if verdict.is_some_and(|verdict| verdict > goal.level) {
                measured.failed.push(n);
            }
        }
        Some(measured)
    }

    /// The section at a corner; none where it can't be made.
    pub fn made(&self, off: &[f64]) -> Option<Section> {
        self.drawn.at(off).filter(can_be_made)
    }

    /// As [`Self::measure`] of many corners, on as many threads as there are cores.
    pub fn measure_all(&self, corners: &[Vec<f64>]) -> Vec<Option<Measured>> {
        parallel::map(corners, |off| self.measure(off))
    }
}
