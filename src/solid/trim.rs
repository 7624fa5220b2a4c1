//! How a thread ends: the chain from its crest to its root, and what of it stands.

use super::{BuildError, HalfPoint};
use crate::section::{Facet, Feature, Item, Run, Shape};

/// Which part of the circle a segment of an end covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cover {
    /// The ridge: the segment ends the ridge, and the outline goes on below it.
    Ridge,
    /// The groove: the segment is the wall in which the tool stopped.
    Groove,
}

/// One straight piece of a thread's end, from crest towards root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Segment {
    pub cover: Cover,
    pub feature: Feature,
    pub run: Option<Run>,
}

/// An end of a thread: points from crest (first) to root (last), a segment between each two.
///
/// Ridge segments come first (a chamfer, a step down), then groove segments (the wall where the
/// tool stopped). The circle at the point between them carries on the plain outline; so every
/// end, whatever its shape, hands over one full circle, and a chamfer that ends exactly at the
/// root, or a bore of exactly the major diameter, is no special case.
///
/// ```text
///   crest ____ 0                      crest ____.        0, the outline goes on
///             \  ridge: chamfer                 | groove: wall
///              \ 1, the outline goes on         |
///   root  ___ ..                      root ____.1
/// ```
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Trim {
    pub points: Vec<HalfPoint>,
    pub segments: Vec<Segment>,
    /// How many of the neighbouring runs are used up, counted from the thread's own run.
    pub used: usize,
    /// The rest of the run after those, where it was cut: it begins at the outgoing point.
    pub rest: Option<Run>,
    /// Where the tool was drawn out instead: the points are a wall at the end of full depth.
    pub drawn_out: Option<DrawnOut>,
}

/// How a single-point tool leaves its groove.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct DrawnOut {
    /// The angle over which it is drawn out, in radians.
    pub turn: f64,
    /// From the end of full depth to the thread's end, along the axis.
    pub length: f64,
    /// From the middle of the groove, where drawing out begins, to the thread's end.
    pub centre: f64,
}

impl Trim {
    /// Index of the point whose circle carries on the outline.
    pub fn outgoing(&self) -> usize {
        self.segments.iter().take_while(|s| s.cover == Cover::Ridge).count()
    }

    /// The z at which the end cuts a radius: on a step, the z nearer the thread's middle.
    pub fn z_at(&self, r: f64, towards: f64) -> f64 {
        let on = |a: HalfPoint, b: HalfPoint| {
            let (low, high) = (a[0].min(b[0]), a[0].max(b[0]));
            if r < low || r > high {
                return None;
            }
            if a[0] == b[0] {
                return Some(if towards > 0.0 { a[1].max(b[1]) } else { a[1].min(b[1]) });
            }
            Some(a[1] + (b[1] - a[1]) * (r - a[0]) / (b[0] - a[0]))
        };
        let cuts = self.points.windows(2).filter_map(|w| on(w[0], w[1]));
        let pick = |a: f64, b: f64| if towards > 0.0 { a.max(b) } else { a.min(b) };
        cuts.reduce(pick).unwrap_or(self.points[0][1])
    }
}

/// What [`trim`] needs to know of the thread.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    pub item: Item,
    pub crest: f64,
    pub root: f64,
    /// Where the tool stops at this end.
    pub stop: f64,
    /// Length of the tool's lead, along which its groove grows shallower; 0 for a wall.
    pub lead: f64,
    /// Where the tool is drawn out if it stops within its cylinder.
    pub drawn_out: Option<DrawnOut>,
    /// +1 if this end is walked towards growing z, -1 towards falling z.
    pub ahead: f64,
}

/// Finds a thread's end, walking from its crest cylinder through the runs that follow it.
///
/// `runs` begins with the crest cylinder, each run directed away from the thread. Every point of
/// the walk that lies between crest and root belongs to the end; the walk stops where the outline
/// dips below the root, or where the tool stops.
pub(super) fn trim(runs: &[Run], reach: Reach) -> Result<Trim, BuildError> {
    let Reach { item, crest, root, stop, lead, drawn_out, ahead } = reach;
    // The line in which the groove ends: the tool's lead (or a wall), from crest to root.
    let end_at = |r: f64| stop - ahead * lead * ((crest - r) / (crest - root));
    let past = |p: HalfPoint| (p[1] - end_at(p[0])) * ahead;
    let half = |s: crate::section::Station| [s.radius(), s.z.as_mm()];
    let own_end = half(runs[0].to);
    let mut end =
        Trim { points: Vec::new(), segments: Vec::new(), used: 1, rest: None, drawn_out: None };
    let wall = |end: &mut Trim| {
        let feature = Feature::new(item, Facet::RunOut);
        end.segments.push(Segment { cover: Cover::Groove, feature, run: None });
        end.points.push([root, end_at(root)]);
    };
    if let Some(drawn_out) = drawn_out.filter(|_| past(own_end) >= 0.0) {
        let full = stop - ahead * drawn_out.length;
        let feature = Feature::new(item, Facet::RunOut);
        return Ok(Trim {
            points: vec![[crest, full], [root, full]],
            segments: vec![Segment { cover: Cover::Groove, feature, run: None }],
            used: 1,
            rest: Some(cut(runs[0], [crest, full])),
            drawn_out: Some(drawn_out),
        });
    }
    if past(own_end) > 0.0 {
        // The tool stops on the cylinder itself.
        end.points.push([crest, stop]);
        end.rest = Some(cut(runs[0], [crest, stop]));
        wall(&mut end);
        return Ok(end);
    }
    end.points.push(own_end);
    for run in &runs[1..] {
        let (from, to) = (end.points[end.points.len() - 1], half(run.to));
        // Positive towards the root.
        let down = (from[0] - to[0]) * (crest - root).signum();
        let at_stop = past(from) >= 0.0;
        if run.shape != Shape::Straight {
            if at_stop {
                wall(&mut end);
                return Ok(end);
            }
            // Reached between crest and root: its cut through a flank is not handled.
            return Err(BuildError::ThreadEndsOnArc { thread: item, z: end.points[0][1] });
        }
        if down < 0.0 || (at_stop && past(to) > 0.0) {
            return if at_stop {
                wall(&mut end);
                Ok(end)
            } else if end.segments.is_empty() {
                Err(BuildError::ThreadRunsIntoWall { thread: item, z: from[1] })
            } else {
                Err(BuildError::ThreadCrossesGroove { thread: item, z: from[1] })
            };
        }
        let t_root = if down == 0.0 { f64::INFINITY } else { (root - from[0]) / (to[0] - from[0]) };
        let t_stop =
            if past(to) > 0.0 { past(from) / (past(from) - past(to)) } else { f64::INFINITY };
        let t = t_root.min(t_stop).min(1.0);
        let point = if t >= 1.0 {
            to
        } else if t_root <= t_stop {
            [root, from[1] + (to[1] - from[1]) * t]
        } else {
            let r = from[0] + (to[0] - from[0]) * t;
            [r, end_at(r)]
        };
        end.segments.push(Segment { cover: Cover::Ridge, feature: run.feature, run: Some(*run) });
        end.points.push(point);
        end.used += 1;
        if point != to {
            end.rest = Some(cut(*run, point));
        }
        if point[0] == root {
            return Ok(end);
        }
        if point != to {
            wall(&mut end);
            return Ok(end);
        }
    }
    Err(BuildError::NothingToThread { thread: item })
}

impl Trim {
    /// The same end with more points on it, at radii where the flank's line has a corner or where
    /// the flank's cut would turn back in angle; each lies between two points, crest to root.
    pub fn refined(&self, extra: impl Fn(HalfPoint, HalfPoint) -> Vec<f64>) -> Self {
        let mut finer = Self { points: vec![self.points[0]], segments: Vec::new(), ..self.clone() };
        for (pair, segment) in self.points.windows(2).zip(&self.segments) {
            let (a, b) = (pair[0], pair[1]);
            let mut shares: Vec<f64> = extra(a, b)
                .into_iter()
                .filter(|r| (r - a[0]).abs() > SAME_RADIUS && (r - b[0]).abs() > SAME_RADIUS)
                .filter(|r| (r - a[0]) * (r - b[0]) < 0.0)
                .collect();
            shares.sort_by(|x, y| ((x - a[0]).abs()).total_cmp(&(y - a[0]).abs()));
            shares.dedup_by(|y, x| (*y - *x).abs() <= SAME_RADIUS);
            for r in shares {
                let t = (r - a[0]) / (b[0] - a[0]);
                finer.points.push([r, a[1] + (b[1] - a[1]) * t]);
                finer.segments.push(*segment);
            }
            finer.points.push(b);
            finer.segments.push(*segment);
        }
        finer
    }

    /// The first point at a radius that the end passes.
    pub fn index_at(&self, r: f64) -> usize {
        let near = |p: &HalfPoint| (p[0] - r).abs() <= SAME_RADIUS;
        self.points.iter().position(near).unwrap_or(self.points.len() - 1)
    }

    /// The z that the end reaches farthest: the points', or where a drawn-out tool leaves.
    pub fn farthest(&self, ahead: f64) -> f64 {
        let z = self.points.iter().map(|p| p[1] * ahead).fold(f64::NEG_INFINITY, f64::max);
        (z + self.drawn_out.map_or(0.0, |d| d.length)) * ahead
    }
}

/// Radii closer than this are one on a thread's end, in millimetres: half of what makes two
/// diameters of a part one.
const SAME_RADIUS: f64 = 5e-8;

/// The rest of a run from a point on it.
fn cut(run: Run, at: HalfPoint) -> Run {
    use crate::quantity::Length;
    let from = crate::section::Station::new(Length::mm(at[0] * 2.0), Length::mm(at[1]));
    Run { from, ..run }
}
