//! How far each size of a drawing may be off.
//!
//! A size on a drawing is a section's own where it is drawn to a place that the section's size has
//! (`size/place.rs`). Values are never compared: two sizes may have the same.

use super::scheme::{Role, Size, Wall};
use super::words::{Allowances, Allowed};
use crate::quantity::{Angle, Length};
use crate::scene::{Allotment, AllottedSize};
use crate::section::{Facet, Feature, NamedPart, PartKind, Side};
use crate::size::{Dimension, End, SizeId};
use crate::standard::iso2768::LEAST;

/// What a size under the least of ISO 2768 may be off on a part beside the section, in millimetres
/// (common practice, no source).
const SMALL: f64 = 0.05;

/// How much under its size what slides into a bore may be (common practice, no source): more, and
/// it has shake.
const SLIDES: f64 = 0.02;

/// The section's limits, as they were allotted. A size that stands for several has the tightest.
pub fn by_allotment(allotment: &Allotment) -> impl Fn(&Size) -> Allowances + '_ {
    move |size| match size.role {
        Role::Cone => angle(size, allotment).into(),
        _ => Allowances { value: length(size, allotment), angle: angle(size, allotment) },
    }
}

fn length(size: &Size, allotment: &Allotment) -> Allowed {
    let dimension = match size.role {
        Role::Length | Role::Chamfer(_) => Dimension::Length,
        Role::Diameter | Role::Radius => Dimension::Across,
        Role::Thread(_) | Role::Cone => return Allowed::General,
    };
    let from_shoulder = (size.role == Role::Length).then_some(size.datum == Some(End::Back));
    let is_it = |allotted: &&AllottedSize| {
        let counted = from_shoulder.is_none_or(|from| from == allotted.from_shoulder);
        counted && stands_for(size, allotted.parameter, dimension)
    };
    let own = allotment.sizes.iter().filter(is_it).filter(|allotted| !allotted.general);
    own.map(|allotted| [allotted.below, allotted.above].map(Length::as_mm))
        .reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1])])
        .map_or_else(|| small(size.measure.value()), Allowed::Own)
}

/// Of a cone, or of a chamfer beside its length.
fn angle(size: &Size, allotment: &Allotment) -> Allowed {
    if !matches!(size.role, Role::Cone | Role::Chamfer(_)) {
        return Allowed::General;
    }
    let angles = allotment.angles.iter();
    let own = angles
        .filter(|angle| !angle.general && stands_for(size, angle.parameter, Dimension::Angle))
        .map(|angle| angle.tolerance);
    let tightest = own.map(Angle::as_deg).reduce(f64::min);
    tightest.map_or(Allowed::General, |off| Allowed::Own([off; 2]))
}

/// Whether a size of the drawing is drawn to a place of one of the section's.
fn stands_for(size: &Size, one: SizeId, dimension: Dimension) -> bool {
    let here = || one.places().iter().any(|place| size.places.contains(place));
    one.definition().dimension == dimension && here()
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
            .find(|thread| across && size.is_at(Feature::new(thread.item, Facet::Crest)));
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
            _ => small(value),
        };
        value.into()
    }
}

/// ISO 2768-1 has no tolerance for sizes under 0.5 mm: they have their own.
fn small(value: f64) -> Allowed {
    if value >= LEAST.as_mm() { Allowed::General } else { Allowed::Own([SMALL; 2]) }
}
