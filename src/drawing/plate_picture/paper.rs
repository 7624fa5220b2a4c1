//! A sheet of paper, the way it lies, and its letters.

use crate::drawing::sheet_frame::{Area, PaperSize};

/// Heights of letters on A4, in mm: 2.5 and 1.8 of the series of ISO 3098-1 (from memory), and one
/// between. Smaller letters are not read beside a printer.
const LETTERS: [f64; 3] = [2.5, 2.15, 1.8];

/// Paper to draw on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Its size.
    pub size: PaperSize,
    /// Its long side stands.
    pub upright: bool,
    /// Height of its letters, in mm.
    pub height: f64,
}

impl Paper {
    /// Every way in which a size of paper is used.
    pub fn all(size: PaperSize) -> impl Iterator<Item = Self> {
        let ways = [false, true].into_iter();
        ways.flat_map(move |upright| {
            heights(size).map(|height| Self { size, upright, height }).into_iter()
        })
    }

    /// The trimmed sheet.
    pub fn sheet(self) -> Area {
        self.turned(self.size.sheet())
    }

    /// What its frame goes round.
    pub fn space(self) -> Area {
        self.turned(self.size.drawing_space())
    }

    /// The heights of its letters and all smaller ones, in mm.
    pub fn smaller(self) -> impl Iterator<Item = f64> {
        heights(self.size).into_iter().filter(move |height| *height <= self.height)
    }

    /// ISO 5457 has the filing margin on the left either way.
    fn turned(self, area: Area) -> Area {
        let Area { low, high } = area;
        if self.upright { Area::new([low.x, low.y], [high.y, high.x]) } else { area }
    }
}

/// On a larger sheet they are as much larger, so that it may be printed on A4.
fn heights(size: PaperSize) -> [f64; 3] {
    let larger = size.sheet().width() / PaperSize::A4.sheet().width();
    LETTERS.map(|height| height * larger)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5457:1999, table 1 (from memory): A4 upright has a drawing space of 180 x 277.
    #[test]
    fn an_upright_sheet_has_its_margins_where_the_standard_has_them() {
        let upright = Paper::all(PaperSize::A4).find(|paper| paper.upright).unwrap();
        assert_eq!([upright.sheet().width(), upright.sheet().height()], [210.0, 297.0]);
        assert_eq!([upright.space().width(), upright.space().height()], [180.0, 277.0]);
        assert_eq!((upright.space().low.x, upright.space().low.y), (20.0, 10.0));
    }

    #[test]
    fn letters_are_read_when_a_sheet_is_printed_on_a4() {
        for size in PaperSize::ALL {
            let smaller = PaperSize::A4.sheet().width() / size.sheet().width();
            assert!(Paper::all(size).all(|paper| paper.height * smaller >= 1.8 - 1e-9), "{size}");
            assert_eq!(Paper::all(size).count(), 6);
        }
    }
}
