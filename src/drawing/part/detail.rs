//! A part of the half-section, enlarged, where its corners lie too close to be told apart.

use super::clear::Taken;
use super::pen::Pen;
use super::scheme::Contours;
use super::view;
use crate::drawing::{Anchor, Drawing, Entity, Layer, Point, Polyline, Segment, Shape, Text};
use crate::section::Part;

/// Corners nearer than this on paper are read in a detail. Less, and a wide line is all that is
/// seen of a step; more, and every drawing has details.
const CLOSE: f64 = 1.6;
/// As far as the closest corners lie apart in a detail at least, on paper.
const APART: f64 = 4.0;
/// Radius of a detail in text heights. Less, and its surroundings are not recognised; more wastes
/// paper.
const RADIUS: f64 = 6.3;
/// Details a drawing has at most: more are a sheet of their own.
const MOST: usize = 2;
/// Pieces of an arc, each drawn where both its ends are within a detail.
const PIECES: u32 = 48;

/// An enlarged place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Detail {
    /// Its middle, in the part.
    pub centre: Point,
    /// Its own scale.
    pub scale: f64,
    /// Its radius on paper.
    pub radius: f64,
}

impl Detail {
    /// Those that a part needs at a pen's scale; `scales` are those to choose from, the greatest
    /// first.
    pub fn needed(contours: &Contours, pen: Pen, scales: &[f64]) -> Vec<Self> {
        let (scale, radius) = (pen.scale, RADIUS * pen.height);
        let mut corners: Vec<Point> = Vec::new();
        for contour in std::iter::once(&contours.outside).chain(&contours.bores) {
            let ends = contour.drawn.iter().flat_map(|side| [side.line.from, side.line.to]);
            corners.extend(ends.filter(|p| p.y > 0.0));
        }
        let apart = |a: Point, b: Point| libm::hypot(a.x - b.x, a.y - b.y);
        let mut pairs: Vec<(f64, Point)> = Vec::new();
        for (n, a) in corners.iter().enumerate() {
            for b in &corners[n + 1..] {
                let distance = apart(*a, *b);
                if distance > 0.0 && distance * scale < CLOSE {
                    let middle = Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
                    pairs.push((distance, middle));
                }
            }
        }
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.x.total_cmp(&b.1.x)));
        let mut details: Vec<Self> = Vec::new();
        for (distance, centre) in pairs {
            let covered = |d: &Detail| {
                let reach = radius / d.scale * 0.8;
                apart(d.centre, centre) < reach && distance * d.scale >= APART * 0.5
            };
            let enough = |s: &&f64| **s * distance >= APART && **s > scale;
            let fits = scales.iter().rev().find(enough).or(scales.first().filter(|s| **s > scale));
            if let (false, Some(scale), true) =
                (details.iter().any(covered), fits, details.len() < MOST)
            {
                details.push(Self { centre, scale: *scale, radius });
            }
        }
        details.sort_by(|a, b| a.centre.x.total_cmp(&b.centre.x));
        details
    }

    /// Its radius in the part.
    fn reach(&self) -> f64 {
        self.radius / self.scale
    }

    /// Rings the place in the main view, with its letter where nothing is in the way.
    pub fn mark(&self, drawing: &mut Drawing, letter: char, taken: &mut Taken, pen: Pen) {
        let r = self.reach();
        drawing.polyline(Layer::Note, ring(self.centre, r));
        let height = pen.height / pen.scale;
        let words = letter.to_string();
        // Inside the part's lower half, or farther below the axis.
        let tries = (0..40).flat_map(|down| (0..30).map(move |aside| (down, aside)));
        for (down, aside) in tries {
            let off = f64::from((aside + 1) / 2) * if aside % 2 == 0 { 1.0 } else { -1.0 };
            let at = Point::new(
                self.centre.x + off * height * 0.7,
                -height * (1.6 + 0.5 * f64::from(down)),
            );
            let text = Text::new(at, height, Anchor::Middle, words.clone());
            if taken.is_free(&text, height * 0.3) {
                let top = Point::new(at.x, at.y + height * 1.35);
                let (dx, dy) = (top.x - self.centre.x, top.y - self.centre.y);
                let far = libm::hypot(dx, dy);
                let rim = Point::new(self.centre.x + dx / far * r, self.centre.y + dy / far * r);
                drawing.line(Layer::Note, rim, top);
                taken.add(&Shape::Line([rim, top]));
                taken.add(&Shape::Text(text.clone()));
                drawing.text(Layer::Note, text);
                return;
            }
        }
    }

    /// Draws it, its middle at a place of the drawing, with its letter and scale below.
    pub fn draw(
        &self,
        drawing: &mut Drawing,
        of: (&Part, &Contours),
        letter: char,
        at: Point,
        pen: Pen,
    ) {
        let (part, contours) = of;
        let own = Pen { scale: self.scale, ..pen };
        let whole = view::half_section(part, contours, own);
        let times = self.scale / pen.scale;
        let moved = |p: Point| {
            Point::new(at.x + (p.x - self.centre.x) * times, at.y + (p.y - self.centre.y) * times)
        };
        for Entity { layer, shape } in whole.entities {
            let layer = match layer {
                Layer::Outline | Layer::Bore | Layer::Edge | Layer::ThreadEnd => Layer::Detail,
                Layer::Thread => Layer::DetailThread,
                Layer::Hatch => Layer::Hatch,
                _ => continue,
            };
            for segment in self.within(&shape) {
                let Segment { from, to, bulge } = segment;
                let line = Segment { from: moved(from), to: moved(to), bulge };
                drawing.polyline(layer, Polyline::of([line]));
            }
        }
        drawing.polyline(Layer::Note, ring(at, self.reach() * times));
        let below = Point::new(at.x, at.y - (self.radius + 2.0 * pen.height) / pen.scale);
        let words = format!("{letter} ({}:1)", self.scale);
        drawing.text(Layer::Note, Text::new(below, pen.height / pen.scale, Anchor::Middle, words));
    }

    /// What of a line lies within the ring.
    fn within(&self, shape: &Shape) -> Vec<Segment> {
        let segments: Vec<Segment> = match shape {
            Shape::Line([a, b]) => vec![Segment::line(*a, *b)],
            Shape::Polyline(chain) => chain.segments().collect(),
            _ => Vec::new(),
        };
        segments.into_iter().flat_map(|segment| self.part_of(segment)).collect()
    }

    fn part_of(&self, segment: Segment) -> Vec<Segment> {
        let r = self.reach();
        let [fx, fy] = [segment.from.x - self.centre.x, segment.from.y - self.centre.y];
        if segment.bulge != 0.0 {
            // An arc of a small turn: its bulge is in proportion to it, nearly; exactly, by tangents.
            let turn = libm::atan(segment.bulge) / f64::from(PIECES);
            let bulge = libm::tan(turn);
            let at = |n: u32| segment.at(f64::from(n) / f64::from(PIECES));
            let inside = |p: &Point| libm::hypot(p.x - self.centre.x, p.y - self.centre.y) <= r;
            let pieces = (0..PIECES).map(|n| Segment { from: at(n), to: at(n + 1), bulge });
            return pieces.filter(|s| inside(&s.from) && inside(&s.to)).collect();
        }
        let [dx, dy] = [segment.to.x - segment.from.x, segment.to.y - segment.from.y];
        let (a, b, c) = (dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - r * r);
        let root = b * b - a * c;
        if root <= 0.0 || a == 0.0 {
            return Vec::new();
        }
        let root = root.sqrt();
        let (low, high) = (((-b - root) / a).max(0.0), ((-b + root) / a).min(1.0));
        if low >= high {
            return Vec::new();
        }
        vec![Segment::line(segment.at(low), segment.at(high))]
    }
}

/// A circle of two arcs.
fn ring(centre: Point, r: f64) -> Polyline {
    let [left, right] = [-r, r].map(|x| Point::new(centre.x + x, centre.y));
    Polyline::of([
        Segment { from: left, to: right, bulge: 1.0 },
        Segment { from: right, to: left, bulge: 1.0 },
    ])
}
