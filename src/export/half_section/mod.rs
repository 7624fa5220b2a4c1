//! The half-section: above the axis the part is cut, below it is seen from outside.
//!
//! ```text
//!          _______________________
//!         |// hatched ///////|////|____    cut (ISO 128-3: a half section shows one side of
//!         |___ / / / / / / / |_ /|/ / /|    the axis cut and the other from outside)
//!         |   |______________|__________|   bore, with the edges seen behind the cut
//!   - - - | - |- - - - - - - | - - - - -| - axis
//!         |                  |          |
//!         |                  |      ____|   outside
//!         |__________________|_____|
//! ```
//! The cut half lies above, so that it is the (r, z) half-plane of the geometry and of the
//! report; the nib lies on the left, z growing to the right.
//!
//! Threads are drawn by ISO 6410-1:1993, but true to size: the line of the root lies at the
//! modelled root, not 0.7 mm from the crest as the standard wants for a small drawing, for this
//! one is measured.

pub(super) mod hatch;
mod label;
mod legend;
mod sheet;
pub(super) mod thread;
mod walls;

pub(super) use label::spread;
pub use sheet::{Paper, Sheet, sheet};
pub use walls::sheet as walls_sheet;

use super::chain::Chain;
use super::drawing::{Drawing, Layer, Point, Polyline};
use crate::section::{Part, Section};

/// The geometry alone, true to size.
///
/// The cut boundary is two chains that meet exactly: the outside with its faces, and the bore.
/// The axis ends at the faces, so that the drawing's extents are the part's: x from 0 to the
/// length, y to the greatest radius on both sides.
pub fn geometry(section: &Section) -> Drawing {
    let part = section.part();
    let mut drawing = views(&part);
    axis(&mut drawing, section, 0.0);
    drawing
}

/// Draws the axis, which goes `beyond` the faces.
fn axis(drawing: &mut Drawing, section: &Section, beyond: f64) {
    let [from, to] = [-beyond, section.length().as_mm() + beyond];
    drawing.line(Layer::Axis, Point::new(from, 0.0), Point::new(to, 0.0));
}

/// Both halves, without the axis.
fn views(part: &Part) -> Drawing {
    let mut drawing = Drawing::default();
    let (outside, bore) = (Chain::outside(part), Chain::bore(part));
    cut_half(&mut drawing, &outside, &bore);
    outside_half(&mut drawing, &outside);
    for thread in &part.threads {
        thread::draw(&mut drawing, thread, &outside, &bore);
    }
    drawing
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
