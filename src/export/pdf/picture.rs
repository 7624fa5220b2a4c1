//! The shapes of a drawing on a page.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point as PagePoint, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Paint, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::arc::curves;
use super::paper::{Paper, points};
use crate::drawing::font::{CAPITAL_PER_EM, FILE, Face};
use crate::drawing::{Layer, Point, Polyline, Reads, Shape, Text};

/// A page that is being drawn on.
pub struct Picture<'a> {
    surface: Surface<'a>,
    paper: Paper,
    face: Face,
    font: Font,
}

/// The font that every page is lettered in.
pub fn font() -> Font {
    Font::new(FILE.into(), 0).expect("the file that is built in is a font")
}

impl<'a> Picture<'a> {
    /// An empty one.
    pub fn on(surface: Surface<'a>, paper: Paper, font: Font) -> Self {
        Self { surface, paper, face: Face::new(), font }
    }

    /// Draws a shape with its layer's line.
    pub fn shape(&mut self, layer: Layer, shape: &Shape) {
        match shape {
            Shape::Line(ends) => {
                let [a, b] = ends;
                let length = libm::hypot(b.x - a.x, b.y - a.y);
                let dashes = layer.line().fitted(self.paper.mm(length));
                self.line(layer, &dashes, &Polyline::straight(ends.to_vec()));
            }
            Shape::Polyline(chain) => self.line(layer, &layer.line().pattern(), chain),
            // No length and round ends: a dot as wide as the line.
            Shape::Point(at) => self.line(layer, &[], &Polyline::straight(vec![*at, *at])),
            Shape::Triangle(corners) => self.area(corners, "#000"),
            Shape::Area(corners, shade) => self.area(corners, shade.colour()),
            Shape::Text(text) => self.words(text),
            Shape::Dimension(dimension) => {
                for part in &dimension.picture {
                    self.shape(layer, part);
                }
                self.words(&dimension.text);
            }
        }
    }

    fn line(&mut self, layer: Layer, dashes: &[f64], chain: &Polyline) {
        let Some(path) = self.path(chain) else { return };
        let array: Vec<f32> = dashes.iter().map(|length| points(*length)).collect();
        let broken = !array.is_empty();
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(Stroke {
            paint: paint(layer.colour()),
            width: points(layer.line().width()),
            line_cap: if broken { LineCap::Butt } else { LineCap::Round },
            line_join: LineJoin::Round,
            dash: broken.then_some(StrokeDash { array, offset: 0.0 }),
            ..Stroke::default()
        }));
        self.surface.draw_path(&path);
    }

    /// Nothing where there is nothing to draw.
    fn path(&self, chain: &Polyline) -> Option<Path> {
        let mut path = PathBuilder::new();
        let start = self.paper.place(*chain.points().first()?);
        path.move_to(start.x, start.y);
        for segment in chain.segments() {
            if segment.radius().is_none() {
                let to = self.paper.place(segment.to);
                path.line_to(to.x, to.y);
            }
            for curve in curves(segment, self.paper.mm(1.0)) {
                let [a, b, to] = curve.map(|point| self.paper.place(point));
                path.cubic_to(a.x, a.y, b.x, b.y, to.x, to.y);
            }
        }
        if chain.is_closed() {
            path.close();
        }
        path.finish()
    }

    fn area(&mut self, corners: &[Point], colour: &str) {
        let mut path = PathBuilder::new();
        for (n, corner) in corners.iter().enumerate() {
            let at = self.paper.place(*corner);
            if n == 0 {
                path.move_to(at.x, at.y);
            } else {
                path.line_to(at.x, at.y);
            }
        }
        path.close();
        if let Some(path) = path.finish() {
            self.fill(colour);
            self.surface.draw_path(&path);
        }
    }

    fn words(&mut self, text: &Text) {
        let line = self.face.line(&text.words);
        let size = text.height / CAPITAL_PER_EM;
        let before = text.anchor.before(line.width * size);
        let PagePoint { x, y } = self.paper.place(text.at);
        // A quarter turn to the left: what goes right goes up, and y grows downwards.
        let turn = match text.reads {
            Reads::FromBelow => Transform::from_row(1.0, 0.0, 0.0, 1.0, x, y),
            Reads::FromRight => Transform::from_row(0.0, -1.0, 1.0, 0.0, x, y),
        };
        // What is copied is what is seen: a glyph stands for one letter alone in some readers.
        let mut shown = String::new();
        let mut glyphs = Vec::new();
        for letter in &line.letters {
            let start = shown.len();
            shown.push(letter.shown);
            let (glyph, advance) = (GlyphId::new(letter.glyph), letter.advance as f32);
            let bytes = start..shown.len();
            glyphs.push(KrillaGlyph::new(glyph, advance, 0.0, 0.0, 0.0, bytes, None));
        }
        self.fill("#000");
        self.surface.push_transform(&turn);
        let start = PagePoint::from_xy(-self.paper.length(before), 0.0);
        let (font, size) = (self.font.clone(), self.paper.length(size));
        self.surface.draw_glyphs(start, &glyphs, font, &shown, size, false);
        self.surface.pop();
    }

    fn fill(&mut self, colour: &str) {
        self.surface.set_stroke(None);
        let rule = FillRule::NonZero;
        self.surface.set_fill(Some(Fill {
            paint: paint(colour),
            opacity: NormalizedF32::ONE,
            rule,
        }));
    }

    /// Hands the page back.
    pub fn finish(self) {
        self.surface.finish();
    }
}

/// A colour as SVG and HTML write it: #rgb or #rrggbb.
fn paint(colour: &str) -> Paint {
    let digits = colour.trim_start_matches('#').chars().filter_map(|digit| digit.to_digit(16));
    let digits: Vec<u8> = digits.map(|digit| digit as u8).collect();
    let [red, green, blue] = match *digits.as_slice() {
        [r, g, b] => [r, g, b].map(|digit| digit * 17),
        [r, s, g, h, b, c] => [16 * r + s, 16 * g + h, 16 * b + c],
        _ => [0; 3],
    };
    rgb::Color::new(red, green, blue).into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Shade;

    /// CSS Color 4, 5.2: #rgb is #rrggbb.
    #[test]
    fn colours_are_as_html_says() {
        assert_eq!(paint("#fff"), rgb::Color::new(255, 255, 255).into());
        assert_eq!(paint("#ee9447"), rgb::Color::new(0xee, 0x94, 0x47).into());
        let black = paint("");
        let known = Layer::ALL.map(Layer::colour).into_iter().chain(Shade::ALL.map(Shade::colour));
        for colour in known.filter(|colour| *colour != "#000") {
            assert!(paint(colour) != black, "{colour}");
        }
    }
}
