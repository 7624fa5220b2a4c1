//! The line of a thread's flank, from its crest to its root, in the axial plane.

use super::ThreadForm;
use crate::quantity::{Angle, Length};
use crate::section::COINCIDENT;

/// What a flank is before its corners are rounded.
#[derive(Clone, Debug, PartialEq)]
pub enum Flank {
    /// One straight line at the form's half angle.
    Straight,
    /// Straight pieces through these points, in falling order of depth; the first and the last
    /// piece go on beyond their ends as far as crest and root lie.
    Points(Vec<FlankPoint>),
}

impl Flank {
    /// The flank of a ridge that fills this one's groove, at the same pitch line.
    #[must_use]
    pub fn mating(&self, pitch: Length) -> Self {
        match self {
            Self::Straight => Self::Straight,
            Self::Points(points) => {
                let mirrored = points
                    .iter()
                    .rev()
                    .map(|point| FlankPoint { depth: -point.depth, ridge: pitch - point.ridge });
                Self::Points(mirrored.collect())
            }
        }
    }
}

/// A point of a flank, seen from the pitch line, where ridge and groove are equally wide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlankPoint {
    /// How far it lies from the pitch line towards the root, per side; negative towards the crest.
    pub depth: Length,
    /// Axial width of the ridge there.
    pub ridge: Length,
}

/// One piece of a flank as it stands, rounded corners included, walked from crest to root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlankRun {
    /// Diameter at the end nearer to the crest.
    pub from: Length,
    /// Axial width of the ridge there.
    pub ridge_from: Length,
    /// Diameter at the end nearer to the root.
    pub to: Length,
    /// Axial width of the ridge there.
    pub ridge_to: Length,
    /// 0 for a straight piece; else the tangent of a quarter of the arc's sweep, positive for the
    /// hollow arc at a root, negative for the round of a crest.
    pub bulge: f64,
}

/// A corner in the plane of (depth below the pitch line, half the ridge's width).
type Corner = [f64; 2];

impl ThreadForm {
    /// The pieces of a flank from crest to root. Empty where there is no such thread: no depth,
    /// a ridge that does not widen towards its root, crests or roots that cut into each other.
    ///
    /// A rounding radius greater than there is room for is reduced to what fits, so that a thread
    /// at the limits of its class still is one; a form's own radii are checked by
    /// [`ThreadForm::radius_that_fits`].
    pub fn flank_runs(&self) -> Vec<FlankRun> {
        let corners = self.corners();
        if !sound(&corners, self.pitch.as_mm()) {
            return Vec::new();
        }
        let last = corners.len() - 1;
        let [crest_room, root_room] = self.room(&corners);
        let crest = Round::new(corners[0], corners[1], self.crest_radius.as_mm(), crest_room);
        let root =
            Round::new(corners[last], corners[last - 1], self.root_radius.as_mm(), root_room);
        let mut chain: Vec<(Corner, f64)> = Vec::with_capacity(last + 3);
        let half = self.pitch.as_mm() / 2.0;
        if let Some(round) = &crest {
            let flat = corners[0][1] - round.tangent;
            let flat = if flat < COINCIDENT.as_mm() { 0.0 } else { flat };
            chain.push(([corners[0][0], flat], -round.bulge));
            chain.push((round.on_flank, 0.0));
        } else {
            chain.push((corners[0], 0.0));
        }
        chain.extend(corners[1..last].iter().map(|c| (*c, 0.0)));
        if let Some(round) = &root {
            let flat = corners[last][1] + round.tangent;
            let flat = if half - flat < COINCIDENT.as_mm() { half } else { flat };
            chain.push((round.on_flank, round.bulge));
            chain.push(([corners[last][0], flat], 0.0));
        } else {
            chain.push((corners[last], 0.0));
        }
        // Roundings that meet leave no straight piece between them.
        chain.windows(2).filter(|w| w[0].0 != w[1].0).map(|w| self.run(w[0], w[1].0)).collect()
    }

    /// The greatest radius to which crest and root can be rounded: as much as the flat, and half
    /// of a single straight flank's length, leave. Zero where there is no such thread.
    pub fn radius_that_fits(&self) -> [Length; 2] {
        let corners = self.corners();
        if !sound(&corners, self.pitch.as_mm()) {
            return [Length::ZERO; 2];
        }
        let last = corners.len() - 1;
        let [crest, root] = self.room(&corners);
        let radius = |corner, next, room: f64| Length::mm(room / tangent_of_half(corner, next));
        [radius(corners[0], corners[1], crest), radius(corners[last], corners[last - 1], root)]
    }

    /// The flank's corners from crest to root, clipped there, not rounded.
    fn corners(&self) -> Vec<Corner> {
        let [crest, root] = [self.crest, self.root].map(|d| self.depth_of(d));
        let quarter = self.pitch.as_mm() / 4.0;
        let slope = libm::tan(self.half_angle.as_rad());
        let points: Vec<Corner> = match &self.flank {
            Flank::Straight => vec![[0.0, quarter], [1.0, quarter + slope]],
            Flank::Points(points) => {
                points.iter().map(|p| [p.depth.as_mm(), p.ridge.as_mm() / 2.0]).collect()
            }
        };
        if points.len() < 2 {
            return Vec::new();
        }
        let at = |depth: f64| {
            let after = points.iter().position(|p| p[0] >= depth).unwrap_or(points.len() - 1);
            let n = after.clamp(1, points.len() - 1);
            let (a, b) = (points[n - 1], points[n]);
            [depth, a[1] + (b[1] - a[1]) * (depth - a[0]) / (b[0] - a[0])]
        };
        let inner = points
            .iter()
            .filter(|p| p[0] - crest > COINCIDENT.as_mm() && root - p[0] > COINCIDENT.as_mm());
        let inner = inner.filter(|_| matches!(self.flank, Flank::Points(_)));
        // Flanks that meet in an edge do so exactly.
        let half = quarter * 2.0;
        let snapped = |[depth, width]: Corner| match width {
            w if w.abs() < COINCIDENT.as_mm() => [depth, 0.0],
            w if (half - w).abs() < COINCIDENT.as_mm() => [depth, half],
            w => [depth, w],
        };
        let ends = [at(crest), at(root)].map(snapped);
        [ends[0]].into_iter().chain(inner.copied()).chain([ends[1]]).collect()
    }

    /// Lengths that the tangents of crest's and root's rounding may take.
    fn room(&self, corners: &[Corner]) -> [f64; 2] {
        let last = corners.len() - 1;
        let length = |a: Corner, b: Corner| libm::hypot(b[0] - a[0], b[1] - a[1]);
        let both = self.crest_radius > Length::ZERO && self.root_radius > Length::ZERO;
        // Both ends of the same piece: by their radii's shares, so that each gets its own.
        let share = if last == 1 && both {
            let tangents = [
                self.crest_radius.as_mm() * tangent_of_half(corners[0], corners[1]),
                self.root_radius.as_mm() * tangent_of_half(corners[1], corners[0]),
            ];
            let crest = tangents[0] / (tangents[0] + tangents[1]);
            [crest, 1.0 - crest]
        } else {
            [1.0, 1.0]
        };
        let crest_flat = corners[0][1];
        let root_flat = self.pitch.as_mm() / 2.0 - corners[last][1];
        [
            crest_flat.min(length(corners[0], corners[1]) * share[0]),
            root_flat.min(length(corners[last], corners[last - 1]) * share[1]),
        ]
    }

    fn run(&self, (a, bulge): (Corner, f64), b: Corner) -> FlankRun {
        FlankRun {
            from: self.diameter_of(a[0]),
            ridge_from: Length::mm(a[1] * 2.0),
            to: self.diameter_of(b[0]),
            ridge_to: Length::mm(b[1] * 2.0),
            bulge,
        }
    }

    /// How far a diameter lies from the pitch line towards the root, per side, in millimetres.
    fn depth_of(&self, diameter: Length) -> f64 {
        let down = (self.pitch_diameter - diameter).as_mm() / 2.0;
        if self.crest > self.root { down } else { -down }
    }

    fn diameter_of(&self, depth: f64) -> Length {
        // Exactly crest and root there: the runs of a part meet them by `==`.
        for d in [self.crest, self.root] {
            if self.depth_of(d) == depth {
                return d;
            }
        }
        let down = Length::mm(depth * 2.0);
        self.pitch_diameter + if self.crest > self.root { -down } else { down }
    }
}

/// Deeper and wider from corner to corner, from a crest that is there to a root that is.
fn sound(corners: &[Corner], pitch: f64) -> bool {
    let (Some(first), Some(last)) = (corners.first(), corners.last()) else { return false };
    corners.len() > 1
        && corners.windows(2).all(|w| w[1][0] > w[0][0] && w[1][1] >= w[0][1])
        && first[1] >= 0.0
        && last[1] <= pitch / 2.0
        && last[0] > first[0]
}

/// The tangent of half the angle by which a flat turns into the flank's piece from `corner` to
/// `next`: a rounding of radius R takes this much of R off either.
fn tangent_of_half(corner: Corner, next: Corner) -> f64 {
    let (down, along) = ((next[0] - corner[0]).abs(), (next[1] - corner[1]).abs());
    let length = libm::hypot(down, along);
    // tan(phi / 2) = (1 - cos phi) / sin phi.
    (length - along) / down
}

/// A rounded corner between a flat (crest or root) and the flank.
struct Round {
    /// From the corner to where the arc begins, on the flat and on the flank.
    tangent: f64,
    on_flank: Corner,
    bulge: f64,
}

impl Round {
    fn new(corner: Corner, next: Corner, radius: f64, room: f64) -> Option<Self> {
        if radius <= 0.0 || room <= 0.0 {
            return None;
        }
        let half = tangent_of_half(corner, next);
        let tangent = (radius * half).min(room);
        // Room that the wish only just fills, or misses by rounding, is filled.
        let tangent = if (tangent - room).abs() < COINCIDENT.as_mm() { room } else { tangent };
        let [down, along] = [next[0] - corner[0], next[1] - corner[1]];
        let length = libm::hypot(down, along);
        let t = tangent / length;
        let on_flank = if t >= 1.0 { next } else { [corner[0] + down * t, corner[1] + along * t] };
        let bulge = libm::tan(libm::atan(half) / 2.0);
        Some(Self { tangent, on_flank, bulge })
    }
}

impl FlankRun {
    /// Axial width of the ridge at a diameter within the run.
    pub fn ridge_at(&self, diameter: Length) -> Length {
        let (d, from, to) = (diameter.as_mm(), self.from.as_mm(), self.to.as_mm());
        let (a, b) = (self.ridge_from.as_mm() / 2.0, self.ridge_to.as_mm() / 2.0);
        if self.bulge == 0.0 {
            return Length::mm(2.0 * (a + (b - a) * (d - from) / (to - from)));
        }
        // In (depth below `from`, half ridge): the chord, and the circle's centre on its normal.
        let (depth, wider) = ((to - from).abs() / 2.0, b - a);
        let off = (1.0 - self.bulge * self.bulge) / (4.0 * self.bulge);
        let centre = [depth / 2.0 - wider * off, f64::midpoint(a, b) + depth * off];
        let square = |v: f64| v * v;
        let radius = libm::hypot(centre[0], centre[1] - a);
        let at = (d - from).abs() / 2.0;
        let across = (square(radius) - square(at - centre[0])).max(0.0).sqrt();
        Length::mm(2.0 * (centre[1] - across * self.bulge.signum()))
    }

    /// The angle between the flank's tangent at a diameter of a straight run and the plane across
    /// the axis; for an arc, that of its chord.
    pub fn half_angle(&self) -> Angle {
        let wider = (self.ridge_to - self.ridge_from).as_mm();
        let deeper = (self.to - self.from).as_mm().abs();
        Angle::deg(libm::atan2(wider, deeper).to_degrees())
    }
}
