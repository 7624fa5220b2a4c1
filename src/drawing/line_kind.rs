//! Kinds of line of ISO 128-2.

/// Width of a wide line on paper, in mm; a narrow one has half of it (ISO 128-2:2022, 2:1; widths
/// in the series 0.13 0.18 0.25 0.35 0.5 0.7). Wider lines would run together where walls are
/// half a millimetre, thinner ones would not stand out from the hatching.
const WIDE: f64 = 0.5;

/// Width of the frame's line on paper, in mm, whatever the width of the part's: narrower, and the
/// frame does not hold the sheet together.
const FRAME: f64 = 0.7;

/// A kind of line, with its number in ISO 128-2:2022 (05.1 from memory, the others as printed in
/// the Manual of Engineering Drawing, chapter 46).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// Seams on either side of a line; extra wide, 4:2:1 to wide and narrow (ISO 128-20:1996, from
    /// memory).
    ContinuousExtraWide,
    /// The frame of the drawing space (ISO 5457:1999, from memory: 0.7 mm).
    ContinuousFrame,
    /// 01.2: visible edges, crests and ends of threads.
    ContinuousWide,
    /// 01.1: roots of threads, hatching, leaders.
    ContinuousNarrow,
    /// 02.1: hidden edges.
    DashedNarrow,
    /// 04.1: axes.
    LongDashedDotted,
    /// 05.1: outlines of parts next to the one that is drawn.
    LongDashedDoubleDotted,
}

impl LineKind {
    /// All kinds.
    pub const ALL: [Self; 7] = [
        Self::ContinuousExtraWide,
        Self::ContinuousFrame,
        Self::ContinuousWide,
        Self::ContinuousNarrow,
        Self::DashedNarrow,
        Self::LongDashedDotted,
        Self::LongDashedDoubleDotted,
    ];

    /// Its name, as the standard words it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ContinuousExtraWide => "continuous-extra-wide",
            Self::ContinuousFrame => "continuous-frame",
            Self::ContinuousWide => "continuous-wide",
            Self::ContinuousNarrow => "continuous-narrow",
            Self::DashedNarrow => "dashed-narrow",
            Self::LongDashedDotted => "long-dashed-dotted-narrow",
            Self::LongDashedDoubleDotted => "long-dashed-double-dotted-narrow",
        }
    }

    /// Its width on paper, in mm.
    pub const fn width(self) -> f64 {
        match self {
            Self::ContinuousExtraWide => WIDE * 2.0,
            Self::ContinuousFrame => FRAME,
            Self::ContinuousWide => WIDE,
            _ => WIDE / 2.0,
        }
    }

    /// Lengths on paper, in mm, of dash, gap, dash, gap ...; empty for a continuous line.
    ///
    /// In line widths: long dash 24, dash 12, gap 3, dot 0.5 (ISO 128-20:1996 table 2, from
    /// memory).
    pub fn pattern(self) -> Vec<f64> {
        let widths: &[f64] = match self {
            Self::ContinuousExtraWide
            | Self::ContinuousFrame
            | Self::ContinuousWide
            | Self::ContinuousNarrow => &[],
            Self::DashedNarrow => &[12.0, 3.0],
            Self::LongDashedDotted => &[24.0, 3.0, 0.5, 3.0],
            Self::LongDashedDoubleDotted => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
        };
        widths.iter().map(|n| n * self.width()).collect()
    }

    /// The pattern, stretched so that a line of this length on paper begins and ends with a whole
    /// dash.
    pub fn fitted(self, length: f64) -> Vec<f64> {
        let pattern = self.pattern();
        let period: f64 = pattern.iter().sum();
        let dash = pattern.first().copied().unwrap_or(0.0);
        let count = ((length - dash) / period).round().max(1.0);
        let factor = length / (count * period + dash);
        pattern.into_iter().map(|size| size * factor).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 128-2:2022: two widths, 2:1.
    #[test]
    fn wide_lines_are_twice_as_wide_as_narrow_ones() {
        assert_eq!(LineKind::ContinuousFrame.width(), 0.7);
        for kind in LineKind::ALL.into_iter().filter(|kind| *kind != LineKind::ContinuousFrame) {
            let ratio = match kind {
                LineKind::ContinuousExtraWide => 0.5,
                LineKind::ContinuousWide => 1.0,
                _ => 2.0,
            };
            assert_eq!(LineKind::ContinuousWide.width() / kind.width(), ratio, "{}", kind.name());
            assert_eq!(kind.pattern().len() % 2, 0, "{}", kind.name());
        }
    }

    #[test]
    fn a_fitted_pattern_begins_and_ends_with_a_dash() {
        for kind in [LineKind::DashedNarrow, LineKind::LongDashedDotted] {
            let pattern = kind.pattern();
            for length in [5.0, 20.0, 33.3, 160.0] {
                let fitted = kind.fitted(length);
                let period: f64 = fitted.iter().sum();
                let left = (length - fitted[0]) / period;
                assert!((left - left.round()).abs() < 1e-9 && left > 0.5, "{length}: {left}");
                assert!((fitted[1] / fitted[0] - pattern[1] / pattern[0]).abs() < 1e-12);
            }
        }
        assert!(LineKind::ContinuousWide.fitted(3.0).is_empty());
    }
}
