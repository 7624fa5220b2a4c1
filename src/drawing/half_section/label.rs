//! Letters for the bores, each with a leader from above the part to the wall that it names.
//!
//! ```text
//!      A    B   C    D      letters, at least LETTER_GAP apart
//!       \   |   |    |      from here on the leaders stand at their own z
//!        |  |   |    |
//!   -----|--|---|----|---   the part's top
//!        v  v   v    v      walls
//! ```
//! Leaders keep the order of their walls above the part and are upright in it: they never cross.

use super::sheet::Paper;
use crate::drawing::view::chain::Chain;
use crate::drawing::{Anchor, Drawing, Layer, Point, Polyline, Text, spread};
use crate::section::{Facet, Item, Section, Skin};

/// Height of a letter on paper, in mm (ISO 3098-1 has 2.5, 3.5, 5). Smaller, and it is lost
/// where the picture is shown small.
pub const HEIGHT: f64 = 3.5;
/// Distance between neighbouring letters on paper, in mm. Less, and they read as a word.
const LETTER_GAP: f64 = 6.5;
/// From the part's top to where leaders bend, on paper. Less, and a bend touches the part.
const KNEE: f64 = 3.0;
/// From there to the letters' feet, on paper. Less, and leaders lie too flat to be followed.
const RISE: f64 = 6.0;
/// Between a leader and its letter, on paper.
const FOOT: f64 = 1.2;
/// Length and half width of an arrowhead on paper: 25 degrees at its tip (ISO 129-1 has 15 to 90,
/// from memory). Slimmer, and it is lost among the hatching.
const ARROW: [f64; 2] = [2.5, 0.55];

/// The letters of a section's stack of bores, in the order of depth; none for what is no bore.
pub const fn letter(item: Item) -> Option<char> {
    match item {
        Item::Recess => Some('A'),
        Item::ClearanceBore => Some('B'),
        Item::UnitThread => Some('C'),
        Item::TapDrill => Some('D'),
        Item::ThroughBore => Some('E'),
        _ => None,
    }
}

/// Draws letters and leaders; gives the y of the letters' top.
pub fn draw(drawing: &mut Drawing, section: &Section, outside: &Chain, paper: Paper) -> f64 {
    let knee = outside.top() + paper.mm(KNEE);
    let foot = knee + paper.mm(RISE);
    let mut targets = targets(section);
    targets.sort_by(|a, b| a.1.x.total_cmp(&b.1.x).then(a.0.cmp(&b.0)));
    let wanted: Vec<f64> = targets.iter().map(|(_, tip)| tip.x).collect();
    let places = spread(&wanted, paper.mm(LETTER_GAP));
    for ((letter, tip), x) in targets.into_iter().zip(places) {
        let [length, half] = ARROW.map(|size| paper.mm(size));
        let neck = Point::new(tip.x, tip.y + length);
        let bend = Point::new(tip.x, knee);
        let end = Point::new(x, foot - paper.mm(FOOT));
        drawing.polyline(Layer::Note, Polyline::straight(vec![neck, bend, end]));
        let barb = |side: f64| Point::new(tip.x + side, neck.y);
        drawing.triangle(Layer::Note, [tip, barb(half), barb(-half)]);
        let at = Point::new(x, foot);
        let words = letter.to_string();
        let height = paper.mm(HEIGHT);
        drawing.text(Layer::Note, Text::new(at, height, Anchor::Middle, words));
    }
    foot + paper.mm(HEIGHT)
}

/// Each letter with the point of the wall that its leader touches. A bore of which nothing is
/// left standing has none.
fn targets(section: &Section) -> Vec<(char, Point)> {
    let part = section.part();
    let thread = &section.unit_thread;
    let [from, to] = [thread.from.as_mm(), thread.to.as_mm()];
    let walls = part.runs.iter().filter(|r| r.skin == Skin::Bore && r.feature.facet == Facet::Side);
    let mut found: Vec<(char, Point)> = walls
        .filter_map(|run| {
            let (front, back) =
                (run.from.z.min(run.to.z).as_mm(), run.from.z.max(run.to.z).as_mm());
            // Where the thread is cut the wall is the thread's; the longer rest is the bore's.
            let rests = [[front, back.min(from)], [front.max(to), back]];
            let [a, b] =
                rests.into_iter().max_by(|p, q| (p[1] - p[0]).total_cmp(&(q[1] - q[0])))?;
            let z = if a < b { f64::midpoint(a, b) } else { back };
            Some((letter(run.feature.item)?, Point::new(z, run.from.radius())))
        })
        .collect();
    let root = thread.form.root.as_mm() / 2.0;
    found.extend(letter(thread.item).map(|c| (c, Point::new(f64::midpoint(from, to), root))));
    found
}
