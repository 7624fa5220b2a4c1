//! Sizes that point at the part from above or below: words read from the right, each with a leader
//! to its place.
//!
//! ```text
//!   ____________________  part
//!     ^        ^    ^
//!     |        |   /      leaders stand under their places, then lead to the words
//!     |        |  /
//!     Ø10.2    M  R40     words, clear of the extension lines of the rows beyond
//! ```

use super::label::Label;
use super::pen::{Pen, Spot};
use super::rows::Edge;
use crate::drawing::{Anchor, Drawing, Layer};

/// Room that words need along the part, in text heights. Less, and neighbours touch.
const WIDTH: f64 = 1.75;
/// From the part to where leaders may lead aside, on paper.
const KNEE: f64 = 2.0;
/// From there to the words, in text heights. Less, and leaders lie too flat to be followed.
const RISE: f64 = 1.6;
/// Between a leader and its words, and between words and lines beside them, in text heights.
const WHITE: f64 = 0.4;
/// Side of a datum's frame, in text heights (ISO 5459 has twice the letter's, from memory; this
/// one must stand beside words).
const FRAME: f64 = 1.7;

/// What stands at the end of a leader.
#[derive(Clone, Debug)]
pub struct Flag<'a> {
    /// The size.
    pub label: &'a Label,
    /// A datum letter that belongs to it.
    pub datum: Option<char>,
}

/// The flags of one side.
pub struct Flags<'a> {
    pen: Pen,
    edge: Edge,
    /// Each with the x of its words.
    placed: Vec<(Flag<'a>, f64)>,
}

impl<'a> Flags<'a> {
    /// Gives every flag its place, clear of lines that go by.
    pub fn new(pen: Pen, edge: Edge, mut flags: Vec<Flag<'a>>, lines: &[f64]) -> Self {
        flags.sort_by(|a, b| {
            let x = |flag: &Flag| flag.label.tip.x;
            x(a).total_cmp(&x(b)).then_with(|| a.label.shown.cmp(&b.label.shown))
        });
        let wanted: Vec<f64> = flags.iter().map(|flag| pen.spot(flag.label.tip)[0]).collect();
        let places = places(&wanted, WIDTH * pen.height, lines, WHITE * pen.height);
        Self { pen, edge, placed: flags.into_iter().zip(places).collect() }
    }

    /// How far they reach from the part's greatest distance from the axis.
    pub fn height(&self) -> f64 {
        let (pen, lengths) = (self.pen, self.placed.iter().map(|(flag, _)| self.length(flag)));
        let longest = lengths.fold(0.0, f64::max);
        if longest == 0.0 { 0.0 } else { KNEE + (RISE + WHITE) * pen.height + longest }
    }

    fn length(&self, flag: &Flag) -> f64 {
        let frame = if flag.datum.is_some() { (FRAME + 1.0) * self.pen.height } else { 0.0 };
        self.pen.width(&flag.label.shown) + frame
    }

    /// The least and greatest x of all of them.
    pub fn reach(&self) -> [f64; 2] {
        let half = WIDTH * self.pen.height;
        let xs = || self.placed.iter().map(|(_, x)| *x);
        [xs().fold(0.0, f64::min) - half, xs().fold(0.0, f64::max) + half]
    }

    /// Draws them; `base` is the part's greatest distance from the axis on this side.
    pub fn draw(&self, drawing: &mut Drawing, base: f64) {
        let (pen, sign) = (self.pen, self.edge.sign());
        for (flag, x) in &self.placed {
            let [tip_x, r] = pen.spot(flag.label.tip);
            let tip = [tip_x, sign * r.abs()];
            let knee = [tip_x, sign * (base + KNEE)];
            let foot = [*x, sign * (base + KNEE + RISE * pen.height)];
            let mut picture = vec![pen.arrow(tip, [0.0, -sign])];
            picture.push(pen.path(&[tip, knee, foot]));
            let begins = foot[1] + sign * WHITE * pen.height;
            let anchor = match self.edge {
                Edge::Above => Anchor::Start,
                Edge::Below => Anchor::End,
            };
            // The letters' middle stands over the leader.
            let at = [x + pen.height / 2.0, begins];
            let text = pen.text(at, anchor, &flag.label.shown).turned();
            pen.dimension(drawing, flag.label, foot, text, picture);
            if let Some(letter) = flag.datum {
                let end = begins + sign * (pen.width(&flag.label.shown) + WHITE * pen.height);
                datum(drawing, pen, [*x, end], [0.0, sign], letter);
            }
        }
    }
}

/// A datum's letter in its frame, with the triangle that stands on what is the datum (ISO 5459,
/// from memory): at `foot`, the frame lying along `way`.
pub fn datum(drawing: &mut Drawing, pen: Pen, foot: Spot, way: [f64; 2], letter: char) {
    let side = FRAME * pen.height;
    let rise = 0.8 * pen.height;
    let along = |d: f64, aside: f64| {
        [foot[0] + way[0] * d - way[1] * aside, foot[1] + way[1] * d + way[0] * aside]
    };
    let (near, far) = (rise, rise + side);
    let frame = [
        along(near, -side / 2.0),
        along(far, -side / 2.0),
        along(far, side / 2.0),
        along(near, side / 2.0),
        along(near, -side / 2.0),
    ];
    let half = 0.5 * pen.height;
    let triangle = [along(0.0, -half), along(0.0, half), along(rise, 0.0)].map(|s| pen.point(s));
    drawing.add(Layer::Datum, pen.path(&frame));
    drawing.triangle(Layer::Datum, triangle);
    let middle = along(f64::midpoint(near, far), 0.0);
    let at = [middle[0], middle[1] - pen.height / 2.0];
    drawing.text(Layer::Datum, pen.text(at, Anchor::Middle, &letter.to_string()));
}

/// Places in the order of the wanted ones, `width` apart and with `white` to any line, near to
/// where they are wanted.
fn places(wanted: &[f64], width: f64, lines: &[f64], white: f64) -> Vec<f64> {
    /// Steps in which a place is looked for, on paper.
    const STEP: f64 = 0.25;
    let clear =
        |x: f64| lines.iter().all(|line| (line - x).abs() >= width / 2.0 - 0.3 + white / 2.0);
    // From the middle of the crowd to both sides, so that nobody is driven far to one side.
    let mut placed: Vec<Option<f64>> = vec![None; wanted.len()];
    let spread = crate::drawing::spread(wanted, width);
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    let middle = wanted.iter().sum::<f64>() / wanted.len().max(1) as f64;
    order.sort_by(|a, b| (spread[*a] - middle).abs().total_cmp(&(spread[*b] - middle).abs()));
    for n in order {
        let after = placed[..n].iter().rev().flatten().next().map(|x| x + width);
        let before = placed[n + 1..].iter().flatten().next().map(|x| x - width);
        let fits = |x: f64| {
            clear(x) && after.is_none_or(|low| x >= low) && before.is_none_or(|high| x <= high)
        };
        let tries = (0..4000).flat_map(|k| [f64::from(k) * STEP, f64::from(k) * -STEP]);
        let found = tries.map(|off| spread[n] + off).find(|x| fits(*x));
        placed[n] = Some(found.unwrap_or(spread[n]));
    }
    placed.into_iter().zip(spread).map(|(place, wanted)| place.unwrap_or(wanted)).collect()
}
