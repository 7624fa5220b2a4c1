//! Series of drills, and the nearest to a diameter.

use super::{DrillName, DrillSize};
use crate::quantity::Length;

/// The greatest fraction of the fractional series: 1 in.
const SERIES_64THS: u16 = 64;

/// Metric drills come in tenths of a millimetre (common practice, no source); racks with
/// twentieths say so themselves.
const METRIC_STEP_PER_MM: u16 = 10;

/// The metric series runs from 0.3 mm to 25 mm: below, and above, sets are of other steps.
const METRIC_TENTHS: std::ops::RangeInclusive<u16> = 3..=250;

/// A series of drills.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Series {
    /// #80 to #1.
    Number,
    /// A to Z.
    Letter,
    /// 1/64 to 1 in.
    Fractional,
    /// 0.3 to 25 mm in tenths (common practice, no source).
    Metric,
}

impl Series {
    /// The drills of the series, thinnest first.
    pub fn sizes(self) -> Vec<DrillSize> {
        match self {
            Self::Number => DrillName::numbers().rev().map(DrillSize::from).collect(),
            Self::Letter => DrillName::letters().map(DrillSize::from).collect(),
            Self::Fractional => (1..=SERIES_64THS)
                .filter_map(DrillName::sixty_fourths)
                .map(DrillSize::from)
                .collect(),
            Self::Metric => METRIC_TENTHS
                .map(|tenths| f64::from(tenths) / f64::from(METRIC_STEP_PER_MM))
                .filter_map(|mm| DrillSize::of(Length::mm(mm)).ok())
                .collect(),
        }
    }
}

/// Up to `count` of the drills nearest to a diameter, nearest first; the thinner of two equally
/// far, which leaves material.
pub fn nearest(sizes: &[DrillSize], wanted: Length, count: usize) -> Vec<DrillSize> {
    let mut sorted = sizes.to_vec();
    sorted.sort_by(|a, b| a.diameter().as_mm().total_cmp(&b.diameter().as_mm()));
    sorted.sort_by(|a, b| {
        let off = |size: &DrillSize| (size.diameter() - wanted).abs().as_mm();
        off(a).total_cmp(&off(b))
    });
    sorted.truncate(count);
    sorted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_series_ascends() {
        for (series, count) in [
            (Series::Number, 80),
            (Series::Letter, 26),
            (Series::Fractional, 64),
            (Series::Metric, 248),
        ] {
            let sizes = series.sizes();
            assert_eq!(sizes.len(), count);
            assert!(sizes.windows(2).all(|pair| pair[0].diameter() < pair[1].diameter()));
        }
    }

    #[test]
    fn nearest_first_and_thinner_of_two() {
        let shown = |wanted, count| -> Vec<String> {
            let found = nearest(&Series::Metric.sizes(), Length::mm(wanted), count);
            found.iter().map(ToString::to_string).collect()
        };
        assert_eq!(shown(7.32, 2), ["7.3 mm", "7.4 mm"]);
        assert_eq!(shown(0.0, 1), ["0.3 mm"]);
        assert!(shown(7.3, 0).is_empty());
        let halves = [1.0, 1.5].map(|mm| DrillSize::of(Length::mm(mm)).expect("above zero"));
        assert_eq!(nearest(&halves, Length::mm(1.25), 1), [halves[0]]);
    }
}
