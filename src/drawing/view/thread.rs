//! Threads as ISO 6410-1:1993 draws them: crest wide, root narrow, end of full depth wide.

use crate::drawing::view::chain::{Chain, Edge};
use crate::drawing::{Drawing, Layer, Point};
use crate::section::{Side, Thread};

/// Draws a thread on the chain that it is cut into; its crest is there already.
pub fn draw(drawing: &mut Drawing, thread: &Thread, outside: &Chain, bore: &Chain) {
    match thread.side {
        Side::External => external(drawing, thread, outside),
        Side::Internal => internal(drawing, thread, bore),
    }
}

fn external(drawing: &mut Drawing, thread: &Thread, outside: &Chain) {
    let [crest, root, from, to] = sizes(thread);
    for [start, end] in outside.above(root, from, to) {
        let (start, end) = (Point::new(start, root), Point::new(end, root));
        drawing.line(Layer::Thread, start, end);
        drawing.line(Layer::Thread, start.mirrored(), end.mirrored());
    }
    let edges = outside.edges();
    for z in [from, to] {
        if edge_at(&edges, z).is_none() {
            // Behind the cut the end is hidden by the material; from outside it is seen.
            let (crest, root) = (Point::new(z, crest), Point::new(z, root));
            drawing.line(Layer::ThreadEndHidden, crest, root);
            drawing.line(Layer::ThreadEnd, crest.mirrored(), Point::new(z, 0.0));
        }
    }
}

fn internal(drawing: &mut Drawing, thread: &Thread, bore: &Chain) {
    let [_, root, from, to] = sizes(thread);
    for [start, end] in bore.below(root, from, to) {
        drawing.line(Layer::Thread, Point::new(start, root), Point::new(end, root));
    }
    let edges = bore.edges();
    for z in [from, to] {
        // An edge of the bore is drawn already, from its farthest point to the axis.
        let drawn = edge_at(&edges, z).map_or(0.0, |edge| edge.high);
        if root > drawn {
            drawing.line(Layer::ThreadEnd, Point::new(z, root), Point::new(z, drawn));
        }
    }
}

/// Crest and root as radii, and where the thread begins and ends.
fn sizes(thread: &Thread) -> [f64; 4] {
    let form = &thread.form;
    let radius = |d: crate::quantity::Length| d.as_mm() / 2.0;
    [radius(form.crest), radius(form.root), thread.from.as_mm(), thread.to.as_mm()]
}

fn edge_at(edges: &[Edge], z: f64) -> Option<&Edge> {
    edges.iter().find(|edge| edge.z == z)
}
