//! `section.json` of format 1, whose facts were known by their words: read as a record of today.

use serde::Deserialize;

use super::names_1;
use crate::export::{KeptFact, KeptOutline, KeptVerdict, Record};

#[derive(Deserialize)]
struct Format1 {
    format: u32,
    name: String,
    facts: Vec<Fact>,
    outlines: Vec<KeptOutline>,
    verdicts: Vec<KeptVerdict>,
}

#[derive(Deserialize)]
struct Fact {
    what: String,
    number: Option<f64>,
    words: Option<String>,
    unit: String,
}

/// Reads it; none where it is something else.
pub fn read(text: &str) -> Option<Record> {
    let all: Format1 = serde_json::from_str(text).ok()?;
    let facts = all.facts.into_iter().map(named).collect();
    (all.format == 1).then(|| Record::of(all.name, facts, all.outlines, all.verdicts))
}

/// A fact by its name. One whose words no version has written keeps them as its name, so that it
/// shows as a difference and is not lost.
fn named(Fact { what, number, words, unit }: Fact) -> KeptFact {
    let name = names_1::name(&what).unwrap_or_else(|| what.clone());
    let text = words.map(|words| names_1::choice(&name, words));
    KeptFact { name, what, number, text, unit }
}
