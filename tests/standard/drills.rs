//! Inch drills against the published table, and the trade's tap drill.

use sectionwright::quantity::Length;
use sectionwright::standard::drill::{self, DrillName, DrillSize, Series};
use sectionwright::standard::{parse_size, tap_drill};

use crate::table::{agrees, number, rows};

const DRILLS: &str = include_str!("../fixtures/standard/inch-drills.csv");
const GAUGE_DRILLS: &str = include_str!("../fixtures/standard/gauge-drills.csv");

/// The name as [`parse_size`] reads it.
fn written(name: &str, series: &str) -> String {
    match series {
        "number" => name.to_owned(),
        "letter" => format!("letter {name}"),
        _ => format!("{name} in"),
    }
}

#[test]
fn every_row_of_the_drill_table() {
    let mut passed = 0;
    for row in rows(DRILLS) {
        let text = written(&row[0], &row[3]);
        let size = parse_size(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!((size.diameter().as_inch() - number(&row[1])).abs() < 1e-12, "{row:?}");
        assert!(agrees(size.diameter().as_mm(), &row[2]), "{row:?}: {size}");
        assert_eq!(size.name().map(|name| name.to_string()), Some(text));
        passed += 1;
    }
    assert_eq!(passed, 96);
}

#[test]
fn every_number_and_letter_drill() {
    let mut passed = 0;
    for row in rows(GAUGE_DRILLS) {
        let size = parse_size(&row[0]).unwrap_or_else(|error| panic!("{row:?}: {error}"));
        assert!((size.diameter().as_inch() - number(&row[1])).abs() < 1e-12, "{row:?}");
        assert!(size.to_string().starts_with(&row[0]), "{row:?}: {size}");
        passed += 1;
    }
    assert_eq!(passed, Series::Number.sizes().len() + Series::Letter.sizes().len());
}

/// Common practice, no source: the metric size next to an inch drill is not that drill.
#[test]
fn inch_drills_are_not_their_metric_neighbours() {
    let five_sixteenths = parse_size("5/16 in").expect("a drill");
    assert!(agrees(five_sixteenths.diameter().as_mm(), "7.938"));
    let eleven_32nds = parse_size("11/32 in").expect("a drill");
    assert!(agrees(eleven_32nds.diameter().as_mm(), "8.731"));
    let twenty_one_64ths = parse_size("21/64 in").expect("a drill");
    assert!(agrees(twenty_one_64ths.diameter().as_mm(), "8.334"));
}

/// Common practice, no source: M7.9x0.6 is drilled 7.3.
#[test]
fn tap_drill_is_major_less_pitch() {
    let drill = tap_drill(Length::mm(7.9), Length::mm(0.6)).expect("a hole");
    assert!((drill.diameter.as_mm() - 7.3).abs() < 1e-12);
    // Computed apart: major - pitch is 92.38 % on base A and 76.98 % on base B for every thread.
    for (major, pitch) in [(7.9, 0.6), (10.0, 1.5), (3.0, 0.35)] {
        let drill = tap_drill(Length::mm(major), Length::mm(pitch)).expect("a hole");
        assert!(agrees(drill.percent.full_depth, "92.38"));
        assert!(agrees(drill.percent.drill_chart, "76.98"));
    }
}

#[test]
fn nearest_of_all_series() {
    let all: Vec<DrillSize> = [Series::Number, Series::Letter, Series::Fractional, Series::Metric]
        .into_iter()
        .flat_map(Series::sizes)
        .collect();
    // By the published table: letter P is 8.2042, 8.2 is metric, then 21/64 is 8.334.
    let names: Vec<_> =
        drill::nearest(&all, Length::mm(8.2), 2).iter().map(ToString::to_string).collect();
    assert_eq!(names, ["8.2 mm", "letter P (8.204 mm)"]);
    assert_eq!(
        DrillName::letter('P').map(DrillName::diameter),
        parse_size("0.323 in").ok().map(DrillSize::diameter)
    );
}
