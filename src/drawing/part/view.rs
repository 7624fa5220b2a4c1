//! The half-section of a part, and the part seen from the front.

use super::pen::Pen;
use super::scheme::Contours;
use crate::drawing::view::chain::Edge;
use crate::drawing::view::hatch::hatch;
use crate::drawing::view::{AXIS_BEYOND, HATCH_SPACING, axis, cut_border, halves};
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment};
use crate::quantity::Length;
use crate::section::{Part, Side, Thread};

/// Least distance between the lines of a thread's crest and root on paper (ISO 6410-1:1993: twice
/// the wide line or 0.7 mm, whichever is larger; ours is 0.5 wide, and so this is 1 mm).
pub const THREAD_GAP: f64 = 1.0;
/// Above the axis the part is cut, below it is seen from outside.
pub fn half_section(part: &Part, contours: &Contours, pen: Pen) -> Drawing {
    let (outside, bore) = (contours.outside.chain(), contours.bore());
    let mut drawing = Drawing::default();
    hatch(&mut drawing, &cut_border(&outside, &bore), HATCH_SPACING / pen.scale);
    let threads: Vec<Thread> = part.threads.iter().map(|cut| shown(cut, pen.scale)).collect();
    drawing.entities.extend(halves(&outside, &bore, &threads).entities);
    for cut in &contours.outside.cuts {
        for end in [cut.line.from, cut.line.to] {
            drawing.line(Layer::Extension, end, cut.corner);
        }
    }
    for contour in [&contours.outside].into_iter().chain(&contours.bores) {
        for [from, to] in &contour.bridges {
            drawing.line(Layer::Extension, *from, *to);
        }
    }
    axis(&mut drawing, &outside, AXIS_BEYOND / pen.scale);
    drawing
}

/// A thread as it is drawn: over the length where it is as deep as it is wanted, its root far
/// enough from its crest.
pub fn shown(thread: &Thread, scale: f64) -> Thread {
    let mut shown = thread.clone();
    [shown.from, shown.to] = thread.full();
    let deep = thread.form.depth().max(Length::mm(THREAD_GAP / scale)) * 2.0;
    shown.form.root = match thread.side {
        Side::External => thread.form.crest - deep,
        Side::Internal => thread.form.crest + deep,
    };
    shown
}

/// The part seen from the front, its axis at x = `at`: every edge that nothing in front of it
/// hides.
pub fn end_view(drawing: &mut Drawing, part: &Part, contours: &Contours, at: f64, pen: Pen) {
    let (outside, bore) = (contours.outside.chain(), contours.bore());
    let mut radii: Vec<f64> = Vec::new();
    let mut widest = 0.0;
    for edge in outside.edges() {
        radii.extend([edge.low, edge.high].into_iter().filter(|r| *r > widest));
        widest = edge.high.max(widest);
    }
    // A rounded outside is widest between its edges.
    if outside.top() > widest {
        radii.push(outside.top());
    }
    let mouth = contours.bores.first().and_then(|b| b.drawn.first()).map_or(0.0, |s| s.line.from.y);
    radii.retain(|r| *r > mouth);
    let from_front = contours.bores.first().is_some_and(|b| b.drawn[0].line.from.y > 0.0);
    let mut open = f64::INFINITY;
    if from_front {
        for edge in bore.edges() {
            radii.extend([edge.high, edge.low].into_iter().filter(|r| *r < open && *r > 0.0));
            open = edge.low.min(open);
        }
    }
    radii.sort_by(f64::total_cmp);
    radii.dedup();
    for r in &radii {
        circle(drawing, Layer::EndView, at, *r, 1.0);
    }
    for thread in part.threads.iter().map(|thread| shown(thread, pen.scale)) {
        let (root, crest) = (thread.form.root.as_mm() / 2.0, thread.form.crest.as_mm() / 2.0);
        let in_front = |edge: &&Edge| edge.z < thread.from.as_mm();
        let seen = match thread.side {
            Side::Internal => {
                from_front
                    && bore.edges().iter().filter(in_front).all(|e| e.low.min(e.high) >= root)
            }
            Side::External => {
                outside.edges().iter().filter(in_front).all(|e| e.high.max(e.low) <= root)
            }
        };
        if seen {
            if !radii.contains(&crest) && thread.side == Side::External {
                circle(drawing, Layer::EndView, at, crest, 1.0);
            }
            circle(drawing, Layer::EndViewThread, at, root, 0.75);
        }
    }
    let reach = outside.top() + AXIS_BEYOND / pen.scale;
    drawing.line(Layer::Axis, Point::new(at - reach, 0.0), Point::new(at + reach, 0.0));
    drawing.line(Layer::Axis, Point::new(at, -reach), Point::new(at, reach));
}

/// A circle, or so much of it (ISO 6410-1: a thread's root is about three quarters, open at the
/// top right).
fn circle(drawing: &mut Drawing, layer: Layer, at: f64, r: f64, share: f64) {
    let point = |turn: f64| {
        let (sin, cos) = libm::sincos(turn * std::f64::consts::TAU);
        Point::new(at + r * cos, r * sin)
    };
    // From a quarter turn on, to the left, in two arcs.
    let turns = [0.25, 0.25 + share / 2.0, 0.25 + share];
    let bulge = libm::tan(share / 2.0 * std::f64::consts::TAU / 4.0);
    let arcs =
        turns.windows(2).map(|ends| Segment { from: point(ends[0]), to: point(ends[1]), bulge });
    drawing.polyline(layer, Polyline::of(arcs));
}
