//! The zones of the wall: which pairs of surfaces belong to which.

use super::LIMIT;
use super::skin::Line;
use crate::check::CheckInfo;
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Mouth, Section, Zone};

/// Each zone's check, in the order of [`Zone::ALL`].
pub(super) static ZONES: [CheckInfo; 11] = [
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
        "wall.shoulder-corner",
        "Wall at the shoulder's inner corner",
        "The least distance from any hole to the shoulder's plane, which is nearest where the \
         relief groove or the tenon meets it; the end of a thread in that plane belongs to it.",
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

const fn zone(code: &'static str, title: &'static str, measures: &'static str) -> CheckInfo {
    CheckInfo { code, title, measures, limit: LIMIT }
}

/// Whether the wall between two surfaces belongs to a zone.
pub(super) fn in_zone(zone: Zone, bore: &Line, outside: &Line) -> bool {
    let item = outside.feature.item;
    match zone {
        // The shoulder, the tenon and the cap's thread have their own limits.
        Zone::Through => {
            let grip = matches!(item, Item::Grip(_) | Item::Bead(_) | Item::Groove(_));
            bore.own == Some(zone) && grip
        }
        Zone::CapThread => item == Item::CapThread,
        Zone::ShoulderCorner => outside.in_shoulder,
        Zone::Relief => item == Item::Relief,
        Zone::Tenon => {
            item == Item::TenonThread || outside.feature == Feature::new(Item::Tenon, Facet::Side)
        }
        Zone::TenonTip => {
            item == Item::Pilot || (item == Item::Tenon && outside.feature.facet != Facet::Side)
        }
        _ => bore.own == Some(zone),
    }
}

/// The zone of a bore's surface, whatever lies outside of it. A tool beyond the unit's stack
/// belongs to the zone of the hole that it widens or, deeper than the thread, goes on from.
pub(super) fn own_zone(section: &Section, bore: Feature) -> Option<Zone> {
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
