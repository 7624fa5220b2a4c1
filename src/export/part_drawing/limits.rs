//! How far each size of a drawing may be off.

use super::scheme::{Role, Size, Wall};
use super::words::Limits;
use crate::check::{Allotment, AllottedSize, Parameter};
use crate::quantity::Length;
use crate::section::{Item, NamedPart, PartKind, Side};
use crate::standard::iso2768::LEAST;

/// A size on a drawing and the one that was allotted are one where they differ by no more than
/// their rounding, in millimetres or degrees.
const ROUNDING: f64 = 0.0011;

/// What a size under the least of ISO 2768 may be off on a part beside the section, in millimetres
/// (common practice, no source).
const SMALL: f64 = 0.05;

/// How much under its size what slides into a bore may be (common practice, no source): more, and
/// it has shake.
const SLIDES: f64 = 0.02;

/// The section's limits, as they were allotted. A size that stands for several has the tightest.
pub fn by_allotment(allotment: &Allotment) -> impl Fn(&Size) -> Limits + '_ {
    move |size| {
        if size.role == Role::Cone {
            return cone(size, allotment);
        }
        let value = size.measure.value();
        let same = |allotted: &&AllottedSize| {
            belongs(allotted.parameter, size) && (allotted.value.as_mm() - value).abs() <= ROUNDING
        };
        let found = allotment.sizes.iter().filter(same);
        let own = found.chain(ring_edges(size, allotment)).filter(|allotted| !allotted.general);
        own.map(|allotted| [allotted.below, allotted.above].map(Length::as_mm))
            .reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1])])
            .map_or_else(|| small(size, value), Limits::Own)
    }
}

/// The limits of other parts: general ones, but for sizes that these do not cover, what slides
/// into a bore, and what a thread's class says of its crest.
pub fn general(named: &NamedPart) -> impl Fn(&Size) -> Limits + '_ {
    move |size| {
        let value = size.measure.value();
        let slides = named.kind == PartKind::LipPlug && size.wall == Wall::Outside;
        let across = matches!(size.role, Role::Diameter(_));
        let crest = named
            .part
            .threads
            .iter()
            .find(|thread| across && (thread.form.crest.as_mm() - value).abs() < ROUNDING);
        match (&size.role, crest) {
            (Role::Cone | Role::Thread(_), _) => Limits::General,
            (_, Some(thread)) => {
                let limits = match thread.side {
                    Side::External => thread.limits.major,
                    Side::Internal => thread.limits.minor,
                };
                let off = [value - limits.min().as_mm(), limits.max().as_mm() - value];
                Limits::Own(off.map(|off| off.max(0.0)))
            }
            _ if slides && across => Limits::Own([SLIDES, 0.0]),
            _ => small(size, value),
        }
    }
}

/// ISO 2768-1 has no tolerance for sizes under 0.5 mm: they have their own.
fn small(size: &Size, value: f64) -> Limits {
    let has_one = matches!(size.role, Role::Thread(_)) || value >= LEAST.as_mm();
    if has_one { Limits::General } else { Limits::Own([SMALL; 2]) }
}

fn cone(size: &Size, allotment: &Allotment) -> Limits {
    let value = size.measure.value();
    let same = |parameter: Parameter| {
        matches!(parameter, Parameter::PointAngle(item)
            if size.features.iter().any(|feature| feature.item == item))
    };
    let angles = allotment.angles.iter().filter(|angle| same(angle.parameter));
    let near = angles.filter(|angle| (angle.value.as_deg() - value).abs() <= ROUNDING);
    let own = near.filter(|angle| !angle.general).map(|angle| angle.tolerance.as_deg());
    own.reduce(f64::min).map_or(Limits::General, |off| Limits::Own([off; 2]))
}

/// Whether a size of the drawing may be a parameter's.
fn belongs(parameter: Parameter, size: &Size) -> bool {
    use Parameter as P;
    let outside = size.wall == Wall::Outside;
    match parameter {
        P::RunEnd(_)
        | P::GripLength
        | P::GripThreadStart
        | P::GripThreadEnd
        | P::TenonLength
        | P::TenonThreadStart
        | P::TenonThreadEnd
        | P::PilotLength
        | P::ReliefWidth => size.role == Role::Length && outside,
        P::BoreDepth(_)
        | P::ReliefStart(_)
        | P::UnitThreadStart
        | P::UnitThreadEnd
        | P::CentrePilotLength => size.role == Role::Length && !outside,
        P::FrontDiameter | P::GripDiameter(_) | P::PilotDiameter | P::ReliefDiameter => {
            matches!(size.role, Role::Diameter(_)) && outside
        }
        P::BoreDiameter(_) | P::CentrePilotDiameter => {
            matches!(size.role, Role::Diameter(_)) && !outside
        }
        P::ArcRadius(_) | P::CornerRadius(_) => size.role == Role::Radius,
        P::CornerChamfer(_) | P::TenonChamfer => matches!(size.role, Role::Chamfer(_)),
        _ => false,
    }
}

/// What the place, width and depth of a ring leave for each of its edges, and for its floor: both
/// edges off to different sides widen it by twice that.
fn ring_edges<'a>(
    size: &'a Size,
    allotment: &'a Allotment,
) -> impl Iterator<Item = &'a AllottedSize> {
    let of_ring = |parameter: Parameter| {
        let item = match parameter {
            Parameter::RingPosition(item) | Parameter::RingWidth(item) => item,
            Parameter::GrooveDepth(n) => Item::Groove(n),
            Parameter::BeadHeight(n) => Item::Bead(n),
            _ => return false,
        };
        let deep = matches!(parameter, Parameter::GrooveDepth(_) | Parameter::BeadHeight(_));
        let role = if deep {
            matches!(size.role, Role::Diameter(_) | Role::Radius)
        } else {
            size.role == Role::Length
        };
        role && size.features.iter().any(|feature| feature.item == item)
    };
    allotment.sizes.iter().filter(move |allotted| of_ring(allotted.parameter))
}
