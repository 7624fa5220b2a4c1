//! A section with one size changed, measured again.

use super::bodies::{Extremes, Mates, Model};
use super::enclosing::{CapBodies, ConverterBodies};
use super::{Finding, Verdict, measure_changed};
use crate::section::{Section, SectionError, faults};
use crate::size::{Owner, SizeId};
use crate::solid::BuildError;

/// A finding's code and verdict, and what it has beyond its needs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Score {
    pub code: &'static str,
    pub verdict: Verdict,
    pub spare: f64,
}

/// The scores of all findings that have a limit.
pub(super) fn scores(findings: &[Finding]) -> Vec<Score> {
    let score = |finding: &Finding| {
        let judged = finding.judgement.as_ref()?;
        let spare = judged.margin - judged.uncertainty - judged.band;
        Some(Score { code: finding.code, verdict: judged.verdict, spare })
    };
    findings.iter().filter_map(score).collect()
}

/// The score of a code.
pub(super) fn of(scores: &[Score], code: &str) -> Option<Score> {
    scores.iter().copied().find(|score| score.code == code)
}

/// Why a changed section can't be measured.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Impossible {
    /// It has no such size, or a size that is none.
    NoSize,
    /// The section would be wrong.
    Fault(SectionError),
    /// Its solid, or its barrel's, can't be built.
    Solid(BuildError),
}

/// A section and what it meets, ready to be changed.
pub(super) struct Trial<'a> {
    pub section: &'a Section,
    pub part: &'a Extremes,
    pub mates: &'a Mates,
    /// Faults that the section has anyway.
    pub sound: usize,
}

impl<'a> Trial<'a> {
    pub fn new(section: &'a Section, part: &'a Extremes, mates: &'a Mates) -> Self {
        Self { section, part, mates, sound: faults(section).len() }
    }

    /// Sets one size, derives nothing anew, and measures what may change with it; only the bodies
    /// that the size changes are built.
    pub fn with(&self, parameter: SizeId, to: f64) -> Result<Vec<Score>, Impossible> {
        let section = parameter.set(self.section, to).ok_or(Impossible::NoSize)?;
        let faults = faults(&section);
        if faults.len() > self.sound {
            let new = faults.into_iter().next_back().map_or(Impossible::NoSize, Impossible::Fault);
            return Err(new);
        }
        let solid = Impossible::Solid;
        let (part, barrel, cap, converter);
        let part = if parameter.is_sections() {
            part = Extremes::of_section(&section).map_err(solid)?;
            &part
        } else {
            self.part
        };
        let mut model = Model::new(&section, part, self.mates);
        if parameter.owner() == Owner::Barrel {
            barrel = Extremes::of_barrel(&section.barrel).map_err(solid)?;
            converter = ConverterBodies::of(&section).map_err(solid)?;
            (model.barrel, model.converter) = (&barrel, converter.as_ref());
        }
        if parameter.owner() == Owner::Cap {
            cap = CapBodies::of(&section).map_err(solid)?;
            model.cap = cap.as_ref();
        }
        Ok(scores(&measure_changed(&model, parameter)))
    }
}
