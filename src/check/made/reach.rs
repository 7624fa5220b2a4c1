//! `made.reach`: is full thread where the unit's full thread comes to lie?

use crate::check::bodies::{Built, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::{Bound, CheckInfo, Finding, thread};
use crate::section::Item;

/// Its check.
pub(super) static REACH: CheckInfo = CheckInfo {
    code: "made.reach",
    title: "Turns of the unit's thread that find no full thread",
    measures: "How much of the unit's full thread, the collar in its seat, lies in front of the \
        section's full thread or behind it, in turns.",
    limit: "The most turns that may be given away: a clearance bore that is too deep takes them.",
};

/// Turns in front, and behind.
fn lost(model: &Model, unit: &Built, part: &Built) -> Option<[f64; 2]> {
    let (own, other) = (part.thread(Item::UnitThread)?, unit.thread(Item::UnitBody)?);
    let advance = thread::unit::rest(model, unit, part).advance();
    let [from, to] = other.full.map(|z| z + advance);
    let whole = (to - from).max(0.0);
    let missing = |length: f64| length.clamp(0.0, whole) / own.lead();
    Some([missing(own.full[0] - from), missing(to - own.full[1])])
}

/// The turns that are lost.
pub(super) fn check(model: &Model) -> Option<Finding> {
    let Model { section, part, unit, .. } = model;
    let sum = |unit: &Built, part: &Built| lost(model, unit, part).map(|[a, b]| a + b);
    let drawn = lost(model, &unit.drawn, &part.drawn)?;
    let worst = sum(&unit.drawn, &part.least)?.max(sum(&unit.drawn, &part.most)?);
    let read = [(&unit.least, &part.least), (&unit.most, &part.most)];
    let read = read.into_iter().filter_map(|(unit, part)| sum(unit, part)).fold(worst, f64::max);
    let lead = part.drawn.thread(Item::UnitThread)?.lead();
    let limit = &section.criteria.lost_turns;
    let error = ROUNDING / lead;
    let band = section.criteria.band.as_mm() / lead;
    let measure = Measure { worst, error, uncertainty: read - worst, band };
    let note = (drawn[0] > drawn[1]).then(|| "the full thread begins behind the unit's".to_owned());
    let note = note.or_else(|| {
        (drawn[1] > 0.0).then(|| "the full thread ends in front of the unit's end".to_owned())
    });
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtMost, limit.value, &limit.source)),
        note,
        details: vec![
            detail("in front", drawn[0], "turns"),
            detail("behind", drawn[1], "turns"),
            detail("in front", drawn[0] * lead, "mm"),
            detail("behind", drawn[1] * lead, "mm"),
        ],
        ..finding(&REACH, drawn[0] + drawn[1], "turns", error)
    })
}
