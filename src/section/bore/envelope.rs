//! The upper envelope of all tools: at every z the widest hole.

use super::Bore;
use super::tool::Piece;
use crate::quantity::Length;
use crate::section::{COINCIDENT, Facet, Feature, Item, Station};

/// A line of a bore's envelope, walked from the front to the back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnvelopeRun {
    /// The tool's surface that is left standing.
    pub feature: Feature,
    /// The end nearer the front; of a wall square to the axis the one that the walk comes to
    /// first.
    pub from: Station,
    /// The end nearer the back.
    pub to: Station,
}

/// What all tools together leave, from the front face to `length`: at every z the widest hole.
///
/// It is exact: every tool is a list of straight pieces, and between neighbouring breakpoints
/// (ends of pieces and crossings of two of them) one piece is widest throughout. Where no tool
/// reaches, the walk goes to the axis and begins there again: a hole that ends in the material
/// has its tool's point, or its flat floor, down to the axis (diameter exactly zero).
///
/// ```text
///   front ____                 ________ back
///         ____|__             |
///                \            |
///   axis - - - - -\- - - - - -|- - - -
/// ```
pub fn envelope(bores: &[Bore], length: Length) -> Vec<EnvelopeRun> {
    let pieces: Vec<Piece> = bores.iter().flat_map(|bore| bore.pieces(length)).collect();
    let mut walk = Walk { pieces: &pieces, at: None, runs: Vec::new() };
    for (from, to) in intervals(&pieces, length) {
        if let Some(piece) = widest(&pieces, (from + to) / 2.0, walk.at) {
            walk.along(piece, from, to);
        }
    }
    walk.finish(length)
}

/// The part's length, cut at every z where the widest piece may change.
fn intervals(pieces: &[Piece], length: Length) -> Vec<(Length, Length)> {
    let order = |a: &Length, b: &Length| a.as_mm().total_cmp(&b.as_mm());
    let mut cuts: Vec<Length> = pieces.iter().flat_map(|p| [p.from.z, p.to.z]).collect();
    cuts.extend([Length::ZERO, length]);
    cuts.sort_by(order);
    cuts.dedup_by(|b, a| *b - *a <= COINCIDENT);
    // A crossing that falls on the end of a piece is that end, which is exact.
    let pairs =
        pieces.iter().enumerate().flat_map(|(n, a)| pieces[..n].iter().map(move |b| (a, b)));
    let mut crossings: Vec<Length> = pairs
        .filter_map(|(a, b)| {
            let z = a.meets(b)?;
            let on = |p: &Piece| z > p.from.z && z < p.to.z;
            let end = cuts.partition_point(|cut| *cut < z);
            let near = |n: usize| cuts.get(n).is_some_and(|cut| (*cut - z).abs() <= COINCIDENT);
            (on(a) && on(b) && !near(end) && !near(end.wrapping_sub(1))).then_some(z)
        })
        .collect();
    cuts.append(&mut crossings);
    cuts.sort_by(order);
    cuts.dedup_by(|b, a| *b - *a <= COINCIDENT);
    cuts.windows(2).map(|w| (w[0], w[1])).collect()
}

/// The piece that is widest at z. Of equally wide ones the walk keeps to the one that it is on,
/// or takes the one that goes on farthest.
fn widest(pieces: &[Piece], z: Length, on: Option<usize>) -> Option<usize> {
    let here = |n: &usize| pieces[*n].from.z < z && pieces[*n].to.z > z;
    let diameter = |n: &usize| pieces[*n].diameter_at(z);
    let found = (0..pieces.len()).filter(here);
    let greatest = found.clone().map(|n| diameter(&n)).reduce(Length::max)?;
    let mut equal = found.filter(|n| greatest - diameter(n) <= COINCIDENT);
    if let Some(on) = on.filter(|on| equal.clone().any(|n| n == *on)) {
        return Some(on);
    }
    let first = equal.next()?;
    Some(equal.fold(first, |best, n| if pieces[n].to.z >= pieces[best].to.z { n } else { best }))
}

/// The walk from the front to the back.
struct Walk<'a> {
    pieces: &'a [Piece],
    /// The piece that the walk is on.
    at: Option<usize>,
    runs: Vec<EnvelopeRun>,
}

impl Walk<'_> {
    fn along(&mut self, number: usize, from: Length, to: Length) {
        let piece = &self.pieces[number];
        let station = |z| Station::new(clean(piece.diameter_at(z)), z);
        let run = EnvelopeRun { feature: piece.feature, from: station(from), to: station(to) };
        let goes_on = self.at.is_some_and(|at| {
            let ahead = self.pieces[at].diameter_at(to) - run.to.diameter;
            at == number || ahead.abs() <= COINCIDENT
        });
        let before = self.at.replace(number);
        match self.runs.last_mut() {
            // Also where another tool of the same size takes over: there is no edge.
            Some(last) if goes_on && joined(last.to, run.from) => last.to = run.to,
            Some(last) if last.to.z == from => {
                let (old, new) = (last.to, run.from);
                if !joined(old, new) {
                    let wider =
                        if old.diameter > new.diameter { before.unwrap_or(number) } else { number };
                    self.wall(self.pieces[wider].feature.item, old, new);
                }
                self.runs.push(run);
            }
            _ => {
                self.close();
                let axis = Station::new(Length::ZERO, from);
                if from > Length::ZERO && run.from.diameter > Length::ZERO {
                    self.wall(run.feature.item, axis, run.from);
                }
                self.runs.push(run);
            }
        }
    }

    fn wall(&mut self, item: Item, from: Station, to: Station) {
        self.runs.push(EnvelopeRun { feature: Feature::new(item, Facet::Floor), from, to });
    }

    /// Ends the hole that the walk is in.
    fn close(&mut self) {
        if let Some(last) = self.runs.last().copied()
            && last.to.diameter > Length::ZERO
        {
            self.wall(last.feature.item, last.to, Station::new(Length::ZERO, last.to.z));
        }
    }

    fn finish(mut self, length: Length) -> Vec<EnvelopeRun> {
        if self.runs.last().is_some_and(|last| last.to.z < length) {
            self.close();
        }
        self.runs
    }
}

/// Whether the outline goes on without a step.
fn joined(a: Station, b: Station) -> bool {
    a.z == b.z && (a.diameter - b.diameter).abs() <= COINCIDENT
}

/// A diameter that is none, exactly.
fn clean(diameter: Length) -> Length {
    if diameter <= COINCIDENT { Length::ZERO } else { diameter }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Angle, Limits};
    use crate::section::{Depth, Mouth, Point};
    use proptest::prelude::*;

    const LENGTH: Length = Length::mm(30.0);

    fn bore(item: Item, mouth: Mouth, d: f64, depth: Depth, point: Point) -> Bore {
        let diameter = Length::mm(d);
        let limits = Limits::new(diameter, diameter).unwrap();
        Bore { item, mouth, diameter, depth, point, limits, tool: None }
    }

    fn front(item: Item, d: f64, depth: f64, point: Point) -> Bore {
        bore(item, Mouth::Front, d, Depth::To(Length::mm(depth)), point)
    }

    fn back(n: u8, d: f64, depth: f64, point: Point) -> Bore {
        let item = Item::BoreStep(Mouth::Back, n);
        bore(item, Mouth::Back, d, Depth::To(Length::mm(depth)), point)
    }

    fn relief(d: f64, from: f64, to: f64, point: Point) -> Bore {
        let depth = Depth::Between(Length::mm(from), Length::mm(to));
        bore(Item::BoreRelief(1), Mouth::Front, d, depth, point)
    }

    fn through(d: f64) -> Bore {
        bore(Item::ThroughBore, Mouth::Front, d, Depth::Through, cone(118.0))
    }

    fn cone(degrees: f64) -> Point {
        Point::Cone(Angle::deg(degrees))
    }

    fn corners(bores: &[Bore]) -> Vec<(f64, f64)> {
        let runs = envelope(bores, LENGTH);
        let pair = |s: Station| (s.diameter.as_mm(), s.z.as_mm());
        runs.iter().map(|r| pair(r.from)).chain(runs.last().map(|r| pair(r.to))).collect()
    }

    fn names(bores: &[Bore]) -> Vec<String> {
        envelope(bores, LENGTH).iter().map(|r| r.feature.to_string()).collect()
    }

    #[test]
    fn flat_steps() {
        let stack = [front(Item::Recess, 9.0, 1.0, Point::Flat), through(7.0)];
        assert_eq!(corners(&stack), [(9.0, 0.0), (9.0, 1.0), (7.0, 1.0), (7.0, 30.0)]);
        assert_eq!(names(&stack)[1], "recess.floor");
    }

    /// Source: the cone behind a stepped drill is (R - r) / tan(point / 2) long (plane geometry).
    #[test]
    fn a_point_survives_down_to_the_next_hole() {
        let stack = [front(Item::TapDrill, 9.2, 10.0, cone(118.0)), through(7.0)];
        let expected = 10.0 + (4.6 - 3.5) / libm::tan(59.0_f64.to_radians());
        assert!((corners(&stack)[2].1 - expected).abs() < 1e-12);
        assert_eq!(names(&stack)[1], "tap-drill.cone");
    }

    /// A wide flat cone swallows a narrow tool's end: the narrow one leaves nothing.
    #[test]
    fn a_point_that_passes_over_another_tools_end_hides_it() {
        let stack = [
            front(Item::ClearanceBore, 10.0, 5.0, cone(60.0)),
            front(Item::TapDrill, 9.0, 5.2, Point::Flat),
            through(7.0),
        ];
        assert_eq!(names(&stack), ["clearance-bore", "clearance-bore.cone", "through-bore"]);
    }

    /// Two points that cross: the deeper, narrower drill takes over on its own cone.
    #[test]
    fn two_points_cross() {
        let stack = [
            front(Item::ClearanceBore, 10.0, 5.0, cone(60.0)),
            front(Item::TapDrill, 9.0, 5.5, cone(30.0)),
            through(7.0),
        ];
        assert_eq!(
            names(&stack),
            ["clearance-bore", "clearance-bore.cone", "tap-drill.cone", "through-bore"]
        );
        for pair in envelope(&stack, LENGTH).windows(2) {
            assert!((pair[0].to.diameter - pair[1].from.diameter).abs() < COINCIDENT);
        }
    }

    /// Source: plane geometry; a 90 degree cone from 8 to 7 is 0.5 long.
    #[test]
    fn a_step_from_the_back_widens_the_bore() {
        let stack = [through(7.0), back(1, 8.0, 6.0, Point::Flat)];
        assert_eq!(corners(&stack), [(7.0, 0.0), (7.0, 24.0), (8.0, 24.0), (8.0, 30.0)]);
        assert_eq!(names(&stack)[1], "bore-step-back-1.floor");
        let drilled = corners(&[through(7.0), back(1, 8.0, 6.0, cone(90.0))]);
        assert!((drilled[1].1 - 23.5).abs() < 1e-12 && drilled[2] == (8.0, 24.0));
    }

    /// Source: plane geometry.
    #[test]
    fn countersinks_are_all_cone() {
        let sink =
            |mouth| bore(Item::Countersink(mouth), mouth, 9.0, Depth::To(Length::ZERO), cone(90.0));
        let stack = [through(7.0), sink(Mouth::Front), sink(Mouth::Back)];
        assert_eq!(names(&stack), ["countersink-front", "through-bore", "countersink-back"]);
        let found = corners(&stack);
        assert!((found[1].1 - 1.0).abs() < 1e-12 && (found[2].1 - 29.0).abs() < 1e-12);
        assert_eq!((found[0], found[3]), ((9.0, 0.0), (9.0, 30.0)));
    }

    #[test]
    fn a_relief_widens_and_narrows() {
        let stack = [through(7.0), relief(8.0, 10.0, 12.0, Point::Flat)];
        let expected =
            [(7.0, 0.0), (7.0, 10.0), (8.0, 10.0), (8.0, 12.0), (7.0, 12.0), (7.0, 30.0)];
        assert_eq!(corners(&stack), expected);
        assert!(names(&stack).contains(&"bore-relief-1.floor".to_owned()));
        let sloped = corners(&[through(7.0), relief(8.0, 10.0, 12.0, cone(90.0))]);
        assert!((sloped[1].1 - 9.5).abs() < 1e-12 && (sloped[4].1 - 12.5).abs() < 1e-12);
    }

    /// A blind hole ends on the axis: in its point, or in a flat floor.
    #[test]
    fn blind_holes_end_on_the_axis() {
        let drilled = [front(Item::TapDrill, 8.0, 10.0, cone(90.0))];
        assert_eq!(corners(&drilled), [(8.0, 0.0), (8.0, 10.0), (0.0, 14.0)]);
        let both = [drilled[0].clone(), back(1, 6.0, 5.0, Point::Flat)];
        let runs = envelope(&both, LENGTH);
        assert_eq!(names(&both)[2..], ["bore-step-back-1.floor", "bore-step-back-1"]);
        assert_eq!(runs[1].to, Station::new(Length::ZERO, Length::mm(14.0)));
        assert_eq!(runs[2].from, Station::new(Length::ZERO, Length::mm(25.0)));
        let flat = [front(Item::TapDrill, 8.0, 10.0, Point::Flat)];
        assert_eq!(corners(&flat).last(), Some(&(0.0, 10.0)));
        assert!(envelope(&[], LENGTH).is_empty());
    }

    /// Coincidences: each is one corner, or none.
    #[test]
    fn coincidences_leave_no_crumbs() {
        // Equal diameters: one cylinder, whoever ends first, also with noise.
        let noise = 1e-9;
        for d in [7.0, 7.0 + noise, 7.0 - noise] {
            let equal = [front(Item::TapDrill, d, 10.0, Point::Flat), through(7.0)];
            assert_eq!(names(&equal), ["through-bore"], "{d}");
            // Two blind holes of one size that overlap.
            let meet =
                [front(Item::TapDrill, d, 20.0, Point::Flat), back(1, 7.0, 15.0, Point::Flat)];
            assert_eq!(envelope(&meet, LENGTH).len(), 1, "{d}");
        }
        // Two flat tools that end at one z, from one side and from both.
        let ends = [
            front(Item::ClearanceBore, 8.0, 10.0, Point::Flat),
            front(Item::TapDrill, 7.5, 10.0, Point::Flat),
            through(7.0),
        ];
        assert_eq!(corners(&ends), [(8.0, 0.0), (8.0, 10.0), (7.0, 10.0), (7.0, 30.0)]);
        let meet = [front(Item::TapDrill, 8.0, 10.0, Point::Flat), back(1, 7.0, 20.0, Point::Flat)];
        assert_eq!(corners(&meet), [(8.0, 0.0), (8.0, 10.0), (7.0, 10.0), (7.0, 30.0)]);
        // A cone that comes through exactly the corner of the next hole's floor: 90 degrees, 8 to
        // 7 in 0.5, and on to 6.
        let corner = [
            front(Item::ClearanceBore, 8.0, 10.0, cone(90.0)),
            front(Item::TapDrill, 7.0, 10.5, Point::Flat),
            through(6.0),
        ];
        assert_eq!(names(&corner), ["clearance-bore", "clearance-bore.cone", "through-bore"]);
        assert!((corners(&corner)[2].1 - 11.0).abs() < 1e-12);
        // A point's cone that ends where a tool from the back begins.
        let meets =
            [front(Item::ClearanceBore, 8.0, 10.0, cone(90.0)), back(1, 7.0, 19.5, Point::Flat)];
        assert_eq!(corners(&meets), [(8.0, 0.0), (8.0, 10.0), (7.0, 10.5), (7.0, 30.0)]);
        // A point that reaches exactly the back face, and one that comes out.
        let reaches = [front(Item::TapDrill, 8.0, 26.0, cone(90.0))];
        assert_eq!(corners(&reaches).last(), Some(&(0.0, 30.0)));
        let out = [front(Item::TapDrill, 8.0, 27.0, cone(90.0))];
        assert_eq!(corners(&out).last(), Some(&(2.0, 30.0)));
        // Two points that touch.
        let touch = [front(Item::TapDrill, 8.0, 10.0, cone(90.0)), back(1, 8.0, 12.0, cone(90.0))];
        assert_eq!(corners(&touch)[2], (0.0, 14.0));
    }

    fn tool() -> impl Strategy<Value = Bore> {
        let point = prop_oneof![
            Just(Point::Flat),
            prop::sample::select(vec![60.0, 90.0, 118.0]).prop_map(cone),
        ];
        // In steps of 0.25, so that sizes and depths often coincide.
        let quarter = |low: u32, high: u32| (low..high).prop_map(|n| f64::from(n) * 0.25);
        (0..4_u8, quarter(8, 40), quarter(0, 118), quarter(1, 20), point).prop_map(
            |(kind, d, depth, width, point)| match kind {
                0 => front(Item::TapDrill, d, depth + 0.25, point),
                1 => back(1, d, depth + 0.25, point),
                2 => relief(d, depth, depth + width, point),
                _ if point == Point::Flat => through(d),
                _ => bore(Item::Recess, Mouth::Back, d, Depth::To(Length::ZERO), point),
            },
        )
    }

    proptest! {
        /// Independent route: at 500 places the widest of all tools, each by its own outline.
        #[test]
        fn agrees_with_the_widest_of_all_tools(tools in prop::collection::vec(tool(), 1..9)) {
            let runs = envelope(&tools, LENGTH);
            for n in 0..500 {
                let z = Length::mm((f64::from(n) + 0.37) * 30.0 / 500.0);
                let pieces = tools.iter().flat_map(|tool| tool.pieces(LENGTH));
                let here = pieces.filter(|p| p.from.z < z && z < p.to.z);
                let expected = here.map(|p| p.diameter_at(z).as_mm()).fold(0.0, f64::max);
                let on = runs.iter().find(|run| run.from.z < z && z < run.to.z);
                let found = on.map_or(0.0, |run| {
                    let t = (z - run.from.z) / (run.to.z - run.from.z);
                    (run.from.diameter + (run.to.diameter - run.from.diameter) * t).as_mm()
                });
                prop_assert!((found - expected).abs() < 1e-6, "{z}: {found} {expected}");
            }
            for pair in runs.windows(2) {
                let (a, b) = (pair[0].to, pair[1].from);
                let on_axis = a.diameter == Length::ZERO && b.diameter == Length::ZERO;
                prop_assert!(on_axis || joined(a, b), "{a:?} {b:?}");
                prop_assert!(pair[1].from != pair[1].to);
            }
        }
    }
}
