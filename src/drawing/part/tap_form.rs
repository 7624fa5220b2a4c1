//! What of a tap is not turned: its flutes, seen from the tip, and the square at its shank's end.

use crate::drawing::{Drawing, Layer, Point, Polyline, Segment};
use crate::section::SizingTap;

/// Draws flutes into the view from the front, whose axis lies at x = `at`: arcs from edge to edge,
/// one at the top.
pub fn flutes(drawing: &mut Drawing, tap: &SizingTap, at: f64) {
    let crest = tap.thread.form.crest.as_mm() / 2.0;
    let (r, core) = (tap.flutes.radius.as_mm(), tap.flutes.core.as_mm() / 2.0);
    // The flute's circle touches the core and meets the crest's circle at its edges.
    let centre = core + r;
    let along = (centre * centre + crest * crest - r * r) / (2.0 * centre);
    let aside = (crest * crest - along * along).max(0.0).sqrt();
    let half = libm::atan2(aside, centre - along);
    for n in 0..tap.flutes.count {
        let turn = f64::from(n) / f64::from(tap.flutes.count) * std::f64::consts::TAU;
        let (sin, cos) = libm::sincos(turn);
        // Out along the flute's own axis, then across it.
        let place = |out: f64, across: f64| {
            Point::new(at + out * sin + across * cos, out * cos - across * sin)
        };
        let (from, to) = (place(along, -aside), place(along, aside));
        let bulge = libm::tan(half / 2.0);
        drawing.polyline(Layer::EndView, Polyline::of([Segment { from, to, bulge }]));
    }
}

/// Draws the square's flat into the lower half: its edges, and the narrow diagonals that mark a
/// flat on a turned part (ISO 128-3, from memory).
pub fn square(drawing: &mut Drawing, tap: &SizingTap) {
    let flat = tap.shank.across_flats.as_mm() / 2.0;
    let end = tap.length.as_mm();
    let from = end - tap.shank.square_length.as_mm();
    let p = Point::new;
    drawing.line(Layer::Edge, p(from, -flat), p(end, -flat));
    drawing.line(Layer::Edge, p(from, -flat), p(from, 0.0));
    drawing.line(Layer::Note, p(from, -flat), p(end, 0.0));
    drawing.line(Layer::Note, p(from, 0.0), p(end, -flat));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shape;

    /// Each flute's bottom lies at the core, its edges at the crest, by plane geometry.
    #[test]
    fn flutes_touch_core_and_crest() {
        let library = crate::design::Library::new(Vec::new());
        let section = crate::design::load(&library, "demo").expect("the demo").section;
        let tap = section.sizing_tap();
        let mut drawing = Drawing::default();
        flutes(&mut drawing, &tap, 0.0);
        assert_eq!(drawing.entities.len(), tap.flutes.count as usize);
        for entity in &drawing.entities {
            let Shape::Polyline(chain) = &entity.shape else { panic!("an arc") };
            let far = |p: Point| libm::hypot(p.x, p.y);
            let arc = chain.segments().next().expect("one");
            let crest = tap.thread.form.crest.as_mm() / 2.0;
            assert!((far(arc.from) - crest).abs() < 1e-9 && (far(arc.to) - crest).abs() < 1e-9);
            let bottom = far(arc.at(0.5));
            assert!((bottom - tap.flutes.core.as_mm() / 2.0).abs() < 1e-9, "{bottom}");
        }
    }
}
