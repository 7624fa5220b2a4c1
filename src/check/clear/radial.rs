//! The least radial gap of what slides into something, judged.

use crate::check::finding::finding;
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::Gap;
use crate::check::{Bound, CheckInfo, Detail, Finding, Place};
use crate::quantity::Length;
use crate::section::Limit;
use crate::size::words;

/// Gaps in the three states that are judged, each in the axis of what is slid into.
pub(super) struct Radial<'a> {
    /// As modelled, the readings as read.
    pub drawn: &'a [Gap],
    /// At the worst of the tolerances.
    pub worst: Vec<Gap>,
    /// At the worst of tolerances and readings.
    pub read: Vec<Gap>,
    /// The least gap, per side.
    pub limit: &'a Limit<Length>,
    /// The band, in millimetres.
    pub band: f64,
}

/// The tightest of all gaps.
pub(super) fn tightest(gaps: &[Gap]) -> Option<Gap> {
    gaps.iter().copied().reduce(|a, b| if b.room < a.room { b } else { a })
}

/// A gap's place, its z in the section's axis.
pub(super) fn place(gap: &Gap, to_section: impl Fn(f64) -> f64) -> Place {
    let (mut inner, mut outer) = (gap.inner, gap.outer);
    (inner.z, outer.z) = (to_section(inner.z), to_section(outer.z));
    Place { inner, outer }
}

impl Radial<'_> {
    /// The finding; none where nothing passes anything.
    pub fn finding(
        &self,
        check: &'static CheckInfo,
        details: Vec<Detail>,
        to_section: impl Fn(f64) -> f64,
    ) -> Option<Finding> {
        let least = tightest(self.drawn)?;
        // What would be passed besides, were a part longer, is a matter of its length.
        let passed = |gap: &&Gap| self.drawn.iter().any(|other| other.pair() == gap.pair());
        let of = |gaps: &[Gap]| {
            gaps.iter().filter(passed).map(|gap| gap.room).fold(least.room, f64::min)
        };
        let worst = of(&self.worst);
        let measure = Measure {
            worst,
            error: ROUNDING,
            uncertainty: (worst - of(&self.read)).max(0.0),
            band: self.band,
        };
        let limit = self.limit;
        let (inner, outer) = (words::item(least.pair().0), words::item(least.pair().1));
        Some(Finding {
            judgement: Some(judge(measure, Bound::AtLeast, limit.value.as_mm(), &limit.source)),
            place: Some(place(&least, to_section)),
            note: (least.room < 0.0).then(|| format!("the {inner} can't pass the {outer}")),
            details,
            ..finding(check, least.room, "mm", ROUNDING)
        })
    }
}
