//! Where nothing is drawn yet.

use crate::drawing::{Drawing, Point, Segment, Shape, Text};

/// Straight pieces that stand for an arc: their distance from it is under a thousandth of it.
const PIECES: u32 = 24;

/// All lines and words that are drawn.
#[derive(Clone, Debug, Default)]
pub struct Taken {
    lines: Vec<[Point; 2]>,
    words: Vec<[Point; 2]>,
}

impl Taken {
    /// By a drawing.
    pub fn by(drawing: &Drawing) -> Self {
        let mut taken = Self::default();
        drawing.entities.iter().for_each(|entity| taken.add(&entity.shape));
        taken
    }

    /// By a shape more.
    pub fn add(&mut self, shape: &Shape) {
        let straight = |s: Segment| -> Vec<[Point; 2]> {
            if s.bulge == 0.0 {
                return vec![[s.from, s.to]];
            }
            let at = |n: u32| s.at(f64::from(n) / f64::from(PIECES));
            (0..PIECES).map(|n| [at(n), at(n + 1)]).collect()
        };
        match shape {
            Shape::Line(ends) => self.lines.push(*ends),
            Shape::Polyline(chain) => self.lines.extend(chain.segments().flat_map(straight)),
            Shape::Triangle([a, b, c]) => self.lines.extend([[*a, *b], [*b, *c], [*c, *a]]),
            Shape::Area(corners, _) => {
                self.lines.extend(corners.windows(2).map(|ends| [ends[0], ends[1]]));
            }
            Shape::Point(_) => {}
            Shape::Text(text) => self.words.push(text.corners()),
            Shape::Dimension(dimension) => {
                dimension.picture.iter().for_each(|shape| self.add(shape));
                self.words.push(dimension.text.corners());
            }
        }
    }

    /// Whether words, with white round them, meet nothing.
    pub fn is_free(&self, text: &Text, white: f64) -> bool {
        let [low, high] = text.corners();
        let room =
            [Point::new(low.x - white, low.y - white), Point::new(high.x + white, high.y + white)];
        self.words.iter().all(|words| !overlap(*words, room))
            && self.lines.iter().all(|line| !crosses(*line, room))
    }
}

/// Whether two boxes share more than a border.
pub fn overlap(a: [Point; 2], b: [Point; 2]) -> bool {
    a[0].x < b[1].x && b[0].x < a[1].x && a[0].y < b[1].y && b[0].y < a[1].y
}

/// Whether a straight line has points inside a box (Liang and Barsky's clipping).
pub fn crosses([a, b]: [Point; 2], [low, high]: [Point; 2]) -> bool {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (delta, before, behind) in
        [(dx, low.x - a.x, high.x - a.x), (dy, low.y - a.y, high.y - a.y)]
    {
        if delta == 0.0 {
            if before >= 0.0 || behind <= 0.0 {
                return false;
            }
        } else {
            let (near, far) = (before / delta, behind / delta);
            from = from.max(near.min(far));
            to = to.min(near.max(far));
        }
    }
    from < to
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Anchor, Layer};

    /// Source: plane geometry.
    #[test]
    fn lines_cross_a_box_or_pass_it() {
        let p = Point::new;
        let room = [p(0.0, 0.0), p(4.0, 2.0)];
        assert!(crosses([p(-1.0, 1.0), p(5.0, 1.0)], room));
        assert!(crosses([p(1.0, 1.0), p(2.0, 1.5)], room));
        assert!(!crosses([p(-1.0, 2.0), p(5.0, 2.0)], room), "along the border");
        assert!(!crosses([p(-1.0, 1.5), p(1.0, 3.5)], room), "past the corner");
        assert!(crosses([p(-1.0, 0.5), p(1.0, 2.5)], room));
    }

    #[test]
    fn words_stand_where_nothing_is() {
        let mut drawing = Drawing::default();
        drawing.line(Layer::Edge, Point::new(0.0, -5.0), Point::new(0.0, 5.0));
        let taken = Taken::by(&drawing);
        let at = |x| Text::new(Point::new(x, 0.0), 1.0, Anchor::Middle, "A");
        assert!(!taken.is_free(&at(0.0), 0.1) && taken.is_free(&at(1.0), 0.1));
    }
}
