//! The whole sheet.

use super::{picture, rows};
use crate::drawing::CAUTION;
use crate::drawing::sheet_frame::{Area, Column, PaperSize};
use crate::drawing::{Drawing, Layer, Point, Polyline};
use crate::shop::rod::{RodPlan, Shown};

/// Heading on paper, in mm: read across a bench.
const HEADING: f64 = 5.0;
/// White inside the frame, and between what stands beside each other, in mm.
const WHITE: f64 = 5.0;
/// Least and greatest width of a column of words, for letters of 2.5 mm, in mm. Narrower, and lines
/// are too short to be read with ease; wider, and the eye loses the next one.
const WORDS: [f64; 2] = [85.0, 150.0];

/// Draws a plan on a sheet in letters of a height; none where it does not fit.
pub fn page(plan: &RodPlan, shown: Shown, size: PaperSize, height: f64) -> Option<Drawing> {
    let mut drawing = Drawing::default();
    let frame = size.drawing_space();
    let Area { low, high } = frame;
    let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
    let round = [&corners[..], &corners[..1]].concat();
    drawing.polyline(Layer::Frame, Polyline::straight(round));
    let space = frame.inset(WHITE);
    let top = headed(&mut drawing, plan, shown, space, height);
    let room = Area { high: Point::new(space.high.x, top), ..space };
    let top = picture::draw(&mut drawing, plan, shown, room, height)? - WHITE;
    let least = WORDS[0] * height / 2.5;
    let at = Point::new(space.low.x, top);
    let rooms = (space.width() - least - WHITE, space.low.y);
    let (right, foot) = rows::draw(&mut drawing, (plan, shown), at, rooms, height)?;
    let left = right + WHITE;
    let width = (space.high.x - left).min(WORDS[1] * height / 2.5);
    let mut column = Column { drawing: &mut drawing, left, width, top };
    column.heading("Order of the work", height);
    column.numbered(&plan.order(shown), height);
    for wish in plan.wishes(shown) {
        column.words(&wish, height);
    }
    let beside = column.top;
    if beside < space.low.y {
        return None;
    }
    // Care goes under the table as far as there is room, and on under the order of the work.
    let care: Vec<String> = plan.cautions(shown).into_iter().chain([CAUTION.to_owned()]).collect();
    let under = (space.low.x, foot - WHITE / 2.0, right - space.low.x);
    (0..=care.len()).rev().find_map(|split| {
        let mut tried = drawing.clone();
        let (first, rest) = care.split_at(split);
        let feet = [(under, first), ((left, beside, width), rest)]
            .map(|(place, words)| self::care(&mut tried, words, place, height));
        feet.iter().all(|foot| *foot >= space.low.y).then_some(tried)
    })
}

/// What the sheet is of, at its top; gives the y below.
fn headed(drawing: &mut Drawing, plan: &RodPlan, shown: Shown, space: Area, height: f64) -> f64 {
    let mut column = Column { drawing, left: space.low.x, width: space.width(), top: space.high.y };
    column.words(&format!("Rod plan: {}", plan.gives()), HEADING);
    column.words(&format!("{}: {}", plan.rod(shown), plan.sum(shown)), height);
    for (n, wanted) in plan.request.designs.iter().enumerate() {
        let times =
            if wanted.count > 1 { format!(", {} in a set", wanted.count) } else { String::new() };
        let [length, diameter] =
            [wanted.squared, wanted.diameter].map(|length| shown.length(length));
        let words =
            format!("{}: {length} long when squared, Ø{diameter} at least{times}", plan.design(n));
        column.words(&words, height * 1.2);
    }
    column.top
}

/// What to take care of; gives the y below.
fn care(
    drawing: &mut Drawing,
    words: &[String],
    (left, top, width): (f64, f64, f64),
    height: f64,
) -> f64 {
    let mut column = Column { drawing, left, width, top };
    if !words.is_empty() {
        column.heading("Care", height);
    }
    for words in words {
        column.words(words, height);
    }
    // Nothing asks for room where nothing is written.
    if words.is_empty() { f64::INFINITY } else { column.top }
}
