//! How far each size of a drawing may be off.

use super::scheme::{Role, Size, Wall};
use super::words::{Allowances, Allowed};
use crate::export::drawing::Measure;
use crate::quantity::Length;
use crate::scene::{Allotment, AllottedAngle, AllottedSize};
use crate::section::{Facet, Feature, Item, NamedPart, PartKind, Side};
use crate::size::SizeId;
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

/// The section's limits, as they were allotted; `shoulder` is the z of its back datum face. A size
/// that stands for several has the tightest.
pub fn by_allotment(allotment: &Allotment, shoulder: f64) -> impl Fn(&Size) -> Allowances + '_ {
    move |size| match size.role {
        Role::Cone => angle(size, allotment).into(),
        _ => Allowances { value: length(size, allotment, shoulder), angle: angle(size, allotment) },
    }
}

fn length(size: &Size, allotment: &Allotment, shoulder: f64) -> Allowed {
    let is_it = |allotted: &&AllottedSize| {
        let value = match size.measure {
            Measure::Length { from, to } if size.role == Role::Length => {
                if (from.x == shoulder) != allotted.from_shoulder {
                    return false;
                }
                to.x - from.x
            }
            measured => measured.value(),
        };
        belongs(allotted.parameter, size) && (allotted.value.as_mm() - value).abs() <= ROUNDING
    };
    let own = allotment.sizes.iter().filter(is_it).filter(|allotted| !allotted.general);
    own.map(|allotted| [allotted.below, allotted.above].map(Length::as_mm))
        .reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1])])
        .map_or_else(|| small(size, size.measure.value()), Allowed::Own)
}

/// Of a cone, or of a chamfer beside its length.
fn angle(size: &Size, allotment: &Allotment) -> Allowed {
    let is_it = |angle: &&AllottedAngle| is_angle_of(angle.parameter, size);
    let own = allotment.angles.iter().filter(is_it).filter(|angle| !angle.general);
    let tightest = own.map(|angle| angle.tolerance.as_deg()).reduce(f64::min);
    tightest.map_or(Allowed::General, |off| Allowed::Own([off; 2]))
}

/// The limits of other parts: general ones, but for sizes that these do not cover, what slides
/// into a bore, and what a thread's class says of its crest.
pub fn general(named: &NamedPart) -> impl Fn(&Size) -> Allowances + '_ {
    move |size| {
        let value = size.measure.value();
        let slides = named.kind == PartKind::LipPlug && size.wall == Wall::Outside;
        let across = matches!(size.role, Role::Diameter);
        let crest = named
            .part
            .threads
            .iter()
            .find(|thread| across && (thread.form.crest.as_mm() - value).abs() < ROUNDING);
        let value = match (&size.role, crest) {
            (Role::Cone | Role::Thread(_), _) => Allowed::General,
            (_, Some(thread)) => {
                let limits = match thread.side {
                    Side::External => thread.limits.major,
                    Side::Internal => thread.limits.minor,
                };
                let off = [value - limits.min().as_mm(), limits.max().as_mm() - value];
                Allowed::Own(off.map(|off| off.max(0.0)))
            }
            _ if slides && across => Allowed::Own([SLIDES, 0.0]),
            _ => small(size, value),
        };
        value.into()
    }
}

/// ISO 2768-1 has no tolerance for sizes under 0.5 mm: they have their own.
fn small(size: &Size, value: f64) -> Allowed {
    let has_one = matches!(size.role, Role::Thread(_)) || value >= LEAST.as_mm();
    if has_one { Allowed::General } else { Allowed::Own([SMALL; 2]) }
}

/// Whether a size of the drawing may be a parameter's.
fn belongs(parameter: SizeId, size: &Size) -> bool {
    use SizeId as P;
    let outside = size.wall == Wall::Outside;
    match parameter {
        P::RunEnd(_)
        | P::GripLength
        | P::GripThreadStart
        | P::GripThreadEnd
        | P::RingStart(_)
        | P::RingEnd(_)
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
        P::FrontDiameter
        | P::GripDiameter(_)
        | P::RingFloor(_)
        | P::PilotDiameter
        | P::ReliefDiameter => matches!(size.role, Role::Diameter) && outside,
        P::BoreDiameter(_) | P::CentrePilotDiameter => {
            matches!(size.role, Role::Diameter) && !outside
        }
        P::ArcRadius(n) => is_of(size, Item::Grip(n), Facet::Side),
        P::RingRadius(ring) => is_of(size, ring, Facet::Side) && size.role == Role::Radius,
        P::CornerRadius(n) => is_of(size, corner(n), Facet::Fillet),
        P::CornerChamfer(n) => is_of(size, corner(n), Facet::Chamfer),
        P::TenonChamfer => is_of(size, Item::Tenon, Facet::Chamfer),
        _ => false,
    }
}

/// Whether a size of the drawing has a parameter's angle.
fn is_angle_of(parameter: SizeId, size: &Size) -> bool {
    match (parameter, &size.role) {
        (SizeId::PointAngle(item), Role::Cone) => {
            size.features.iter().any(|feature| feature.item == item)
        }
        (SizeId::CornerAngle(n), Role::Chamfer(_)) => is_of(size, corner(n), Facet::Chamfer),
        (SizeId::TenonChamferAngle, Role::Chamfer(_)) => is_of(size, Item::Tenon, Facet::Chamfer),
        _ => false,
    }
}

/// Whether a radius or chamfer is a surface's own.
fn is_of(size: &Size, item: Item, facet: Facet) -> bool {
    let corner = matches!(size.role, Role::Radius | Role::Chamfer(_));
    corner && size.features.contains(&Feature::new(item, facet))
}

/// What the corner behind so many runs of the grip belongs to.
fn corner(runs: u8) -> Item {
    if runs == 0 { Item::FrontFace } else { Item::Grip(runs) }
}
