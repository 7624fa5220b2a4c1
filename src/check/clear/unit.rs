//! `clear.*`: the nib unit on its way along the bore to its seat.

use super::radial::{Radial, tightest};
use crate::check::bodies::{Built, Model};
use crate::check::catalogue::INFORMATION;
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::{Contact, Gap, Rest, Slide};
use crate::check::{Bound, CheckInfo, Finding, Place, thread};
use crate::section::Item;
use crate::size::words;

/// The collar rests before anything else touches.
static SEAT: CheckInfo = CheckInfo {
    code: "clear.seat",
    title: "Room behind the nib unit when its collar rests",
    measures: "How much farther the nib unit could go when its collar rests, before anything else \
        of it touches.",
    limit: "Less than none: something else stops it first, and the collar stands proud.",
};

/// Radial room on the way.
static UNIT: CheckInfo = CheckInfo {
    code: "clear.unit",
    title: "Room round the nib unit in the bores",
    measures: "The least radial gap between any part of the nib unit and the bores that it passes; \
        threads that engage do not count.",
    limit: "The room per side that a part needs to pass.",
};

/// Where the collar's front stands.
static COLLAR: CheckInfo = CheckInfo {
    code: "clear.collar",
    title: "How far the collar's front lies behind the section's front face",
    measures: "The distance from the section's front face back to the collar's front; negative where \
        the collar stands proud.",
    limit: INFORMATION,
};

/// Its checks, in the order of their findings.
pub(super) static CHECKS: [&CheckInfo; 3] = [&SEAT, &UNIT, &COLLAR];

/// Seat, room on the way, and where the collar's front stands.
pub(in crate::check) fn check(model: &Model) -> Vec<Finding> {
    let rest = rest(model, &model.unit.drawn, &model.part.drawn);
    let mut findings = vec![seat(model, &rest)];
    findings.extend(room(model));
    let front = model.unit.drawn.lines.iter().flat_map(|l| [l.from[1], l.to[1]]);
    let front = front.fold(f64::MAX, f64::min) + rest.advance();
    findings.push(finding(&COLLAR, front, "mm", ROUNDING));
    findings
}

fn rest(model: &Model, unit: &Built, part: &Built) -> Rest {
    thread::unit::rest(model, unit, part)
}

/// Axial room between the collar's rest and the first other contact.
fn seat(model: &Model, drawn: &Rest) -> Finding {
    let Model { part, unit, .. } = model;
    // What never touches has the whole section for room.
    let whole = part.drawn.end();
    let room = |unit: &Built, part: &Built| room_of(&rest(model, unit, part), whole);
    let measured = room_of(drawn, whole);
    let worst = room(&unit.drawn, &part.least).min(room(&unit.drawn, &part.most)).min(measured);
    let read = [&unit.least, &unit.most]
        .into_iter()
        .flat_map(|u| [room(u, &part.least), room(u, &part.most)])
        .fold(worst, f64::min);
    let band = model.section.criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: worst - read, band };
    let source = "geometry: the collar must rest before anything else touches";
    let seat_z = drawn.advance();
    let mut details = vec![detail("the collar rests at z", seat_z, "mm")];
    details.extend(drawn.other.map(|c| detail("something else touches at z", c.outer.z, "mm")));
    Finding {
        judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
        place: drawn.other.map(|c| place(&c)),
        note: note(drawn, measured),
        details,
        ..finding(&SEAT, measured, "mm", ROUNDING)
    }
}

/// Room of a rest: without a seat there is none, by as much as the part goes in too far.
fn room_of(rest: &Rest, whole: f64) -> f64 {
    match (rest.seat, rest.other) {
        (Some(_), Some(_)) => rest.room().map_or(whole, |room| room.min(whole)),
        (Some(_), None) => whole,
        (None, _) => -whole,
    }
}

fn note(rest: &Rest, room: f64) -> Option<String> {
    if rest.seat.is_none() {
        return Some("the collar finds no seat to rest on".to_owned());
    }
    let touch = rest.other.filter(|_| room < ROUNDING)?;
    let (inner, outer) = (words::surface(touch.inner.feature), words::surface(touch.outer.feature));
    Some(if room < -ROUNDING {
        format!("{inner} meets {outer} {:.2} mm before the collar rests", -room)
    } else {
        format!("{inner} meets {outer} as the collar rests")
    })
}

/// In the axes of the outer body, at the moment of contact.
fn place(contact: &Contact) -> Place {
    let mut inner = contact.inner;
    inner.z += contact.advance;
    Place { inner, outer: contact.outer }
}

/// The least radial gap between the unit and the bores that it passes.
fn room(model: &Model) -> Option<Finding> {
    let Model { part, unit, .. } = model;
    let gaps = |unit: &Built, part: &Built| {
        let slide = Slide::new((unit, Item::UnitBody), (part, Item::UnitThread));
        slide.gaps(rest(model, unit, part).advance())
    };
    let drawn = gaps(&unit.drawn, &part.drawn);
    let named = |gap: &Gap| {
        let [inner, outer] = [gap.pair().0, gap.pair().1].map(words::item);
        detail(format!("{inner} in {outer}"), gap.room, "mm")
    };
    let details = of_items(&drawn).iter().map(named).collect();
    let radial = Radial {
        drawn: &drawn,
        worst: gaps(&unit.drawn, &part.most),
        read: gaps(&unit.most, &part.most),
        limit: &model.section.criteria.least_clearance,
        band: model.section.criteria.band.as_mm(),
    };
    radial.finding(&UNIT, details, |z| z)
}

/// The tightest gap of each item of the unit.
fn of_items(gaps: &[Gap]) -> Vec<Gap> {
    let by_item = gaps.chunk_by(|a, b| a.pair().0 == b.pair().0);
    by_item.filter_map(tightest).collect()
}
