//! Pages that fill from the top.

use super::A4;
use crate::drawing::font::Face;
use crate::drawing::{Anchor, Drawing, Layer, Point, Text};

/// White round a page, in mm: what printers leave unprinted, and a thumb.
pub const MARGIN: f64 = 9.0;

/// Heights of capitals in mm at full size. Smaller, and a number is not read at arm's length.
const SET: f64 = 2.7;
/// Of everything else in a row.
const TEXT: f64 = 2.1;
/// Of the name on top.
const NAME: f64 = 4.5;
/// Of the foot.
const FOOT: f64 = 2.0;
/// From one line to the next, in heights of capitals. Less, and g touches the next line's M.
const LINE: f64 = 1.62;
/// Room that the foot takes, in mm.
const FOOT_ROOM: f64 = 6.0;

/// Sizes of type.
#[derive(Clone, Copy, Debug)]
pub struct Type {
    /// Numbers that are set, and titles of steps.
    pub set: f64,
    /// Everything else.
    pub text: f64,
    /// The name on top.
    pub name: f64,
}

impl Type {
    /// From one line of this height to the next.
    pub fn pitch(height: f64) -> f64 {
        height * LINE
    }
}

/// The pages so far.
pub struct Flow {
    pub kind: Type,
    /// The font that the pages carry.
    pub face: Face,
    pages: Vec<Drawing>,
    /// The y under which nothing is drawn yet.
    y: f64,
}

impl Flow {
    pub fn new(size: f64) -> Self {
        let kind = Type { set: SET * size, text: TEXT * size, name: NAME * size };
        Self { kind, face: Face::new(), pages: vec![Drawing::default()], y: A4[1] - MARGIN }
    }

    /// Left and right edge of what is printed.
    pub fn edges() -> [f64; 2] {
        [MARGIN, A4[0] - MARGIN]
    }

    /// The width of what is printed.
    pub fn width() -> f64 {
        A4[0] - 2.0 * MARGIN
    }

    /// What is left of the page.
    pub fn room(&self) -> f64 {
        self.y - MARGIN - FOOT_ROOM
    }

    /// Takes a height from the page, from a new one where this one has it not; gives its top, and
    /// whether the page is new.
    pub fn take(&mut self, height: f64) -> (f64, bool) {
        let fresh = self.y == A4[1] - MARGIN;
        let turn = height > self.room() && !fresh;
        if turn {
            self.turn();
        }
        let top = self.y;
        self.y -= height;
        (top, turn)
    }

    /// Goes on on a new page.
    pub fn turn(&mut self) {
        self.pages.push(Drawing::default());
        self.y = A4[1] - MARGIN;
    }

    /// The page that is drawn on.
    pub fn page(&mut self) -> &mut Drawing {
        self.pages.last_mut().expect("there is always a page")
    }

    /// Draws words with their feet at y.
    pub fn words(&mut self, at: [f64; 2], height: f64, words: &str) {
        let at = Point::new(at[0], at[1]);
        self.page().text(Layer::Note, Text::new(at, height, Anchor::Start, words));
    }

    /// Draws a thin line.
    pub fn rule(&mut self, from: [f64; 2], to: [f64; 2]) {
        let point = |[x, y]: [f64; 2]| Point::new(x, y);
        self.page().line(Layer::Note, point(from), point(to));
    }

    /// Draws a thick line.
    pub fn heavy_rule(&mut self, from: [f64; 2], to: [f64; 2]) {
        let point = |[x, y]: [f64; 2]| Point::new(x, y);
        self.page().line(Layer::Edge, point(from), point(to));
    }

    /// Every page with its foot.
    pub fn finish(mut self, foot: &str) -> Vec<Drawing> {
        let count = self.pages.len();
        for (n, page) in self.pages.iter_mut().enumerate() {
            let [left, right] = Self::edges();
            let feet = MARGIN - FOOT;
            let words =
                |x, anchor, words: String| Text::new(Point::new(x, feet), FOOT, anchor, words);
            page.text(Layer::Note, words(left, Anchor::Start, foot.to_owned()));
            let number = format!("page {} of {count}", n + 1);
            page.text(Layer::Note, words(right, Anchor::End, number));
        }
        self.pages
    }
}
