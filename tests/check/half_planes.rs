//! Two meshes cut by planes through the axis: an independent route to all that threads share.

use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::distance;
use parry3d_f64::shape::{TriMesh, Triangle};
use sectionwright::mesh::{Mesh, tessellate};
use sectionwright::section::{Facet, Item, Part, Thread};
use sectionwright::solid::{FaceName, build};
use sectionwright::standard::designation::Hand;

use crate::common::points_of;

/// Turned by so much from the first column of a mesh, in radians, so that no plane of a fan goes
/// through corners.
const ASIDE: f64 = 0.003_7;

/// Beyond every part, in millimetres.
const FAR: f64 = 400.0;

/// Planes in which a contact is looked for: twice as many half-planes, so that it is found within
/// 1/64 of a turn.
const PLANES_PUSHED: u32 = 16;

/// How far inside a run contacts are looked for, in millimetres: over the rounding of a mesh's
/// numbers, under anything that is measured.
const INSIDE: f64 = 1e-5;

type Loop = Vec<[f64; 2]>;
type Shapes = Vec<Vec<Loop>>;

/// A part's triangles, and the name of each.
pub struct Triangles {
    pub mesh: Mesh,
    names: Vec<FaceName>,
}

impl Triangles {
    pub fn of(part: &Part, chord: f64) -> Self {
        let body = build(part).unwrap();
        let (mesh, _) = tessellate(&body, chord).unwrap();
        Self { names: body.faces().map(|(_, name)| *name).collect(), mesh }
    }

    /// The triangles of some facets of an item.
    fn on(&self, item: Item, facets: &[Facet]) -> impl Iterator<Item = [u32; 3]> {
        let triangles = self.mesh.triangles.iter().zip(&self.mesh.faces);
        triangles.filter_map(move |(triangle, face)| {
            let feature = self.names[*face as usize].feature;
            (feature.item == item && facets.contains(&feature.facet)).then_some(*triangle)
        })
    }

    /// Least and greatest distance from the axis of the corners of some facets.
    pub fn radii(&self, item: Item, facets: &[Facet]) -> [f64; 2] {
        let points = self.on(item, facets).flatten().map(|n| self.mesh.points[n as usize]);
        points.fold([f64::INFINITY, 0.0], |[low, high], [x, y, _]| {
            let r = libm::hypot(f64::from(x), f64::from(y));
            [low.min(r), high.max(r)]
        })
    }

    /// Where the plane through the axis at an angle cuts the mesh: closed loops of (u, z), u
    /// negative on the far side of the axis. No corner may lie in the plane, but on the axis.
    fn cut(&self, angle: f64) -> Vec<Loop> {
        let (sin, cos) = libm::sincos(angle);
        // Along the plane, across it, and z.
        let seen: Vec<[f64; 3]> = self
            .mesh
            .points
            .iter()
            .map(|p| {
                let [x, y, z] = p.map(f64::from);
                [x * cos + y * sin, y * cos - x * sin, z]
            })
            .collect();
        let mut beside: BTreeMap<[u32; 2], Vec<[u32; 2]>> = BTreeMap::new();
        for triangle in &self.mesh.triangles {
            let corners = [0, 1, 2].map(|n| [triangle[n], triangle[(n + 1) % 3]]);
            let crosses =
                |[p, q]: &[u32; 2]| (seen[*p as usize][1] < 0.0) != (seen[*q as usize][1] < 0.0);
            let crossed = corners.into_iter().filter(crosses).map(|[p, q]| [p.min(q), p.max(q)]);
            if let [a, b] = crossed.collect::<Vec<_>>()[..] {
                beside.entry(a).or_default().push(b);
                beside.entry(b).or_default().push(a);
            }
        }
        let mut loops = Vec::new();
        while let Some(first) = beside.keys().next().copied() {
            let (mut outline, mut at) = (Vec::new(), first);
            while let Some(next) = beside.remove(&at) {
                assert_eq!(next.len(), 2, "the mesh is closed");
                let [p, q] = at.map(|n| seen[n as usize]);
                let t = p[1] / (p[1] - q[1]);
                outline.push([p[0] + (q[0] - p[0]) * t, p[2] + (q[2] - p[2]) * t]);
                let go_on = next.into_iter().find(|edge| beside.contains_key(edge));
                at = go_on.unwrap_or(first);
            }
            loops.push(outline);
        }
        loops
    }
}

/// What two parts have in common.
#[derive(Clone, Copy, Debug)]
pub struct Common {
    /// The integral of r dA over the half-planes, in mm3.
    pub volume: f64,
    /// The area round it, in mm2: if all of both surfaces is off by so much, the volume is off by
    /// no more than that times this area.
    pub skin: f64,
}

/// A part screwed into another.
pub struct Screwed<'a> {
    pub inner: &'a Triangles,
    pub outer: &'a Triangles,
    /// z of the outer part at z = 0 of the inner one.
    pub advance: f64,
    /// By how much the inner part is turned, in radians.
    pub turn: f64,
}

impl<'a> Screwed<'a> {
    /// The inner part moved to its place along the axis, and turned until its ridges stand in the
    /// middle of the outer thread's grooves at `centred`, a z of the outer part.
    pub fn home(
        (inner, external): (&'a Triangles, &Thread),
        (outer, internal): (&'a Triangles, &Thread),
        advance: f64,
        centred: f64,
    ) -> Self {
        // At which angle the middle of a ridge, or of a groove, lies at `centred`.
        let angle = |thread: &Thread, shift: f64| {
            let climb = thread.form.lead().as_mm() / TAU;
            let climb = if thread.form.hand == Hand::Right { climb } else { -climb };
            (centred - shift - (thread.from + thread.phase).as_mm()) / climb
        };
        let turn = angle(internal, 0.0) - angle(external, advance);
        Self { inner, outer, advance, turn }
    }

    /// The same, pushed along the axis.
    pub fn pushed(&self, by: f64) -> Self {
        Self { advance: self.advance + by, ..*self }
    }

    /// What both have in common in the plane at an angle, between two z of the outer part.
    fn common(&self, angle: f64, [low, high]: [f64; 2]) -> Shapes {
        let window = vec![[-FAR, low], [FAR, low], [FAR, high], [-FAR, high]];
        let mut inner = self.inner.cut(angle - self.turn);
        for [_, z] in inner.iter_mut().flatten() {
            *z += self.advance;
        }
        let inner = inner.overlay(&window, OverlayRule::Intersect, FillRule::EvenOdd);
        self.outer.cut(angle).overlay(&inner, OverlayRule::Intersect, FillRule::EvenOdd)
    }

    /// What both have in common between two z of the outer part, by so many half-planes.
    pub fn in_common(&self, run: [f64; 2], half_planes: u32) -> Common {
        let planes = half_planes / 2;
        let step = PI / f64::from(planes);
        let mut common = Common { volume: 0.0, skin: 0.0 };
        for n in 0..planes {
            let shapes = self.common(f64::from(n) * step + ASIDE, run);
            common.volume += moment(&shapes) * step;
            common.skin += skin(&shapes) * step;
        }
        common
    }

    /// How far the inner part can be pushed along the axis, to the back (+1) or the front (-1),
    /// before an area of more than `touching` comes in common in some plane; at most a third of
    /// `pitch`, before the next turn's groove is as good.
    pub fn free(&self, ahead: f64, run: [f64; 2], pitch: f64, touching: f64) -> f64 {
        // Where leads differ, the flanks that touch first are in one plane only.
        let angles =
            (0..PLANES_PUSHED).map(|n| ASIDE + f64::from(n) * PI / f64::from(PLANES_PUSHED));
        let angles: Vec<f64> = angles.collect();
        // The walls in which threads end are rounded to single precision.
        let run = [run[0] + INSIDE, run[1] - INSIDE];
        let touches = |by: f64| {
            let pushed = self.pushed(by * ahead);
            angles.iter().any(|angle| moment(&pushed.common(*angle, run)) > touching)
        };
        let (mut low, mut high) = (0.0, pitch / 3.0);
        for _ in 0..16 {
            let middle = f64::midpoint(low, high);
            (low, high) = if touches(middle) { (low, middle) } else { (middle, high) };
        }
        low
    }

    /// The least distance between facets of an item of the inner part and of the outer one.
    pub fn distance(&self, inner: (Item, &[Facet]), outer: (Item, &[Facet])) -> f64 {
        let here = Pose::identity();
        let triangles: Vec<[u32; 3]> = self.outer.on(outer.0, outer.1).collect();
        let skin = TriMesh::new(points_of(&self.outer.mesh), triangles).unwrap();
        let (sin, cos) = libm::sincos(self.turn);
        let point = |n: u32| {
            let [x, y, z] = self.inner.mesh.points[n as usize].map(f64::from);
            Vector::new(x * cos - y * sin, x * sin + y * cos, z + self.advance)
        };
        let distances = self.inner.on(inner.0, inner.1).map(|triangle| {
            let [a, b, c] = triangle.map(point);
            distance(&here, &Triangle::new(a, b, c), &here, &skin).unwrap()
        });
        distances.map(|found| found.distance).fold(f64::INFINITY, f64::min)
    }
}

/// The integral of |u| over shapes that the axis does not cut.
fn moment(shapes: &Shapes) -> f64 {
    let of = |a: [f64; 2], b: [f64; 2]| (a[0] + b[0]) * (a[0] * b[1] - b[0] * a[1]) / 6.0;
    shapes.iter().map(|shape| shape.iter().map(|c| over_sides(c, of)).sum::<f64>().abs()).sum()
}

/// The integral of |u| along the sides of shapes.
fn skin(shapes: &Shapes) -> f64 {
    let of = |a: [f64; 2], b: [f64; 2]| {
        f64::midpoint(a[0], b[0]).abs() * libm::hypot(b[0] - a[0], b[1] - a[1])
    };
    shapes.iter().flatten().map(|c| over_sides(c, of)).sum()
}

fn over_sides(contour: &Loop, of: impl Fn([f64; 2], [f64; 2]) -> f64) -> f64 {
    let next = contour.iter().cycle().skip(1);
    contour.iter().zip(next).map(|(a, b)| of(*a, *b)).sum()
}
