//! The two pictures on the sheet: the half-section with its bores lettered, and the outside at 1:1.

use crate::drawing::half_section::{Paper, lettered};
use crate::drawing::view::AXIS_BEYOND;
use crate::drawing::view::axis;
use crate::drawing::view::chain::Chain;
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment, Sheet};
use crate::section::Section;

/// Width of the picture of the bores on paper, in mm, at most. Wider, and the letters' table has no
/// room beside it.
const WIDEST: f64 = 100.0;

/// Scales of the picture of the bores, the largest first (ISO 5455). Larger, and it is a poster.
const SCALES: [f64; 6] = [5.0, 2.0, 1.0, 0.5, 0.2, 0.1];

/// The length of the bar that shows whether a printer kept the size, in mm.
pub const BAR: f64 = 50.0;

/// Height of the ticks at the bar's ends, in mm.
const TICK: f64 = 2.0;

/// From the outside to the bar, in mm.
const BAR_BELOW: f64 = 4.0;

/// White round a picture, in mm.
const MARGIN: f64 = 1.0;

/// The half-section, cut above and seen below, its bores lettered, with a ruler from the front face.
pub fn bores(section: &Section) -> Sheet {
    let length = section.length().as_mm();
    let fits = |scale: &f64| length * scale <= WIDEST;
    let scale = SCALES.into_iter().find(fits).unwrap_or(SCALES[SCALES.len() - 1]);
    let paper = Paper { scale };
    let drawing = lettered(section, paper);
    Sheet {
        area: paper.round(&drawing),
        drawing,
        scale: paper.scale,
        title: format!("{}: bores", section.name),
        description: format!(
            "Half-section of the section, front face on the left: A collar recess, B clearance bore, \
             C unit thread, D tap-drill bore, E through bore; {length:.2} mm long."
        ),
    }
}

/// The outside from both sides, true to size, with a bar of 50 mm under it.
pub fn template(section: &Section) -> Sheet {
    let outside = Chain::outside(&section.part());
    let mut drawing = Drawing::default();
    let other = Polyline::of(outside.0.segments().map(Segment::mirrored));
    drawing.polyline(Layer::Outline, outside.0.clone());
    drawing.polyline(Layer::Outline, other);
    // Closed over the bore: it is what is cut out of a card.
    let points = outside.0.points();
    for end in [points.first(), points.last()].into_iter().flatten() {
        drawing.line(Layer::Outline, *end, end.mirrored());
    }
    axis(&mut drawing, &outside, AXIS_BEYOND / 2.0);
    let y = -outside.top() - BAR_BELOW;
    drawing.line(Layer::Edge, Point::new(0.0, y), Point::new(BAR, y));
    for x in [0.0, BAR] {
        let (low, high) = (Point::new(x, y - TICK / 2.0), Point::new(x, y + TICK / 2.0));
        drawing.line(Layer::Edge, low, high);
    }
    let [low, high] = drawing.extents().unwrap_or([Point::new(0.0, 0.0); 2]);
    let area =
        [Point::new(low.x - MARGIN, low.y - MARGIN), Point::new(high.x + MARGIN, high.y + MARGIN)];
    Sheet {
        drawing,
        scale: 1.0,
        area,
        title: format!("{}: template", section.name),
        description: "The section's outside at 1:1, with a bar of 50 mm under it.".to_owned(),
    }
}
