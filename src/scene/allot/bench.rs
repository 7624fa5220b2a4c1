//! Bench of the drawing's limits, built and measured.

use rayon::prelude::*;

use super::nominal::{Drawn, can_be_made};
use crate::check::Verdict;
use crate::scene::{Scene, Score, Scores};
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
    fn spare(self, score: &Score) -> f64 {
        match self.level {
            Verdict::Holds => score.margin - score.error - score.uncertainty - score.band,
            _ => score.margin + score.error,
        }
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

/// The drawing's section with all that it meets.
pub(super) struct Bench {
    pub drawn: Drawn,
    scene: Scene,
    pub goals: Vec<Goal>,
    /// Checks that break at the nominal sizes.
    pub broken: Vec<&'static str>,
}

impl Bench {
    pub fn new(drawn: Drawn) -> Result<Self, BuildError> {
        let scene = Scene::of(&drawn.section)?;
        let (mut goals, mut broken) = (Vec::new(), Vec::new());
        for Score { code, verdict, .. } in scene.scores() {
            match verdict {
                Verdict::Breaks => broken.push(code),
                level => goals.push(Goal { code, level }),
            }
        }
        Ok(Self { drawn, scene, goals, broken })
    }

    /// The checks at a corner; none where it can't be made.
    pub fn measure(&self, off: &[f64]) -> Option<Measured> {
        Some(self.against_goals(&self.scene.measure(&self.made(off)?).ok()?))
    }

    fn against_goals(&self, scores: &Scores) -> Measured {
        let mut measured = Measured { spare: Vec::new(), failed: Vec::new() };
        for (n, goal) in self.goals.iter().enumerate() {
            let score = scores.get(goal.code);
            measured.spare.push(score.map(|score| goal.spare(score)));
            if score.is_some_and(|score| score.verdict > goal.level) {
                measured.failed.push(n);
            }
        }
        measured
    }

    /// The section at a corner; none where it can't be made.
    pub fn made(&self, off: &[f64]) -> Option<Section> {
        self.drawn.at(off).filter(can_be_made)
    }

    /// As [`Self::measure`] of many corners.
    pub fn measure_all(&self, corners: &[Vec<f64>]) -> Vec<Option<Measured>> {
        corners.par_iter().map(|off| self.measure(off)).collect()
    }
}
