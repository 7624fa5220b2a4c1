//! `wall.*`: the least distance from a zone's bore to the outside.
//!
//! ```text
//!   zone     which pairs of surfaces are whose      case    the worst case in words
//!   skin     lines of bore and outside, the least   curve   the wall along z
//!            distance between some of them          floor   what ends a blind bore
//!   over     the unit's thread under another one
//! ```
//! **What is exact.** Distances between lines of the half-plane are closed forms, within
//! rounding. A turned surface is its line. A thread is the line of its root, over all z that the
//! root reaches at any angle: between a thread and a turned surface that is exact, since at every
//! such z there is an angle where the root is there. Between two threads it is a bound, and errs
//! to the safe side: the roots may nowhere come to lie in one half-plane over each other (equal
//! leads never move against each other), and then the least distance of the one pair of phases
//! that was cut is greater. A segment that grazes another bore counts as a wall too: safe again.
//!
//! **The worst side.** The section with the least material, each bore up to its offset beside the
//! axis of the outside ([`super::distance::nearest_off_axis`]). The design does not say which
//! surfaces share a holding, so every bore counts as cut in another one than the outside over it:
//! safe where they share one. A wandering drill adds its own offset, since both may point the
//! same way.

mod case;
mod curve;
mod floor;
mod over;
mod skin;
mod zone;

pub use curve::{WallAt, WallCurve};
pub(super) use skin::least_wall;

use super::bodies::{Extremes, Model};
use super::catalogue::INFORMATION;
use super::finding::{detail, finding};
use super::judge::{Measure, ROUNDING, judge};
use super::{Bound, CheckInfo, Finding};
use crate::section::{Section, Zone};
use skin::{Skins, Wall};
use zone::{ZONES, in_zone};

/// The least wall of all.
static LEAST: CheckInfo = CheckInfo {
    code: "wall.least",
    title: "Least wall of the section",
    measures: "The least distance from any hole to the outside, as modelled; and along z, for each \
        place of the bore, the least distance from it.",
    limit: INFORMATION,
};

/// The same at the worst.
static WORST: CheckInfo = CheckInfo {
    code: "wall.worst",
    title: "Least wall of the section, at the worst",
    measures: "The same with the largest holes and the deepest threads, each bore off the axis by \
        its offset.",
    limit: INFORMATION,
};

/// What a wall's limit means.
const LIMIT: &str = "The least wall that the material bears in this place; judged with the largest \
    holes and the deepest threads, less what holdings and a wandering drill may be off the axis.";

/// Every wall's check, in the order of their findings.
pub(super) fn list() -> Vec<&'static CheckInfo> {
    ZONES.iter().chain([&over::OVER, &LEAST, &WORST, &floor::FLOOR]).collect()
}

/// One finding for each zone that the section has, then the least of all, without their curves.
pub(super) fn check(model: &Model) -> Vec<Finding> {
    let skins = Skins::of(model.section, model.part);
    let zones = Zone::ALL.into_iter().zip(&ZONES);
    let mut findings: Vec<Finding> = zones
        .filter_map(|(zone, name)| {
            let [drawn, least] = skins.walls(|b, o| in_zone(zone, b, o))?;
            let limit = model.section.criteria.walls.of(zone);
            let judgement =
                judge(measured(model, &least), Bound::AtLeast, limit.value.as_mm(), &limit.source);
            Some(Finding { judgement: Some(judgement), ..told(model, name, &drawn, &least) })
        })
        .collect();
    findings.extend(over::check(model, &skins));
    if let Some([drawn, least]) = skins.walls(|_, _| true) {
        findings.push(told(model, &LEAST, &drawn, &least));
        let told = told(model, &WORST, &drawn, &least);
        findings.push(Finding { measured: least.at_worst, place: told.worst_place, ..told });
    }
    findings.extend(floor::check(model));
    findings
}

/// Gives the least walls their curves along z.
pub(crate) fn add_curves(section: &Section, part: &Extremes, findings: &mut [Finding]) {
    let curve = WallCurve::of(section, part);
    for (check, along) in [(&LEAST, &curve.drawn), (&WORST, &curve.worst)] {
        if let Some(finding) = findings.iter_mut().find(|finding| finding.code == check.code) {
            finding.series = Some(WallCurve::series(along));
        }
    }
}

/// What a wall is judged by.
fn measured(model: &Model, least: &Wall) -> Measure {
    let band = model.section.criteria.band.as_mm();
    Measure { worst: least.at_worst, error: ROUNDING, uncertainty: 0.0, band }
}

/// A wall without its judgement.
fn told(model: &Model, check: &'static CheckInfo, drawn: &Wall, least: &Wall) -> Finding {
    let holding = model.section.criteria.offsets.holding.as_mm();
    Finding {
        place: Some(drawn.place),
        worst_place: Some(least.worst_place),
        note: Some(case::words(model.section, drawn, least)),
        details: vec![
            detail("at the worst", least.at_worst, "mm"),
            detail("with the least material", least.distance, "mm"),
            detail("offset of holdings", holding, "mm"),
            detail("wander of a long hole", least.offset - holding, "mm"),
            detail("z at the worst", least.worst_place.z(), "mm"),
        ],
        ..finding(check, drawn.distance, "mm", ROUNDING)
    }
}
