//! What comes of a changed section: which verdicts get worse, in words.

use crate::check::{Bound, Detail, Examination, Finding, Verdict, info, verdicts};
use crate::section::{Section, faults};
use crate::solid::BuildError;

/// A verdict that gets worse.
#[derive(Clone, Debug, PartialEq)]
pub struct Cost {
    /// The check's code.
    pub code: &'static str,
    /// What it becomes.
    pub to: Verdict,
    /// In a few words: `unit's thread rubs in the clearance bore: 0.02 of 0.05 mm`.
    pub words: String,
}

/// What a change does to the verdicts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Effect {
    /// Those that get worse.
    pub worse: Vec<Cost>,
    /// How many get better.
    pub better: usize,
    /// Why the section would be impossible.
    pub impossible: Option<String>,
}

impl Effect {
    /// Of a change that can't be made at all.
    pub fn impossible() -> Self {
        Self { impossible: Some("there is no such hole".to_owned()), ..Self::default() }
    }

    /// Whether nothing gets worse.
    pub fn serves(&self) -> bool {
        self.worse.is_empty() && self.impossible.is_none()
    }

    /// Why it does not serve, in a few words; none where it does.
    pub fn why(&self) -> Option<&str> {
        let worse = || self.worse.first().map(|cost| cost.words.as_str());
        self.impossible.as_deref().or_else(worse)
    }

    /// How many verdicts break that did not; an impossible section counts as worse than any.
    pub(super) fn breaks(&self) -> usize {
        /// More than there are checks.
        const ALL: usize = 1000;
        let impossible = if self.impossible.is_some() { ALL } else { 0 };
        impossible + self.worse.iter().filter(|cost| cost.to == Verdict::Breaks).count()
    }
}

/// The verdicts before a change.
pub(super) struct Scores {
    before: Examination,
    faults: usize,
}

impl Scores {
    pub fn of(section: &Section) -> Result<Self, BuildError> {
        Ok(Self { before: verdicts(section)?, faults: faults(section).len() })
    }

    /// What a changed section does to them.
    pub fn effect(&self, changed: &Section) -> Effect {
        let faults = faults(changed);
        if faults.len() > self.faults {
            let why = faults.last().map(ToString::to_string);
            return Effect { impossible: why, ..Effect::default() };
        }
        let after = match verdicts(changed) {
            Ok(after) => after,
            Err(error) => {
                return Effect { impossible: Some(error.to_string()), ..Effect::default() };
            }
        };
        let mut effect = Effect::default();
        for finding in &after.findings {
            let Some(to) = finding.verdict() else { continue };
            let from = self.before.finding(finding.code).and_then(Finding::verdict);
            let from = from.unwrap_or(Verdict::Holds);
            if to > from {
                let cost = Cost { code: finding.code, to, words: words(finding) };
                effect.worse.push(cost);
            }
            effect.better += usize::from(to < from);
        }
        // What breaks is said first.
        effect.worse.sort_by_key(|cost| std::cmp::Reverse(cost.to));
        effect
    }
}

/// A finding in a few words: what, how much there is, how much there should be.
fn words(finding: &Finding) -> String {
    let title = short(finding.code);
    let Some(judged) = &finding.judgement else { return title };
    let digits = if finding.unit == "mm" { 2 } else { 0 };
    let (worst, limit, unit) = (judged.worst, judged.limit, finding.unit);
    let bound = match judged.bound {
        Bound::AtLeast => "at least",
        Bound::AtMost => "at most",
    };
    let verb = if judged.verdict == Verdict::Breaks { "breaks" } else { "is close" };
    // Of what passes a bore, the pair that has the least room: `unit's thread in clearance bore`.
    let least = |a: &&Detail, b: &&Detail| a.value.total_cmp(&b.value);
    let pair = finding.details.iter().min_by(least);
    let pair =
        pair.filter(|_| finding.code == "clear.unit").and_then(|d| d.name.split_once(" in "));
    let what = pair.map_or(title, |(part, bore)| format!("the {part} rubs in the {bore}"));
    format!("{what} ({verb}: {worst:.digits$} {unit}, {bound} {limit:.digits$})")
}

/// A check in a word or two; its title where there is no shorter way to say it.
fn short(code: &str) -> String {
    let known = match code {
        "thread.unit.percent" => "depth of the unit's thread",
        "thread.unit.turns" => "turns that hold the unit",
        "thread.unit.play" => "play of the unit's thread",
        "thread.unit.crests" => "room over the crests",
        "clear.seat" => "room behind the seated unit",
        "clear.converter" => "room round the converter",
        "made.reach" => "turns lost in front of the thread",
        _ => "",
    };
    if !known.is_empty() {
        return known.to_owned();
    }
    if let Some(zone) = code.strip_prefix("wall.") {
        return format!("wall: {}", zone.replace('-', " "));
    }
    info(code).map_or(code, |check| check.title).to_lowercase()
}
