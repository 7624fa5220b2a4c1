//! A thread's faces: crest, root and flanks as helical strips, and the patches at its ends.

use std::f64::consts::TAU;

use super::ring::{Faces, Ring, edge, vertex};
use super::trim::{Cover, Trim};
use super::{BuildError, Edge, FaceName, HalfPoint, Polar, Screw, Vertex, Wire};
use crate::section::{Facet, Feature, Side, Skin, Thread};
use crate::standard::designation::Hand;

/// A thread's form in raw millimetres, with the flanks' place.
pub(super) struct Helices<'a> {
    thread: &'a Thread,
    pub crest: f64,
    pub root: f64,
    pitch: f64,
    starts: usize,
    /// Climb per radian, negative for a left-hand thread.
    climb: f64,
    /// z of the middle of ridge 0 at angle 0.
    middle: f64,
}

/// Which flank of a ridge.
#[derive(Clone, Copy, PartialEq)]
enum Flank {
    Front,
    Back,
}

/// The edges in which one end of the thread is cut.
struct End<'t> {
    trim: &'t Trim,
    /// Per ridge: the flanks' edges from crest to root.
    front: Vec<Vec<Edge>>,
    back: Vec<Vec<Edge>>,
    /// Per point of the trim, per ridge: the arc across the ridge.
    ridge: Vec<Vec<Edge>>,
    /// Per point of the trim, per ridge: the arc from this ridge's back flank to the next front.
    groove: Vec<Vec<Edge>>,
    /// Per ridge: vertices from crest to root.
    front_vertices: Vec<Vec<Vertex>>,
    back_vertices: Vec<Vec<Vertex>>,
}

impl<'a> Helices<'a> {
    pub fn new(thread: &'a Thread) -> Self {
        let form = &thread.form;
        let pitch = form.pitch.as_mm();
        let sign = if form.hand == Hand::Right { 1.0 } else { -1.0 };
        let centre = (thread.from + thread.phase).as_mm();
        let middle = if thread.side == Side::External { centre } else { centre + pitch / 2.0 };
        Self {
            thread,
            crest: form.crest.as_mm() / 2.0,
            root: form.root.as_mm() / 2.0,
            pitch,
            starts: form.starts as usize,
            climb: sign * form.lead().as_mm() / TAU,
            middle,
        }
    }

    fn name(&self, facet: Facet) -> FaceName {
        let skin = if self.thread.side == Side::External { Skin::Outside } else { Skin::Bore };
        FaceName { feature: Feature::new(self.thread.item, facet), skin }
    }

    /// z at angle 0 of a flank of ridge `n` (counted from 0, any whole number) at a radius.
    fn flank_z(&self, n: isize, flank: Flank, r: f64) -> f64 {
        let width = self.thread.form.ridge_at(crate::quantity::Length::mm(r * 2.0)).as_mm();
        let side = if flank == Flank::Front { -0.5 } else { 0.5 };
        self.middle + n as f64 * self.pitch + side * width
    }

    /// Where a flank passes a point of the half-plane.
    fn on_flank(&self, n: isize, flank: Flank, at: HalfPoint) -> Polar {
        let theta = (at[1] - self.flank_z(n, flank, at[0])) / self.climb;
        Polar { theta, r: at[0], z: at[1] }
    }

    /// Cuts the flanks and bands of all ridges at one end.
    fn end<'t>(&self, trim: &'t Trim) -> Result<End<'t>, BuildError> {
        let ridges = 0..self.starts as isize;
        let points = |n, flank| trim.points.iter().map(move |p| self.on_flank(n, flank, *p));
        let chain = |flank| {
            let vertices = ridges.clone().map(|n| points(n, flank).map(vertex).collect());
            vertices.collect::<Vec<Vec<Vertex>>>()
        };
        let (front_vertices, back_vertices) = (chain(Flank::Front), chain(Flank::Back));
        let sides = |flank, vertices: &[Vec<Vertex>]| {
            ridges
                .clone()
                .map(|n| self.flank_edges(trim, n, flank, &vertices[n as usize]))
                .collect::<Result<Vec<Vec<Edge>>, BuildError>>()
        };
        let front = sides(Flank::Front, &front_vertices)?;
        let back = sides(Flank::Back, &back_vertices)?;
        let mut end =
            End { trim, front, back, ridge: vec![], groove: vec![], front_vertices, back_vertices };
        for q in 0..trim.points.len() {
            let (ridge, groove) = self.arcs(q, &end)?;
            end.ridge.push(ridge);
            end.groove.push(groove);
        }
        Ok(end)
    }

    fn flank_edges(
        &self,
        trim: &Trim,
        n: isize,
        flank: Flank,
        vertices: &[Vertex],
    ) -> Result<Vec<Edge>, BuildError> {
        let at = |q: usize| self.on_flank(n, flank, trim.points[q]);
        (1..trim.points.len())
            .map(|q| edge(&vertices[q - 1], &vertices[q], at(q - 1), at(q)))
            .collect()
    }

    /// The arcs at one point of the trim: across every ridge, and across every groove.
    fn arcs(&self, q: usize, end: &End) -> Result<(Vec<Edge>, Vec<Edge>), BuildError> {
        let at = end.trim.points[q];
        let vertex_of = |n: isize, flank| {
            let chains =
                if flank == Flank::Front { &end.front_vertices } else { &end.back_vertices };
            &chains[n.rem_euclid(self.starts as isize) as usize][q]
        };
        let arc = |a: (isize, Flank), b: (isize, Flank)| {
            let (pa, pb) = (self.on_flank(a.0, a.1, at), self.on_flank(b.0, b.1, at));
            let (va, vb) = (vertex_of(a.0, a.1), vertex_of(b.0, b.1));
            if pa.theta < pb.theta { edge(va, vb, pa, pb) } else { edge(vb, va, pb, pa) }
        };
        let ridges = 0..self.starts as isize;
        let over_ridge = |n| arc((n, Flank::Front), (n, Flank::Back));
        let over_groove = |n| arc((n, Flank::Back), (n + 1, Flank::Front));
        Ok((
            ridges.clone().map(over_ridge).collect::<Result<_, _>>()?,
            ridges.map(over_groove).collect::<Result<_, _>>()?,
        ))
    }

    /// The full circle that carries on the plain outline, by growing angle.
    fn outgoing(&self, end: &End) -> Ring {
        let q = end.trim.outgoing();
        let mut edges = Vec::with_capacity(2 * self.starts);
        // With growing angle, ridges pass in falling order under a right-hand thread.
        if self.climb > 0.0 {
            for n in (0..self.starts).rev() {
                edges.push(end.ridge[q][n].clone());
                edges.push(end.groove[q][(n + self.starts - 1) % self.starts].clone());
            }
        } else {
            for n in 0..self.starts {
                edges.push(end.ridge[q][n].clone());
                edges.push(end.groove[q][n].clone());
            }
        }
        Ring::Circle(edges)
    }

    /// Adds all faces of the thread; gives back the circles at its low and high end.
    pub fn build(&self, low: &Trim, high: &Trim, to: &mut Faces) -> Result<[Ring; 2], BuildError> {
        let ends = [self.end(low)?, self.end(high)?];
        self.strips(&ends, to)?;
        // The walk passes the low end first on an external thread, last on an internal one.
        let outside = self.thread.side == Side::External;
        self.patches(&ends[0], !outside, to)?;
        self.patches(&ends[1], outside, to)?;
        Ok([self.outgoing(&ends[0]), self.outgoing(&ends[1])])
    }

    /// The edge along which crest or root meets a flank, from the low end to the high end.
    fn helix(
        &self,
        [low, high]: &[End; 2],
        n: usize,
        flank: Flank,
        root: bool,
    ) -> Result<Edge, BuildError> {
        let cut = |end: &End| {
            let q = if root { end.trim.points.len() - 1 } else { 0 };
            let chains =
                if flank == Flank::Front { &end.front_vertices } else { &end.back_vertices };
            (chains[n][q].clone(), self.on_flank(n as isize, flank, end.trim.points[q]))
        };
        let ((a, from), (b, to)) = (cut(low), cut(high));
        edge(&a, &b, from, to)
    }

    /// Crest, back flank, root and front flank of every ridge, in the order of z.
    fn strips(&self, ends: &[End; 2], to: &mut Faces) -> Result<(), BuildError> {
        let starts = self.starts;
        let mut helices = Vec::new();
        for n in 0..starts {
            for (flank, root) in [
                (Flank::Front, false),
                (Flank::Back, false),
                (Flank::Back, true),
                (Flank::Front, true),
            ] {
                helices.push(self.helix(ends, n, flank, root)?);
            }
        }
        for n in 0..starts {
            let next = (n + 1) % starts;
            let (n_i, next_i) = (n as isize, n as isize + 1);
            let at = |n: isize, flank, r: f64| [r, self.flank_z(n, flank, r)];
            let both = |of: &dyn Fn(&End) -> Vec<Edge>| [of(&ends[0]), of(&ends[1])];
            let crest_ends = both(&|end| vec![end.ridge[0][n].clone()]);
            let root_ends = both(&|end| vec![end.groove[end.groove.len() - 1][n].clone()]);
            let crest = [at(n_i, Flank::Front, self.crest), at(n_i, Flank::Back, self.crest)];
            let root = [at(n_i, Flank::Back, self.root), at(next_i, Flank::Front, self.root)];
            let strips = [
                (Facet::Crest, crest, 4 * n, 4 * n + 1, crest_ends),
                (
                    Facet::FlankBack,
                    [crest[1], root[0]],
                    4 * n + 1,
                    4 * n + 2,
                    both(&|end| end.back[n].clone()),
                ),
                (Facet::Root, root, 4 * n + 2, 4 * next + 3, root_ends),
                (
                    Facet::FlankFront,
                    [root[1], at(next_i, Flank::Front, self.crest)],
                    4 * next + 3,
                    4 * next,
                    both(&|end| end.front[next].clone()),
                ),
            ];
            for (facet, [from, on], left, right, [low, high]) in strips {
                let surface = self.along_walk(from, on, self.climb);
                let cycle = close(&helices[left], high, &helices[right], low);
                to.patch(cycle, surface, self.name(facet))?;
            }
        }
        Ok(())
    }

    /// A generatrix that is given in the order of z, in the order of the walk.
    fn along_walk(&self, low: HalfPoint, high: HalfPoint, climb: f64) -> Screw {
        if self.thread.side == Side::External {
            Screw::straight(low, high, climb)
        } else {
            Screw::straight(high, low, climb)
        }
    }

    /// The faces between the flanks at one end; `leaving` where the walk leaves the thread there.
    fn patches(&self, end: &End, leaving: bool, to: &mut Faces) -> Result<(), BuildError> {
        let trim = end.trim;
        for (q, segment) in trim.segments.iter().enumerate() {
            let (a, b) = (trim.points[q], trim.points[q + 1]);
            // A ridge is left by walking from crest to root, a groove by walking up its wall.
            let downwards = leaving == (segment.cover == Cover::Ridge);
            let (from, on) = if downwards { (a, b) } else { (b, a) };
            let surface = Screw::straight(from, on, 0.0);
            let name = match segment.run {
                Some(run) => FaceName { feature: segment.feature, skin: run.skin },
                None => self.name(Facet::RunOut),
            };
            for n in 0..self.starts {
                let next = (n + 1) % self.starts;
                let (left, right, arcs) = match segment.cover {
                    Cover::Ridge => (&end.front[n][q], &end.back[n][q], &end.ridge),
                    Cover::Groove => (&end.back[n][q], &end.front[next][q], &end.groove),
                };
                let (top, bottom) = (arcs[q][n].clone(), arcs[q + 1][n].clone());
                to.patch(close(left, vec![bottom], right, vec![top]), surface, name)?;
            }
        }
        Ok(())
    }
}

/// The cycle along `left`, over `far`, back along `right` and over `near`.
///
/// `far` and `near` may be given in either direction, as long as each is one chain.
fn close(left: &Edge, far: Vec<Edge>, right: &Edge, near: Vec<Edge>) -> Wire {
    let directed = |chain: Vec<Edge>, from: &Vertex| {
        if chain[0].front() == from {
            return chain;
        }
        chain.iter().rev().map(Edge::inverse).collect()
    };
    let mut cycle = vec![left.clone()];
    cycle.extend(directed(far, left.back()));
    cycle.push(right.inverse());
    cycle.extend(directed(near, right.front()));
    cycle.into_iter().collect()
}
