//! A part from the side as it stands on the plate: right half cut, left half from outside.

use crate::drawing::view::chain::Chain;
use crate::drawing::view::hatch::hatch;
use crate::drawing::view::{HATCH_SPACING, axis, cut_border, halves};
use crate::drawing::{Drawing, Entity, Layer, Point, Polyline, Segment, Shape};
use crate::section::{Part, Run, Skin, Thread};

/// The axis goes beyond the part by this much on paper, in mm: the words under it stay clear.
pub const AXIS_BEYOND: f64 = 2.0;

/// The least distance of two edges on paper, in mm: one and a half of their lines. Nearer, and they
/// run together; of a chamfer one is left out.
const EDGES: f64 = 0.75;

/// Draws a part in mm on paper, its z upwards, the middle of its foot at (0, 0).
pub fn standing(part: &Part, scale: f64) -> Drawing {
    let part = edged(part);
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    let mut drawing = Drawing::default();
    hatch(&mut drawing, &cut_border(&outside, &bore), HATCH_SPACING / scale);
    drawing.entities.extend(halves(&outside, &bore, &part.threads).entities);
    axis(&mut drawing, &outside, AXIS_BEYOND / scale);
    let entities = drawing.placed(1.0 / scale, Point::new(0.0, 0.0)).entities;
    let entities = entities.into_iter().map(|e| Entity { shape: upright(e.shape), ..e });
    let mut drawing = Drawing { entities: entities.collect() };
    thin_out(&mut drawing, outside.ends().map(|z| z * scale));
    drawing
}

/// Leaves out edges that are too near to a face, or to the edge before them on their side.
fn thin_out(drawing: &mut Drawing, faces: [f64; 2]) {
    let mut edges: Vec<[f64; 2]> = Vec::new();
    drawing.entities.retain(|entity| {
        let [from, to] = entity.shape.points() else { return true };
        if entity.layer != Layer::Edge {
            return true;
        }
        let side = if from.x + to.x < 0.0 { -1.0 } else { 1.0 };
        let near = |y: f64| (from.y - y).abs() < EDGES;
        let met = edges.iter().any(|[other, y]| *other == side && near(*y));
        let kept = !met && !faces.into_iter().any(near);
        edges.extend(kept.then_some([side, from.y]));
        kept
    });
}

/// A part's greatest diameter, in mm.
pub fn widest(part: &Part) -> f64 {
    Chain::outside(part).top() * 2.0
}

/// The radius of the bore where it is open at the top, in mm of the part; none where it is not.
pub fn mouth(part: &Part) -> Option<f64> {
    let bore = Chain::bore(&edged(part)).0;
    bore.points().last().map(|point| point.y).filter(|radius| *radius > 0.0)
}

/// The same part as it is seen: what breaks its bore's edges, at the foot or at the top, counts to
/// the bore, so that faces are planes; and a thread that a plane has cut ends there.
fn edged(part: &Part) -> Part {
    let count = part.runs.len();
    let bored = |n: usize| part.runs[n % count].skin == Skin::Bore;
    let run = |(n, run): (usize, &Run)| {
        let beside = bored(n + 1) || bored(n + count - 1);
        let breaks = run.skin == Skin::End && run.from.z != run.to.z && beside;
        Run { skin: if breaks { Skin::Bore } else { run.skin }, ..*run }
    };
    let [foot, top] = part.extent();
    let thread = |thread: &Thread| Thread {
        from: thread.from.max(foot),
        to: thread.to.min(top),
        ..thread.clone()
    };
    Part {
        runs: part.runs.iter().enumerate().map(run).collect(),
        threads: part.threads.iter().map(thread).collect(),
    }
}

/// x and y exchanged: what ran to the right runs upwards, what lay above the axis lies right of it.
fn upright(shape: Shape) -> Shape {
    let swapped = |p: Point| Point::new(p.y, p.x);
    match shape {
        Shape::Line(ends) => Shape::Line(ends.map(swapped)),
        Shape::Polyline(chain) => {
            Shape::Polyline(Polyline::of(chain.segments().map(|s| Segment {
                from: swapped(s.from),
                to: swapped(s.to),
                bulge: -s.bulge,
            })))
        }
        // A view has lines and chains alone.
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;
    use crate::section::{Facet, Feature, Item, Pen, Station};

    /// A sleeve 10 wide and 6 high, bored 4, its foot broken by 0.5 inside and outside, a groove in
    /// the middle.
    fn sleeve() -> Part {
        let mm = Length::mm;
        let name = |facet| Feature::new(Item::Rung, facet);
        let mut pen = Pen::start(Station::new(mm(5.0), mm(0.0)));
        pen.to(name(Facet::Floor), Skin::End, mm(9.0), mm(0.0));
        pen.to(name(Facet::Chamfer), Skin::End, mm(10.0), mm(0.5));
        pen.to(name(Facet::Side), Skin::Outside, mm(10.0), mm(2.0));
        pen.to(name(Facet::FlankBack), Skin::Outside, mm(9.0), mm(2.5));
        pen.to(name(Facet::FlankFront), Skin::Outside, mm(10.0), mm(3.0));
        pen.to(name(Facet::Side), Skin::Outside, mm(10.0), mm(6.0));
        pen.to(name(Facet::Floor), Skin::End, mm(4.0), mm(6.0));
        pen.to(name(Facet::Side), Skin::Bore, mm(4.0), mm(0.5));
        pen.to(name(Facet::Chamfer), Skin::End, mm(5.0), mm(0.0));
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }

    /// By hand, at 2:1: 20 wide, 12 high; the left half's line from its foot's middle goes along the
    /// plate, and the groove is there on both sides.
    #[test]
    fn a_part_stands_on_its_foot_as_large_as_the_scale_says() {
        let drawing = standing(&sleeve(), 2.0);
        let outline = |e: &&Entity| e.layer == Layer::Outline;
        let of = drawing.entities.iter().filter(outline).cloned().collect();
        let [low, high] = Drawing { entities: of }.extents().unwrap();
        assert_eq!((low, high), (Point::new(-10.0, 0.0), Point::new(10.0, 12.0)));
        let has = |x: f64, y: f64| {
            let mut lines = drawing.entities.iter().filter(outline);
            lines.any(|e| e.shape.points().contains(&Point::new(x, y)))
        };
        assert!(has(-9.0, 5.0) && has(9.0, 5.0), "grooves");
        assert!(has(0.0, 0.0) && has(0.0, 12.0) && !has(0.0, 1.0), "faces are level");
    }

    /// By hand: at 2:1 the edges of the groove and of the two chamfers lie a millimetre from their
    /// neighbours and are all drawn; at 1:1 the chamfers' and the middle one of the groove are not.
    #[test]
    fn edges_that_would_run_together_are_thinned_out() {
        let edges = |scale: f64| {
            let drawing = standing(&sleeve(), scale);
            let of = drawing.entities.iter().filter(|entity| entity.layer == Layer::Edge);
            let mut heights: Vec<f64> = of.map(|entity| entity.shape.points()[0].y).collect();
            heights.sort_by(f64::total_cmp);
            heights
        };
        assert_eq!(edges(2.0), [1.0, 1.0, 4.0, 5.0, 6.0]);
        assert_eq!(edges(1.0), [2.0, 3.0]);
    }

    #[test]
    fn a_mouth_is_a_bore_open_at_the_top() {
        let part = sleeve();
        assert_eq!(mouth(&part), Some(2.0));
        assert_eq!(mouth(&part.turned_over()), Some(2.5));
        // A peg, from its foot's middle to its top's.
        let mm = Length::mm;
        let mut pen = Pen::start(Station::new(mm(0.0), mm(0.0)));
        let peg = [(8.0, 0.0), (8.0, 5.0), (0.0, 5.0)];
        for (n, (diameter, z)) in peg.into_iter().enumerate() {
            let skin = if n == 1 { Skin::Outside } else { Skin::End };
            pen.to(Feature::new(Item::Handle, Facet::Side), skin, mm(diameter), mm(z));
        }
        assert_eq!(mouth(&Part { runs: pen.finish(), threads: Vec::new() }), None);
    }
}
