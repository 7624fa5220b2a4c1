//! What people say was cut, held against the sizes and steps that a section has.

use super::step::{steps, word};
use crate::design::{Made, MadeSize as SaidSize};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;
use crate::section::{Section, Stage};
use crate::size::SizeId;

/// Words less alike than this are no slip of the pen.
const ALIKE: f64 = 0.7;

/// A size that was cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MadeSize {
    /// Which.
    pub parameter: SizeId,
    /// As it was asked for, as its key has it.
    pub drawn: Length,
    /// As it was cut, as its key has it.
    pub made: Length,
}

impl MadeSize {
    /// A size of a section as it was cut, as its key has it.
    pub fn of(section: &Section, parameter: SizeId, made: Length) -> Self {
        let drawn = parameter.get(section).unwrap_or_default();
        Self { parameter, drawn: Length::mm(parameter.as_written(section, drawn)), made }
    }
}

/// What was cut, and how far the work is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// What was cut otherwise, in the order in which sizes can be set.
    pub sizes: Vec<MadeSize>,
    /// A step that is done, and with it all before it.
    pub after: Option<Stage>,
}

/// Finds the sizes and the step that are meant.
///
/// # Errors
/// Every key that the section does not have, every one that is there twice, a step that is none,
/// and that nothing is said.
pub fn read(section: &Section, made: &Made) -> Result<Said, Vec<Diagnostic>> {
    let known = SizeId::cut(section);
    let mut wrong = Vec::new();
    let mut found: Vec<(usize, MadeSize, Option<Place>)> = Vec::new();
    for SaidSize { key, value, at } in &made.sizes {
        let size = SizeId::read(key, section).filter(|size| known.contains(size));
        let Some(parameter) = size else {
            wrong.push(placed(unknown_key(key, &known), *at));
            continue;
        };
        if let Some((.., other)) = found.iter().find(|(_, size, _)| size.parameter == parameter) {
            let twice = Diagnostic::error("made.twice", format!("`{key}` is said twice"));
            let twice = other.iter().fold(twice, |twice, other| twice.also(*other, "here first"));
            wrong.push(placed(twice.hint("keep what was measured last"), *at));
            continue;
        }
        let place = known.iter().position(|size| *size == parameter).unwrap_or_default();
        found.push((place, MadeSize::of(section, parameter, *value), *at));
    }
    let after = made.after.as_ref().and_then(|(said, at)| {
        let step = steps(section).into_iter().find(|step| word(*step) == *said);
        if step.is_none() {
            wrong.push(placed(unknown_step(said, section), *at));
        }
        step
    });
    if made.sizes.is_empty() {
        let nothing = Diagnostic::error("made.nothing", "nothing is said of what was cut");
        let keys = "`--set bores.clearance.depth=4.3`, or a `[made]` table in the design";
        wrong.push(nothing.hint(format!("{keys}; this section has {}", listed(&known))));
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    found.sort_by_key(|(place, ..)| *place);
    Ok(Said { sizes: found.into_iter().map(|(_, size, _)| size).collect(), after })
}

fn placed(diagnostic: Diagnostic, at: Option<Place>) -> Diagnostic {
    Diagnostic { at: at.or(diagnostic.at), ..diagnostic }
}

fn unknown_key(key: &str, known: &[SizeId]) -> Diagnostic {
    let keys: Vec<String> = known.iter().map(|size| size.name()).collect();
    let near = nearest(key, &keys).map_or(String::new(), |key| format!("did you mean `{key}`? "));
    Diagnostic::error("made.unknown-key", format!("no size that is cut here is called `{key}`"))
        .hint(format!("{near}This section has {}", listed(known)))
}

fn unknown_step(said: &str, section: &Section) -> Diagnostic {
    let words: Vec<String> = steps(section).into_iter().map(word).collect();
    let near =
        nearest(said, &words).map_or(String::new(), |word| format!("did you mean `{word}`? "));
    Diagnostic::error("made.unknown-step", format!("no step of the work is called `{said}`"))
        .hint(format!("{near}In their order they are {}", words.join(", ")))
}

fn listed(known: &[SizeId]) -> String {
    known.iter().map(|size| size.name()).collect::<Vec<_>>().join(", ")
}

fn nearest<'a>(word: &str, known: &'a [String]) -> Option<&'a String> {
    let likeness = |other: &String| strsim::jaro_winkler(word, other);
    let best = known.iter().max_by(|a, b| likeness(a).total_cmp(&likeness(b)))?;
    (likeness(best) >= ALIKE).then_some(best)
}
