//! Names of inch drills.

use std::fmt;

use crate::quantity::Length;

/// #1 to #80 in ten-thousandths of an inch.
const NUMBERS: [u16; 80] = [
    2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800, 1770,
    1730, 1695, 1660, 1610, 1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285, 1200, 1160,
    1130, 1110, 1100, 1065, 1040, 1015, 995, 980, 960, 935, 890, 860, 820, 810, 785, 760, 730, 700,
    670, 635, 595, 550, 520, 465, 430, 420, 410, 400, 390, 380, 370, 360, 350, 330, 320, 310, 292,
    280, 260, 250, 240, 225, 210, 200, 180, 160, 145, 135,
];

/// A to Z in ten-thousandths of an inch.
const LETTERS: [u16; 26] = [
    2340, 2380, 2420, 2460, 2500, 2570, 2610, 2660, 2720, 2770, 2810, 2900, 2950, 3020, 3160, 3230,
    3320, 3390, 3480, 3580, 3680, 3770, 3860, 3970, 4040, 4130,
];

/// The greatest fraction that gets a name, 4 in: the largest that charts of inch drills print.
const NAMED_64THS: u16 = 256;

/// The name of an inch drill.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct DrillName(Name);

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Name {
    /// 1 to 80.
    Number(u8),
    /// 0 for A to 25 for Z.
    Letter(u8),
    /// 64ths of an inch, 1 and more.
    Fraction(u16),
}

impl DrillName {
    /// A number drill, #1 to #80; no other has a size here.
    pub fn number(number: u32) -> Option<Self> {
        (1..=NUMBERS.len() as u32).contains(&number).then_some(Self(Name::Number(number as u8)))
    }

    /// A letter drill, A to Z in either case.
    pub fn letter(letter: char) -> Option<Self> {
        let upper = letter.to_ascii_uppercase();
        upper.is_ascii_uppercase().then(|| Self(Name::Letter(upper as u8 - b'A')))
    }

    /// A fractional drill of so many 64ths of an inch, from 1/64 to 4 in.
    pub fn sixty_fourths(count: u16) -> Option<Self> {
        (1..=NAMED_64THS).contains(&count).then_some(Self(Name::Fraction(count)))
    }

    /// #1 to #80, widest first as they are numbered.
    pub fn numbers() -> impl DoubleEndedIterator<Item = Self> {
        (1..=NUMBERS.len() as u8).map(Name::Number).map(Self)
    }

    /// A to Z, thinnest first.
    pub fn letters() -> impl DoubleEndedIterator<Item = Self> {
        (0..LETTERS.len() as u8).map(Name::Letter).map(Self)
    }

    /// The diameter of the drill.
    pub fn diameter(self) -> Length {
        /// The gauge sizes are listed in ten-thousandths of an inch.
        const PER_INCH: f64 = 10_000.0;
        let gauge = |size: u16| Length::inch(1.0) * f64::from(size) / PER_INCH;
        match self.0 {
            Name::Number(number) => gauge(NUMBERS[usize::from(number) - 1]),
            Name::Letter(letter) => gauge(LETTERS[usize::from(letter)]),
            Name::Fraction(count) => Length::inch(1.0) * f64::from(count) / 64.0,
        }
    }
}

/// `#7`, `letter F`, `5/16 in`, `1 3/8 in`: as [`super::parse_size`] reads it.
impl fmt::Display for DrillName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Name::Number(number) => write!(f, "#{number}"),
            Name::Letter(letter) => write!(f, "letter {}", char::from(b'A' + letter)),
            Name::Fraction(count) => {
                let (whole, rest) = (count / 64, count % 64);
                let shift = rest.trailing_zeros().min(6);
                let (numerator, denominator) = (rest >> shift, 64 >> shift);
                match (whole, rest) {
                    (whole, 0) => write!(f, "{whole} in"),
                    (0, _) => write!(f, "{numerator}/{denominator} in"),
                    _ => write!(f, "{whole} {numerator}/{denominator} in"),
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_cancelled() {
        let name = |count| DrillName::sixty_fourths(count).map(|name| name.to_string());
        let cases = [(1, "1/64 in"), (20, "5/16 in"), (32, "1/2 in"), (64, "1 in")];
        for (count, text) in cases.into_iter().chain([(88, "1 3/8 in"), (256, "4 in")]) {
            assert_eq!(name(count).as_deref(), Some(text));
        }
        assert_eq!((name(0), name(257)), (None, None));
    }

    #[test]
    fn series_run_one_way() {
        let falls = |pair: &[Length]| pair[0] > pair[1];
        let numbers: Vec<_> = DrillName::numbers().map(DrillName::diameter).collect();
        assert!(numbers.windows(2).all(falls));
        let letters: Vec<_> = DrillName::letters().rev().map(DrillName::diameter).collect();
        assert!(letters.windows(2).all(falls));
        // The letters go on where the numbers end.
        assert!(letters[25] > numbers[0]);
    }

    #[test]
    fn names_out_of_the_series_are_none() {
        assert!(DrillName::number(0).is_none() && DrillName::number(81).is_none());
        assert!(DrillName::letter('ä').is_none() && DrillName::letter('1').is_none());
        assert_eq!(DrillName::letter('f'), DrillName::letter('F'));
    }
}
