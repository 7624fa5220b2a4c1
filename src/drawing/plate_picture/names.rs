//! The pieces' names on the plate.

use super::paper::Paper;
use super::plate::Spot;
use crate::drawing::part::overlap;
use crate::drawing::sheet_frame::Area;
use crate::drawing::{Anchor, Point, Text};
use crate::print::Piece;

/// White round a name's room, on paper, in mm: half a wide line and as much again. Less, and letters
/// touch the circles. Under a capital alone the room for tails is white enough.
const WHITE: f64 = 0.5;
/// From a circle to its name, on paper, in mm. Less, and the name seems to hang on it.
const AWAY: f64 = 0.9;
/// How much of a letter lies above the middle of its line, in letter heights.
const HALF: f64 = 0.5;
/// Where a letter begins, to the right of a circle's middle and in front of it, in radii: between
/// four neighbours there is most room. Nearer to the front, and it meets the plate's edge.
const CORNER: [f64; 2] = [0.8, 0.6];

/// How pieces are named on the plate, all alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Naming {
    /// Their names, in front of them.
    Before,
    /// Their names behind them, read from the right: rows are not far apart, but a last row has room.
    Behind,
    /// A letter for each, which the pieces from the side have beside their names.
    Letters,
}

impl Naming {
    /// The greater, the better.
    pub fn rank(self) -> f64 {
        match self {
            Self::Before => 2.0,
            Self::Behind => 1.0,
            Self::Letters => 0.0,
        }
    }

    /// What the piece of a number, from 0, is called beside its view from the side.
    pub fn called(self, number: usize, name: &str) -> String {
        match self {
            Self::Letters => format!("{}: {name}", letters(number)),
            Self::Before | Self::Behind => name.to_owned(),
        }
    }
}

/// A to Z, then AA, AB and so on.
fn letters(number: usize) -> String {
    const LETTERS: usize = 26;
    let last = char::from(b'A' + (number % LETTERS) as u8);
    let before = (number / LETTERS).checked_sub(1).map(letters).unwrap_or_default();
    format!("{before}{last}")
}

/// The best way to name the pieces in which no name meets a circle, another name or the plate's
/// edge, in the largest letters that allow it; none where there is none.
pub fn place(
    pieces: &[Piece],
    spots: &[Spot],
    edge: Area,
    paper: Paper,
) -> Option<(Naming, Vec<Text>)> {
    let ways = [Naming::Before, Naming::Behind, Naming::Letters].into_iter();
    let tried = ways.flat_map(|naming| paper.smaller().map(move |height| (naming, height)));
    let written = tried.map(|(naming, height)| {
        let pairs = pieces.iter().zip(spots).enumerate();
        let words = pairs.map(|(n, (piece, spot))| word(naming, (n, piece), *spot, height));
        (naming, words.collect::<Vec<_>>())
    });
    written.into_iter().find(|(naming, words)| is_clear(*naming, words, spots, edge))
}

fn word(naming: Naming, (number, piece): (usize, &Piece), spot: Spot, height: f64) -> Text {
    let Spot { at, radius } = spot;
    match naming {
        Naming::Before => {
            let y = at.y - radius - AWAY - height;
            Text::new(Point::new(at.x, y), height, Anchor::Middle, &piece.name)
        }
        Naming::Behind => {
            let at = Point::new(at.x + height * HALF, at.y + radius + AWAY);
            Text::new(at, height, Anchor::Start, &piece.name).turned()
        }
        Naming::Letters => {
            let [right, front] = CORNER.map(|part| radius * part + WHITE);
            let at = Point::new(at.x + right, at.y - front - height);
            Text::new(at, height, Anchor::Start, letters(number))
        }
    }
}

fn is_clear(naming: Naming, words: &[Text], spots: &[Spot], edge: Area) -> bool {
    let under = if naming == Naming::Letters { 0.0 } else { WHITE };
    let rooms: Vec<[Point; 2]> = words
        .iter()
        .map(|text| {
            let [low, high] = text.corners();
            let low = Point::new(low.x - WHITE, low.y - under);
            [low, Point::new(high.x + WHITE, high.y + WHITE)]
        })
        .collect();
    let inside = |[low, high]: &[Point; 2]| {
        low.x >= edge.low.x && low.y >= edge.low.y && high.x <= edge.high.x && high.y <= edge.high.y
    };
    let clear = |[low, high]: &[Point; 2]| {
        spots.iter().all(|Spot { at, radius }| {
            let x = at.x - at.x.clamp(low.x, high.x);
            let y = at.y - at.y.clamp(low.y, high.y);
            libm::hypot(x, y) >= radius - 1e-9
        })
    };
    let apart = |(n, room): (usize, &[Point; 2])| !rooms[..n].iter().any(|r| overlap(*r, *room));
    rooms.iter().all(|room| inside(room) && clear(room)) && rooms.iter().enumerate().all(apart)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_behind_z() {
        let shown: Vec<String> = [0, 1, 25, 26, 27, 51, 52, 701, 702].map(letters).to_vec();
        assert_eq!(shown, ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
    }

    /// By hand: a circle of radius 5 about (10, 10); a box whose corner is at (14, 14) lies
    /// 4 sqrt 2 = 5.66 away, one at (13, 13) only 4.24.
    #[test]
    fn a_name_may_lie_in_a_circles_corner_but_not_in_the_circle() {
        let spots = [Spot { at: Point::new(10.0, 10.0), radius: 5.0 }];
        let edge = Area::new([0.0, 0.0], [40.0, 40.0]);
        let word = |corner: f64| {
            let at = Point::new(corner + WHITE, corner + WHITE + 0.35 * 2.0);
            [Text::new(at, 2.0, Anchor::Start, "a")]
        };
        assert!(is_clear(Naming::Before, &word(14.0), &spots, edge));
        assert!(!is_clear(Naming::Before, &word(13.0), &spots, edge));
        assert!(!is_clear(Naming::Before, &word(38.0), &spots, edge), "over the plate's edge");
        let twice = [word(20.0), word(20.5)].concat();
        assert!(!is_clear(Naming::Before, &twice, &spots, edge));
    }
}
