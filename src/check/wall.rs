//! `wall.*`: the least distance from a zone's bore to the outside.

use super::bodies::{Built, Model, wanders};
use super::distance::{Curve, Nearest, nearest};
use super::finding::detail;
use super::judge::{Measure, ROUNDING, judge};
use super::{Bound, Finding, Place, Spot};
use crate::section::{Facet, Feature, Item, Section, Skin, Zone};
use crate::solid::Swept;

/// Code and title of each zone's wall, in the order of [`Zone::ALL`].
pub(super) const ZONES: [(&str, &str); 10] = [
    ("wall.lip", "Wall of the lip round the collar"),
    ("wall.recess", "Wall at the corner of the collar's seat"),
    ("wall.clearance", "Wall round the clearance bore"),
    ("wall.unit-thread", "Wall outside the unit's thread"),
    ("wall.tap-drill", "Wall round the tap drill's hole"),
    ("wall.through", "Wall round the through bore, under the grip"),
    ("wall.cap-thread", "Wall under the cap's thread"),
    ("wall.relief", "Wall under the relief groove"),
    ("wall.tenon", "Wall under the tenon's thread"),
    ("wall.tenon-tip", "Wall at the tenon's tip"),
];

/// Code and title of the least wall of all.
pub(super) const LEAST: (&str, &str) = ("wall.least", "Least wall of the section");

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
    let zones = Zone::ALL.into_iter().zip(ZONES);
    let mut findings: Vec<Finding> = zones
        .filter_map(|(zone, name)| {
            let limit = model.section.criteria.walls.of(zone);
            let drawn = thinnest(model, &model.part.drawn, |b, o| in_zone(zone, b, o), modelled)?;
            let least = thinnest(model, &model.part.least, |b, o| in_zone(zone, b, o), at_worst)?;
            let band = model.section.criteria.band.as_mm();
            let measure =
                Measure { worst: least.at_worst, error: ROUNDING, uncertainty: 0.0, band };
            let judgement = judge(measure, Bound::AtLeast, limit.value.as_mm(), &limit.source);
            Some(Finding { judgement: Some(judgement), ..finding(model, name, drawn, least) })
        })
        .collect();
    let drawn = thinnest(model, &model.part.drawn, |_, _| true, modelled);
    let least = thinnest(model, &model.part.least, |_, _| true, at_worst);
    findings.extend(drawn.zip(least).map(|(drawn, least)| finding(model, LEAST, drawn, least)));
    findings
}

fn finding(model: &Model, name: (&'static str, &'static str), drawn: Wall, least: Wall) -> Finding {
    let holding = model.section.criteria.offsets.holding.as_mm();
    Finding {
        code: name.0,
        title: name.1,
        measured: drawn.distance,
        unit: "mm",
        error: ROUNDING,
        judgement: None,
        place: Some(drawn.place),
        note: None,
        details: vec![
            detail("at the worst", least.at_worst, "mm"),
            detail("with the least material", least.distance, "mm"),
            detail("offset of holdings", holding, "mm"),
            detail("wander of a long hole", least.offset - holding, "mm"),
            detail("z at the worst", least.place.z(), "mm"),
        ],
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
fn in_zone(zone: Zone, bore: Feature, outside: Feature) -> bool {
    match zone {
        Zone::Lip => bore == Feature::new(Item::Recess, Facet::Side),
        Zone::Recess => bore.item == Item::Recess && bore.facet != Facet::Side,
        Zone::Clearance => bore.item == Item::ClearanceBore,
        Zone::UnitThread => bore.item == Item::UnitThread,
        Zone::TapDrill => bore.item == Item::TapDrill,
        // The shoulder's inner edge is the tenon's or the relief's: they have their own limits,
        // and so has the cap's thread.
        Zone::Through => {
            let grip = matches!(outside.item, Item::Grip(_) | Item::Bead(_) | Item::Groove(_));
            bore.item == Item::ThroughBore && grip
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
    }
}
