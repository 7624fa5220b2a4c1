//! The profile for a lathe's control: outline and bore as closed paths of lines and arcs.
//!
//! ```text
//!   y ^        outline ->
//!     |   +------------------+____
//!     |   |                       |      each path begins and ends on the axis: up the front face,
//!     |   |       bore ->         |      along the part, down the back face, and home along the axis
//!     |   +---+___________________|
//!     |   |                       |
//!     +---x-----------------------x--> x
//!   origin-front             origin-back
//! ```
//! True size, in millimetres: x = z of the part, y = radius. The paths are those of
//! [`Section::plain_part`]: where a thread is cut there stands its crest's cylinder. One layer
//! a path; words stand on a layer of their own, and there is nothing else.

mod path;
mod words;

use super::view::chain::Chain;
use super::{Drawing, Layer, Point};
use crate::section::Section;

/// The profile's drawing.
///
/// Layers: `outline`, the part as if it were solid; `bore`, its hole, or `bore-front` and
/// `bore-back` where two holes do not meet; `origin-front` and `origin-back`, a point each on the
/// axis in the finished front face and in the back face; `thread-data`, words below the part.
pub fn geometry(section: &Section) -> Drawing {
    let part = section.plain_part();
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    let holes = bore.off_axis();
    let layers: &[Layer] =
        if holes.len() > 1 { &[Layer::BoreFront, Layer::BoreBack] } else { &[Layer::Bore] };
    let mut drawing = Drawing::default();
    drawing.polyline(Layer::Outline, path::closed(&outside.0));
    for (layer, hole) in layers.iter().zip(&holes) {
        drawing.polyline(*layer, path::closed(hole));
    }
    drawing.point(Layer::OriginFront, Point::new(0.0, 0.0));
    drawing.point(Layer::OriginBack, Point::new(section.length().as_mm(), 0.0));
    words::draw(&mut drawing, section, [&outside, &bore], layers);
    drawing
}
