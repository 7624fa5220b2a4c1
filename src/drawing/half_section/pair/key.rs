//! Which section is drawn how.

use super::super::sheet::Paper;
use super::{HEIGHT, legend};
use crate::drawing::view::HATCH_SPACING;
use crate::drawing::view::hatch::hatch;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text};

/// A sample on paper, width and height in mm. Smaller, and it shows two lines of hatching.
const SAMPLE: [f64; 2] = [12.0, 4.0];
/// Between a sample and its words, and to the next sample, on paper, in mm.
const GAPS: [f64; 2] = [2.0, 10.0];

/// Draws both samples beside each other with their upper edges at a y; gives the y below.
pub fn draw(drawing: &mut Drawing, names: [&str; 2], top: f64, paper: Paper) -> f64 {
    let [wide, high] = SAMPLE.map(|size| paper.mm(size));
    let foot = top - high;
    let mut x = 0.0;
    for (n, name) in names.into_iter().enumerate() {
        let corners = [(x, foot), (x, top), (x + wide, top), (x + wide, foot), (x, foot)];
        let border =
            Polyline::straight(corners.into_iter().map(|(x, y)| Point::new(x, y)).collect());
        if n == 0 {
            hatch(drawing, &border, paper.mm(HATCH_SPACING));
            drawing.polyline(Layer::Mate, border);
        } else {
            drawing.polyline(Layer::Outline, border);
        }
        let at = Point::new(x + wide + paper.mm(GAPS[0]), foot + (high - paper.mm(HEIGHT)) / 2.0);
        let text = Text::new(at, paper.mm(HEIGHT), Anchor::Start, name);
        x = at.x + text.width() + paper.mm(GAPS[1]);
        drawing.text(Layer::Note, text);
    }
    foot - paper.mm(HEIGHT * legend::LINE)
}
