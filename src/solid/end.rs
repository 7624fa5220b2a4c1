//! One end of a thread: the edges in which its strips are cut, and the faces that close it.

use super::profile::{Flank, Profile};
use super::ring::{Faces, edge, vertex};
use super::trace::Cutter;
use super::trim::{Cover, Trim};
use super::{BuildError, Edge, FaceName, HalfPoint, Polar, Screw, Trace, Vertex, Wire};
use crate::section::{Facet, Side};

/// Edges, each walked on from the one before.
pub(super) type Chain = Vec<Edge>;

/// Where a helix of a flank ends.
#[derive(Clone)]
pub(super) struct Corner {
    pub vertex: Vertex,
    pub at: Polar,
}

/// What one flank of every ridge has at an end.
#[derive(Default)]
pub(super) struct FlankEnds {
    /// Per ridge, per radius of the profile from crest to root: where the helix there ends.
    pub corners: Vec<Vec<Corner>>,
    /// Per ridge, per piece of the flank: the edges that end it, from crest to root.
    pub across: Vec<Vec<Chain>>,
}

/// One end of a thread.
pub(super) struct End {
    pub front: FlankEnds,
    pub back: FlankEnds,
    /// Per ridge: from its front to its back crest corner; empty without a flat.
    pub crest: Vec<Chain>,
    /// Per ridge: from its back root corner to the next ridge's front; empty without a flat.
    pub root: Vec<Chain>,
    /// The full circle that carries on the plain outline, by growing angle.
    pub outgoing: Chain,
    /// Faces that belong to the end alone.
    pub patches: Vec<(Wire, Screw, FaceName)>,
}

impl End {
    pub fn side(&self, flank: Flank) -> &FlankEnds {
        if flank == Flank::Front { &self.front } else { &self.back }
    }

    /// Adds the end's own faces.
    pub fn add_patches(&mut self, to: &mut Faces) -> Result<(), BuildError> {
        self.patches.drain(..).try_for_each(|(wire, surface, name)| to.patch(wire, surface, name))
    }
}

/// The same chain, walked backwards.
pub(super) fn reversed(chain: &Chain) -> Chain {
    chain.iter().rev().map(Edge::inverse).collect()
}

/// The cycle along `left`, over `far`, back along `right` and over `near`; `far` and `near` lead
/// from left to right.
pub(super) fn close(left: &Chain, far: &Chain, right: &Chain, near: &Chain) -> Wire {
    let there = left.iter().chain(far).cloned();
    there.chain(reversed(right)).chain(reversed(near)).collect()
}

/// A thread's end that planes, cylinders and cones about the axis cut: its points are cut through
/// every flank, and arcs lead round at each from flank to flank.
pub(super) struct Cutting<'a> {
    profile: &'a Profile<'a>,
    trim: Trim,
    /// Per ridge, per point of the trim.
    front: Vec<Vec<Vertex>>,
    back: Vec<Vec<Vertex>>,
}

impl<'a> Cutting<'a> {
    pub fn new(profile: &'a Profile<'a>, trim: &Trim) -> Self {
        let trim = trim.refined(|a, b| profile.corners_between(a, b));
        let ridges = 0..profile.starts as isize;
        let chain = |flank| {
            let at = |n| trim.points.iter().map(move |p| vertex(profile.on_flank(n, flank, *p)));
            ridges.clone().map(|n| at(n).collect()).collect::<Vec<Vec<Vertex>>>()
        };
        let (front, mut back) = (chain(Flank::Front), chain(Flank::Back));
        // Where a flat is rounded away, both flanks meet in one vertex.
        for (q, point) in trim.points.iter().enumerate() {
            for n in 0..profile.starts {
                if point[0] == profile.crest && profile.crest_flat == 0.0 {
                    back[n][q] = front[n][q].clone();
                } else if point[0] == profile.root && profile.root_flat == 0.0 {
                    back[n][q] = front[(n + 1) % profile.starts][q].clone();
                }
            }
        }
        Self { profile, trim, front, back }
    }

    /// Makes the end; `leaving` where the walk leaves the thread there.
    pub fn end(self, leaving: bool) -> Result<End, BuildError> {
        let all = 0..self.profile.starts;
        let count = self.trim.points.len();
        let over_ridge = |q: usize| all.clone().map(|n| self.over_ridge(n, q)).collect();
        let over_groove = |q: usize| -> Result<Vec<Chain>, BuildError> {
            all.clone().map(|n| self.over_groove(n, q)).collect()
        };
        let ridge: Vec<Vec<Chain>> = (0..count).map(over_ridge).collect::<Result<_, _>>()?;
        let groove: Vec<Vec<Chain>> = (0..count).map(over_groove).collect::<Result<_, _>>()?;
        let (front_edges, back_edges) = (self.flank(Flank::Front)?, self.flank(Flank::Back)?);
        let patches = self.patches([&front_edges, &back_edges], [&ridge, &groove], leaving)?;
        Ok(End {
            front: self.side(Flank::Front, &front_edges),
            back: self.side(Flank::Back, &back_edges),
            outgoing: self.outgoing(&ridge, &groove),
            crest: ridge[0].clone(),
            root: groove[count - 1].clone(),
            patches,
        })
    }

    /// Per ridge: the edges of a flank between neighbouring points of the trim.
    fn flank(&self, flank: Flank) -> Result<Vec<Vec<Edge>>, BuildError> {
        let vertices = if flank == Flank::Front { &self.front } else { &self.back };
        let on = |n: usize, q: usize| {
            let (a, b) = (self.trim.points[q], self.trim.points[q + 1]);
            let trace = self.across(n as isize, flank, a, b);
            edge(&vertices[n][q], &vertices[n][q + 1], trace)
        };
        let segments = self.trim.points.len() - 1;
        (0..self.profile.starts).map(|n| (0..segments).map(|q| on(n, q)).collect()).collect()
    }

    /// The line in which the surface from a to b cuts a flank.
    fn across(&self, n: isize, flank: Flank, a: HalfPoint, b: HalfPoint) -> Trace {
        let profile = self.profile;
        if a[0] == b[0] {
            return Trace::straight(profile.on_flank(n, flank, a), profile.on_flank(n, flank, b));
        }
        let piece = profile.piece_at(f64::midpoint(a[0], b[0]));
        let surface = profile.surface(n, flank, piece);
        let v = [a, b].map(|p| profile.v_of(piece, p[0]));
        match Trace::cut(surface, v, Cutter::through(a, b)) {
            // Exactly from vertex to vertex.
            Trace::Affine { .. } => {
                Trace::straight(profile.on_flank(n, flank, a), profile.on_flank(n, flank, b))
            }
            cut @ Trace::Cut(_) => cut,
        }
    }

    /// The arc at one point of the trim across ridge n, from its front to its back flank.
    fn over_ridge(&self, n: usize, q: usize) -> Result<Chain, BuildError> {
        let (at, ridge) = (self.trim.points[q], n as isize);
        let polar = |flank| self.profile.on_flank(ridge, flank, at);
        let flat = at[0] != self.profile.crest || self.profile.crest_flat > 0.0;
        let ends = [&self.front[n][q], &self.back[n][q]];
        let halved = self.pinched(Cover::Ridge);
        if !flat {
            return Ok(Vec::new());
        }
        arc(ends, polar(Flank::Front), polar(Flank::Back), halved)
    }

    /// The arc across groove n, from ridge n's back flank to the next ridge's front.
    fn over_groove(&self, n: usize, q: usize) -> Result<Chain, BuildError> {
        let (at, ridge) = (self.trim.points[q], n as isize);
        let from = self.profile.on_flank(ridge, Flank::Back, at);
        let to = self.profile.on_flank(ridge + 1, Flank::Front, at);
        let flat = at[0] != self.profile.root || self.profile.root_flat > 0.0;
        let ends = [&self.back[n][q], &self.front[(n + 1) % self.profile.starts][q]];
        if flat { arc(ends, from, to, self.pinched(Cover::Groove)) } else { Ok(Vec::new()) }
    }

    /// Whether a face of this kind may meet itself in a vertex: that over the only ridge where
    /// its flanks meet at the root, that over the only groove where they meet at the crest. Its
    /// arcs are halved, and the face is cut from half to half.
    fn pinched(&self, cover: Cover) -> bool {
        let flat = match cover {
            Cover::Ridge => self.profile.root_flat,
            Cover::Groove => self.profile.crest_flat,
        };
        self.profile.starts == 1 && flat == 0.0
    }

    /// The full circle that carries on the plain outline, by growing angle.
    fn outgoing(&self, ridge: &[Vec<Chain>], groove: &[Vec<Chain>]) -> Chain {
        let q = self.trim.outgoing();
        let onwards = (0..self.profile.starts).flat_map(|n| [&ridge[q][n], &groove[q][n]]);
        let chain: Chain = onwards.flatten().cloned().collect();
        // From ridge to ridge in the order of z the angle falls under a right-hand thread.
        if self.profile.climb > 0.0 { reversed(&chain) } else { chain }
    }

    fn side(&self, flank: Flank, edges: &[Vec<Edge>]) -> FlankEnds {
        let vertices = if flank == Flank::Front { &self.front } else { &self.back };
        let places: Vec<usize> =
            self.profile.radii.iter().map(|r| self.trim.index_at(*r)).collect();
        let corner = |n: usize, q: usize| Corner {
            vertex: vertices[n][q].clone(),
            at: self.profile.on_flank(n as isize, flank, self.trim.points[q]),
        };
        let all = 0..self.profile.starts;
        FlankEnds {
            corners: all.clone().map(|n| places.iter().map(|q| corner(n, *q)).collect()).collect(),
            across: all
                .map(|n| places.windows(2).map(|w| edges[n][w[0]..w[1]].to_vec()).collect())
                .collect(),
        }
    }

    /// The faces between the flanks.
    fn patches(
        &self,
        [front, back]: [&[Vec<Edge>]; 2],
        [ridge, groove]: [&[Vec<Chain>]; 2],
        leaving: bool,
    ) -> Result<Vec<(Wire, Screw, FaceName)>, BuildError> {
        let mut found = Vec::new();
        for (q, segment) in self.trim.segments.iter().enumerate() {
            let (a, b) = (self.trim.points[q], self.trim.points[q + 1]);
            // A ridge is left by walking from crest to root, a groove by walking up its wall.
            let downwards = leaving == (segment.cover == Cover::Ridge);
            let (from, on) = if downwards { (a, b) } else { (b, a) };
            let surface = Screw::straight(from, on, 0.0);
            let name = match segment.run {
                Some(run) => FaceName { feature: segment.feature, skin: run.skin },
                None => self.profile.name(Facet::RunOut),
            };
            for n in 0..self.profile.starts {
                let next = (n + 1) % self.profile.starts;
                let (left, right, arcs) = match segment.cover {
                    Cover::Ridge => (&front[n][q], &back[n][q], ridge),
                    Cover::Groove => (&back[n][q], &front[next][q], groove),
                };
                let [left, right] = [left, right].map(|edge| vec![edge.clone()]);
                let (near, far) = (&arcs[q][n], &arcs[q + 1][n]);
                if !self.pinched(segment.cover) {
                    found.push((close(&left, far, &right, near), surface, name));
                    continue;
                }
                let cut = Self::cut(near, far, &left[0])?;
                let half = |arc: &Chain, n: usize| arc.get(n).cloned().into_iter().collect();
                let (near, far) = ([0, 1].map(|n| half(near, n)), [0, 1].map(|n| half(far, n)));
                found.push((close(&left, &far[0], &cut, &near[0]), surface, name));
                found.push((close(&cut, &far[1], &right, &near[1]), surface, name));
            }
        }
        Ok(found)
    }

    /// The edge between the middles of two halved arcs, or the vertex that stands for one; beside
    /// `left`, which leads from the one arc's beginning to the other's.
    fn cut(near: &Chain, far: &Chain, left: &Edge) -> Result<Chain, BuildError> {
        let beside = left.oriented_curve();
        let middle = |arc: &Chain, vertex: &Vertex, at: Polar| match arc.first() {
            Some(half) => (half.back().clone(), half.oriented_curve().to()),
            None => (vertex.clone(), at),
        };
        let (a, from) = middle(near, left.front(), beside.from());
        let (b, to) = middle(far, left.back(), beside.to());
        Ok(vec![edge(&a, &b, Trace::straight(from, to))?])
    }
}

/// The arc between two vertices of one circle, in two edges where it is `halved`.
fn arc([a, b]: [&Vertex; 2], from: Polar, to: Polar, halved: bool) -> Result<Chain, BuildError> {
    if !halved {
        return Ok(vec![edge(a, b, Trace::straight(from, to))?]);
    }
    let middle = Polar { theta: f64::midpoint(from.theta, to.theta), ..from };
    let half = vertex(middle);
    Ok(vec![
        edge(a, &half, Trace::straight(from, middle))?,
        edge(&half, b, Trace::straight(middle, to))?,
    ])
}

/// Whether a thread of this side is walked towards growing z.
pub(super) fn outwards(side: Side) -> bool {
    side == Side::External
}
