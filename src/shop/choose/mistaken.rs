//! Sizes that are taken for one another: an inch drill for a metric one a few hundredths off.

use crate::quantity::Length;
use crate::section::{ToolKind, Workshop};
use crate::standard::{DrillSize, Series};

/// Sizes closer than this are one: no mistake matters.
const ALIKE: Length = Length::mm(0.015);

/// Sizes farther apart than this are not mistaken for one another.
const CLOSE: Length = Length::mm(0.15);

/// A size that a tool is taken for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mistaken {
    /// The tool's own size.
    pub size: DrillSize,
    /// What it is not.
    pub is_not: DrillSize,
}

/// What a size is easily mistaken for.
///
/// Common practice, no source: 5/16 in (7.938 mm) is taken for 8.0, 11/32 in (8.731) for 8.7, and
/// 21/64 in (8.334) for 8.2. So an inch size is told from the metric tenths beside it, and a
/// metric one from an inch size beside it that lies in the same rack.
pub(super) fn of(size: DrillSize, workshop: &Workshop) -> Vec<Mistaken> {
    let beside = |other: &DrillSize| {
        let apart = (other.diameter() - size.diameter()).abs();
        apart > ALIKE && apart <= CLOSE
    };
    let others: Vec<DrillSize> = if size.name().is_some() {
        Series::Metric.sizes()
    } else {
        let named = |size: &DrillSize| size.name().is_some();
        let drills = workshop.tools.iter().filter(|tool| tool.kind == ToolKind::Drill);
        drills.map(|tool| tool.size).filter(named).collect()
    };
    let mut beside: Vec<DrillSize> = others.into_iter().filter(beside).collect();
    beside.sort_by(|a, b| a.diameter().as_mm().total_cmp(&b.diameter().as_mm()));
    beside.dedup_by(|b, a| b.diameter() == a.diameter());
    beside.into_iter().map(|is_not| Mistaken { size, is_not }).collect()
}

#[cfg(test)]
mod tests {
    use crate::shop::fixture::bare;
    use crate::standard::parse_size;

    /// Common practice, no source: which names are taken for which sizes.
    #[test]
    fn inch_sizes_are_told_from_the_tenths_beside_them() {
        let of = |text: &str| -> Vec<String> {
            let size = parse_size(text).unwrap();
            super::of(size, &bare()).iter().map(|m| m.is_not.to_string()).collect()
        };
        assert!(of("5/16 in").contains(&"8 mm".to_owned()));
        assert!(of("11/32 in").contains(&"8.7 mm".to_owned()));
        assert_eq!(of("21/64 in"), ["8.2 mm", "8.3 mm", "8.4 mm"]);
        assert_eq!(of("8.2"), Vec::<String>::new());
    }
}
