//! Outlines of glyphs.

use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlineGlyph, OutlinePen};

/// A step of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Begins a loop.
    Start([f64; 2]),
    /// A straight line to a point.
    Line([f64; 2]),
    /// A parabola: its control point and its end.
    Parabola([f64; 2], [f64; 2]),
    /// A cubic Bezier curve: its control points and its end.
    Cubic([f64; 2], [f64; 2], [f64; 2]),
    /// Ends a loop where it began.
    Close,
}

/// An outline in the font's units, y upwards from the baseline; what it goes round is filled
/// wherever the loops' turns do not cancel out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline(pub Vec<Step>);

impl Outline {
    /// A glyph's, without hints; empty where the font's record of it is damaged.
    pub fn of(glyph: &OutlineGlyph<'_>) -> Self {
        let mut outline = Self::default();
        let settings = DrawSettings::unhinted(Size::unscaled(), LocationRef::default());
        match glyph.draw(settings, &mut outline) {
            Ok(_) => outline,
            Err(_) => Self::default(),
        }
    }

    /// Whether there is nothing to see: a space.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The points that it goes through.
    #[cfg(test)]
    pub fn points(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.0.iter().filter_map(|step| match *step {
            Step::Start(p) | Step::Line(p) | Step::Parabola(_, p) | Step::Cubic(_, _, p) => Some(p),
            Step::Close => None,
        })
    }
}

fn point(x: f32, y: f32) -> [f64; 2] {
    [x, y].map(f64::from)
}

impl OutlinePen for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.push(Step::Start(point(x, y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.push(Step::Line(point(x, y)));
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.0.push(Step::Parabola(point(cx, cy), point(x, y)));
    }

    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.0.push(Step::Cubic(point(ax, ay), point(bx, by), point(x, y)));
    }

    fn close(&mut self) {
        self.0.push(Step::Close);
    }
}
