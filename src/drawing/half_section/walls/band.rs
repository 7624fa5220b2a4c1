//! The cut material, shaded by what its wall has over its limit.

use crate::check::WallAt;
use crate::drawing::half_section::Chain;
use crate::drawing::half_section::sheet::Paper;
use crate::drawing::view::hatch::hatch_on;
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment, Shade, Shape};
use crate::solid::Meridian;

/// What a wall has over its limit, from too little to much.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// It is under it.
    Breaks,
    /// It has no more over it than a maker can hold at the lathe.
    Close,
    /// It holds, with up to [`LITTLE`].
    Little,
    /// It holds, with up to [`SOME`].
    Some,
    /// It holds, with more.
    Much,
}

/// Where a wall that holds has little over its limit, in mm: up to a quarter. More, and all of a
/// slender section is orange; less, and the next drill size up goes from yellow to red.
pub const LITTLE: f64 = 0.25;
/// Where it has some: up to half a millimetre.
pub const SOME: f64 = 0.5;
/// White lines over what breaks, and what is close, on paper in mm apart. Wider, and a lip of
/// 0.4 mm shows none; narrower, and they outshine their shade.
const HATCH_SPACING: f64 = 2.0;
/// A margin nearer to a border than this, in mm, counts as on it: the rounding of a measure.
const ROUNDING: f64 = 1e-9;

impl Level {
    /// All, from too little to much.
    pub const ALL: [Self; 5] = [Self::Breaks, Self::Close, Self::Little, Self::Some, Self::Much];

    /// Of a margin over the limit; `band` is what a maker can hold. The same rule as the
    /// verdicts'.
    pub fn of(margin: f64, band: f64) -> Self {
        match margin {
            m if m <= band + ROUNDING && m >= -ROUNDING => Self::Close,
            m if m > SOME => Self::Much,
            m if m > LITTLE => Self::Some,
            m if m > 0.0 => Self::Little,
            // What can't be measured is never good.
            _ => Self::Breaks,
        }
    }
}

/// What the cut material is shaded by.
#[derive(Clone, Copy)]
pub struct Walls<'a> {
    /// The wall along z, at the worst.
    pub curve: &'a [WallAt],
    /// What a maker can hold.
    pub band: f64,
    /// Of what is left on the axis behind a blind bore; none where the part is bored through.
    pub floor: Option<Level>,
}

/// Shades the cut half.
pub fn draw(drawing: &mut Drawing, [outside, bore]: [&Chain; 2], walls: Walls, paper: Paper) {
    for (level, corners) in pieces(outside, bore, walls) {
        swatch(drawing, corners, level, paper);
    }
}

/// An area of a level's shade, hatched where the wall does not hold: crossed where it breaks.
pub fn swatch(drawing: &mut Drawing, corners: Vec<Point>, level: Level, paper: Paper) {
    let border = Polyline::straight(corners.iter().chain(corners.first()).copied().collect());
    let spacing = paper.mm(HATCH_SPACING);
    if level <= Level::Close {
        hatch_on(drawing, Layer::BandHatch, &border, spacing);
    }
    if level == Level::Breaks {
        let mut crossing = Drawing::default();
        let mirrored = Polyline::of(border.segments().map(Segment::mirrored));
        hatch_on(&mut crossing, Layer::BandHatch, &mirrored, spacing);
        for entity in &crossing.entities {
            if let Shape::Line([a, b]) = entity.shape {
                drawing.line(Layer::BandHatch, a.mirrored(), b.mirrored());
            }
        }
    }
    let shade: Shade = level.shade();
    drawing.area(Layer::Band, corners, shade);
}

/// The material between bore and outside, in pieces of one level each: their corners.
///
/// Between two places the level is that of the worse of them: the measure does not fall below.
fn pieces(outside: &Chain, bore: &Chain, walls: Walls) -> Vec<(Level, Vec<Point>)> {
    let mut pieces: Vec<(Level, Vec<Point>, Vec<Point>)> = Vec::new();
    let mut end = f64::NEG_INFINITY;
    let pairs = walls.curve.windows(2).map(|pair| {
        let level = Level::of(pair[0].margin.min(pair[1].margin), walls.band);
        ([pair[0].z, pair[1].z], level)
    });
    // Behind a blind bore there is no wall, but a floor that may reach to the back face.
    let last = walls.curve.last().map_or(0.0, |at| at.z);
    let rest = walls.floor.map(|level| ([last, outside.back()], level));
    for (ends, level) in pairs.chain(rest) {
        for [from, to] in between(outside, bore, ends) {
            let sides = (outside.side(from, to), bore.side(from, to));
            let (Some([a, b]), Some([c, d])) = sides else { continue };
            let on_axis = c.y == 0.0 && d.y == 0.0;
            let Some(level) = (if on_axis { walls.floor } else { Some(level) }) else { continue };
            match pieces.last_mut() {
                Some((last, over, under)) if *last == level && end == from => {
                    over.extend([a, b]);
                    under.extend([c, d]);
                }
                _ => pieces.push((level, vec![a, b], vec![c, d])),
            }
            end = to;
        }
    }
    let closed = pieces.into_iter().map(|(level, over, under)| {
        let mut corners: Vec<Point> = over.into_iter().chain(under.into_iter().rev()).collect();
        corners.dedup();
        (level, corners)
    });
    closed.collect()
}

/// An interval of z, cut where a line of either chain begins or ends in it.
fn between(outside: &Chain, bore: &Chain, [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
    let ends = outside.0.points().iter().chain(bore.0.points()).map(|p| p.x);
    let mut cuts: Vec<f64> = ends.filter(|z| from < *z && *z < to).chain([from, to]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    cuts.windows(2).map(|cut| [cut[0], cut[1]]).collect()
}

impl Chain {
    /// The greatest z.
    fn back(&self) -> f64 {
        self.0.points().iter().map(|p| p.x).fold(0.0, f64::max)
    }

    /// The chain's points at both ends of an interval within which none of its lines ends; none
    /// where it does not reach over it.
    fn side(&self, from: f64, to: f64) -> Option<[Point; 2]> {
        let (first, last) =
            (|s: &Segment| s.from.x.min(s.to.x), |s: &Segment| s.from.x.max(s.to.x));
        let over = |s: &Segment| first(s) <= from && to <= last(s) && s.from.x != s.to.x;
        let segment = self.0.segments().find(over)?;
        Some([from, to].map(|x| Point::new(x, height(segment, x))))
    }
}

/// The y of a line or arc at an x between its ends.
fn height(segment: Segment, x: f64) -> f64 {
    let (a, b) = (segment.from, segment.to);
    if x == a.x {
        return a.y;
    }
    if x == b.x {
        return b.y;
    }
    let chord = a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x));
    let Meridian::Arc { centre, radius, .. } = segment.meridian() else { return chord };
    let reach = (radius * radius - (x - centre[1]) * (x - centre[1])).max(0.0).sqrt();
    // An arc that does not turn back along x lies on one side of its chord: hollow to the left.
    let side = if segment.bulge * (b.x - a.x) > 0.0 { -1.0 } else { 1.0 };
    centre[0] + side * reach
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Expectations: the rule for verdicts at its borders, with a band of 0.02.
    #[test]
    fn levels_have_the_borders_of_the_verdicts() {
        let levels = [-0.001, 0.0, 0.02, 0.021, 0.25, 0.26, 0.5, 0.51].map(|m| Level::of(m, 0.02));
        let numbers = levels.map(|level| Level::ALL.iter().position(|l| *l == level).unwrap());
        assert_eq!(numbers, [0, 1, 1, 2, 2, 3, 3, 4]);
        assert_eq!(Level::of(f64::NAN, 0.02), Level::Breaks);
    }

    fn at(z: f64, margin: f64) -> WallAt {
        WallAt { z, wall: margin + 1.0, margin }
    }

    /// Expectations: areas by hand. A tube of radii 3 and 5, stepped to 4 at z 1, that breaks in
    /// front of z 2.
    #[test]
    fn pieces_cover_the_cut_material() {
        let chain = |points: &[(f64, f64)]| {
            Chain(Polyline::straight(points.iter().map(|(x, y)| Point::new(*x, *y)).collect()))
        };
        let outside = chain(&[(0.0, 5.0), (1.0, 5.0), (1.0, 4.0), (4.0, 4.0)]);
        let bore = chain(&[(0.0, 3.0), (4.0, 3.0)]);
        let curve = [at(0.0, -0.1), at(1.5, -0.1), at(2.0, 0.3), at(3.0, 0.4), at(4.0, 0.3)];
        let walls = Walls { curve: &curve, band: 0.02, floor: None };
        let found = pieces(&outside, &bore, walls);
        let area = |corners: &[Point]| {
            let next = corners.iter().cycle().skip(1);
            let cross = |(p, q): (&Point, &Point)| p.x * q.y - q.x * p.y;
            (corners.iter().zip(next).map(cross).sum::<f64>() / 2.0).abs()
        };
        assert_eq!(found.len(), 2);
        assert_eq!((found[0].0, found[1].0), (Level::Breaks, Level::Some));
        assert!((area(&found[0].1) - 3.0).abs() < 1e-12, "{found:?}");
        assert!((area(&found[1].1) - 2.0).abs() < 1e-12);
        // Blind at z 2: what lies behind is solid to the axis, 2 long and 4 high.
        let blind = chain(&[(0.0, 3.0), (2.0, 3.0), (2.0, 0.0), (4.0, 0.0)]);
        let walls = Walls { curve: &curve[..3], band: 0.02, floor: Some(Level::Much) };
        let found = pieces(&outside, &blind, walls);
        assert_eq!(found[1].0, Level::Much);
        assert!((area(&found[1].1) - 8.0).abs() < 1e-12, "{found:?}");
    }

    /// Source: plane geometry: a half circle of radius 1 over (1, 5) is 6 high in its middle.
    #[test]
    fn arcs_keep_their_side() {
        let arc = |bulge| Segment { from: Point::new(0.0, 5.0), to: Point::new(2.0, 5.0), bulge };
        assert!((height(arc(-1.0), 1.0) - 6.0).abs() < 1e-12);
        assert!((height(arc(1.0), 1.0) - 4.0).abs() < 1e-12);
        assert!((height(arc(-1.0).reversed(), 1.0) - 6.0).abs() < 1e-12);
    }
}
