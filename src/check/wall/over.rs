//! `wall.thread-over-thread`: where the unit's thread lies under the tenon's or the cap's.

use super::skin::Skins;
use super::{LIMIT, measured, told};
use crate::check::bodies::Model;
use crate::check::judge::{judge, worse};
use crate::check::{Bound, CheckInfo, Finding};
use crate::section::{Item, Zone};

/// Its check.
pub(super) static OVER: CheckInfo = CheckInfo {
    code: "wall.thread-over-thread",
    title: "Wall between the unit's thread and a thread over it",
    measures: "The least distance from the root of the unit's thread to the root of the tenon's \
        or the cap's thread, at any angles, where one lies over the other along z or next to it.",
    limit: LIMIT,
};

/// Threads count as over each other while they are no farther apart along z than so many times
/// the limit. With less, a change that moves one out from under the other would take the measure
/// away before it shows that it helped; with more, threads that have nothing to do with each
/// other would be measured.
const NEAR: f64 = 2.0;

/// The least distance between the roots of two threads that lie over each other, judged by the
/// greater of both zones' limits; none where no thread lies over the unit's. Where both the cap's
/// and the tenon's do, the worse of the two.
pub(super) fn check(model: &Model, skins: &Skins) -> Option<Finding> {
    let walls = &model.section.criteria.walls;
    let outer = [(Item::CapThread, Zone::CapThread), (Item::TenonThread, Zone::Tenon)];
    let found = outer.into_iter().filter_map(|(item, zone)| {
        let (unit, own) = (walls.of(Zone::UnitThread), walls.of(zone));
        let limit = if own.value > unit.value { own } else { unit };
        let least = limit.value.as_mm();
        if apart(model, item)? > NEAR * least {
            return None;
        }
        let pick = |b: Item, o: Item| b == Item::UnitThread && o == item;
        let [drawn, worst] = skins.walls(|b, o| pick(b.feature.item, o.feature.item))?;
        let source = format!("{} (the greater limit of both threads)", limit.source);
        let judgement = judge(measured(model, &worst), Bound::AtLeast, least, &source);
        Some(Finding { judgement: Some(judgement), ..told(model, &OVER, &drawn, &worst) })
    });
    found.reduce(|a, b| match (&a.judgement, &b.judgement) {
        (Some(first), Some(second)) if worse(first.clone(), second.clone()) == *second => b,
        _ => a,
    })
}

/// How far a thread begins behind the end of the unit's thread, or ends before its beginning;
/// 0 or less where they overlap along z.
fn apart(model: &Model, over: Item) -> Option<f64> {
    let [unit, over] = [Item::UnitThread, over].map(|item| model.part.drawn.thread(item));
    let (unit, over) = (unit?.extent, over?.extent);
    Some((over[0] - unit[1]).max(unit[0] - over[1]))
}
