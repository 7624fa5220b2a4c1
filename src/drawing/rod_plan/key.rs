//! The key to the picture.

use super::picture::{HATCHES, black, outline};
use crate::drawing::sheet_frame::Area;
use crate::drawing::view::hatch::hatch;
use crate::drawing::{Anchor, Drawing, Layer, Point, Text};
use crate::quantity::Length;
use crate::shop::rod::{RodPlan, Shown};

/// A sample on paper, width and height in mm. Smaller, and two hatchings look alike.
pub const SAMPLE: [f64; 2] = [8.0, 3.6];

/// Samples with what they stand for, beside each other; gives the y below.
pub fn draw(
    drawing: &mut Drawing,
    (plan, shown): (&RodPlan, Shown),
    room: Area,
    top: f64,
    height: f64,
) -> f64 {
    let request = &plan.request;
    let mut entries = vec![(0, format!("cut, {}: goes as dust", shown.length(request.kerf)))];
    if request.squaring > Length::ZERO {
        let off = shown.length(request.squaring);
        entries.push((1, format!("comes off to square an end, {off}")));
    }
    let over = shown.length(plan.left_over);
    let is_over = !plan.ends_uncut() && plan.left_over > Length::ZERO;
    let over = is_over.then(|| format!("; behind the last cut left over, {over}"));
    entries.push((2, format!("piece{}", over.unwrap_or_default())));
    if !request.sawn_free() {
        entries.push((3, format!("held in chuck or collet, {}", shown.length(request.holding))));
    }
    let [wide, high] = SAMPLE;
    let (mut x, mut y) = (room.low.x, top);
    for (kind, words) in entries {
        let text = Text::new(Point::new(0.0, 0.0), height, Anchor::Start, words);
        let needed = wide + 2.0 + text.width() + 6.0;
        if x + needed > room.high.x && x > room.low.x {
            (x, y) = (room.low.x, y - high * 1.6);
        }
        let sample = Area::new([x, y], [x + wide, y + high]);
        match kind {
            0 => black(drawing, sample),
            1 => hatch(drawing, &outline(sample), HATCHES[0]),
            3 => hatch(drawing, &outline(sample), HATCHES[1]),
            _ => {}
        }
        drawing.polyline(Layer::Note, outline(sample));
        let at = Point::new(x + wide + 2.0, y + (high - height) / 2.0);
        drawing.text(Layer::Title, Text { at, ..text });
        x += needed;
    }
    y
}
