//! The rod with its cuts.

use super::key;
use crate::drawing::sheet_frame::Area;
use crate::drawing::view::hatch::hatch;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text, spread};
use crate::quantity::Length;
use crate::shop::rod::{Piece, RodPlan, Shown};

/// Scales of ISO 5455:1979 (from memory), the greatest first; 1:20 has a rod of 3 m on A4.
const SCALES: [(f64, &str); 7] = [
    (5.0, "5:1"),
    (2.0, "2:1"),
    (1.0, "1:1"),
    (0.5, "1:2"),
    (0.2, "1:5"),
    (0.1, "1:10"),
    (0.05, "1:20"),
];
/// Least and greatest height of the rod on paper, in mm. Less, and no number stands in it; more,
/// and nothing is left for the table.
const HEIGHTS: [f64; 2] = [20.0, 32.0];
/// Numbers of pieces, on paper, in mm: read from an arm's length. The greatest that fits is taken.
const NUMBERS: [f64; 4] = [5.0, 3.5, 2.5, 1.8];
/// Between lines of hatching on paper, in mm: close for what comes off, far for what is held. Nearer
/// to each other, and they are taken for one.
pub const HATCHES: [f64; 2] = [0.7, 2.2];
/// From the rod to where a figure's line bends, from there to where it stands upright again, and
/// from there to the figure, on paper, in mm. Less, and jaws or neighbours are met.
const LEADER: [f64; 3] = [3.5, 2.5, 1.0];
/// Between the middles of neighbouring figures, in letter heights. Less, and they touch.
const FIGURES: f64 = 1.6;
/// Height of the jaws on paper, in mm: below where a figure's line bends.
const JAWS: f64 = 3.0;
/// Room that a turned number needs across, in letter heights.
const TURNED: f64 = 1.5;
/// White in a piece beside its words, on paper, in mm.
const SIDE: f64 = 0.5;

/// How the pieces' numbers are written, all alike.
#[derive(Clone, Copy)]
struct Number {
    height: f64,
    turned: bool,
}

/// Where the rod lies on paper.
struct Laid<'a> {
    plan: &'a RodPlan,
    shown: Shown,
    left: f64,
    scale: f64,
    low: f64,
    high: f64,
}

/// Draws rod and key from `room`'s top down; gives the y below them, none where a number finds no
/// place.
pub fn draw(
    drawing: &mut Drawing,
    plan: &RodPlan,
    shown: Shown,
    room: Area,
    height: f64,
) -> Option<f64> {
    let long = plan.request.length.as_mm();
    // What stands at the rod's ends reaches beyond them by half a letter, tails and all.
    let (scale, called) =
        SCALES.into_iter().find(|(scale, _)| long * scale <= room.width() - 4.0 * height)?;
    let thick = plan.request.diameter.unwrap_or(plan.request.least_diameter()).as_mm() * scale;
    let tall = thick.clamp(HEIGHTS[0], HEIGHTS[1]);
    let figures = figures(plan, shown, height);
    let longest = figures.iter().map(|(_, text)| text.width()).fold(0.0, f64::max);
    let high = room.high.y - longest - LEADER.iter().sum::<f64>();
    let left = room.centre().x - long * scale / 2.0;
    let laid = Laid { plan, shown, left, scale, low: high - tall, high };
    laid.figures(drawing, figures, room, height)?;
    laid.rod(drawing, height)?;
    let caption = if tall == thick { "" } else { "; thickness not to scale" };
    let caption =
        format!("Free end on the left, figures from it in {}; {called}{caption}", shown.unit());
    let mut y = laid.low - JAWS - 1.0 - height;
    let at = Point::new(room.low.x, y);
    drawing.text(Layer::Title, Text::new(at, height, Anchor::Start, caption));
    y -= height + key::SAMPLE[1];
    Some(key::draw(drawing, (plan, shown), room, y, height))
}

/// What stands over the rod: where it begins, where each piece ends, where the rod ends.
fn figures(plan: &RodPlan, shown: Shown, height: f64) -> Vec<(f64, Text)> {
    let end = plan.request.length;
    let ends = plan.pieces.iter().map(|piece| piece.to).filter(|to| (end - *to).as_mm() > 1e-6);
    let places = [Length::ZERO].into_iter().chain(ends).chain([end]);
    let text = |length: Length| {
        let words = if length == Length::ZERO { "0".to_owned() } else { shown.cell(length) };
        let text = Text::new(Point::new(0.0, 0.0), height, Anchor::Start, words).turned();
        (length.as_mm(), text)
    };
    places.map(text).collect()
}

impl Laid<'_> {
    fn x(&self, along: Length) -> f64 {
        self.left + along.as_mm() * self.scale
    }

    /// Figures read from the right, each with a line to its place; none where they are wider than
    /// the room together.
    fn figures(
        &self,
        drawing: &mut Drawing,
        figures: Vec<(f64, Text)>,
        room: Area,
        height: f64,
    ) -> Option<()> {
        let wanted: Vec<f64> = figures.iter().map(|(at, _)| self.left + at * self.scale).collect();
        let places = spread(&wanted, height * FIGURES);
        if places.first()? - height < room.low.x || places.last()? + height > room.high.x {
            return None;
        }
        let [knee, rise, foot] = LEADER;
        for (((_, text), from), to) in figures.into_iter().zip(wanted).zip(places) {
            let at = |x: f64, up: f64| Point::new(x, self.high + up);
            let chain = vec![at(from, 0.0), at(from, knee), at(to, knee + rise)];
            drawing.polyline(Layer::Dimension, Polyline::straight(chain));
            // Capitals lie to the left of a turned baseline.
            let at = at(to + height / 2.0, knee + rise + foot);
            drawing.text(Layer::Dimension, Text { at, ..text });
        }
        Some(())
    }

    fn rod(&self, drawing: &mut Drawing, height: f64) -> Option<()> {
        let request = &self.plan.request;
        let number = self.number()?;
        for piece in &self.plan.pieces {
            self.piece(drawing, piece, number, height);
        }
        let end = request.length;
        let held = end - request.holding;
        let rest = self.strip(self.plan.last_cut(), end);
        drawing.polyline(Layer::Outline, outline(rest));
        let over = self.strip(self.plan.last_cut(), held);
        let words = format!("left over {}", self.shown.cell(self.plan.left_over));
        let at = Point::new(over.centre().x, over.centre().y - height / 2.0);
        let words = Text::new(at, height, Anchor::Middle, words);
        if words.width() + 2.0 * SIDE <= over.width() {
            drawing.text(Layer::Title, words);
        }
        if held < end {
            let stub = self.strip(held, end);
            hatch(drawing, &outline(stub), HATCHES[1]);
            drawing.polyline(Layer::Outline, outline(stub));
            for [low, high] in [[self.low - JAWS, self.low], [self.high, self.high + JAWS]] {
                let jaw = Area::new([stub.low.x, low], [stub.high.x, high]);
                drawing.polyline(Layer::Outline, outline(jaw));
            }
        }
        Some(())
    }

    /// From place to place, over the whole thickness.
    fn strip(&self, from: Length, to: Length) -> Area {
        Area::new([self.x(from), self.low], [self.x(to), self.high])
    }

    fn piece(&self, drawing: &mut Drawing, piece: &Piece, number: Number, height: f64) {
        let squaring = self.plan.request.squaring;
        let [front, back] = [piece.from + squaring, piece.to - squaring];
        for [from, to] in [[piece.from, front], [back, piece.to]] {
            let strip = self.strip(from, to);
            if strip.width() > 0.0 {
                hatch(drawing, &outline(strip), HATCHES[0]);
                let inner = if from == piece.from { strip.high.x } else { strip.low.x };
                let ends = [self.low, self.high].map(|y| Point::new(inner, y));
                drawing.line(Layer::Note, ends[0], ends[1]);
            }
        }
        drawing.polyline(Layer::Outline, outline(self.strip(piece.from, piece.to)));
        black(drawing, self.strip(piece.to, piece.to + piece.kerf));
        self.words(drawing, piece, (number, self.strip(front, back)), height);
    }

    /// The greatest letters in which every number fits into its piece; none where it fits in none.
    fn number(&self) -> Option<Number> {
        let pieces = &self.plan.pieces;
        let squaring = self.plan.request.squaring;
        let leaves = |piece: &Piece| (piece.length() - 2.0 * squaring).as_mm() * self.scale;
        let room = pieces.iter().map(leaves).fold(f64::INFINITY, f64::min) - 2.0 * SIDE;
        let width = |height: f64| {
            let text = |n: &Piece| text(n.number.to_string(), height).width();
            pieces.iter().map(text).fold(0.0, f64::max)
        };
        let level = NUMBERS.iter().find(|height| width(**height) <= room);
        // Read from the right, where they are too wide to be read from below.
        let turned = || NUMBERS.iter().find(|height| **height * TURNED <= room);
        let level = level.map(|height| Number { height: *height, turned: false });
        level.or_else(|| turned().map(|height| Number { height: *height, turned: true }))
    }

    /// Number, and design and length as far as there is room.
    fn words(
        &self,
        drawing: &mut Drawing,
        piece: &Piece,
        (number, room): (Number, Area),
        height: f64,
    ) {
        let wide = room.width() - 2.0 * SIDE;
        let middle = room.centre();
        let tall = number.height;
        let digits = text(piece.number.to_string(), tall);
        if number.turned {
            let at = Point::new(middle.x + tall / 2.0, middle.y);
            drawing.text(Layer::Title, Text { at, ..digits.turned() });
            return;
        }
        let plan = self.plan;
        let short = plan.letter(piece.design).map(String::from);
        let length = self.shown.cell(piece.length());
        let bare = Shown::default().cell(piece.length());
        let spare = if piece.is_spare() { "spare" } else { "" };
        let below = [
            vec![plan.design(piece.design), short.unwrap_or_default()],
            vec![spare.to_owned()],
            vec![length, bare],
        ];
        let line = |choices: &Vec<String>| {
            let fits = |w: &&String| !w.is_empty() && text((*w).clone(), height).width() <= wide;
            choices.iter().find(fits).cloned()
        };
        let below: Vec<String> = below.iter().filter_map(line).collect();
        let pitch = height * 1.6;
        // A number's room reaches as far below its line as that of larger letters.
        let wider = if below.is_empty() { 0.0 } else { (tall - height).max(0.0) * 0.4 };
        let all = tall + wider + pitch * below.len() as f64;
        let mut y = middle.y + all / 2.0 - tall;
        let mut write = |words: Text, y: f64| {
            drawing.text(Layer::Title, Text { at: Point::new(middle.x, y), ..words });
        };
        write(digits, y);
        y -= wider;
        for words in below {
            y -= pitch;
            write(text(words, height), y);
        }
    }
}

/// Words about their middle; their place is set where they are drawn.
fn text(words: String, height: f64) -> Text {
    Text::new(Point::new(0.0, 0.0), height, Anchor::Middle, words)
}

/// Round an area.
pub fn outline(Area { low, high }: Area) -> Polyline {
    let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y), low];
    Polyline::straight(corners.to_vec())
}

/// Filled.
pub fn black(drawing: &mut Drawing, Area { low, high }: Area) {
    if high.x > low.x {
        let [right, left] = [Point::new(high.x, low.y), Point::new(low.x, high.y)];
        drawing.triangle(Layer::Note, [low, right, high]);
        drawing.triangle(Layer::Note, [low, high, left]);
        // Else some printers show where the two meet.
        drawing.line(Layer::Note, low, high);
    }
}
