//! ISO 965-1:1998 table 2, lengths of thread engagement: short (S), normal (N), long (L).
//!
//! The standard's classes hold for group N; a longer engagement adds up more error of pitch and
//! asks for a wider class, a shorter one allows a closer class.

use std::fmt;

use super::iso965::DiameterBand;
use crate::quantity::Length;

/// The group of a length of engagement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// S.
    Short,
    /// N, which a designation leaves out.
    Normal,
    /// L.
    Long,
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Short => "S",
            Self::Normal => "N",
            Self::Long => "L",
        })
    }
}

/// Where the limits of group N come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The table lists this pitch in this band of diameters.
    Table,
    /// The standard's approximate formula (13.2): the table lacks the pitch. It may differ from
    /// what a table would say by one step of rounding (3.16 to 9.46 against 3 to 9 for M6x1).
    Formula,
}

/// The lengths of engagement that are normal: `S <= shortest < N <= longest < L`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NormalEngagement {
    /// The longest length that is still short.
    pub shortest: Length,
    /// The longest length that is still normal.
    pub longest: Length,
    /// Whether the table has it.
    pub origin: Origin,
}

impl NormalEngagement {
    /// The group of a length of engagement.
    pub fn group(&self, engaged: Length) -> Group {
        if engaged <= self.shortest {
            Group::Short
        } else if engaged <= self.longest {
            Group::Normal
        } else {
            Group::Long
        }
    }
}

/// One row: band's upper diameter, pitch, longest S, longest N, in mm.
type Row = (f64, f64, f64, f64);

/// ISO 965-1:1998 table 2, by a public transcription; eight rows agree with a handbook's page.
const TABLE: [Row; 47] = [
    (1.4, 0.2, 0.5, 1.4),
    (1.4, 0.25, 0.6, 1.7),
    (1.4, 0.3, 0.7, 2.0),
    (2.8, 0.2, 0.5, 1.5),
    (2.8, 0.25, 0.6, 1.9),
    (2.8, 0.35, 0.8, 2.6),
    (2.8, 0.4, 1.0, 3.0),
    (2.8, 0.45, 1.3, 3.8),
    (5.6, 0.35, 1.0, 3.0),
    (5.6, 0.5, 1.5, 4.5),
    (5.6, 0.6, 1.7, 5.0),
    (5.6, 0.7, 2.0, 6.0),
    (5.6, 0.75, 2.2, 6.7),
    (5.6, 0.8, 2.5, 7.5),
    (11.2, 0.75, 2.4, 7.1),
    (11.2, 1.0, 3.0, 9.0),
    (11.2, 1.25, 4.0, 12.0),
    (11.2, 1.5, 5.0, 15.0),
    (22.4, 1.0, 3.8, 11.0),
    (22.4, 1.25, 4.5, 13.0),
    (22.4, 1.5, 5.6, 16.0),
    (22.4, 1.75, 6.0, 18.0),
    (22.4, 2.0, 8.0, 24.0),
    (22.4, 2.5, 10.0, 30.0),
    (45.0, 1.0, 4.0, 12.0),
    (45.0, 1.5, 6.3, 19.0),
    (45.0, 2.0, 8.5, 25.0),
    (45.0, 3.0, 12.0, 36.0),
    (45.0, 3.5, 15.0, 45.0),
    (45.0, 4.0, 18.0, 53.0),
    (45.0, 4.5, 21.0, 63.0),
    (90.0, 1.5, 7.5, 22.0),
    (90.0, 2.0, 9.5, 28.0),
    (90.0, 3.0, 15.0, 45.0),
    (90.0, 4.0, 19.0, 56.0),
    (90.0, 5.0, 24.0, 71.0),
    (90.0, 5.5, 28.0, 85.0),
    (90.0, 6.0, 32.0, 95.0),
    (180.0, 2.0, 12.0, 36.0),
    (180.0, 3.0, 18.0, 53.0),
    (180.0, 4.0, 24.0, 71.0),
    (180.0, 6.0, 36.0, 106.0),
    (180.0, 8.0, 45.0, 132.0),
    (355.0, 3.0, 20.0, 60.0),
    (355.0, 4.0, 26.0, 80.0),
    (355.0, 6.0, 40.0, 118.0),
    (355.0, 8.0, 50.0, 150.0),
];

/// The normal lengths of engagement of a thread.
///
/// None outside the diameters of the standard (above 0.99 up to 355 mm) or without a pitch.
pub fn normal(diameter: Length, pitch: Length) -> Option<NormalEngagement> {
    if !(pitch.is_finite() && pitch > Length::ZERO) {
        return None;
    }
    let band = DiameterBand::of(diameter)?;
    let listed = TABLE.iter().find(|(upper, listed, _, _)| {
        *upper == band.upper().as_mm() && (listed - pitch.as_mm()).abs() < super::iso261::SAME
    });
    if let Some(&(_, _, shortest, longest)) = listed {
        return Some(NormalEngagement {
            shortest: Length::mm(shortest),
            longest: Length::mm(longest),
            origin: Origin::Table,
        });
    }
    let scale = pitch * libm::pow(band.lower().as_mm(), 0.2);
    Some(NormalEngagement {
        shortest: scale * SHORTEST_FACTOR,
        longest: scale * LONGEST_FACTOR,
        origin: Origin::Formula,
    })
}

/// ISO 965-1:1998, 13.2: the longest S is about 2.24 P d^0.2, d the least size of the band.
const SHORTEST_FACTOR: f64 = 2.24;
/// ISO 965-1:1998, 13.2: the longest N is about 6.7 P d^0.2.
const LONGEST_FACTOR: f64 = 6.7;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_meet_without_a_gap() {
        // Published: M10x1, 3 to 9 mm (a thread handbook, p. 712).
        let m10 = normal(Length::mm(10.0), Length::mm(1.0)).expect("in the table");
        assert_eq!(m10.group(Length::mm(3.0)), Group::Short);
        assert_eq!(m10.group(Length::mm(3.001)), Group::Normal);
        assert_eq!(m10.group(Length::mm(9.0)), Group::Normal);
        assert_eq!(m10.group(Length::mm(9.001)), Group::Long);
    }

    #[test]
    fn no_thread_no_group() {
        assert!(normal(Length::mm(0.5), Length::mm(0.1)).is_none());
        assert!(normal(Length::mm(10.0), Length::ZERO).is_none());
        assert!(normal(Length::mm(10.0), Length::mm(f64::NAN)).is_none());
    }

    #[test]
    fn a_pitch_between_lies_between() {
        let at = |pitch| normal(Length::mm(8.0), Length::mm(pitch)).expect("in range");
        assert_eq!(at(0.8).origin, Origin::Formula);
        assert!(at(0.75).shortest < at(0.8).shortest && at(0.8).shortest < at(1.0).shortest);
        assert!(at(0.75).longest < at(0.8).longest && at(0.8).longest > Length::mm(7.1));
    }
}
