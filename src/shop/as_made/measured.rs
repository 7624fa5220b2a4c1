//! A section as made, measured against the section as drawn.

use crate::check::{Finding, Verdict};
use crate::scene::{Examination, Scene};
use crate::section::{Section, faults};

/// Why a section as it was cut is none.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Its stable code.
    pub code: &'static str,
    /// What is wrong, in words.
    pub message: String,
}

/// What comes of measuring.
#[derive(Clone, Debug, PartialEq)]
pub enum Measured {
    /// Its verdicts.
    Verdicts(Examination),
    /// There is no such section: why not.
    Impossible(Vec<Fault>),
}

impl Measured {
    /// Measures a section, unless it has faults.
    pub(super) fn of(drawn: &Scene, section: &Section) -> Self {
        let faults: Vec<_> = faults(section)
            .iter()
            .map(|fault| Fault { code: fault.code(), message: fault.to_string() })
            .collect();
        if !faults.is_empty() {
            return Self::Impossible(faults);
        }
        match drawn.find(section) {
            Ok(findings) => Self::Verdicts(Examination { findings, room: Vec::new() }),
            Err(impossible) => {
                let code = impossible.code();
                Self::Impossible(vec![Fault { code, message: impossible.to_string() }])
            }
        }
    }

    /// The verdicts, if there are any.
    pub fn examination(&self) -> Option<&Examination> {
        match self {
            Self::Verdicts(examination) => Some(examination),
            Self::Impossible(_) => None,
        }
    }

    /// Whether something breaks, or there is no such section.
    pub fn breaks(&self) -> bool {
        self.examination().is_none_or(|found| found.verdict() == Verdict::Breaks)
    }

    /// Whether some verdict is worse than before, or there is no such section.
    pub fn is_worse_than(&self, before: &Examination) -> bool {
        self.examination().is_none_or(|now| !moved(before, now, Verdict::gt).is_empty())
    }
}

/// The findings whose verdict moved, before and now; one that was not there held.
pub(super) fn moved<'a>(
    before: &'a Examination,
    now: &'a Examination,
    how: impl Fn(&Verdict, &Verdict) -> bool,
) -> Vec<(Option<&'a Finding>, &'a Finding)> {
    let pairs = now.findings.iter().filter_map(|finding| {
        let then = before.finding(finding.code);
        let held = then.and_then(Finding::verdict).unwrap_or(Verdict::Holds);
        how(&finding.verdict()?, &held).then_some((then, finding))
    });
    pairs.collect()
}

impl super::AsMade {
    /// What is worse than as drawn, each as it was drawn and as it is.
    pub fn worse(&self) -> Vec<(Option<&Finding>, &Finding)> {
        self.moved(Verdict::gt)
    }

    /// What is better.
    pub fn better(&self) -> Vec<(Option<&Finding>, &Finding)> {
        self.moved(Verdict::lt)
    }

    /// What is as it was drawn.
    pub fn same(&self) -> Vec<(Option<&Finding>, &Finding)> {
        self.moved(Verdict::eq)
    }

    fn moved(&self, how: impl Fn(&Verdict, &Verdict) -> bool) -> Vec<(Option<&Finding>, &Finding)> {
        self.made.examination().map_or(Vec::new(), |now| moved(&self.drawn, now, how))
    }
}
