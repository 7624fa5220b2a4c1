//! The plate from above.

use super::Seen;
use super::names::{self, Naming};
use super::paper::Paper;
use super::side;
use crate::drawing::sheet_frame::{Area, Column, Scale};
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Segment, Text};
use crate::print::Layout;

/// From the plate's front edge to its mark, and height of the mark's arrowheads, in letter heights.
const MARK: [f64; 2] = [0.4, 1.0];
/// From the middle of the mark's word to its arrowheads, beyond its ends, in letter heights.
const BESIDE: f64 = 1.5;
/// Half width of an arrowhead to its height: 60 degrees at its tip, so that it is no arrow of a
/// dimension.
const SPREAD: f64 = 0.577;

/// A plate's size in words.
pub fn size(layout: &Layout) -> String {
    let [width, depth] = layout.size;
    format!("{width} × {depth} mm")
}

/// A piece on paper, from above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Its axis.
    pub at: Point,
    /// Its greatest radius, in mm on paper.
    pub radius: f64,
}

/// Draws it from the upper left corner of a room; gives how pieces are named and what it took, none
/// where it does not fit or no name finds a place.
pub fn draw(
    drawing: &mut Drawing,
    seen: Seen,
    room: Area,
    (paper, scale): (Paper, Scale),
) -> Option<(Naming, Area)> {
    let height = paper.height;
    let [wide, deep] = seen.layout.size.map(|size| size * scale.factor());
    let width = if paper.upright { room.width() } else { wide };
    let mut column = Column { drawing, left: room.low.x, width, top: room.high.y };
    column.words(&format!("From above, {scale}"), height);
    let (left, top) = (room.low.x, column.top);
    let edge = Area::new([left, top - deep], [left + wide, top]);
    let foot = edge.low.y - height * (MARK[0] + MARK[1] + 0.5);
    if foot < room.low.y || edge.high.x > room.high.x {
        return None;
    }
    drawing.polyline(Layer::Outline, Polyline::straight(edge.round()));
    front(drawing, edge, height);
    let spots: Vec<Spot> = seen
        .layout
        .places
        .iter()
        .map(|place| {
            let [x, y] = place.at.map(|along| along * scale.factor());
            let at = Point::new(edge.low.x + x, edge.low.y + y);
            Spot { at, radius: place.radius * scale.factor() }
        })
        .collect();
    for (spot, piece) in spots.iter().zip(seen.pieces) {
        circle(drawing, Layer::Outline, spot.at, spot.radius);
        if let Some(mouth) = side::mouth(&piece.part) {
            circle(drawing, Layer::Bore, spot.at, mouth * scale.factor());
        }
    }
    let (naming, words) = names::place(seen.pieces, &spots, edge, paper)?;
    for text in words {
        drawing.text(Layer::Note, text);
    }
    Some((naming, Area { low: Point::new(left, foot), high: Point::new(left + wide, room.high.y) }))
}

/// Marks the front edge: the one that is nearest to whoever stands before the printer.
fn front(drawing: &mut Drawing, edge: Area, height: f64) {
    let tip = edge.low.y - height * MARK[0];
    let base = tip - height * MARK[1];
    let at = Point::new(edge.centre().x, base);
    let word = Text::new(at, height, Anchor::Middle, "front");
    let beside = word.width() / 2.0 + height * BESIDE;
    for x in [at.x - beside, at.x + beside] {
        let half = height * MARK[1] * SPREAD;
        let corners = [Point::new(x, tip), Point::new(x - half, base), Point::new(x + half, base)];
        drawing.triangle(Layer::Note, corners);
    }
    drawing.text(Layer::Note, word);
}

fn circle(drawing: &mut Drawing, layer: Layer, centre: Point, radius: f64) {
    let [right, left] = [radius, -radius].map(|x| Point::new(centre.x + x, centre.y));
    let half = |from, to| Segment { from, to, bulge: 1.0 };
    drawing.polyline(layer, Polyline::closed([half(right, left), half(left, right)]));
}
