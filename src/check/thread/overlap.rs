//! Where two threads would be in one place: how much, and where.
//!
//! At radius r the external ridge takes a share `a` of each pitch and the internal ridge a share
//! `b`. At a fixed z, the angle runs through all phases of both profiles; with the external ridge
//! off the middle of the internal groove by a share `d` of a pitch, both are there together over
//!
//! ```text
//!   w(r, d) = min(a, b, [(a + b - 1) / 2 + d]+ + [(a + b - 1) / 2 - d]+)        |d| < 1 / 2
//! ```
//! of a turn, so over an engaged length the solids share `V = 2 pi * integral over z and r of
//! r w(r, d(z))`: exact for ends that are planes across the axis, whatever the engaged length.
//! With pitches P and Q that differ, d grows by 1 / P - 1 / Q along z.

use std::f64::consts::TAU;

use crate::solid::CutThread;

/// Pieces of an integral between two radii, and along z where the leads differ. Simpson's rule on
/// so many is exact for straight flanks but for where they begin to overlap; the error is what
/// half as many pieces would have changed.
const PIECES: u32 = 64;

/// Times as many pieces along z: the overlap begins somewhere between its ends there.
const FINER_ALONG: u32 = 8;

/// Widths under this are rounding, in millimetres: threads that just touch share nothing.
const TOUCHING: f64 = 1e-12;

/// What two threads have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Overlap {
    /// In cubic millimetres.
    pub volume: f64,
    /// Bound on the error of the volume by the numbers of its integral.
    pub error: f64,
    /// The greatest axial width in common.
    pub width: f64,
    /// The radius at which that is.
    pub radius: f64,
    /// z of the internal thread's body at which it is.
    pub z: f64,
}

impl Overlap {
    /// What two threads have in common, centred on each other at the middle of the run; none
    /// where hands or starts differ, so that they would have no one place.
    pub fn of(internal: &CutThread, external: &CutThread, run: [f64; 2]) -> Option<Self> {
        let alike = internal.hand == external.hand && internal.starts == external.starts;
        let drift = 1.0 / internal.pitch - 1.0 / external.pitch;
        let displaced = 0.0;
        alike.then(|| Meshed { internal, external, run, displaced, drift }.overlap())
    }
}

/// An external thread in an internal one, over an engaged run.
struct Meshed<'a> {
    internal: &'a CutThread,
    external: &'a CutThread,
    /// z of the internal thread's body between which both are engaged.
    run: [f64; 2],
    /// How far the external ridge lies off the middle of its groove along the axis, at the middle
    /// of the run.
    displaced: f64,
    /// By how much the share of a pitch that this is grows along the run, per millimetre of it.
    drift: f64,
}

impl Meshed<'_> {
    /// The external ridge's share of its pitch: all in the core, nothing outside the crest.
    fn external_ridge(&self, r: f64) -> f64 {
        match r {
            r if r > self.external.crest => 0.0,
            r if r <= self.external.root => 1.0,
            r => self.external.ridge_at(r) / self.external.pitch,
        }
    }

    /// The internal ridge's share of its pitch: all outside the root, nothing inside the crest.
    fn internal_ridge(&self, r: f64) -> f64 {
        match r {
            r if r < self.internal.crest => 0.0,
            r if r >= self.internal.root => 1.0,
            r => self.internal.ridge_at(r) / self.internal.pitch,
        }
    }

    /// How far the external ridge stands in the internal one behind it, and in the one in front,
    /// as shares of a pitch, at a radius and at z from the middle of the run; less than nothing
    /// where they are clear.
    fn depths(&self, r: f64, z: f64) -> [f64; 2] {
        let half = (self.external_ridge(r) + self.internal_ridge(r) - 1.0) / 2.0;
        let d = self.displaced / self.internal.pitch + z * self.drift;
        // Displacements a pitch apart are one.
        let d = (d + 0.5).rem_euclid(1.0) - 0.5;
        [half + d, half - d]
    }

    /// Axial width in common at a radius, and at z from the middle of the run.
    fn width(&self, r: f64, z: f64) -> f64 {
        let [behind, in_front] = self.depths(r, z).map(|depth| depth.max(0.0));
        let (a, b) = (self.external_ridge(r), self.internal_ridge(r));
        let width = (behind + in_front).min(a).min(b) * self.internal.pitch;
        if width < TOUCHING { 0.0 } else { width }
    }

    /// The radii between which both have material, cut where a flank bends, begins or ends, and
    /// where flanks begin to overlap at z from the middle of the run.
    fn radii(&self, z: f64) -> Vec<f64> {
        let (low, high) = (self.internal.crest, self.external.crest);
        let mut radii = vec![low, high, self.external.root, self.internal.root];
        radii.extend(self.internal.flank_radii());
        radii.extend(self.external.flank_radii());
        radii.retain(|r| (low..=high).contains(r));
        radii.sort_by(f64::total_cmp);
        radii.dedup();
        let between = radii.windows(2).flat_map(|ends| {
            // A straight flank's overlap is linear between these: it begins where it would be 0.
            let middle = f64::midpoint(ends[0], ends[1]);
            let [from, to] = [0, 1].map(|n| middle + (ends[n] - middle) * INSIDE);
            let (at_from, at_to) = (self.depths(from, z), self.depths(to, z));
            [0, 1].map(|side| {
                let (a, b) = (at_from[side], at_to[side]);
                (a * b < 0.0).then(|| from + (to - from) * a / (a - b))
            })
        });
        let extra: Vec<f64> = between.flatten().collect();
        radii.extend(extra);
        radii.sort_by(f64::total_cmp);
        radii
    }

    /// Integral of r w over the radii at z from the middle of the run; the greatest width and its
    /// radius.
    fn across(&self, z: f64, pieces: u32) -> (f64, [f64; 2]) {
        let mut widest = [0.0, self.internal.crest];
        let mut sum = 0.0;
        let radii = self.radii(z);
        for ends in radii.windows(2).filter(|ends| ends[0] < ends[1]) {
            let middle = f64::midpoint(ends[0], ends[1]);
            sum += simpson([ends[0], ends[1]], pieces, |r| {
                // Just inside the ends, where a width may jump.
                let inside = middle + (r - middle) * INSIDE;
                let width = self.width(inside, z);
                if width > widest[0] {
                    widest = [width, r];
                }
                r * width
            });
        }
        (sum, widest)
    }

    /// What both have in common.
    fn overlap(&self) -> Overlap {
        let [low, high] = self.run;
        let middle = f64::midpoint(low, high);
        let mut most = Overlap { volume: 0.0, error: 0.0, width: 0.0, radius: 0.0, z: middle };
        if high <= low || self.external.crest <= self.internal.crest {
            return most;
        }
        let mut volume = |pieces: u32| {
            let mut slice = |z: f64| {
                let (area, [width, radius]) = self.across(z - middle, pieces);
                if width > most.width {
                    (most.width, most.radius, most.z) = (width, radius, z);
                }
                area
            };
            let over_z = if self.drift == 0.0 {
                slice(middle) * (high - low)
            } else {
                simpson([low, high], pieces * FINER_ALONG, slice)
            };
            over_z * TAU / self.internal.pitch
        };
        let fine = volume(PIECES);
        let coarse = volume(PIECES / 2);
        Overlap { volume: fine, error: (fine - coarse).abs(), ..most }
    }
}

/// Share of a piece's half width at which its end is taken: a width that jumps there (a crest's
/// flat) must be that of the piece. Nearer, and rounding decides; farther, and it shows.
const INSIDE: f64 = 1.0 - 1e-9;

/// Simpson's rule over an even number of pieces.
fn simpson([from, to]: [f64; 2], pieces: u32, mut of: impl FnMut(f64) -> f64) -> f64 {
    let step = (to - from) / f64::from(pieces);
    let weight = |n: u32| match n {
        0 => 1.0,
        n if n == pieces => 1.0,
        n if n % 2 == 1 => 4.0,
        _ => 2.0,
    };
    let sum: f64 = (0..=pieces).map(|n| weight(n) * of(from + step * f64::from(n))).sum();
    sum * step / 3.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::thread::fixture::basic;
    use crate::section::Side;
    use crate::standard::designation::Hand;
    use std::f64::consts::PI;

    fn r1(run: f64, displaced: f64) -> Overlap {
        let internal = &basic(Side::Internal, 8.05, 0.55, 0.0);
        let external = &basic(Side::External, 8.05, 0.55, -0.05);
        Meshed { internal, external, run: [4.6, 4.6 + run], displaced, drift: 0.0 }.overlap()
    }

    /// Source: design notes of the reference part R1: pushed 0.0140 along the axis nothing
    /// touches, at 0.0145 it does; at 0.05 3.04 mm3 where the unit's thread ends with the engaged
    /// run, which is 0.05 shorter then, 3.06 where it runs on.
    #[test]
    fn the_reference_part_pushed_along_the_axis() {
        assert_eq!(r1(7.15, 0.0).volume, 0.0);
        assert_eq!(r1(7.15, 0.0140).volume, 0.0);
        assert!(r1(7.15, 0.0145).volume > 0.0);
        assert!((r1(7.10, 0.05).volume - 3.04).abs() < 0.005);
        let on = r1(7.15, 0.05);
        assert!((on.volume - 3.06).abs() < 0.005 && on.error < 1e-9);
        // By hand: 0.05 less half the axial play, on a bearing area of 86.060 mm2.
        assert!((on.width - (0.05 - 0.028_868 / 2.0)).abs() < 1e-6);
        assert!((on.volume - on.width * 86.060).abs() < 1e-4);
        assert_eq!(r1(7.15, -0.05), on);
    }

    /// By hand: a profile larger by D on the diameter overlaps by D tan 30 / 2 on each flank, and
    /// with crest and core by rings of D / 2, as wide as a ridge there.
    #[test]
    fn a_larger_thread_overlaps_on_both_flanks_and_the_crest() {
        let (internal, over) = (basic(Side::Internal, 10.0, 0.75, 0.0), 0.02);
        let external = basic(Side::External, 10.0, 0.75, over);
        let run = [0.0, 7.5];
        let found = Overlap::of(&internal, &external, run).unwrap();
        let tan = libm::tan(PI / 6.0);
        let (bottom, top) = (internal.crest, internal.root);
        let core = bottom + over / 2.0;
        let flanks = over * tan * (top - core) * f64::midpoint(core, top);
        let ring = |r: f64, flat: f64| over / 2.0 * (r + over / 4.0) * (flat + over / 2.0 * tan);
        let rings = ring(top, 0.75 / 8.0) + ring(bottom, 0.75 / 4.0);
        let volume = TAU * 10.0 * (flanks + rings);
        assert!((found.volume / volume - 1.0).abs() < 1e-3, "{} {volume}", found.volume);
        assert!(found.error < 1e-6 * volume);
    }

    /// By hand: at z from the middle of the run the ridge lies off its groove by z / P - z / Q of
    /// a pitch; beyond half of the slack, as such a share, it overlaps in a wedge at either end.
    #[test]
    fn a_lead_that_differs_overlaps_at_both_ends() {
        let internal = basic(Side::Internal, 10.0, 0.75, 0.0);
        for pitch in [0.755, 0.745] {
            let external = CutThread { pitch, ..basic(Side::External, 10.0, 0.75, -0.02) };
            let (run, drift) = (7.5, (1.0 / 0.75 - 1.0 / pitch).abs());
            let found = Overlap::of(&internal, &external, [0.0, run]).unwrap();
            // At each radius both keep half of their own pitch at their pitch diameter.
            let free = |r: f64| {
                let off =
                    |thread: &CutThread| 2.0 * (r - thread.pitch_radius) * libm::tan(PI / 6.0);
                off(&external) / pitch - off(&internal) / 0.75
            };
            let deepest = |r: f64| drift * run / 2.0 - free(r) / 2.0;
            // Over the radii at which both have flanks, in steps.
            let (low, high, steps) = (internal.crest, external.crest, 10_000);
            let dr = (high - low) / f64::from(steps);
            let middles = (0..steps).map(|n| low + (f64::from(n) + 0.5) * dr);
            let wedges = middles.map(|r| r * dr * deepest(r) * deepest(r) / drift);
            let volume = TAU * wedges.sum::<f64>();
            assert!((found.volume / volume - 1.0).abs() < 1e-6, "{found:?} {volume}");
            let width = deepest(low).max(deepest(high)) * 0.75;
            assert!((found.width - width).abs() < 1e-8, "{} {width}", found.width);
            assert!(found.z.abs() < 1e-9 || (found.z - run).abs() < 1e-9);
        }
    }

    /// Source: Open CASCADE 8.0, common volume of both solids between planes across the axis at
    /// either end of 5 mm: M8.05 with 0.7471 at 8.02 in 0.75 shares 0.0072038 mm3.
    #[test]
    fn another_pitch_as_a_kernel_has_it() {
        let internal = basic(Side::Internal, 8.05, 0.75, 0.0);
        let height = 0.7471 * 3.0_f64.sqrt() / 2.0;
        let external = CutThread {
            crest: 4.01,
            root: 4.01 - height * 5.0 / 8.0,
            pitch_radius: 4.01 - height * 3.0 / 8.0,
            pitch: 0.7471,
            ..basic(Side::External, 8.02, 0.75, 0.0)
        };
        let found = Overlap::of(&internal, &external, [0.0, 5.0]).unwrap();
        assert!((found.volume / 0.007_203_81 - 1.0).abs() < 1e-3, "{}", found.volume);
    }

    /// Independent route: counting points of a grid in (z, r), three turns at another angle each.
    #[test]
    fn agrees_with_counting() {
        let internal = basic(Side::Internal, 8.0, 0.8, 0.0);
        let external = basic(Side::External, 8.0, 0.8, 0.06);
        let meshed = Meshed {
            internal: &internal,
            external: &external,
            run: [0.0, 2.4],
            displaced: 0.03,
            drift: 0.0,
        };
        let (steps_z, steps_r) = (2400, 1000);
        let (low, high) = (internal.crest, external.crest);
        let in_ridge = |z: f64, centre: f64, width: f64| {
            let off = (z - centre + 0.4).rem_euclid(0.8) - 0.4;
            off.abs() < width / 2.0
        };
        let mut sum = 0.0;
        for n in 0..steps_r {
            let r = low + (f64::from(n) + 0.5) * (high - low) / f64::from(steps_r);
            let [a, b] = [meshed.external_ridge(r), meshed.internal_ridge(r)].map(|s| s * 0.8);
            let hits = (0..steps_z).filter(|m| {
                let z = (f64::from(*m) + 0.5) * 2.4 / f64::from(steps_z);
                in_ridge(z, 0.03, a) && (in_ridge(z, 0.4, b) || b >= 0.8)
            });
            sum += TAU * r * hits.count() as f64;
        }
        let counted = sum * (2.4 / f64::from(steps_z)) * ((high - low) / f64::from(steps_r));
        let found = meshed.overlap().volume;
        assert!((found / counted - 1.0).abs() < 0.01, "{found} {counted}");
    }

    #[test]
    fn threads_that_do_not_reach_each_other_share_nothing() {
        let internal = basic(Side::Internal, 10.0, 0.75, 0.0);
        let external = basic(Side::External, 8.0, 0.75, 0.0);
        assert_eq!(Overlap::of(&internal, &external, [0.0, 5.0]).unwrap().volume, 0.0);
        let left = CutThread { hand: Hand::Left, ..internal.clone() };
        assert_eq!(Overlap::of(&internal, &left, [0.0, 5.0]), None);
    }
}
