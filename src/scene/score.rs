//! What is decided by a check, without the words: its verdict, and how much it has to spare.

use crate::check::{Finding, Verdict};

/// A check's verdict and the numbers that it is from, in the finding's unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// The check's code.
    pub code: &'static str,
    /// The verdict.
    pub verdict: Verdict,
    /// The measure at the worst.
    pub worst: f64,
    /// How far that lies on the good side of the limit.
    pub margin: f64,
    /// Bound on the error of the measure.
    pub error: f64,
    /// What the readings may take from the margin.
    pub uncertainty: f64,
    /// What can't be held at the lathe.
    pub band: f64,
}

impl Score {
    /// The score of a finding; none where it has no limit.
    pub fn of(finding: &Finding) -> Option<Self> {
        let judged = finding.judgement.as_ref()?;
        Some(Self {
            code: finding.code,
            verdict: judged.verdict,
            worst: judged.worst,
            margin: judged.margin,
            error: finding.error,
            uncertainty: judged.uncertainty,
            band: judged.band,
        })
    }

    /// The margin beyond what readings and lathe may take of it.
    pub fn spare(&self) -> f64 {
        self.margin - self.uncertainty - self.band
    }
}

/// The scores of a section, in the order of [`crate::check::list`].
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scores(Vec<Score>);

impl Scores {
    /// Of findings; those without a limit are left out.
    pub fn of(findings: &[Finding]) -> Self {
        findings.iter().filter_map(Score::of).collect()
    }

    /// One after the other.
    pub fn iter(&self) -> std::slice::Iter<'_, Score> {
        self.0.iter()
    }

    /// That of a check.
    pub fn get(&self, code: &str) -> Option<&Score> {
        self.0.iter().find(|score| score.code == code)
    }

    /// The verdict of a check; what is not there holds.
    pub fn verdict(&self, code: &str) -> Verdict {
        self.get(code).map_or(Verdict::Holds, |score| score.verdict)
    }

    /// Those whose verdict is worse than before.
    pub fn worse_than<'a>(&'a self, before: &'a Self) -> impl Iterator<Item = &'a Score> {
        self.0.iter().filter(|score| score.verdict > before.verdict(score.code))
    }
}

impl FromIterator<Score> for Scores {
    fn from_iter<I: IntoIterator<Item = Score>>(scores: I) -> Self {
        Self(scores.into_iter().collect())
    }
}

impl<'a> IntoIterator for &'a Scores {
    type Item = &'a Score;
    type IntoIter = std::slice::Iter<'a, Score>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl IntoIterator for Scores {
    type Item = Score;
    type IntoIter = std::vec::IntoIter<Score>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}
