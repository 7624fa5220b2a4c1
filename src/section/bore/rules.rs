//! What makes a set of tools impossible, beyond the order of the unit's stack.

use super::{Bore, Depth, EnvelopeRun, Mouth, Point, envelope};
use crate::quantity::Length;
use crate::section::{COINCIDENT, Item, LEAST_STEP, Section, SectionError, Subject};

/// The ledge that a centre drill's cone leaves for the collar round its pilot, on the diameter
/// (common practice, no source): less, and the collar rests on an edge.
const LEDGE: Length = Length::mm(0.2);

/// All faults of the tools with each other and with the unit's thread.
pub(in crate::section) fn faults(section: &Section, found: &mut Vec<SectionError>) {
    let length = section.length();
    let runs = envelope(&section.bores, length);
    centre_pilot(section, found);
    for bore in section.bores.iter().filter(|bore| !in_stack(bore.item)) {
        found.extend(cuts_thread(section, bore));
    }
    found.extend(reliefs_in_solid(section));
    if !found.is_empty() {
        return;
    }
    swallowed(section, &runs, found);
    found.extend(touching(section, &runs));
}

/// The widest that one tool alone leaves just behind z.
pub(in crate::section) fn tool_diameter_at(bore: &Bore, z: Length, length: Length) -> Length {
    let pieces = bore.pieces(length);
    let here = pieces.iter().filter(|piece| piece.from.z <= z && z < piece.to.z);
    here.map(|piece| piece.diameter_at(z)).fold(Length::ZERO, Length::max)
}

/// The widest that one tool alone leaves at z, on either side of it.
fn widest_at(bore: &Bore, z: Length, length: Length) -> Length {
    let pieces = bore.pieces(length);
    let here = pieces.iter().filter(|piece| piece.from.z <= z && z <= piece.to.z);
    here.map(|piece| piece.diameter_at(z)).fold(Length::ZERO, Length::max)
}

/// The holes that the nib unit asks for; their order has rules of its own.
fn in_stack(item: Item) -> bool {
    matches!(item, Item::Recess | Item::ClearanceBore | Item::TapDrill | Item::ThroughBore)
}

fn centre_pilot(section: &Section, found: &mut Vec<SectionError>) {
    let Some(Point::Centre(_, pilot)) = section.bore(Item::Recess).map(|recess| recess.point)
    else {
        return;
    };
    let (value, bound) = (pilot.diameter, section.unit.collar.value - LEDGE);
    if value > bound {
        let (subject, measure) = (Subject::Diameter(Item::CentrePilot), "diameter");
        found.push(SectionError::DoesNotFit { subject, measure, value, bound, at_most: true });
    }
}

/// A full diameter wider than the thread's crest, within the thread.
fn cuts_thread(section: &Section, bore: &Bore) -> Option<SectionError> {
    let (length, thread) = (section.length(), &section.unit_thread);
    let [from, to] = bore.full(length);
    let (from, to) = (from.max(thread.from), to.min(thread.to));
    if to - from <= COINCIDENT || bore.diameter <= thread.form.crest + COINCIDENT {
        return None;
    }
    let works = match (bore.depth, bore.mouth) {
        (Depth::Through | Depth::Between(..), _) => Length::ZERO,
        (Depth::To(_), Mouth::Front) => thread.from,
        (Depth::To(_), Mouth::Back) => length - thread.to,
    };
    // A relief has to leave the whole thread, another tool what it cuts.
    let [from, to] =
        if let Depth::Between(..) = bore.depth { [thread.from, thread.to] } else { [from, to] };
    let diameter = bore.diameter;
    Some(SectionError::CutsUnitThread { bore: bore.item, diameter, from, to, works })
}

/// Reliefs that reach beyond the hole that all other tools leave.
fn reliefs_in_solid(section: &Section) -> Option<SectionError> {
    let length = section.length();
    let is_relief = |bore: &&Bore| matches!(bore.depth, Depth::Between(..));
    let others: Vec<Bore> = section.bores.iter().filter(|bore| !is_relief(bore)).cloned().collect();
    let hole = envelope(&others, length);
    let on_axis = |z: Length, diameter: Length| (diameter == Length::ZERO).then_some(z);
    let closes = hole.iter().find_map(|run| on_axis(run.to.z, run.to.diameter));
    // Only a hole that ends can be passed; the walk reaches the back face if it does not.
    let closes = closes.or_else(|| hole.is_empty().then_some(Length::ZERO))?;
    let opens = hole.iter().filter_map(|run| on_axis(run.from.z, run.from.diameter)).next_back();
    let opens = opens.unwrap_or(length);
    section.bores.iter().filter(is_relief).find_map(|relief| {
        let [from, to] = relief.full(length);
        let standing = envelope(&section.bores, length)
            .into_iter()
            .filter(|run| run.feature.item == relief.item)
            .any(|run| run.to.z > closes + COINCIDENT && run.from.z < opens - COINCIDENT);
        // A relief in the hole from the back goes too far to the front.
        let (z, to) = if to > opens { (opens, from) } else { (closes, to) };
        standing.then_some(SectionError::ReliefInSolid { bore: relief.item, z, to })
    })
}

/// Tools of which nothing stands in the envelope, where one of both is not of the stack. A through
/// bore that is bored out wherever it goes has still been of use.
fn swallowed(section: &Section, runs: &[EnvelopeRun], found: &mut Vec<SectionError>) {
    let length = section.length();
    let stands = |item: Item| runs.iter().any(|run| run.feature.item == item);
    let of_use = |bore: &&Bore| bore.item != Item::ThroughBore && !stands(bore.item);
    for bore in section.bores.iter().filter(of_use) {
        // What stands in its place: the widest at the middle of its full diameter.
        let [from, to] = bore.full(length);
        let z = (from + to) / 2.0;
        let stays = in_stack(bore.item);
        let others = section.bores.iter().filter(|other| {
            other.item != bore.item && (!stays || !in_stack(other.item)) && stands(other.item)
        });
        let wide = others.map(|other| (other, widest_at(other, z, length)));
        let widest = wide.reduce(|a, b| if b.1 > a.1 { b } else { a });
        if let Some((by, diameter)) = widest {
            let (bore, by, depth) = (bore.item, by.item, bore.full_depth(length));
            found.push(SectionError::LeavesNothing { bore, by, diameter, depth, stays });
        }
    }
}

/// A place where the bore closes to a point and opens again at once, or just reaches a face.
fn touching(section: &Section, runs: &[EnvelopeRun]) -> Option<SectionError> {
    let length = section.length();
    let touch = |bore: Item, other: Item, z: Length| {
        // A pilot goes as deep as its recess says.
        let of = if bore == Item::CentrePilot { Item::Recess } else { bore };
        let depth = section.bore(of).map_or(Length::ZERO, |bore| bore.full_depth(length));
        SectionError::HolesTouch { bore: of, other, z, depth }
    };
    let narrow = |d: Length| d < LEAST_STEP;
    let inside = runs.windows(2).find_map(|pair| {
        let (before, after) = (pair[0], pair[1]);
        let meet = after.from.z - before.to.z <= COINCIDENT;
        let closes = narrow(before.to.diameter) && narrow(after.from.diameter);
        let (first, second) = (before.feature.item, after.feature.item);
        // The tool that is not of the unit's stack gives way.
        let (bore, other) = if in_stack(second) { (second, first) } else { (first, second) };
        let (bore, other) = if in_stack(bore) { (other, bore) } else { (bore, other) };
        (meet && closes).then(|| touch(bore, other, before.to.z))
    });
    let at_back = runs.last().filter(|run| length - run.to.z <= COINCIDENT);
    let at_back = at_back.filter(|run| narrow(run.to.diameter));
    let at_front = runs.first().filter(|run| run.from.z <= COINCIDENT);
    let at_front = at_front.filter(|run| narrow(run.from.diameter));
    inside
        .or_else(|| at_back.map(|run| touch(run.feature.item, Item::BackFace, length)))
        .or_else(|| at_front.map(|run| touch(run.feature.item, Item::FrontFace, Length::ZERO)))
}
