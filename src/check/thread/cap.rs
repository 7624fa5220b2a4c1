//! `thread.cap.*`: the section's thread in the cap's, the cap closed.
//!
//! The cap comes from the front and stops where the section says. It is turned round, so that both
//! threads are measured in the direction of the section's axis; neither hand changes by that.

use super::pair::Stop;
use super::{Checks, Model, Pair};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::{Bound, CheckInfo, Finding};
use crate::quantity::Length;
use crate::section::Item;

/// Its checks.
pub(super) static CHECKS: Checks = Checks::new([
    ("thread.cap.percent", "Depth of thread that the cap finds on the section"),
    ("thread.cap.turns", "Full turns of thread that hold the cap"),
    ("thread.cap.play", "Play of the cap's thread along the axis"),
    ("thread.cap.crests", "Room over the crests of the cap's thread"),
    ("thread.cap.interference", "Interference of the cap's thread"),
    ("thread.cap.strip", "Shear area of the section's thread, cap side"),
]);

/// How long it takes to close the cap.
pub(super) static CLOSING: CheckInfo = CheckInfo {
    code: "thread.cap.closing",
    title: "Turns that close the cap",
    measures: "The run over which both threads have full form in the closed cap, over their lead; \
        under two is liked (common practice, no source).",
    limit: "The most turns that are liked, where the material or the design says so; else it is \
        for information.",
};

/// The section and the cap as a pair; none where the section carries no thread for it.
pub(super) fn pair<'a>(model: &'a Model<'a>) -> Option<Pair<'a>> {
    let (bodies, cap) = model.cap.zip(model.section.cap.as_ref())?;
    bodies.facing.drawn.thread(Item::CapInsideThread)?;
    model.part.drawn.thread(Item::CapThread)?;
    let criteria = &model.section.criteria;
    let stops_at = cap.stops_at.as_mm();
    Some(Pair {
        model,
        checks: &CHECKS,
        inner: model.part,
        inner_thread: Item::CapThread,
        outer: &bodies.facing,
        outer_thread: Item::CapInsideThread,
        stop: Stop::At(-stops_at),
        inner_was_read: false,
        origin: stops_at,
        other_pitches: &[],
        closes_in: Length::ZERO,
        own: Item::CapThread,
        shear: criteria.shear.as_ref(),
        percent: &criteria.cap_thread,
        least_turns: &criteria.fits.cap_turns,
        band: criteria.band.as_mm(),
    })
}

/// The turns that close the cap.
pub(super) fn closing(model: &Model) -> Option<Finding> {
    let pair = pair(model)?;
    let Pair { inner, outer, .. } = &pair;
    let drawn = pair.mating(&inner.drawn, &outer.drawn)?;
    let least = pair.mating(&inner.least, &outer.least)?;
    let most = pair.mating(&inner.most, &outer.most)?;
    let worst = drawn.turns.max(least.turns).max(most.turns);
    let [internal, external] = pair.threads(&inner.drawn, &outer.drawn)?;
    let lead = internal.lead();
    let shift = pair.advance(&inner.drawn, &outer.drawn);
    let low = internal.extent[0].max(external.extent[0] + shift);
    let high = internal.extent[1].min(external.extent[1] + shift);
    let caught = (high - low).max(0.0);
    let (error, band) = (ROUNDING / lead, pair.band / lead);
    let measure = Measure { worst, error, uncertainty: 0.0, band };
    let limit = model.section.criteria.fits.closing_turns.as_ref();
    Some(Finding {
        judgement: limit.map(|limit| judge(measure, Bound::AtMost, limit.value, &limit.source)),
        details: vec![
            detail("engaged length", drawn.run[1] - drawn.run[0], "mm"),
            detail("lead", lead, "mm"),
            detail("from the first catch", caught / lead, "turns"),
        ],
        ..finding(&CLOSING, drawn.turns, "turns", error)
    })
}
