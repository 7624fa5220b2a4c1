//! ISO 724 basic sizes and ISO 965-1 limits, row by row.

use sectionwright::quantity::Length;
use sectionwright::standard::iso724::basic_sizes;
use sectionwright::standard::iso965::{Side, external, internal};
use sectionwright::standard::{ThreadDesignation, ToleranceClass};

use crate::table::{agrees, number, rows};

const BASIC_SIZES: &str = include_str!("../fixtures/standard/thread-basic-sizes.csv");
const LIMITS: &str = include_str!("../fixtures/standard/thread-limits.csv");

#[test]
fn every_row_of_the_basic_sizes() {
    let mut passed = 0;
    for row in rows(BASIC_SIZES) {
        let thread: ThreadDesignation = row[0].parse().expect("a designation");
        assert_eq!(thread.pitch(), Length::mm(number(&row[1])));
        assert_eq!(thread.diameter(), Length::mm(number(&row[2])));
        let sizes = basic_sizes(thread.diameter(), thread.pitch());
        let ours = [sizes.pitch, sizes.minor, sizes.root];
        for (value, printed) in ours.into_iter().zip(&row[3..6]) {
            assert!(agrees(value.as_mm(), printed), "{row:?}: {value}");
        }
        passed += 1;
    }
    assert_eq!(passed, 33);
}

/// A printed cell that is wrong, and what it should be.
struct Misprint {
    thread: &'static str,
    class: &'static str,
    /// Column of the table: 5 is the greatest major diameter, 10 the least minor one.
    column: usize,
    printed: &'static str,
    right: &'static str,
    why: &'static str,
}

const ROUNDED_TWICE: &str = "taken from the pitch diameter after rounding it; another table in the \
                             fixture prints M5x0.8-6g with 3.869";
const CUT_OFF: &str = "cut off after three decimals, not rounded; the same table prints M15x1.5 \
                       rounded, 15.407 for 15.4065";

const MISPRINTS: [Misprint; 6] = [
    misprint("M5x0.8", "6g", 10, "3.868", "3.869", ROUNDED_TWICE),
    misprint("M5x0.8", "6h", 10, "3.892", "3.893", ROUNDED_TWICE),
    misprint("M5x0.8", "4g6g", 10, "3.903", "3.904", ROUNDED_TWICE),
    misprint("M10x1.5", "6H", 5, "10.396", "10.397", CUT_OFF),
    misprint("M12x1.5", "6H", 5, "12.406", "12.407", CUT_OFF),
    misprint("M14x1.5", "6H", 5, "14.406", "14.407", CUT_OFF),
];

const fn misprint(
    thread: &'static str,
    class: &'static str,
    column: usize,
    printed: &'static str,
    right: &'static str,
    why: &'static str,
) -> Misprint {
    Misprint { thread, class, column, printed, right, why }
}

/// Our values for the six columns of limits; in the table's order.
fn computed(diameter: Length, pitch: Length, class: ToleranceClass) -> [Length; 6] {
    match class.position().side() {
        Side::External => {
            let limits = external(diameter, pitch, class).expect("in range");
            [
                limits.major.max(),
                limits.major.min(),
                limits.pitch.max(),
                limits.pitch.min(),
                limits.minor_flat_max,
                limits.root_min,
            ]
        }
        Side::Internal => {
            let limits = internal(diameter, pitch, class).expect("in range");
            [
                limits.major_max,
                limits.major_min,
                limits.pitch.max(),
                limits.pitch.min(),
                limits.minor.max(),
                limits.minor.min(),
            ]
        }
    }
}

#[test]
fn every_row_of_the_limits() {
    let (mut passed, mut cells, mut misprinted) = (0, 0, 0);
    let mut wrong = Vec::new();
    for row in rows(LIMITS) {
        let (diameter, pitch) = (Length::mm(number(&row[1])), Length::mm(number(&row[2])));
        let class: ToleranceClass = row[3].parse().expect("a class");
        for (column, ours) in (5..).zip(computed(diameter, pitch, class)) {
            let printed = &row[column];
            if printed.is_empty() {
                continue;
            }
            let ours = ours.as_mm();
            let misprint = MISPRINTS.iter().find(|at| {
                (at.thread, at.class, at.column) == (&row[0][..], &row[3][..], column)
                    && at.printed == printed
            });
            let expected = misprint.map_or(&printed[..], |at| at.right);
            if !agrees(ours, expected) {
                wrong.push(format!("{} {} column {column}: {printed} is {ours}", row[0], row[3]));
            }
            if let Some(at) = misprint {
                assert!(!agrees(ours, printed), "{} {}: {}", at.thread, at.class, at.why);
                misprinted += 1;
            }
            cells += 1;
        }
        passed += 1;
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!((passed, cells, misprinted), (115, 546, 6));
}
