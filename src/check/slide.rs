//! One body slid along the axis into another: what touches first, and the gaps it passes.
//!
//! ```text
//!   r ^   outer body's bore
//!     |  ------+                       -> advance
//!     |        |          outer wall that looks to the front
//!     |  ____  +------
//!     |      |     inner wall that looks to the back
//!     |      +----
//!     +-----------------------------> z
//! ```
//! An inner wall that looks to the back meets an outer wall that looks to the front where both
//! have a radius in common: the advance at that moment is the difference of their z there. The
//! least advance of all pairs is the first touch, exactly: it lies at an end of the radii in
//! common, or where both walls climb alike. Threads that fit in each other are screwed together
//! and do not stop the slide.

use super::Spot;
use super::bodies::Built;
use super::stretch::Stretch;
use crate::section::{Facet, Feature, Item, Skin};
use crate::solid::CutThread;

/// Radii that two walls must have in common before they can meet, in millimetres: less is two
/// cylinders of one size sliding past each other, where rounding could make a wall of nothing.
const LEAST_OVERLAP: f64 = 1e-9;

/// An inner body on its way into an outer one.
pub(super) struct Slide<'a> {
    pub inner: &'a Built,
    pub outer: &'a Built,
    /// The threads that are screwed together.
    pub threads: Option<(&'a CutThread, &'a CutThread)>,
}

/// Two walls that meet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    /// z of the outer body at which z = 0 of the inner one lies at that moment.
    pub advance: f64,
    /// On the inner body, in its own z.
    pub inner: Spot,
    /// On the outer body, in its own z.
    pub outer: Spot,
}

/// The least radial gap between the parts of an item and what they pass.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap {
    pub room: f64,
    /// On the inner body, in the outer one's z.
    pub inner: Spot,
    pub outer: Spot,
}

impl<'a> Slide<'a> {
    pub fn new(inner: (&'a Built, Item), outer: (&'a Built, Item)) -> Self {
        let threads = inner.0.thread(inner.1).zip(outer.0.thread(outer.1));
        Self { inner: inner.0, outer: outer.0, threads }
    }

    /// All contacts that a slide from far in front would meet, in the order of the bodies' faces.
    pub fn contacts(&self) -> Vec<Contact> {
        let back_facing = |l: &Stretch| l.skin != Skin::Bore && l.to[0] < l.from[0];
        let front_facing = |l: &Stretch| l.skin != Skin::Outside && l.to[0] > l.from[0];
        let outer: Vec<&Stretch> =
            self.outer.stretches.iter().filter(|l| front_facing(l)).collect();
        let mut contacts = Vec::new();
        for inner in self.inner.stretches.iter().filter(|l| back_facing(l)) {
            for outer in &outer {
                let low = inner.to[0].max(outer.from[0]);
                let high = inner.from[0].min(outer.to[0]);
                for (low, high) in self.not_screwed(inner, outer, low, high) {
                    contacts.extend(contact(inner, outer, low, high));
                }
            }
        }
        contacts
    }

    /// The radii between which two walls meet: without those at which the inner thread's leading
    /// end enters the outer thread's groove.
    fn not_screwed(
        &self,
        inner: &Stretch,
        outer: &Stretch,
        low: f64,
        high: f64,
    ) -> [(f64, f64); 2] {
        let whole = [(low, high), (low, low)];
        let Some((ridge, groove)) = self.threads else { return whole };
        let leading = inner.from[1] >= ridge.full[1] && inner.to[1] <= ridge.extent[1];
        let mouth = outer.from[1].max(outer.to[1]) <= groove.full[0]
            && outer.from[1].min(outer.to[1]) >= groove.extent[0];
        if leading && mouth {
            [(low, high.min(ridge.root)), (low.max(groove.root), high)]
        } else {
            whole
        }
    }

    /// The least radial gap of each item of the inner body, at an advance, to each item that it
    /// has passed, sorted by the items.
    pub fn gaps(&self, advance: f64) -> Vec<Gap> {
        let mut gaps: Vec<Gap> = Vec::new();
        let on = |skin| move |l: &&Stretch| l.skin == skin && l.from[1] != l.to[1];
        // A step needs no case: the line behind it begins at its narrower end.
        let sides: Vec<&Stretch> = self.outer.stretches.iter().filter(on(Skin::Bore)).collect();
        // Each once, in the order of the faces: of places with one gap the first is told.
        let mut corners: Vec<f64> = Vec::new();
        for z in self.outer.lines.iter().flat_map(|l| [l.from[1], l.to[1]]) {
            if !corners.contains(&z) {
                corners.push(z);
            }
        }
        for inner in self.inner.stretches.iter().filter(on(Skin::Outside)) {
            let (from, to) = (inner.from[1] + advance, inner.to[1] + advance);
            // A corner that is reached but for rounding is not passed.
            let (low, high) = (from.min(to) + LEAST_OVERLAP, from.max(to) - LEAST_OVERLAP);
            let corners = corners.iter().copied().filter(|z| low < *z && *z < high);
            for z in corners.chain([from, to]) {
                let r = inner.radius_at(z - advance);
                let spot = Spot { feature: inner.feature, r, z };
                let deeper = z < high;
                let passed = self.passed(&sides, inner, z, deeper);
                for outer in passed.filter(|spot| !is_seat(inner.feature, spot.feature)) {
                    let found = Gap { room: outer.r - r, inner: spot, outer };
                    match gaps.iter_mut().find(|gap| gap.pair() == found.pair()) {
                        Some(best) if found.room < best.room => *best = found,
                        Some(_) => {}
                        None => gaps.push(found),
                    }
                }
            }
        }
        gaps.sort_by_key(Gap::pair);
        gaps
    }

    /// The narrowest place of each of these lines of the outer body's bore up to z, as far as it
    /// counts for a line of the inner body; with what begins right there where that line goes
    /// deeper.
    fn passed<'b>(
        &self,
        sides: &'b [&Stretch],
        inner: &Stretch,
        z: f64,
        deeper: bool,
    ) -> impl Iterator<Item = Spot> + 'b {
        // A thread that is screwed in passes only what lies in front of the other thread.
        let stop = self.threads.and_then(|(ridge, groove)| {
            let (front, back) = (inner.from[1].min(inner.to[1]), inner.from[1].max(inner.to[1]));
            // A chamfer at the thread's end may have its run's name, and go deeper than the thread.
            let within = front >= ridge.extent[0] && back <= ridge.extent[1];
            let touches = front <= ridge.extent[1] && back >= ridge.extent[0];
            let of_it = within || (touches && inner.feature.facet == Facet::Chamfer);
            let threaded = back > ridge.extent[0] && (of_it || inner.feature.item == ridge.item);
            threaded.then_some(groove.extent[0])
        });
        sides.iter().filter_map(move |line| {
            let in_order = line.from[1] < line.to[1];
            let (front, back) = if in_order { (line.from, line.to) } else { (line.to, line.from) };
            let beyond = |stop: f64| back[1] > stop || (back[1] == stop && front[0] != back[0]);
            // Rounding of the advance makes no passage of a face that is just reached.
            let ahead = if deeper { front[1] > z } else { front[1] >= z - LEAST_OVERLAP };
            if ahead || stop.is_some_and(beyond) {
                return None;
            }
            let end = back[1].min(z);
            let r_end = line.radius_at(end);
            let (r, z) = if r_end <= front[0] { (r_end, end) } else { (front[0], front[1]) };
            Some(Spot { feature: line.feature, r, z })
        })
    }
}

/// Whether the inner surface is meant to rest on the outer one: a collar in the cone of its recess
/// has no gap there, and needs none.
fn is_seat(inner: Feature, outer: Feature) -> bool {
    inner.item == Item::Collar && outer == Feature::new(Item::Recess, Facet::Cone)
}

impl Gap {
    /// What passes what.
    pub fn pair(&self) -> (Item, Item) {
        (self.inner.feature.item, self.outer.feature.item)
    }
}

/// The first place behind z at which a body's bore gets narrower than a radius; none where it stays
/// as wide to the end.
pub(super) fn narrows_behind(body: &Built, z: f64, radius: f64) -> Option<Spot> {
    let lines =
        body.stretches.iter().filter(|l| l.skin != Skin::Outside && l.from[1].max(l.to[1]) > z);
    let narrow = lines.filter_map(|line| {
        let limit = radius - LEAST_OVERLAP;
        let (front, back) =
            if line.from[1] <= line.to[1] { (line.from, line.to) } else { (line.to, line.from) };
        let (r_front, z_front) =
            if front[1] < z { (line.radius_at(z), z) } else { (front[0], front[1]) };
        let at = if r_front < limit {
            z_front
        } else if back[0] < limit {
            if front[1] == back[1] { back[1] } else { line.z_at(radius) }
        } else {
            return None;
        };
        Some(Spot { feature: line.feature, r: radius, z: at })
    });
    narrow.reduce(|a, b| if b.z < a.z { b } else { a })
}

/// The first moment at which two walls meet within a span of radii.
fn contact(inner: &Stretch, outer: &Stretch, low: f64, high: f64) -> Option<Contact> {
    if high - low < LEAST_OVERLAP {
        return None;
    }
    let at = |r: f64| {
        let (s, z) = (inner.z_at(r), outer.z_at(r));
        Contact {
            advance: z - s,
            inner: Spot { feature: inner.feature, r, z: s },
            outer: Spot { feature: outer.feature, r, z },
        }
    };
    let alike = inner.alike(outer).filter(|r| low < *r && *r < high);
    let least = |a: Contact, b: Contact| if a.advance < b.advance { a } else { b };
    Some(alike.into_iter().map(at).fold(least(at(low), at(high)), |a, b| least(b, a)))
}

/// Where the inner body comes to rest: the first contact of one of its items with one of the
/// given items of the outer body; and the first contact of anything else.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rest {
    /// The contact on which it is meant to rest; none where these items never meet.
    pub seat: Option<Contact>,
    /// What else touches first.
    pub other: Option<Contact>,
}

impl Rest {
    /// Finds both among the contacts. Walls in the seat's own two planes are part of the seat.
    pub fn of(contacts: &[Contact], inner: Item, outer: &[Item]) -> Self {
        let on_seat =
            |c: &&Contact| c.inner.feature.item == inner && outer.contains(&c.outer.feature.item);
        let least = |a: Contact, b: Contact| if b.advance < a.advance { b } else { a };
        let seat = contacts.iter().filter(on_seat).copied().reduce(least);
        let with_seat =
            |c: &Contact| seat.is_some_and(|s| c.inner.z == s.inner.z && c.outer.z == s.outer.z);
        let others = contacts.iter().filter(|c| !on_seat(c) && !with_seat(c));
        Self { seat, other: others.copied().reduce(least) }
    }

    /// How far the inner body comes: to its seat, or where it has none to whatever stops it.
    pub fn advance(&self) -> f64 {
        self.seat.or(self.other).map_or(0.0, |contact| contact.advance)
    }

    /// How far it could go on from its seat before anything else touches; negative where
    /// something else touches first. None without a seat or another contact.
    pub fn room(&self) -> Option<f64> {
        Some(self.other?.advance - self.seat?.advance)
    }
}
