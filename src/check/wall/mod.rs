//! `wall.*`: the least distance from a zone's bore to the outside.

mod floor;

use super::bodies::{Built, Model, wanders};
use super::catalogue::INFORMATION;
use super::distance::{Curve, Nearest, nearest};
use super::finding::{detail, finding};
use super::judge::{Measure, ROUNDING, judge};
use super::{Bound, CheckInfo, Finding, Place, Spot};
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Mouth, Section, Skin, Zone};
use crate::solid::Swept;

/// Each zone's check, in the order of [`Zone::ALL`].
static ZONES: [CheckInfo; 10] = [
    zone(
        "wall.lip",
        "Wall of the lip round the collar",
        "The least distance from the side of the collar's recess to the outside.",
    ),
    zone(
        "wall.recess",
        "Wall at the corner of the collar's seat",
        "The least distance from the floor or cone on which the collar rests to the outside.",
    ),
    zone(
        "wall.clearance",
        "Wall round the clearance bore",
        "The least distance from the clearance bore to the outside.",
    ),
    zone(
        "wall.unit-thread",
        "Wall outside the unit's thread",
        "The least distance from the root of the unit's thread, at any angle, to the outside.",
    ),
    zone(
        "wall.tap-drill",
        "Wall round the tap drill's hole",
        "The least distance from the tap drill's hole and its point to the outside.",
    ),
    zone(
        "wall.through",
        "Wall round the through bore, under the grip",
        "The least distance from the through bore, or a step behind the thread, to the outside in \
         front of the shoulder.",
    ),
    zone(
        "wall.cap-thread",
        "Wall under the cap's thread",
        "The least distance from any hole to the root of the cap's thread, at any angle.",
    ),
    zone(
        "wall.relief",
        "Wall under the relief groove",
        "The least distance from any hole to the relief groove.",
    ),
    zone(
        "wall.tenon",
        "Wall under the tenon's thread",
        "The least distance from any hole to the root of the tenon's thread, at any angle.",
    ),
    zone(
        "wall.tenon-tip",
        "Wall at the tenon's tip",
        "The least distance from any hole to the tenon's chamfer or pilot.",
    ),
];

/// The least wall of all.
static LEAST: CheckInfo = CheckInfo {
    code: "wall.least",
    title: "Least wall of the section",
    measures: "The least distance from any hole to the outside.",
    limit: INFORMATION,
};

/// What a wall's limit means.
const LIMIT: &str = "The least wall that the material bears in this place; judged with the largest \
    holes and the deepest threads, less what holdings and a wandering drill may be off the axis.";

const fn zone(code: &'static str, title: &'static str, measures: &'static str) -> CheckInfo {
    CheckInfo { code, title, measures, limit: LIMIT }
}

/// Every wall's check, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    ZONES.iter().chain([&LEAST, &floor::FLOOR]).collect()
}

/// The two points of a wall, and how thick it is.
#[derive(Clone, Copy)]
struct Wall {
    /// From skin to skin.
    distance: f64,
    /// The same less the offsets that the bore may have from the outside.
    at_worst: f64,
    /// Those offsets.
    offset: f64,
    place: Place,
}

/// One finding for each zone that the section has, then the least of all.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let zones = Zone::ALL.into_iter().zip(&ZONES);
    let mut findings: Vec<Finding> = zones
        .filter_map(|(zone, name)| {
            let limit = model.section.criteria.walls.of(zone);
            let drawn = thinnest(
                model,
                &model.part.drawn,
                |b, o| in_zone(model.section, zone, b, o),
                modelled,
            )?;
            let least = thinnest(
                model,
                &model.part.least,
                |b, o| in_zone(model.section, zone, b, o),
                at_worst,
            )?;
            let band = model.section.criteria.band.as_mm();
            let measure =
                Measure { worst: least.at_worst, error: ROUNDING, uncertainty: 0.0, band };
            let judgement = judge(measure, Bound::AtLeast, limit.value.as_mm(), &limit.source);
            Some(Finding { judgement: Some(judgement), ..told(model, name, drawn, least) })
        })
        .collect();
    let drawn = thinnest(model, &model.part.drawn, |_, _| true, modelled);
    let least = thinnest(model, &model.part.least, |_, _| true, at_worst);
    findings.extend(drawn.zip(least).map(|(drawn, least)| told(model, &LEAST, drawn, least)));
    findings.extend(floor::check(model));
    findings
}

/// A wall without its judgement.
fn told(model: &Model, check: &'static CheckInfo, drawn: Wall, least: Wall) -> Finding {
    let holding = model.section.criteria.offsets.holding.as_mm();
    Finding {
        place: Some(drawn.place),
        details: vec![
            detail("at the worst", least.at_worst, "mm"),
            detail("with the least material", least.distance, "mm"),
            detail("offset of holdings", holding, "mm"),
            detail("wander of a long hole", least.offset - holding, "mm"),
            detail("z at the worst", least.place.z(), "mm"),
        ],
        ..finding(check, drawn.distance, "mm", ROUNDING)
    }
}

fn modelled(wall: &Wall) -> f64 {
    wall.distance
}

fn at_worst(wall: &Wall) -> f64 {
    wall.at_worst
}

/// The wall that is least by `by`, among the pairs of lines that `of` picks.
fn thinnest(
    model: &Model,
    body: &Built,
    of: impl Fn(Feature, Feature) -> bool,
    by: fn(&Wall) -> f64,
) -> Option<Wall> {
    let on = |skin| body.lines.iter().filter(move |l| l.skin == skin);
    let mut best: Option<Wall> = None;
    for bore in on(Skin::Bore) {
        let offset = offset(model.section, bore.feature.item);
        for outside in on(Skin::Outside) {
            if !of(bore.feature, outside.feature) {
                continue;
            }
            let wall = between(bore, outside, offset);
            if best.is_none_or(|best| by(&wall) < by(&best)) {
                best = Some(wall);
            }
        }
    }
    best
}

/// The least wall of any body, from its bores to its outside, with the features on both sides.
pub(super) fn least_wall(lines: &[Swept]) -> Option<(f64, Feature, Feature)> {
    let on = |skin| -> Vec<&Swept> { lines.iter().filter(|line| line.skin == skin).collect() };
    let (distance, place) = nearest_pair(&on(Skin::Bore), &on(Skin::Outside))?;
    Some((distance, place.inner.feature, place.outer.feature))
}

/// The least distance between lines of one side and lines of the other.
pub(super) fn nearest_pair(inner: &[&Swept], outer: &[&Swept]) -> Option<(f64, Place)> {
    let pairs = inner.iter().flat_map(|a| outer.iter().map(move |b| between(a, b, 0.0)));
    let least = pairs.reduce(|a, b| if b.distance < a.distance { b } else { a })?;
    Some((least.distance, least.place))
}

fn between(bore: &Swept, outside: &Swept, offset: f64) -> Wall {
    let Nearest { distance, on_first, on_second } = nearest(&Curve::of(bore), &Curve::of(outside));
    let spot = |feature, [r, z]: [f64; 2]| Spot { feature, r, z };
    let inner = spot(bore.feature, on_first);
    let outer = spot(outside.feature, on_second);
    Wall { distance, at_worst: distance - offset, offset, place: Place { inner, outer } }
}

/// How far a bore may lie off the outside's axis: the change of holding between them and, for a
/// long hole, its wander; the sum, since either may point the same way.
fn offset(section: &Section, bore: Item) -> f64 {
    let offsets = section.criteria.offsets;
    let wander = if wanders(section, bore) { offsets.long_hole.as_mm() } else { 0.0 };
    offsets.holding.as_mm() + wander
}

/// Whether the wall between two surfaces belongs to a zone.
fn in_zone(section: &Section, zone: Zone, bore: Feature, outside: Feature) -> bool {
    let own = own_zone(section, bore);
    match zone {
        // The shoulder's inner edge is the tenon's or the relief's: they have their own limits,
        // and so has the cap's thread.
        Zone::Through => {
            let grip = matches!(outside.item, Item::Grip(_) | Item::Bead(_) | Item::Groove(_));
            own == Some(zone) && grip
        }
        Zone::CapThread => outside.item == Item::CapThread,
        Zone::Relief => outside.item == Item::Relief,
        Zone::Tenon => {
            outside.item == Item::TenonThread || outside == Feature::new(Item::Tenon, Facet::Side)
        }
        Zone::TenonTip => {
            outside.item == Item::Pilot
                || (outside.item == Item::Tenon && outside.facet != Facet::Side)
        }
        _ => own == Some(zone),
    }
}

/// The zone of a bore's surface, whatever lies outside of it. A tool beyond the unit's stack
/// belongs to the zone of the hole that it widens or, deeper than the thread, goes on from.
fn own_zone(section: &Section, bore: Feature) -> Option<Zone> {
    match bore.item {
        Item::Recess if bore.facet == Facet::Side => Some(Zone::Lip),
        Item::Countersink(Mouth::Front) => Some(Zone::Lip),
        Item::Recess | Item::CentrePilot => Some(Zone::Recess),
        Item::ClearanceBore => Some(Zone::Clearance),
        Item::UnitThread => Some(Zone::UnitThread),
        Item::TapDrill => Some(Zone::TapDrill),
        Item::ThroughBore | Item::Countersink(Mouth::Back) => Some(Zone::Through),
        Item::BoreStep(..) | Item::BoreRelief(_) => {
            let [from, to] = section.bore(bore.item)?.full(section.length());
            let (thread, in_thread) = (&section.unit_thread, to > section.unit_thread.from);
            Some(match () {
                () if to <= section.seat() => Zone::Lip,
                () if !in_thread => Zone::Clearance,
                () if from >= thread.to && from < tap_drill_end(section) => Zone::TapDrill,
                () => Zone::Through,
            })
        }
        _ => None,
    }
}

/// z at which the tap drill's full diameter ends.
fn tap_drill_end(section: &Section) -> Length {
    section.bore(Item::TapDrill).map_or(Length::ZERO, |drill| drill.full_depth(section.length()))
}
