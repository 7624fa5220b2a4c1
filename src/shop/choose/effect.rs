//! What comes of a changed section: which verdicts get worse, in words.

use crate::check::{Bound, Detail, Finding, Verdict, info};
use crate::quantity::Length;
use crate::scene::{Scene, Score};
use crate::section::Section;

/// A verdict that gets worse.
#[derive(Clone, Debug, PartialEq)]
pub struct Cost {
    /// The check's code.
    pub code: &'static str,
    /// What it becomes.
    pub to: Verdict,
    /// What it is about, in a few words: `the unit's thread rubs in the clearance bore`.
    pub what: String,
    /// How much there is at the worst.
    pub worst: f64,
    /// How much there should be.
    pub limit: f64,
    /// On which side of it.
    pub bound: Bound,
    /// The unit of both.
    pub unit: &'static str,
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

    /// Why it does not serve, in a few words; none where it does. `length` writes a length with its
    /// unit.
    pub fn why(&self, length: impl Fn(Length) -> String) -> Option<String> {
        let worse = || self.worse.first().map(|cost| cost.said(length));
        self.impossible.clone().or_else(worse)
    }

    /// How many verdicts break that did not; an impossible section counts as worse than any.
    pub(super) fn breaks(&self) -> usize {
        /// More than there are checks.
        const ALL: usize = 1000;
        let impossible = if self.impossible.is_some() { ALL } else { 0 };
        impossible + self.worse.iter().filter(|cost| cost.to == Verdict::Breaks).count()
    }
}

/// A margin that is less by no more than this is as it was, in millimetres: half of what a drill's
/// next size changes. More, and what breaks already is ruined unseen; less, and no drill serves a
/// design that is close.
const SLIGHT_LENGTH: f64 = 0.05;

/// The same in percent of thread and in turns.
const SLIGHT_OTHER: f64 = 3.0;

/// Whether a check that does not hold anyway gets farther from holding by more than can be seen.
fn loses(before: Option<&Score>, now: &Finding) -> bool {
    let slight = if now.unit == "mm" { SLIGHT_LENGTH } else { SLIGHT_OTHER };
    let margins = before.zip(now.judgement.as_ref());
    margins.is_some_and(|(before, now)| before.margin - now.margin > slight)
}

impl Effect {
    /// What a changed section does to the verdicts of a scene.
    pub(super) fn of(scene: &Scene, changed: &Section) -> Self {
        let after = match scene.find(changed) {
            Ok(after) => after,
            Err(impossible) => {
                return Self { impossible: Some(impossible.to_string()), ..Self::default() };
            }
        };
        let before = scene.scores();
        let mut effect = Effect::default();
        for finding in &after {
            let Some(to) = finding.verdict() else { continue };
            let from = before.verdict(finding.code);
            let same = to == from && to != Verdict::Holds;
            if to > from || (same && loses(before.get(finding.code), finding)) {
                effect.worse.extend(Cost::of(finding));
            }
            effect.better += usize::from(to < from);
        }
        // What breaks is said first.
        effect.worse.sort_by_key(|cost| std::cmp::Reverse(cost.to));
        effect
    }
}

/// What a finding is about.
fn what(finding: &Finding) -> String {
    // Of what passes a bore, the pair that has the least room: `unit's thread in clearance bore`.
    let least = |a: &&Detail, b: &&Detail| a.value.total_cmp(&b.value);
    let pair = finding.details.iter().min_by(least).filter(|_| finding.code == "clear.unit");
    let pair = pair.and_then(|detail| detail.name.split_once(" in "));
    pair.map_or_else(
        || short(finding.code),
        |(part, bore)| format!("the {part} rubs in the {bore}"),
    )
}

impl Cost {
    fn of(finding: &Finding) -> Option<Self> {
        let judged = finding.judgement.as_ref()?;
        Some(Self {
            code: finding.code,
            to: judged.verdict,
            what: what(finding),
            worst: judged.worst,
            limit: judged.limit,
            bound: judged.bound,
            unit: finding.unit,
        })
    }

    /// In a few words: what, how much there is, how much there should be; lengths as somebody writes
    /// them, with their unit.
    pub fn said(&self, length: impl Fn(Length) -> String) -> String {
        let verb = if self.to == Verdict::Breaks { "breaks" } else { "is close" };
        let bound = match self.bound {
            Bound::AtLeast => "at least",
            Bound::AtMost => "at most",
        };
        let value = |value: f64| match self.unit {
            "mm" => length(Length::mm(value)),
            "turns" => format!("{value:.1} turns"),
            unit => format!("{value:.0} {unit}"),
        };
        format!("{} ({verb}: {}, {bound} {})", self.what, value(self.worst), value(self.limit))
    }
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
