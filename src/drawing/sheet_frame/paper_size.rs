//! Sheets of ISO 5457 and what is written on them.

use std::fmt;
use std::str::FromStr;

use super::Area;

/// A trimmed sheet of ISO 5457:1999, lying.
///
/// The standard has A4 upright and A3 to A0 lying (from memory); a turned part is long, so that
/// here A4 lies too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperSize {
    /// 297 mm x 210 mm.
    A4,
    /// 420 mm x 297 mm.
    A3,
    /// 594 mm x 420 mm.
    A2,
    /// 841 mm x 594 mm.
    A1,
}

/// Words that are no size of paper there is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownPaperSize(String);

/// Heights of capitals in mm, of the series of ISO 3098-1 (1.8 2.5 3.5 5 7 10; from memory).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lettering {
    /// The title.
    pub title: f64,
    /// Dimensions, notes, and what fields hold.
    pub text: f64,
    /// What fields are called; nothing is lettered smaller.
    pub label: f64,
}

/// From the sheet's left edge to the frame in mm, to file it by (ISO 5457:1999, from memory).
const FILING_MARGIN: f64 = 20.0;
/// From the other edges to the frame in mm (ISO 5457:1999, from memory).
const MARGIN: f64 = 10.0;

impl PaperSize {
    /// All of them, the least first.
    pub const ALL: [Self; 4] = [Self::A4, Self::A3, Self::A2, Self::A1];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::A2 => "A2",
            Self::A1 => "A1",
        }
    }

    /// The trimmed sheet.
    pub fn sheet(self) -> Area {
        let size = match self {
            Self::A4 => [297.0, 210.0],
            Self::A3 => [420.0, 297.0],
            Self::A2 => [594.0, 420.0],
            Self::A1 => [841.0, 594.0],
        };
        Area::new([0.0, 0.0], size)
    }

    /// The drawing space: what the frame goes round.
    pub fn drawing_space(self) -> Area {
        let [w, h] = [self.sheet().width(), self.sheet().height()];
        Area::new([FILING_MARGIN, MARGIN], [w - MARGIN, h - MARGIN])
    }

    /// The heights of its letters: a step of the series larger on A3, which is often looked at on
    /// A4.
    pub const fn lettering(self) -> Lettering {
        match self {
            Self::A4 => Lettering { title: 3.5, text: 2.5, label: 1.8 },
            _ => Lettering { title: 5.0, text: 3.5, label: 2.5 },
        }
    }
}

impl fmt::Display for PaperSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

impl FromStr for PaperSize {
    type Err = UnknownPaperSize;

    fn from_str(words: &str) -> Result<Self, Self::Err> {
        let named = |size: &Self| size.name().eq_ignore_ascii_case(words.trim());
        Self::ALL.into_iter().find(named).ok_or_else(|| UnknownPaperSize(words.to_owned()))
    }
}

impl UnknownPaperSize {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "export.unknown-paper-size"
    }
}

impl fmt::Display for UnknownPaperSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = PaperSize::ALL.map(PaperSize::name).join(", ");
        write!(f, "`{}` is no size of sheet; there are {all}", self.0)
    }
}

impl std::error::Error for UnknownPaperSize {}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5457:1999, table 1 (from memory): trimmed sheet and drawing space; A4's two numbers
    /// exchanged, for it lies here, with its filing margin on the left.
    #[test]
    fn sheets_are_those_of_the_standard() {
        let sides = |area: Area| [area.width(), area.height()];
        assert_eq!(sides(PaperSize::A3.sheet()), [420.0, 297.0]);
        assert_eq!(sides(PaperSize::A3.drawing_space()), [390.0, 277.0]);
        assert_eq!(sides(PaperSize::A4.sheet()), [297.0, 210.0]);
        assert_eq!(sides(PaperSize::A4.drawing_space()), [267.0, 190.0]);
        assert_eq!(PaperSize::A3.drawing_space().low.x, 20.0);
    }

    /// ISO 3098-1: each height is the next smaller one times the root of 2, as ISO 216 has it for
    /// sheets; the series is rounded (from memory).
    #[test]
    fn letters_are_of_one_series() {
        for size in PaperSize::ALL {
            let Lettering { title, text, label } = size.lettering();
            for ratio in [title / text, text / label] {
                assert!((ratio - 2.0_f64.sqrt()).abs() < 0.03, "{size}: {ratio}");
            }
        }
        assert_eq!(PaperSize::A3.lettering().label, PaperSize::A4.lettering().text);
    }

    #[test]
    fn sizes_are_read_in_either_case() {
        assert_eq!(" a3 ".parse(), Ok(PaperSize::A3));
        assert_eq!("A4".parse(), Ok(PaperSize::A4));
        let error = "A5".parse::<PaperSize>().unwrap_err();
        assert_eq!(error.to_string(), "`A5` is no size of sheet; there are A4, A3, A2, A1");
    }
}
