//! What a check says: value, error, limit, verdict, place, and a change that works.

use std::fmt;

use super::CheckInfo;
use crate::design::Write;
use crate::section::Feature;
use crate::size::SizeId;

/// What is said of a measure that has a limit, from good to bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Clear of its limit by more than its error, the readings' uncertainty and the band.
    Holds,
    /// It holds as drawn, but not beyond what was measured and what can be held at the lathe.
    Close,
    /// On the wrong side of its limit by more than its error.
    Breaks,
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Holds => "holds",
            Self::Close => "close",
            Self::Breaks => "breaks",
        })
    }
}

/// On which side of a limit a value must stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// The limit is the least good value.
    AtLeast,
    /// The limit is the greatest good value.
    AtMost,
}

/// A point of the half-section, in the section's axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// The surface it lies on.
    pub feature: Feature,
    /// Distance from the axis, in millimetres.
    pub r: f64,
    /// Distance from the finished front face, in millimetres.
    pub z: f64,
}

/// The two points between which something was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// On the inner surface: the bore, or the part that is put in.
    pub inner: Spot,
    /// On the outer surface.
    pub outer: Spot,
}

impl Place {
    /// Where it is along the axis: half-way between the two points.
    pub fn z(&self) -> f64 {
        f64::midpoint(self.inner.z, self.outer.z)
    }
}

/// A further number of a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Detail {
    /// What it is.
    pub name: String,
    /// Its value.
    pub value: f64,
    /// Its unit: `mm`, `%`, `turns`, `pitches`, `mm2`, `mm3`, `N`, `N/mm2`.
    pub unit: &'static str,
}

/// A measure that varies along something: a wall along z, a gap from turn to turn.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What varies, in the finding's unit unless `unit` says otherwise.
    pub name: &'static str,
    /// Along what: `z`, `turn`.
    pub along: &'static str,
    /// The unit of `along`: `mm`, `turns`.
    pub along_unit: &'static str,
    /// The unit of the values.
    pub unit: &'static str,
    /// Place and value, in ascending places.
    pub points: Vec<[f64; 2]>,
}

/// A change of one size that makes a finding hold and worsens no other verdict.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// What to change; [`fmt::Display`] gives it in words.
    pub parameter: SizeId,
    /// As it is, in millimetres (a diameter, where it is one).
    pub from: f64,
    /// As it would hold, rounded outwards to a step that can be set.
    pub to: f64,
}

impl Change {
    /// How much it is changed, in millimetres or degrees.
    pub fn size(&self) -> f64 {
        (self.to - self.from).abs()
    }
}

/// What to do about a finding that does not hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// This change was applied, measured, and holds.
    Change(Change),
    /// No single size within reach helps without worsening another verdict.
    NoSingleChange,
}

impl fmt::Display for Advice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Change(Change { parameter, from, to }) => {
                write!(f, "{parameter}: {to:.2} mm instead of {from:.2} mm")
            }
            Self::NoSingleChange => f.write_str("no change of one size alone makes it hold"),
        }
    }
}

/// A measure against its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// What follows.
    pub verdict: Verdict,
    /// The judged value: the measure at the worst that tolerances, tools and offsets of the part
    /// allow; the readings of the bought unit are taken as read.
    pub worst: f64,
    /// How much worse it may be still by the readings' uncertainty.
    pub uncertainty: f64,
    /// How much of a margin a maker can hold at the lathe; zero where a tool makes the size.
    pub band: f64,
    /// The limit.
    pub limit: f64,
    /// Its side.
    pub bound: Bound,
    /// Where the limit comes from.
    pub limit_source: String,
    /// How far the worst value lies on the good side of the limit.
    pub margin: f64,
    /// What to do; none where it holds.
    pub advice: Option<Advice>,
    /// Which keys of the design's files say the advised change, each with its number; nothing where
    /// no file says the section.
    pub write: Vec<Write>,
    /// By which means the advised change is made, where that is a question: a tap that cuts wider.
    pub means: Option<String>,
}

/// One measured value, and what is to be thought of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// A stable code, such as `wall.lip`.
    pub code: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// As modelled, with the readings as read.
    pub measured: f64,
    /// `mm`, `%`, `turns`, `mm2` or `mm3`.
    pub unit: &'static str,
    /// Bound on the error of the measure itself, in the same unit.
    pub error: f64,
    /// Against its limit; none where the value is given for information only.
    pub judgement: Option<Judgement>,
    /// Where; none where it has no one place.
    pub place: Option<Place>,
    /// Where at the worst, with the points as they lie then, for what has a worst place of its own.
    pub worst_place: Option<Place>,
    /// The cause in words, where a number does not say enough.
    pub note: Option<String>,
    /// Further numbers, always in the same order.
    pub details: Vec<Detail>,
    /// The measure along the part or turn by turn, where one number does not show it.
    pub series: Option<Series>,
}

impl Finding {
    /// The verdict, where there is a limit.
    pub fn verdict(&self) -> Option<Verdict> {
        self.judgement.as_ref().map(|judgement| judgement.verdict)
    }

    /// The change that helps, or that none does, where it does not hold.
    pub fn advice(&self) -> Option<Advice> {
        self.judgement.as_ref().and_then(|judgement| judgement.advice)
    }

    /// A further number by its name.
    pub fn detail(&self, name: &str) -> Option<f64> {
        self.details.iter().find(|detail| detail.name == name).map(|detail| detail.value)
    }
}

/// A detail from its parts.
pub(super) fn detail(name: impl Into<String>, value: f64, unit: &'static str) -> Detail {
    Detail { name: name.into(), value, unit }
}

/// A finding without judgement, place, note and details.
pub(super) fn finding(
    check: &'static CheckInfo,
    measured: f64,
    unit: &'static str,
    error: f64,
) -> Finding {
    Finding {
        code: check.code,
        title: check.title,
        measured,
        unit,
        error,
        judgement: None,
        place: None,
        worst_place: None,
        note: None,
        details: Vec::new(),
        series: None,
    }
}
