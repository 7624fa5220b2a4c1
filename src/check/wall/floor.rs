//! `wall.floor`: what is left between a blind hole and what comes from the back.

use super::skin::wander;
use super::{LIMIT, case};
use crate::check::bodies::{Built, Model};
use crate::check::distance::{Curve, nearest_off_axis};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::{Bound, CheckInfo, Finding, Place, Spot};
use crate::section::{Item, Section, Skin, Zone};
use crate::solid::Swept;

/// Its check.
pub(super) static FLOOR: CheckInfo = CheckInfo {
    code: "wall.floor",
    title: "Floor between the blind bore and the back",
    measures: "The least distance from a blind bore's end to the hole from the back, or to the \
        back face.",
    limit: LIMIT,
};

/// The least distance from the blind hole at the front to the hole from the back, or to the back
/// face; none for a section that is bored through. It is judged as the wall round the through
/// bore: the material bears the same.
///
/// At the worst both holes are off each other's axis, by the change of holding between them and by
/// what each of them wanders: two cones come nearer to each other, two flat floors do not.
pub(super) fn check(model: &Model) -> Option<Finding> {
    let section = model.section;
    let (drawn, place) = floor(&model.part.drawn, |_, _| 0.0)?;
    let on_axis = floor(&model.part.least, |_, _| 0.0);
    let worst = floor(&model.part.least, |front, back| apart(section, front, back));
    let worst_place = worst.map(|(_, place)| place);
    // At the worst the holes may meet.
    let [on_axis, worst] =
        [on_axis, worst].map(|found| found.map_or(0.0, |(distance, _)| distance));
    let criteria = &section.criteria;
    let limit = criteria.walls.of(Zone::Through);
    let band = criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: 0.0, band };
    let source = format!("{} (as round the through bore)", limit.source);
    let (front, back) = (place.inner.feature.item, place.outer.feature.item);
    let off = apart(section, front, back);
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtLeast, limit.value.as_mm(), &source)),
        place: Some(place),
        worst_place,
        note: Some(case::of_holes(section, [place.inner.feature, place.outer.feature], off)),
        details: vec![
            detail("at the worst", worst, "mm"),
            detail("with the least material", on_axis, "mm"),
            detail("one hole off the other's axis", off, "mm"),
        ],
        ..finding(&FLOOR, drawn, "mm", ROUNDING)
    })
}

/// How far two holes may be off each other's axis; the back face has none.
fn apart(section: &Section, front: Item, back: Item) -> f64 {
    if back == Item::BackFace {
        return 0.0;
    }
    section.criteria.offsets.holding.as_mm() + wander(section, front) + wander(section, back)
}

/// The floor's thickness and place, with the holes off each other's axis by what `off` says.
fn floor(body: &Built, off: impl Fn(Item, Item) -> f64) -> Option<(f64, Place)> {
    let on_axis = |line: &&Swept| line.from[0] == 0.0 || line.to[0] == 0.0;
    let ends =
        body.lines.iter().filter(on_axis).map(|l| if l.from[0] == 0.0 { l.from } else { l.to });
    // Two places on the axis, between which the floor lies; a part that is bored through has none.
    let (low, high) = ends.fold((f64::MAX, f64::MIN), |(a, b), p| (a.min(p[1]), b.max(p[1])));
    if low >= high {
        return None;
    }
    let middle = f64::midpoint(low, high);
    // Both holes lie on their own side of the floor's middle at the axis; a line's end that is
    // nearer to the axis tells which.
    let near = |l: &Swept| if l.from[0] <= l.to[0] { l.from[1] } else { l.to[1] };
    let bore = |l: &&Swept| l.skin == Skin::Bore && near(l) < middle;
    let behind =
        |l: &&Swept| l.feature.item == Item::BackFace || (l.skin == Skin::Bore && near(l) > middle);
    let front: Vec<&Swept> = body.lines.iter().filter(bore).collect();
    let back: Vec<&Swept> = body.lines.iter().filter(behind).collect();
    let pairs = front.iter().flat_map(|a| back.iter().map(move |b| (*a, *b)));
    let found = pairs.map(|(a, b)| {
        let off = off(a.feature.item, b.feature.item);
        // No tool leaves an arc in a bore, or at its end.
        let found = nearest_off_axis([a.from, a.to], &Curve::of(b), off);
        let spot = |feature, [r, z]: [f64; 2]| Spot { feature, r, z };
        let inner = spot(a.feature, found.on_first);
        (found.distance, Place { inner, outer: spot(b.feature, found.on_second) })
    });
    found.reduce(|best, next| if next.0 < best.0 { next } else { best })
}
