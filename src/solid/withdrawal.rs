//! A thread's end where a single-point tool was drawn out while the work turned on.
//!
//! At a half-plane each groove's profile begins to move outwards (for an internal thread inwards)
//! and sinks under the crest's cylinder as it goes on climbing; the cylinder closes over it where
//! its root arrives there. Seen from outside, unrolled, one groove of a right-hand thread:
//!
//! ```text
//!   z ^            plain cylinder
//!     |   ____________________
//!     |  / X        C (front)  \__  B      A  where drawing out begins
//!     | A                         | E      B  where a piece of the flank has sunk away
//!     |  groove    root band      |        E  the root's width, the groove's last edge
//!     | A_____________________ ___| B      R  from there down to the next groove: the end of
//!     |             C (back)      | R         the crest's band, at V
//!     |  crest band               V        X  from V on along the crest's helix
//!     +------------------------------> angle
//! ```

use std::f64::consts::TAU;

use super::end::{Chain, Corner, End, FlankEnds, close, reversed};
use super::profile::{Flank, Profile};
use super::ring::{edge, vertex};
use super::trace::Cutter;
use super::trim::{DrawnOut, Trim};
use super::{BuildError, Edge, FaceName, Meridian, Polar, Screw, Trace, Vertex, Wire};
use crate::section::Facet;

/// Makes the end of a thread whose tool was drawn out; `ahead` is 1 at the end of greater z.
///
/// # Errors
/// [`BuildError::DrawnOutTooSlowly`] where the next groove would begin to end before this one has,
/// [`BuildError::NoForm`] where the crest is rounded to an edge that could not be ended.
pub(super) fn end(
    profile: &Profile,
    trim: &Trim,
    out: DrawnOut,
    ahead: f64,
) -> Result<End, BuildError> {
    let (thread, most) = (profile.thread.item, 1.0 / profile.starts as f64);
    if profile.crest_flat == 0.0 {
        return Err(BuildError::NoForm { thread });
    }
    if out.turn <= 0.0 || out.turn >= most * TAU {
        return Err(BuildError::DrawnOutTooSlowly { thread, turns: out.turn / TAU, most });
    }
    let full = trim.points[0][1];
    Withdrawal { profile, turn: out.turn, middle: full + ahead * (out.length - out.centre), ahead }
        .end()
}

struct Withdrawal<'a> {
    profile: &'a Profile<'a>,
    /// The angle over which the tool is drawn out.
    turn: f64,
    /// z of a groove's middle where drawing out begins.
    middle: f64,
    ahead: f64,
}

/// The edges in which one flank of a groove is drawn out.
struct Drawn {
    /// Where drawing out begins, per piece from crest to root.
    rulings: Vec<Edge>,
    /// Along the ends of the pieces, from A to B; one less than radii.
    along: Vec<Edge>,
    /// On the crest's cylinder, per piece, each from B to B (the first from A).
    sinking: Vec<Edge>,
    /// Vertices on the crest's cylinder, from A on; the last is where the groove ends.
    b: Vec<Vertex>,
    a: Vec<Corner>,
}

impl Withdrawal<'_> {
    /// +1 where the groove is followed to its end by growing angle.
    fn direction(&self) -> f64 {
        self.ahead * self.profile.climb.signum()
    }

    /// The angle at which groove n begins to be drawn out.
    fn begins(&self, n: isize) -> f64 {
        let middle = self.profile.ridge(n) + self.profile.pitch / 2.0;
        (self.middle - middle) / self.profile.climb
    }

    /// The groove that a flank of ridge n bounds.
    fn groove(n: isize, flank: Flank) -> isize {
        if flank == Flank::Front { n - 1 } else { n }
    }

    /// Growth of the radius by angle.
    fn out(&self) -> f64 {
        self.direction() * (self.profile.crest - self.profile.root) / self.turn
    }

    /// A piece of a flank, drawn out.
    fn surface(&self, n: isize, flank: Flank, piece: usize) -> Screw {
        let (out, start) = (self.out(), self.begins(Self::groove(n, flank)));
        let meridian = moved(self.profile.meridian(n, flank, piece), -out * start);
        Screw { meridian, climb: self.profile.climb, out }
    }

    /// A point of a flank at one of the profile's radii, where drawing out begins.
    fn a(&self, n: isize, flank: Flank, k: usize) -> Polar {
        let theta = self.begins(Self::groove(n, flank));
        let r = self.profile.radii[k];
        Polar { theta, r, z: self.profile.flank_z(n, flank, r) + self.profile.climb * theta }
    }

    /// Where that point has come to the crest's cylinder.
    fn b(&self, n: isize, flank: Flank, k: usize) -> Polar {
        let a = self.a(n, flank, k);
        let turned = self.direction() * self.turn * self.profile.share(k);
        let (theta, climb) = (a.theta + turned, self.profile.climb);
        Polar { theta, r: self.profile.crest, z: a.z + climb * turned }
    }

    /// The flank that a ridge's crest is ended at, and the other, which bounds the ridge's own
    /// groove: the groove that ends before the ridge does.
    fn flanks(&self) -> [Flank; 2] {
        if self.ahead > 0.0 { [Flank::Front, Flank::Back] } else { [Flank::Back, Flank::Front] }
    }

    /// The ended crest corner of ridge n, at the angle where the ridge's own groove has ended.
    fn v(&self, n: isize) -> Polar {
        let [ended, own] = self.flanks();
        let theta = self.begins(Self::groove(n, own)) + self.direction() * self.turn;
        let crest = self.profile.crest;
        let z = self.profile.flank_z(n, ended, crest) + self.profile.climb * theta;
        Polar { theta, r: crest, z }
    }

    fn drawn(&self, n: isize, flank: Flank, shared: Option<&Drawn>) -> Result<Drawn, BuildError> {
        let profile = self.profile;
        let last = profile.radii.len() - 1;
        let shares_root = shared.filter(|_| profile.root_flat == 0.0);
        let a: Vec<Corner> = (0..=last)
            .map(|k| {
                let at = self.a(n, flank, k);
                let other = shares_root.filter(|_| k == last).map(|d| d.a[last].vertex.clone());
                Corner { vertex: other.unwrap_or_else(|| vertex(at)), at }
            })
            .collect();
        let b: Vec<Vertex> = (0..=last)
            .map(|k| match (k, shares_root) {
                (0, _) => a[0].vertex.clone(),
                (_, Some(other)) if k == last => other.b[last].clone(),
                _ => vertex(self.b(n, flank, k)),
            })
            .collect();
        let half_plane = Cutter::half_plane(self.begins(Self::groove(n, flank)));
        let cylinder = Cutter { radius: 1.0, along: 0.0, turn: 0.0, level: profile.crest };
        let (mut rulings, mut along, mut sinking) = (Vec::new(), Vec::new(), Vec::new());
        for k in 0..last {
            let straight = profile.surface(n, flank, k);
            let ruling = Trace::cut(straight, [0.0, 1.0], half_plane);
            rulings.push(edge(&a[k].vertex, &a[k + 1].vertex, ruling)?);
            let path = Trace::straight(a[k + 1].at, self.b(n, flank, k + 1));
            along.push(match shares_root {
                Some(other) if k + 1 == last => other.along[k].clone(),
                _ => edge(&a[k + 1].vertex, &b[k + 1], path)?,
            });
            let sinks = Trace::cut(self.surface(n, flank, k), [0.0, 1.0], cylinder);
            sinking.push(edge(&b[k], &b[k + 1], sinks)?);
        }
        Ok(Drawn { rulings, along, sinking, b, a })
    }

    fn end(&self) -> Result<End, BuildError> {
        let profile = self.profile;
        let all = 0..profile.starts;
        let last = profile.radii.len() - 1;
        let fronts = all.clone().map(|n| self.drawn(n as isize, Flank::Front, None));
        let fronts: Vec<Drawn> = fronts.collect::<Result<_, _>>()?;
        let next = |n: usize| &fronts[(n + 1) % profile.starts];
        let backs = all.clone().map(|n| self.drawn(n as isize, Flank::Back, Some(next(n))));
        let backs: Vec<Drawn> = backs.collect::<Result<_, _>>()?;
        let mut end = End {
            front: FlankEnds::default(),
            back: FlankEnds::default(),
            crest: Vec::new(),
            root: Vec::new(),
            outgoing: Vec::new(),
            patches: Vec::new(),
        };
        let mut es = Vec::new();
        for n in all.clone() {
            let ridge = n as isize;
            let far = |at: &dyn Fn(isize, Flank, usize) -> Polar| {
                [at(ridge, Flank::Back, last), at(ridge + 1, Flank::Front, last)]
            };
            let (back, front) = (&backs[n], next(n));
            let (mut root, mut e) = (Chain::new(), Chain::new());
            if profile.root_flat > 0.0 {
                let [from, to] = far(&|n, flank, k| self.a(n, flank, k));
                let ends = [&back.a[last].vertex, &front.a[last].vertex];
                root.push(edge(ends[0], ends[1], Trace::straight(from, to))?);
                let [from, to] = far(&|n, flank, k| self.b(n, flank, k));
                e.push(edge(&back.b[last], &front.b[last], Trace::straight(from, to))?);
            }
            self.patches(n, [back, front], [&root, &e], &mut end.patches);
            end.root.push(root);
            es.push(e);
        }
        // Per ridge: X and R.
        let (mut xs, mut rs) = (Vec::new(), Vec::new());
        let [_, own_flank] = self.flanks();
        for n in all.clone() {
            let (ended, own) =
                if self.ahead > 0.0 { (&fronts[n], &backs[n]) } else { (&backs[n], &fronts[n]) };
            let (v, at) = (self.v(n as isize), self.b(n as isize, own_flank, last));
            let corner = Corner { vertex: vertex(v), at: v };
            let to = &ended.a[0];
            let x = edge(&corner.vertex, &to.vertex, Trace::straight(v, to.at))?;
            let r = edge(&corner.vertex, &own.b[last], Trace::straight(v, at))?;
            let mut crest = vec![r.clone()];
            crest.extend(reversed(&own.sinking));
            let single =
                |edges: &[Edge]| -> Vec<Chain> { edges.iter().map(|e| vec![e.clone()]).collect() };
            let mut ended_side = (ended.a.clone(), single(&ended.rulings));
            ended_side.0[0] = corner;
            ended_side.1[0].insert(0, x.clone());
            let own_side = (own.a.clone(), single(&own.rulings));
            let (front, back) = if self.ahead > 0.0 {
                (ended_side, own_side)
            } else {
                crest = reversed(&crest);
                (own_side, ended_side)
            };
            end.crest.push(crest);
            for (side, (corners, across)) in [(&mut end.front, front), (&mut end.back, back)] {
                side.corners.push(corners);
                side.across.push(across);
            }
            xs.push(x);
            rs.push(r);
        }
        // From V along the edge of the groove before it, over that groove's end to the next V.
        let count = profile.starts;
        let mut ring = Chain::new();
        for step in 0..count {
            let n = if self.ahead > 0.0 { count - 1 - step } else { step };
            let (before, sinking, e) = if self.ahead > 0.0 {
                let before = (n + count - 1) % count;
                (before, &fronts[n].sinking, reversed(&es[before]))
            } else {
                ((n + 1) % count, &backs[n].sinking, es[n].clone())
            };
            ring.push(xs[n].clone());
            ring.extend(sinking.iter().cloned());
            ring.extend(e);
            ring.push(rs[before].inverse());
        }
        end.outgoing = if self.direction() > 0.0 { ring } else { reversed(&ring) };
        Ok(end)
    }

    /// The faces of groove n while it is drawn out.
    fn patches(
        &self,
        n: usize,
        [back, front]: [&Drawn; 2],
        [root, e]: [&Chain; 2],
        to: &mut Vec<(Wire, Screw, FaceName)>,
    ) {
        let name = self.profile.name(Facet::RunOut);
        let last = self.profile.radii.len() - 1;
        let along_walk = |surface: Screw, in_order: bool| {
            let outside = super::end::outwards(self.profile.thread.side);
            let meridian = surface.meridian;
            let meridian = if outside == in_order { meridian } else { meridian.reversed() };
            Screw { meridian, ..surface }
        };
        for k in 0..last {
            let flanks = [(Flank::Back, back, n as isize), (Flank::Front, front, n as isize + 1)];
            for (flank, drawn, ridge) in flanks {
                // Crest to root is in the order of z on a back flank.
                let surface = along_walk(self.surface(ridge, flank, k), flank == Flank::Back);
                let one = |edge: &Edge| vec![edge.clone()];
                let near: Chain =
                    k.checked_sub(1).map(|k| one(&drawn.along[k])).unwrap_or_default();
                let (ruling, far) = (one(&drawn.rulings[k]), one(&drawn.along[k]));
                to.push((close(&ruling, &far, &one(&drawn.sinking[k]), &near), surface, name));
            }
        }
        if !root.is_empty() {
            let ridge = n as isize;
            let (r, start) = (self.profile.root, self.begins(ridge));
            let z = |n, flank| self.profile.flank_z(n, flank, r);
            let from = [r, z(ridge, Flank::Back)];
            let on = [r, z(ridge + 1, Flank::Front)];
            let band = Meridian::Line { from, to: on };
            let meridian = moved(band, -self.out() * start);
            let surface = Screw { meridian, climb: self.profile.climb, out: self.out() };
            let sides = [back, front].map(|drawn| vec![drawn.along[last - 1].clone()]);
            let wire = close(&sides[0], e, &sides[1], root);
            to.push((wire, along_walk(surface, true), name));
        }
    }
}

/// A meridian, its radii grown.
fn moved(meridian: Meridian, by: f64) -> Meridian {
    match meridian {
        Meridian::Line { from, to } => {
            Meridian::Line { from: [from[0] + by, from[1]], to: [to[0] + by, to[1]] }
        }
        Meridian::Arc { centre, radius, start, sweep } => {
            Meridian::Arc { centre: [centre[0] + by, centre[1]], radius, start, sweep }
        }
    }
}
