//! The picture of a half-section: the geometry, hatched, with its mate, letters and legend.

use super::{label, legend};
use crate::drawing::sheet_frame::Scale;
use crate::drawing::view::chain::{Chain, polyline};
use crate::drawing::view::hatch::hatch;
use crate::drawing::view::{AXIS_BEYOND, HATCH_SPACING, axis, cut_border, halves};
use crate::drawing::{Drawing, Layer, Point, Polyline, Segment, Sheet};
use crate::section::Section;

/// A picture is not larger than 10:1 and not smaller than 1:1. Larger, and a short part is a poster;
/// smaller, and tenths are lost.
const SCALES: [f64; 2] = [10.0, 1.0];
/// The part may be this long on paper, in mm: a page's width. More, and the picture is shrunk
/// where it is shown; less, and a section of 40 mm is drawn 2:1, where tenths are lost.
const GREATEST_LENGTH: f64 = 250.0;
/// White round everything, on paper, in mm.
const MARGIN: f64 = 5.0;

/// Turns sizes on paper into sizes of the drawing.
#[derive(Clone, Copy, Debug)]
pub struct Paper {
    /// Millimetres on paper per millimetre of the part.
    pub scale: f64,
}

impl Paper {
    /// With the greatest scale of ISO 5455 (10, 5, 2, 1) at which a part of some length is no
    /// longer than `greatest` on paper; with the least where none is.
    pub fn fitting(length: f64, greatest: f64) -> Self {
        let [most, least] = SCALES;
        let usual = |scale: &f64| (least..=most).contains(scale);
        let fits = |scale: &f64| length * scale <= greatest;
        let scales = Scale::ALL.into_iter().map(Scale::factor).filter(usual);
        Self { scale: scales.into_iter().find(fits).unwrap_or(least) }
    }

    /// A drawing's extents with white round them.
    pub fn round(self, drawing: &Drawing) -> [Point; 2] {
        let [low, high] = drawing.extents().unwrap_or([Point::new(0.0, 0.0); 2]);
        let margin = self.mm(MARGIN);
        [Point::new(low.x - margin, low.y - margin), Point::new(high.x + margin, high.y + margin)]
    }

    /// So many millimetres on paper, in millimetres of the part.
    pub fn mm(self, on_paper: f64) -> f64 {
        on_paper / self.scale
    }
}

/// The half-section hatched, its bores lettered, with a ruler from the front face under it.
pub fn lettered(section: &Section, paper: Paper) -> Drawing {
    let part = section.part();
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    let mut drawing = Drawing::default();
    hatch(&mut drawing, &cut_border(&outside, &bore), paper.mm(HATCH_SPACING));
    drawing.entities.extend(halves(&outside, &bore, &part.threads).entities);
    axis(&mut drawing, &outside, paper.mm(AXIS_BEYOND));
    label::draw(&mut drawing, section, &outside, paper);
    legend::ruler(&mut drawing, section.length().as_mm(), -outside.top(), paper);
    drawing
}

/// The half-section with everything that helps a reader.
///
/// The scale is the greatest of ISO 5455 (10, 5, 2, 1) with which the part fits a page.
pub fn sheet(section: &Section) -> Sheet {
    let part = section.part();
    let length = section.length().as_mm();
    let paper = Paper::fitting(length, GREATEST_LENGTH);
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    let mut drawing = Drawing::default();
    hatch(&mut drawing, &cut_border(&outside, &bore), paper.mm(HATCH_SPACING));
    let seat = section.seat().as_mm();
    mate(&mut drawing, section, seat);
    drawing.entities.extend(halves(&outside, &bore, &part.threads).entities);
    axis(&mut drawing, &outside, paper.mm(AXIS_BEYOND));
    let top = label::draw(&mut drawing, section, &outside, paper);
    let place = legend::Place { bottom: -outside.top(), top, seat };
    legend::draw(&mut drawing, section, &place, paper);
    Sheet {
        area: paper.round(&drawing),
        drawing,
        scale: paper.scale,
        title: format!("{}: half-section", section.name),
        description: format!(
            "Half-section of a fountain pen's grip section in {}, {:.2} long, front face on the left: \
             cut above the axis, seen from outside below it, with the nib unit in its seat.",
            section.material,
            section.length()
        ),
    }
}

/// The nib unit in its seat, in the cut half; from outside only what stands proud of the front
/// face is seen.
fn mate(drawing: &mut Drawing, section: &Section, seat: f64) {
    let unit = polyline(&section.unit.part().runs);
    let seated = |p: Point| Point::new(seat + p.x, p.y);
    let chain = Polyline::of(unit.segments().map(|segment| Segment {
        from: seated(segment.from),
        to: seated(segment.to),
        ..segment
    }));
    // The collar is the widest and foremost: its rim, back to the front face.
    if let [front, rim, ..] = *chain.points()
        && rim.x < 0.0
    {
        let proud = [front, rim, Point::new(0.0, rim.y)].map(Point::mirrored);
        drawing.polyline(Layer::Mate, Polyline::straight(proud.to_vec()));
    }
    drawing.polyline(Layer::Mate, chain);
}
