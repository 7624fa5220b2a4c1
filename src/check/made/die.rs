//! `made.die-lead`: does the incomplete thread at the shoulder fit where the barrel has none?

use crate::check::bodies::{Built, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::{Bound, CheckInfo, Finding, thread};
use crate::section::Item;

/// Its check.
pub(super) static DIE: CheckInfo = CheckInfo {
    code: "made.die-lead",
    title: "Room for the tenon's incomplete thread in the barrel",
    measures: "From where the tenon's thread is full, the shoulder closed, to where the barrel's \
        thread begins: what a die leaves incomplete must lie in the barrel's counterbore.",
    limit: "Less than none: the incomplete thread jams in the barrel's before the shoulder closes.",
};

/// The room between both; none where the tenon's thread has no incomplete turns at the shoulder.
pub(super) fn check(model: &Model) -> Option<Finding> {
    let Model { section, part, barrel, .. } = model;
    let room = |part: &Built, barrel: &Built| {
        let (own, other) = (part.thread(Item::TenonThread)?, barrel.thread(Item::BarrelThread)?);
        let incomplete = own.full[0] - own.extent[0];
        let advance = thread::tenon::rest(model, part, barrel).advance();
        (incomplete > ROUNDING).then(|| (other.extent[0] - own.full[0] - advance, incomplete))
    };
    let (measured, incomplete) = room(&part.drawn, &barrel.drawn)?;
    let worst = [(&part.least, &barrel.least), (&part.most, &barrel.most)];
    let worst = worst.into_iter().filter_map(|(part, barrel)| room(part, barrel));
    let worst = worst.fold(measured, |worst, (room, _)| worst.min(room));
    let band = section.criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: 0.0, band };
    let source = "geometry: incomplete thread finds no room in full thread";
    let note = (worst < -ROUNDING)
        .then(|| format!("{:.2} mm of incomplete thread reach into the barrel's thread", -worst));
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
        note,
        details: vec![detail("incomplete thread", incomplete, "mm")],
        ..finding(&DIE, measured, "mm", ROUNDING)
    })
}
