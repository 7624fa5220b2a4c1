//! A chain of the half-section as a drawing dimensions it: its corners as if they were sharp.
//!
//! ```text
//!            C _ _ .          a fillet or chamfer from T1 to T2 cuts the corner C, in which the
//!       ______ T1   .         sides before and behind it, run on, would meet
//!                `.  :
//!                  T2|
//! ```

use crate::drawing::view::chain::Chain;
use crate::drawing::view::walk;
use crate::drawing::{Point, Polyline, Segment};
use crate::section::{Facet, Feature, Item, Part, Run, Shape, Station};
use crate::size::{End, Place};
use crate::solid::Meridian;

/// Directions that differ by less than this, in radians, are one: more would take a blunt corner
/// for a rounded one, less would miss a tangent arc by its rounding.
const TANGENT: f64 = 1e-5;

/// A piece of a chain with the name of its surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Where it runs, from the front to the back.
    pub line: Segment,
    /// Its surface.
    pub feature: Feature,
    /// The surface that it ends as: another one where a plane or cylinder changes its name on its
    /// way.
    pub last: Feature,
}

/// A corner that is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// The corner as if it were sharp.
    pub corner: Point,
    /// What is there instead: an arc or a straight line.
    pub line: Segment,
}

/// A chain, walked from the front to the back; y is the radius.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contour {
    /// As it is: neighbouring pieces of one plane or cylinder are one.
    pub drawn: Vec<Side>,
    /// As it is dimensioned: without cut corners.
    pub sides: Vec<Side>,
    /// The cut corners.
    pub cuts: Vec<Cut>,
    /// Straight lines over what interrupts a taper or cylinder: both its parts lie on them.
    pub bridges: Vec<[Point; 2]>,
}

impl Side {
    /// Square to the axis.
    pub fn is_plane(&self) -> bool {
        self.line.bulge == 0.0 && self.line.from.x == self.line.to.x
    }

    /// Along the axis.
    pub fn is_cylinder(&self) -> bool {
        self.line.bulge == 0.0 && self.line.from.y == self.line.to.y
    }

    /// Neither, but straight.
    pub fn is_cone(&self) -> bool {
        self.line.bulge == 0.0 && !self.is_plane() && !self.is_cylinder()
    }
}

impl Contour {
    /// The outside with both faces, from the front mouth of the bore to its back mouth.
    pub fn outside(part: &Part) -> Self {
        Self::new(&walk::outside(part))
    }

    /// The pieces of the bore's wall: two where two holes do not meet.
    pub fn bores(part: &Part) -> Vec<Self> {
        walk::bores(part).iter().map(|runs| Self::new(runs)).collect()
    }

    fn new(runs: &[Run]) -> Self {
        let drawn = merged(runs);
        let mut contour = Self { sides: drawn.clone(), drawn, ..Self::default() };
        // From the back, so that places before it stay.
        for n in (1..contour.drawn.len().saturating_sub(1)).rev() {
            if let Some(corner) = sharp(&contour.drawn, n) {
                let line = contour.drawn[n].line;
                contour.cuts.insert(0, Cut { corner, line });
                contour.sides.remove(n);
                let [before, behind] = [n - 1, n].map(|n| contour.sides[n].line);
                contour.sides[n - 1].line = run_on(before, before.from, corner);
                contour.sides[n].line = run_on(behind, corner, behind.to);
            }
        }
        contour.bridges = bridges(&contour.sides);
        contour
    }

    /// As it is drawn.
    pub fn chain(&self) -> Chain {
        Chain(Polyline::of(self.drawn.iter().map(|side| side.line)))
    }

    /// What of which surfaces lies where a size is: the ends for which `at` holds, and the surfaces
    /// for which all of it does.
    pub fn places(&self, at: impl Fn(Point) -> bool, whole: impl Fn(&Side) -> bool) -> Vec<Place> {
        let mut found = Vec::new();
        let mut add = |place: Place| {
            if !found.contains(&place) {
                found.push(place);
            }
        };
        let among = |sides: &[Side], one: Feature| {
            sides.iter().any(|side| [side.feature, side.last].contains(&one))
        };
        for (n, side) in self.sides.iter().enumerate() {
            // What is interrupted has its ends before and behind all that interrupts it.
            if at(side.line.from) && !among(&self.sides[..n], side.feature) {
                add(Place::at(side.feature, End::Front));
            }
            if at(side.line.to) && !among(&self.sides[n + 1..], side.last) {
                add(Place::at(side.last, End::Back));
            }
            if whole(side) {
                add(Place::whole(side.feature));
                add(Place::whole(side.last));
            }
        }
        found
    }

    /// The corners of the dimensioned sides, from the front to the back.
    pub fn corners(&self) -> Vec<Point> {
        let first = self.sides.first().map(|side| side.line.from);
        first.into_iter().chain(self.sides.iter().map(|side| side.line.to)).collect()
    }
}

/// Runs as sides; a plane or cylinder that changes its name on its way stays one.
fn merged(runs: &[Run]) -> Vec<Side> {
    let point = |s: Station| Point::new(s.z.as_mm(), s.radius());
    let mut sides: Vec<Side> = Vec::new();
    for run in runs {
        let bulge = if let Shape::Arc { bulge } = run.shape { bulge } else { 0.0 };
        let line = Segment { from: point(run.from), to: point(run.to), bulge };
        let side = Side { line, feature: run.feature, last: run.feature };
        match sides.last_mut() {
            Some(last)
                if (last.is_plane() && side.is_plane())
                    || (last.is_cylinder() && side.is_cylinder()) =>
            {
                last.line.to = line.to;
                last.last = run.feature;
            }
            _ => sides.push(side),
        }
    }
    sides
}

/// The sharp corner that a side cuts; none where it is a surface of its own.
fn sharp(sides: &[Side], n: usize) -> Option<Point> {
    let [before, cut, behind] = [sides[n - 1], sides[n], sides[n + 1]];
    let is_cut = |side: &Side| matches!(side.feature.facet, Facet::Fillet | Facet::Chamfer);
    if !is_cut(&cut) || is_cut(&before) || is_cut(&behind) {
        return None;
    }
    let (enters, leaves) = (cut.line.direction(0.0), cut.line.direction(1.0));
    match cut.feature.facet {
        Facet::Fillet => {
            let tangent = |a: [f64; 2], b: [f64; 2]| angle(a, b).abs() < TANGENT;
            let both = tangent(before.line.direction(1.0), enters)
                && tangent(leaves, behind.line.direction(0.0));
            both.then_some(())?;
        }
        _ => (cut.line.bulge == 0.0).then_some(())?,
    }
    let middle = Point::new(
        f64::midpoint(cut.line.from.x, cut.line.to.x),
        f64::midpoint(cut.line.from.y, cut.line.to.y),
    );
    let far = |p: &Point| libm::hypot(p.x - middle.x, p.y - middle.y);
    let corner =
        meets(before.line, behind.line).into_iter().min_by(|a, b| far(a).total_cmp(&far(b)))?;
    // Seen from the cut, both sides run on towards the corner.
    let towards = |from: Point, along: [f64; 2]| {
        (corner.x - from.x) * along[0] + (corner.y - from.y) * along[1] > 0.0
    };
    let back = behind.line.direction(0.0).map(|d| -d);
    let ahead = towards(cut.line.from, before.line.direction(1.0)) && towards(cut.line.to, back);
    ahead.then(|| snapped(corner, &before, &behind))
}

/// A corner on a plane or cylinder has its z or radius to the last bit.
fn snapped(mut corner: Point, before: &Side, behind: &Side) -> Point {
    for side in [before, behind] {
        if side.is_plane() {
            corner.x = side.line.from.x;
        }
        if side.is_cylinder() {
            corner.y = side.line.from.y;
        }
    }
    corner
}

/// The angle from one direction to another, positive to the left.
fn angle(a: [f64; 2], b: [f64; 2]) -> f64 {
    libm::atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])
}

/// The same line or circle between other ends.
fn run_on(line: Segment, from: Point, to: Point) -> Segment {
    let Meridian::Arc { centre, sweep, .. } = line.meridian() else {
        return Segment { from, to, bulge: 0.0 };
    };
    let out = |p: Point| [p.x - centre[1], p.y - centre[0]];
    let turn = angle(out(from), out(to));
    let turn = if turn.signum() == sweep.signum() {
        turn
    } else {
        turn + std::f64::consts::TAU.copysign(sweep)
    };
    Segment { from, to, bulge: libm::tan(turn / 4.0) }
}

/// Where two lines or circles, run on, meet.
fn meets(a: Segment, b: Segment) -> Vec<Point> {
    match (a.meridian(), b.meridian()) {
        (Meridian::Line { .. }, Meridian::Line { .. }) => {
            let (u, v) = (a.direction(0.0), b.direction(0.0));
            let cross = u[0] * v[1] - u[1] * v[0];
            let off = [b.from.x - a.from.x, b.from.y - a.from.y];
            let t = (off[0] * v[1] - off[1] * v[0]) / cross;
            let meets = cross.abs() > f64::EPSILON;
            let at = Point::new(a.from.x + u[0] * t, a.from.y + u[1] * t);
            meets.then_some(at).into_iter().collect()
        }
        (Meridian::Arc { centre, radius, .. }, Meridian::Line { .. }) => on_line(b, centre, radius),
        (Meridian::Line { .. }, Meridian::Arc { centre, radius, .. }) => on_line(a, centre, radius),
        (
            Meridian::Arc { centre, radius, .. },
            Meridian::Arc { centre: other, radius: second, .. },
        ) => {
            let [dy, dx] = [other[0] - centre[0], other[1] - centre[1]];
            let apart = libm::hypot(dx, dy);
            let along = (apart * apart + radius * radius - second * second) / (2.0 * apart);
            let rise = (radius * radius - along * along).max(0.0).sqrt();
            let (ux, uy) = (dx / apart, dy / apart);
            [rise, -rise]
                .map(|rise| {
                    let x = centre[1] + ux * along - uy * rise;
                    Point::new(x, centre[0] + uy * along + ux * rise)
                })
                .to_vec()
        }
    }
}

/// Where a straight line, run on, meets a circle.
fn on_line(line: Segment, centre: [f64; 2], radius: f64) -> Vec<Point> {
    let u = line.direction(0.0);
    let length = libm::hypot(u[0], u[1]);
    let (ux, uy) = (u[0] / length, u[1] / length);
    let (cx, cy) = (centre[1] - line.from.x, centre[0] - line.from.y);
    let along = cx * ux + cy * uy;
    let off = cx * uy - cy * ux;
    let half = (radius * radius - off * off).max(0.0).sqrt();
    [along - half, along + half]
        .map(|t| Point::new(line.from.x + ux * t, line.from.y + uy * t))
        .to_vec()
}

/// Over whatever interrupts a surface: grooves and beads in one taper, and any other surface between
/// two parts of one cylinder.
fn bridges(sides: &[Side]) -> Vec<[Point; 2]> {
    let is_ring = |side: &Side| matches!(side.feature.item, Item::Groove(_) | Item::Bead(_));
    let mut found = Vec::new();
    for (n, before) in sides.iter().enumerate() {
        let mut behind = sides[n + 1..].iter().enumerate();
        let again = behind.find(|(_, side)| {
            let one_cylinder = side.is_cylinder() && side.line.from.y == before.line.to.y;
            side.feature == before.feature && (one_cylinder || side.is_cone())
        });
        let Some((between, behind)) = again.filter(|(between, _)| *between > 0) else { continue };
        let over_rings = sides[n + 1..=n + between].iter().all(is_ring);
        let one_taper = before.is_cone() && behind.is_cone() && over_rings;
        if before.is_cylinder() && behind.is_cylinder() || one_taper {
            found.push([before.line.to, behind.line.from]);
        }
    }
    found
}
