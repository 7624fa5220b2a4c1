//! The wall along z: from each place of the bore the least distance to the outside.
//!
//! ```text
//!     ______________________
//!    |     \      |         \         at each z, over all points of the bore there (a floor or
//!    |      \     |          \        step has many), the least distance to any of the outside:
//!    |       o    o           \       not across, but to wherever it is nearest
//!    +-------|----|---> z
//! ```
//! Its least value is the least wall. It is given at every tenth of a millimetre, at every z at
//! which a line of the bore begins or ends, and wherever it is locally least: so between two
//! neighbouring places it may rise, but is nowhere less than at the lesser of them.

use super::skin::{Line, Pair, Skins};
use super::zone::in_zone;
use crate::check::Series;
use crate::check::bodies::Extremes;
use crate::check::distance::{Bounds, Curve, near_passes, nearest, nearest_off_axis};
use crate::section::{Section, Zone};
use crate::solid::BuildError;

/// Places of the grid to a millimetre: what a depth stop or a caliper tells apart. More, and a
/// report is nothing but the curve; fewer, and a picture of it shows corners.
const PLACES_PER_MM: f64 = 10.0;

/// Two places closer than this, in millimetres, are one; it is the rounding of a closed form, and
/// no wall changes by more within it.
const ONE_PLACE: f64 = 1e-9;

/// The wall at one z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallAt {
    /// From the finished front face, in millimetres.
    pub z: f64,
    /// The least distance from the bore there to the outside, in millimetres.
    pub wall: f64,
    /// The least of what distances have over the greatest limit of their zones: less than nothing
    /// where a zone's wall breaks here. Not always that of the least distance, for a zone with a
    /// greater limit may lie next to it.
    pub margin: f64,
}

/// The wall along z, front to back.
#[derive(Clone, Debug, PartialEq)]
pub struct WallCurve {
    /// As modelled.
    pub drawn: Vec<WallAt>,
    /// With the least material, and the bore off the axis by its offset.
    pub worst: Vec<WallAt>,
}

impl WallCurve {
    /// Measures the wall of a section without [`crate::section::faults`].
    ///
    /// # Errors
    /// [`BuildError`]: the section can't be built, as modelled or at an end of its tolerances.
    pub fn new(section: &Section) -> Result<Self, BuildError> {
        Ok(Self::of(section, &Extremes::of_section(section)?))
    }

    pub(super) fn of(section: &Section, part: &Extremes) -> Self {
        let skins = Skins::of(section, part);
        Self {
            drawn: along(section, &skins.drawn, |_| 0.0),
            worst: along(section, &skins.least, |bore| bore.offset),
        }
    }

    /// One of its curves as a finding carries it.
    pub(super) fn series(of: &[WallAt]) -> Series {
        Series {
            name: "wall",
            along: "z",
            along_unit: "mm",
            unit: "mm",
            points: of.iter().map(|at| [at.z, at.wall]).collect(),
        }
    }
}

/// The lines of a part, with the limit of each pair of them.
struct Limited<'a> {
    pair: &'a Pair,
    /// For each line of the bore, in its order, one for each of the outside.
    limits: Vec<Vec<f64>>,
    off: fn(&Line) -> f64,
}

fn along(section: &Section, pair: &Pair, off: fn(&Line) -> f64) -> Vec<WallAt> {
    let limit = |bore: &Line, outside: &Line| {
        let zones = Zone::ALL.into_iter().filter(|zone| in_zone(*zone, bore, outside));
        let limits = zones.map(|zone| section.criteria.walls.of(zone).value.as_mm());
        limits.fold(0.0, f64::max)
    };
    let row = |bore: &Line| pair.outside.iter().map(|outside| limit(bore, outside)).collect();
    let limits = pair.bore.iter().map(row).collect();
    let of = Limited { pair, limits, off };
    let mut found: Vec<WallAt> = of.grid().into_iter().filter_map(|z| of.at(z)).collect();
    found.extend(of.minima());
    found.sort_by(|a, b| a.z.total_cmp(&b.z));
    found.dedup_by(|next, kept| {
        let same = next.z - kept.z <= ONE_PLACE;
        if same && next.wall < kept.wall {
            *kept = *next;
        }
        same
    });
    found
}

impl Limited<'_> {
    /// Where the bore's lines begin and end, and every so often between.
    fn grid(&self) -> Vec<f64> {
        let mut places: Vec<f64> =
            self.pair.bore.iter().flat_map(|l| l.ends.map(|p| p[1])).collect();
        let low = places.iter().copied().fold(f64::INFINITY, f64::min);
        let high = places.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let first = (low * PLACES_PER_MM).ceil() as i64;
        let last = (high * PLACES_PER_MM).floor() as i64;
        places.extend((first..=last).map(|n| n as f64 / PLACES_PER_MM));
        places
    }

    /// Where some pair of lines comes nearest, and no other is nearer there or closer to its
    /// limit: among them is every local minimum.
    fn minima(&self) -> Vec<WallAt> {
        let mut found = Vec::new();
        for (bore, limits) in self.pair.bore.iter().zip(&self.limits) {
            let off = (self.off)(bore);
            let moved = |by: f64| bore.ends.map(|[r, z]| [r + by, z]);
            // On one axis too: what is left where the offset takes all of a wall is counted there.
            let sides = [(moved(0.0), off), (moved(off), 0.0), (moved(-off), 0.0)];
            let sides = if off == 0.0 { &sides[..1] } else { &sides[..] };
            for (outside, limit) in self.pair.outside.iter().zip(limits) {
                for (side, less) in sides {
                    let passes = near_passes(&Curve::Segment(*side), &outside.curve).into_iter();
                    let ends = bore.ends.map(|p| p[1]);
                    let inside = passes.filter(|pass| {
                        // The ends are among the places already.
                        let z = pass.on_first[1];
                        let counts = *less == 0.0 || pass.distance <= *less;
                        counts && bore.bounds.holds_z(z) && !ends.contains(&z)
                    });
                    found.extend(inside.filter_map(|pass| {
                        let z = pass.on_first[1];
                        let wall = pass.distance - less;
                        let pass = WallAt { z, wall, margin: wall - limit };
                        if self.beaten(&pass) { None } else { self.at(z) }
                    }));
                }
            }
        }
        found
    }

    /// Whether other lines are nearer at a z, and others, or the same, closer to their limit.
    fn beaten(&self, pass: &WallAt) -> bool {
        let (mut nearer, mut closer) = (false, false);
        let beats = |at: f64, than: f64| at < than - ONE_PLACE;
        for (bore, limits) in self.pair.bore.iter().zip(&self.limits) {
            if !bore.bounds.holds_z(pass.z) {
                continue;
            }
            let here = Curve::Segment(bore.level(pass.z));
            let (bounds, off) = (Bounds::of(&here), (self.off)(bore));
            for (outside, limit) in self.pair.outside.iter().zip(limits) {
                let least = bounds.gap(&outside.bounds) - off;
                let idle = |least: f64| {
                    (nearer || !beats(least, pass.wall))
                        && (closer || !beats(least - limit, pass.margin))
                };
                if idle(least) {
                    continue;
                }
                // No less than off the axis: what beats so, beats the more when it is off.
                let wall = nearest(&here, &outside.curve).distance;
                nearer |= beats(wall, pass.wall);
                closer |= beats(wall - limit, pass.margin);
                if nearer && closer {
                    return true;
                }
            }
        }
        false
    }

    /// The wall at a z; none where the part has no bore.
    fn at(&self, z: f64) -> Option<WallAt> {
        let mut at: Option<WallAt> = None;
        for (bore, limits) in self.pair.bore.iter().zip(&self.limits) {
            if !bore.bounds.holds_z(z) {
                continue;
            }
            let (here, off) = (bore.level(z), (self.off)(bore));
            let line = Curve::Segment(here);
            let bounds = Bounds::of(&line);
            let outside = &self.pair.outside;
            let gap = |n: usize| bounds.gap(&outside[n].bounds);
            // What is likely nearest first, so that most others need no measuring.
            let first = (0..outside.len()).min_by(|a, b| gap(*a).total_cmp(&gap(*b)));
            let others = (0..outside.len()).filter(|n| Some(*n) != first);
            for n in first.into_iter().chain(others) {
                let limit = limits[n];
                let idle = |at: &Option<WallAt>, least: f64| {
                    at.is_some_and(|at| least >= at.wall && least - limit >= at.margin)
                };
                if idle(&at, gap(n) - off) {
                    continue;
                }
                let on_axis = nearest(&line, &outside[n].curve).distance;
                if idle(&at, on_axis - off) {
                    continue;
                }
                let wall = nearest_off_axis(here, &outside[n].curve, off).distance;
                let margin = wall - limit;
                let best = at.get_or_insert(WallAt { z, wall, margin });
                (best.wall, best.margin) = (best.wall.min(wall), best.margin.min(margin));
            }
        }
        at
    }
}
