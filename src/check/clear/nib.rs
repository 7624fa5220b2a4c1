//! `clear.nib*`: nib and feed in the closed cap, and on their way into it.

use super::radial::Radial;
use crate::check::bodies::{Built, Model};
use crate::check::enclosing::{CapBodies, bottom};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::{Gap, Slide};
use crate::check::{Bound, CheckInfo, Finding, Place, Spot, thread};
use crate::section::{Facet, Feature, Item, Skin};

/// The tip.
static TIP: CheckInfo = CheckInfo {
    code: "clear.nib",
    title: "Room before the nib in the capped pen",
    measures: "From the nib's tip, the collar in its seat and the cap where it stops, to the cap's \
        closed end.",
    limit: "The room that keeps the tip from the closed end.",
};

/// The side.
static SIDE: CheckInfo = CheckInfo {
    code: "clear.nib-side",
    title: "Room round nib and feed in the cap",
    measures: "The least radial gap between nib and feed at their widest and what of the cap they \
        pass on their way in.",
    limit: "The room per side that keeps nib and feed off the cap.",
};

/// Its checks, in the order of their findings.
pub(super) static CHECKS: [&CheckInfo; 2] = [&TIP, &SIDE];

/// Room before the tip and round nib and feed.
pub(in crate::check) fn check(model: &Model) -> Vec<Finding> {
    let Some((bodies, cap)) = model.cap.zip(model.section.cap.as_ref()) else {
        return Vec::new();
    };
    let stops_at = cap.stops_at.as_mm();
    let mut findings = vec![tip(model, bodies, stops_at)];
    findings.extend(side(model, bodies, stops_at));
    findings
}

/// z of the section at the underside of the collar, at rest.
fn seat(model: &Model, unit: &Built, part: &Built) -> f64 {
    thread::unit::rest(model, unit, part).advance()
}

fn tip(model: &Model, bodies: &CapBodies, stops_at: f64) -> Finding {
    let Model { part, unit, .. } = model;
    let CapBodies { cap, tightest, nib, greatest_nib, .. } = bodies;
    let tip = |unit: &Built, part: &Built, nib: &Built| nib.start() + seat(model, unit, part);
    let room = |tip: f64, cap: &Built| bottom(cap) - stops_at + tip;
    let at = tip(&unit.drawn, &part.drawn, nib);
    let measured = room(at, &cap.drawn);
    let worst = [(&part.least, &cap.least), (&part.most, &cap.most)];
    let worst = worst.map(|(part, cap)| room(tip(&unit.drawn, part, nib), cap));
    let worst = worst.into_iter().fold(measured, f64::min);
    let units = [&unit.least, &unit.most].into_iter();
    let states = units.flat_map(|unit| [(unit, &part.least), (unit, &part.most)]);
    let read = states.map(|(unit, part)| room(tip(unit, part, greatest_nib), tightest));
    let uncertainty = (worst - read.fold(worst, f64::min)).max(0.0);
    let criteria = &model.section.criteria;
    let (limit, band) = (&criteria.fits.nib_room, criteria.band.as_mm());
    let measure = Measure { worst, error: ROUNDING, uncertainty, band };
    let closed = bottom(&cap.drawn);
    let end = cap.drawn.lines.iter().find(|l| l.skin == Skin::Bore && l.from[1] == closed);
    let feature = Feature::new(Item::Nib, Facet::Floor);
    let place = end.map(|end| Place {
        inner: Spot { feature, r: 0.0, z: at },
        outer: Spot { feature: end.feature, r: 0.0, z: stops_at - closed },
    });
    let note = (measured < -ROUNDING)
        .then(|| format!("the nib meets the closed end {:.2} mm before the cap stops", -measured));
    Finding {
        judgement: Some(judge(measure, Bound::AtLeast, limit.value.as_mm(), &limit.source)),
        place,
        note,
        details: vec![
            detail("the tip lies at z", at, "mm"),
            detail("the closed end lies at z", stops_at - closed, "mm"),
        ],
        ..finding(&TIP, measured, "mm", ROUNDING)
    }
}

fn side(model: &Model, bodies: &CapBodies, stops_at: f64) -> Option<Finding> {
    let Model { part, unit, .. } = model;
    let CapBodies { cap, tightest, nib, greatest_nib, .. } = bodies;
    let gaps = |nib: &Built, seat: f64, cap: &Built| -> Vec<Gap> {
        let nib = nib.turned();
        Slide { inner: &nib, outer: cap, threads: None }.gaps(stops_at - seat)
    };
    let drawn = gaps(nib, seat(model, &unit.drawn, &part.drawn), &cap.drawn);
    let worst = gaps(nib, seat(model, &unit.drawn, &part.most), &cap.most);
    let read = gaps(greatest_nib, seat(model, &unit.most, &part.most), tightest);
    let criteria = &model.section.criteria;
    let (limit, band) = (&criteria.fits.cap_clearance, criteria.band.as_mm());
    let details = vec![detail("width of nib and feed", 2.0 * widest(nib), "mm")];
    let radial = Radial { drawn: &drawn, worst, read, limit, band };
    radial.finding(&SIDE, details, |s| stops_at - s)
}

fn widest(body: &Built) -> f64 {
    body.lines.iter().flat_map(|l| [l.from[0], l.to[0]]).fold(0.0, f64::max)
}
