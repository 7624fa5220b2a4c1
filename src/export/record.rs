//! `section.json`: the resolved section as numbers, to be held against what a later program makes
//! of the same files.
//!
//! Facts by their names come first ([`crate::check::facts`]); then the outlines of the section and
//! of all that it meets, point by point, so that no change of shape goes unseen; then the verdicts.
//! What is compared are names, codes and numbers. Words stand beside them for people alone, and may
//! be others in a later version.

use serde::{Deserialize, Serialize};

use super::report::json;
use crate::check::{Fact, FactValue, facts};
use crate::quantity::Length;
use crate::scene::Examination;
use crate::section::{Item, Part, Run, Section, Shape};

/// The version of the form; it grows when a key changes its meaning or goes.
const FORMAT: u32 = 2;

/// A resolved section, as it is kept.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct Record {
    format: u32,
    /// The design's name.
    pub name: String,
    /// What is known of it, by its name.
    pub facts: Vec<KeptFact>,
    /// The outlines: of the section, and of what it meets.
    pub outlines: Vec<KeptOutline>,
    /// What the checks found.
    pub verdicts: Vec<KeptVerdict>,
}

/// A fact, as it is kept.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct KeptFact {
    /// Its name.
    pub name: String,
    /// What it is, for people.
    pub what: String,
    /// Its number, where it is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<f64>,
    /// What it is where it is none: a designation, a name that the maker gave, or the name of one
    /// of a few.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// `mm`, `deg`, or nothing.
    pub unit: String,
}

/// An outline in the half-plane, closed, as the solid is made from it.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct KeptOutline {
    /// Of what: `section`, `unit`, `barrel`, `cap`, `converter`.
    pub of: String,
    /// Its runs, one going on where the one before ends.
    pub runs: Vec<KeptRun>,
}

/// A line or arc of an outline.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct KeptRun {
    /// The feature that it belongs to.
    pub feature: String,
    /// Diameter and place along the axis where it ends, in mm.
    pub to: [f64; 2],
    /// The tangent of a quarter of an arc's sweep; 0 for a line.
    pub bulge: f64,
}

/// A verdict, as it is kept.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct KeptVerdict {
    /// The check.
    pub code: String,
    /// What it is, for people.
    pub title: String,
    /// `holds`, `close` or `breaks`.
    pub verdict: String,
    /// At the worst.
    pub worst: f64,
    /// Its unit.
    pub unit: String,
}

impl Record {
    /// The record of a section and what its checks found.
    pub fn new(section: &Section, examination: &Examination) -> Self {
        let verdicts = examination.findings.iter().filter_map(|finding| {
            let judged = finding.judgement.as_ref()?;
            Some(KeptVerdict {
                code: finding.code.to_owned(),
                title: finding.title.to_owned(),
                verdict: judged.verdict.to_string(),
                worst: judged.worst,
                unit: finding.unit.to_owned(),
            })
        });
        let facts = facts(section).into_iter().map(KeptFact::from).collect();
        Self::of(section.name.clone(), facts, outlines(section), verdicts.collect())
    }

    /// A record of what it holds.
    pub fn of(
        name: String,
        facts: Vec<KeptFact>,
        outlines: Vec<KeptOutline>,
        verdicts: Vec<KeptVerdict>,
    ) -> Self {
        Self { format: FORMAT, name, facts, outlines, verdicts }
    }

    /// As a file.
    pub fn write(&self) -> String {
        json(self)
    }

    /// Reads what [`Self::write`] wrote; none where it is something else.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok().filter(|record: &Self| record.format == FORMAT)
    }
}

impl From<Fact> for KeptFact {
    fn from(Fact { name, what, value, unit, .. }: Fact) -> Self {
        let (number, text) = match value {
            FactValue::Number(number) => (Some(number), None),
            FactValue::Words(words) => (None, Some(words)),
            FactValue::One(choice) => (None, Some(choice.name().to_owned())),
        };
        Self { name, what, number, text, unit: unit.to_owned() }
    }
}

/// The outlines of the section and of all that it meets.
fn outlines(section: &Section) -> Vec<KeptOutline> {
    let nipple = section.unit.step(Item::Nipple).map(|(_, step)| step.diameter.value);
    let converter = section.converter.as_ref().zip(nipple).map(|(it, nipple)| it.part(nipple));
    let parts: [(&str, Option<Part>); 5] = [
        ("section", Some(section.part())),
        ("unit", Some(section.unit.part())),
        ("barrel", Some(section.barrel.whole())),
        ("cap", section.cap.as_ref().map(crate::section::Cap::part)),
        ("converter", converter),
    ];
    let outline = |(of, part): (&str, Option<Part>)| {
        Some(KeptOutline { of: of.to_owned(), runs: part?.runs.iter().map(run).collect() })
    };
    parts.into_iter().filter_map(outline).collect()
}

fn run(run: &Run) -> KeptRun {
    let bulge = match run.shape {
        Shape::Straight => 0.0,
        Shape::Arc { bulge } => bulge,
    };
    let to = [run.to.diameter, run.to.z].map(Length::as_mm);
    KeptRun { feature: run.feature.to_string(), to, bulge }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};
    use crate::scene::verdicts;

    #[test]
    fn a_record_is_read_to_the_last_digit() {
        for design in ["demo", "tests/fixtures/capped.toml", "tests/fixtures/outside.toml"] {
            let section = load(&Library::default(), design).unwrap().section;
            let record = Record::new(&section, &verdicts(&section).unwrap());
            assert!(record.verdicts.len() > 10 && record.facts.len() > 100);
            assert_eq!(Record::read(&record.write()).unwrap(), record, "{design}");
        }
        assert_eq!(Record::read("{}"), None);
    }
}
