//! `wall.floor`: what is left between a blind hole and what comes from the back.

use crate::check::bodies::{Built, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};

use super::{LIMIT, nearest_pair};
use crate::check::{Bound, CheckInfo, Finding, Place};
use crate::section::{Item, Skin, Zone};
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
pub(super) fn check(model: &Model) -> Option<Finding> {
    let (drawn, place) = floor(&model.part.drawn)?;
    let least = floor(&model.part.least);
    // At the worst the holes may meet.
    let worst = least.map_or(0.0, |(distance, _)| distance);
    let criteria = &model.section.criteria;
    let limit = criteria.walls.of(Zone::Through);
    let band = criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: 0.0, band };
    let source = format!("{} (as round the through bore)", limit.source);
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtLeast, limit.value.as_mm(), &source)),
        place: Some(place),
        details: vec![detail("with the least material", worst, "mm")],
        ..finding(&FLOOR, drawn, "mm", ROUNDING)
    })
}

/// The floor's thickness and place.
fn floor(body: &Built) -> Option<(f64, Place)> {
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
    nearest_pair(&front, &back)
}
