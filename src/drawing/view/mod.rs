//! What every picture of a part begins with: its outline, its bore, what is cut, its threads.
//!
//! ```text
//!   walk    the part's runs from the front to the back     hatch    lines over what is cut
//!   chain   the same as a line, with its edges             thread   crest, root and end lines
//! ```
//! x is z of the part, y the radius: above the axis the part is cut, below it is seen from outside
//! (ISO 128-3: a half section shows one side of the axis cut and the other from outside).

pub mod chain;
pub mod hatch;
mod thread;
pub mod walk;

use super::{Drawing, Layer, Point, Polyline, Segment};
use crate::section::Thread;
use chain::Chain;

/// Distance of hatching lines on paper, in mm. Wider, and a lip of 0.4 mm is not hatched at all;
/// narrower, and the hatching turns grey.
pub const HATCH_SPACING: f64 = 1.6;
/// The axis goes beyond the part by this much on paper, in mm (ISO 128-2: a little).
pub const AXIS_BEYOND: f64 = 4.0;

/// Both halves with their threads, without hatching and axis.
///
/// The cut boundary is two chains that meet exactly: the outside with its faces, and the bore.
pub fn halves<'a>(
    outside: &Chain,
    bore: &Chain,
    threads: impl IntoIterator<Item = &'a Thread>,
) -> Drawing {
    let mut drawing = Drawing::default();
    cut_half(&mut drawing, outside, bore);
    outside_half(&mut drawing, outside);
    for thread in threads {
        thread::draw(&mut drawing, thread, outside, bore);
    }
    drawing
}

/// Draws the axis of an outside, which goes `beyond` its faces.
pub fn axis(drawing: &mut Drawing, outside: &Chain, beyond: f64) {
    let [low, high] = outside.ends();
    drawing.line(Layer::Axis, Point::new(low - beyond, 0.0), Point::new(high + beyond, 0.0));
}

/// The border of what is cut: the outside, and the bore on the way back; where they do not meet,
/// the axis lies between them.
pub fn cut_border(outside: &Chain, bore: &Chain) -> Polyline {
    let mut round = Chain::joined([outside.0.clone(), bore.0.reversed()]).0;
    let ends = round.points().last().copied().zip(round.points().first().copied());
    if let Some((last, first)) = ends.filter(|(last, first)| last != first) {
        round = Polyline::of(round.segments().chain([Segment::line(last, first)]));
    }
    round
}

fn cut_half(drawing: &mut Drawing, outside: &Chain, bore: &Chain) {
    drawing.polyline(Layer::Outline, outside.0.clone());
    for piece in bore.off_axis() {
        drawing.polyline(Layer::Bore, piece);
    }
    for edge in bore.edges().iter().filter(|edge| edge.low > 0.0) {
        drawing.line(Layer::Edge, Point::new(edge.z, edge.low), Point::new(edge.z, 0.0));
    }
}

fn outside_half(drawing: &mut Drawing, outside: &Chain) {
    let edges = outside.edges();
    // The chain begins and ends at the bore's mouths; from outside the faces reach the axis.
    let count = outside.0.segments().len();
    let below = outside.0.segments().enumerate().map(|(n, segment)| {
        let mut segment = segment.mirrored();
        if n == 0 {
            segment.from.y = 0.0;
        }
        if n + 1 == count {
            segment.to.y = 0.0;
        }
        segment
    });
    drawing.polyline(Layer::Outline, Polyline::of(below));
    for edge in edges.iter().skip(1).take(edges.len().saturating_sub(2)) {
        drawing.line(Layer::Edge, Point::new(edge.z, -edge.low), Point::new(edge.z, 0.0));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chain(points: &[(f64, f64)]) -> Chain {
        let points = points.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        Chain(Polyline::straight(points))
    }

    fn area(border: &Polyline) -> f64 {
        let shoelace = |s: Segment| s.from.x * s.to.y - s.to.x * s.from.y;
        (border.segments().map(shoelace).sum::<f64>() / 2.0).abs()
    }

    /// By hand: a rod of 10 x 4 in the half-plane; bored through 1 wide; blind, 6 deep; not at all.
    #[test]
    fn what_is_cut_is_closed_along_the_axis() {
        let through = chain(&[(0.0, 1.0), (0.0, 4.0), (10.0, 4.0), (10.0, 1.0)]);
        let border = cut_border(&through, &chain(&[(0.0, 1.0), (10.0, 1.0)]));
        assert_eq!(area(&border), 30.0);
        let blind = chain(&[(0.0, 1.0), (0.0, 4.0), (10.0, 4.0), (10.0, 0.0)]);
        let border = cut_border(&blind, &chain(&[(0.0, 1.0), (6.0, 1.0), (6.0, 0.0)]));
        assert_eq!(area(&border), 34.0);
        let solid = chain(&[(0.0, 0.0), (0.0, 4.0), (10.0, 4.0), (10.0, 0.0)]);
        let border = cut_border(&solid, &Chain(Polyline::default()));
        assert_eq!(area(&border), 40.0);
        assert_eq!(border.points().first(), border.points().last());
    }
}
