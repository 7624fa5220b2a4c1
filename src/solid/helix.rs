//! A thread's faces: crest, flanks and root as helical strips between its two ends.

use super::end::{Chain, Cutting, End, close, outwards, reversed};
use super::profile::{Flank, Profile};
use super::ring::{Faces, Ring, edge};
use super::trim::Trim;
use super::{BuildError, Edge, Meridian, Screw, Trace, withdrawal};
use crate::section::Facet;

/// Adds all faces of a thread; gives back the circles that carry on the outline at its ends of
/// lesser and greater z.
pub(super) fn add_thread(
    profile: &Profile,
    low: &Trim,
    high: &Trim,
    to: &mut Faces,
) -> Result<[Ring; 2], BuildError> {
    // The walk passes the low end first on an external thread, last on an internal one.
    let outside = outwards(profile.thread.side);
    let mut ends = [end(profile, low, -1.0, !outside)?, end(profile, high, 1.0, outside)?];
    Strips { profile, ends: &ends }.add(to)?;
    ends.iter_mut().try_for_each(|end| end.add_patches(to))?;
    Ok(ends.map(|end| Ring::Circle(end.outgoing)))
}

fn end(profile: &Profile, trim: &Trim, ahead: f64, leaving: bool) -> Result<End, BuildError> {
    match trim.drawn_out {
        Some(out) => withdrawal::end(profile, trim, out, ahead),
        None => Cutting::new(profile, trim).end(leaving),
    }
}

/// The strips between the low and the high end.
struct Strips<'a> {
    profile: &'a Profile<'a>,
    ends: &'a [End; 2],
}

/// A strip: the helices beside it, in the order of z, and the edges over its low and high end.
struct Strip<'a> {
    facet: Facet,
    meridian: Meridian,
    sides: [&'a Edge; 2],
    over: [Chain; 2],
}

impl Strips<'_> {
    /// The edge along one of the profile's radii, from the low end to the high end.
    fn helix(&self, n: usize, flank: Flank, k: usize) -> Result<Edge, BuildError> {
        let [a, b] = [0, 1].map(|end| &self.ends[end].side(flank).corners[n][k]);
        edge(&a.vertex, &b.vertex, Trace::straight(a.at, b.at))
    }

    /// The helices of a flank of every ridge, from crest to root.
    fn helices(&self, flank: Flank) -> Result<Vec<Vec<Edge>>, BuildError> {
        let radii = 0..self.profile.radii.len();
        let of = |n| radii.clone().map(|k| self.helix(n, flank, k)).collect();
        (0..self.profile.starts).map(of).collect()
    }

    /// Crest, back flank, root and front flank of every ridge, in the order of z.
    fn add(&self, to: &mut Faces) -> Result<(), BuildError> {
        let profile = self.profile;
        let (front, mut back) = (self.helices(Flank::Front)?, self.helices(Flank::Back)?);
        let last = profile.radii.len() - 1;
        for n in 0..profile.starts {
            // Where a flat is rounded away, both flanks have one helix.
            if profile.crest_flat == 0.0 {
                back[n][0] = front[n][0].clone();
            }
            if profile.root_flat == 0.0 {
                back[n][last] = front[(n + 1) % profile.starts][last].clone();
            }
        }
        for n in 0..profile.starts {
            let (ridge, next) = (n as isize, (n + 1) % profile.starts);
            let at = |n: isize, flank, r: f64| [r, profile.flank_z(n, flank, r)];
            if profile.crest_flat > 0.0 {
                let [from, on] =
                    [Flank::Front, Flank::Back].map(|flank| at(ridge, flank, profile.crest));
                let over = [0, 1].map(|end| self.ends[end].crest[n].clone());
                let meridian = Meridian::Line { from, to: on };
                let sides = [&front[n][0], &back[n][0]];
                self.strip(Strip { facet: Facet::Crest, meridian, sides, over }, to)?;
            }
            for k in 0..last {
                let over = [0, 1].map(|end| self.ends[end].back.across[n][k].clone());
                let meridian = profile.meridian(ridge, Flank::Back, k);
                let sides = [&back[n][k], &back[n][k + 1]];
                self.strip(Strip { facet: Facet::FlankBack, meridian, sides, over }, to)?;
            }
            if profile.root_flat > 0.0 {
                let from = at(ridge, Flank::Back, profile.root);
                let on = at(ridge + 1, Flank::Front, profile.root);
                let over = [0, 1].map(|end| self.ends[end].root[n].clone());
                let meridian = Meridian::Line { from, to: on };
                let sides = [&back[n][last], &front[next][last]];
                self.strip(Strip { facet: Facet::Root, meridian, sides, over }, to)?;
            }
            for k in (0..last).rev() {
                let over = [0, 1].map(|end| reversed(&self.ends[end].front.across[next][k]));
                let meridian = profile.meridian(ridge + 1, Flank::Front, k).reversed();
                let sides = [&front[next][k + 1], &front[next][k]];
                self.strip(Strip { facet: Facet::FlankFront, meridian, sides, over }, to)?;
            }
        }
        Ok(())
    }

    fn strip(&self, strip: Strip, to: &mut Faces) -> Result<(), BuildError> {
        let Strip { facet, meridian, sides, over: [low, high] } = strip;
        // The walk follows z on the outside.
        let meridian =
            if outwards(self.profile.thread.side) { meridian } else { meridian.reversed() };
        let surface = Screw { meridian, climb: self.profile.climb, out: 0.0 };
        let [left, right] = sides.map(|edge| vec![edge.clone()]);
        to.patch(close(&left, &high, &right, &low), surface, self.profile.name(facet))
    }
}
