//! Worked examples that others printed.

use sectionwright::quantity::Length;
use sectionwright::standard::iso965::{external, internal};
use sectionwright::standard::percent::{Base, ThreadPercent, hole_for, of_hole};
use sectionwright::standard::{iso68, iso724};

use crate::table::agrees;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// A tap maker's guide of 2022, p. 56: M10x1.5.
#[test]
fn profile_of_m10() {
    let pitch = mm(1.5);
    let sizes = iso724::basic_sizes(mm(10.0), pitch);
    for (value, printed) in [
        (sizes.pitch, "9.026"),
        (sizes.root, "8.160"),
        (sizes.minor, "8.376"),
        (iso68::external_depth(pitch), "0.920"),
        (iso68::engagement_depth(pitch), "0.812"),
        (iso68::root_radius(pitch), "0.217"),
    ] {
        assert!(agrees(value.as_mm(), printed), "{value} is not {printed}");
    }
}

/// A tap maker's catalogue p. 799, and a public table for d3: M10x0.75.
#[test]
fn profile_of_m10_fine() {
    let sizes = iso724::basic_sizes(mm(10.0), mm(0.75));
    assert!(agrees(sizes.pitch.as_mm(), "9.513") && agrees(sizes.minor.as_mm(), "9.188"));
    assert!(agrees(sizes.root.as_mm(), "9.08"));
}

/// Machinery's Handbook 27 p. 1786 table 3, row P = 0.35: shares of H.
#[test]
fn shares_of_the_height() {
    let height = iso68::fundamental_height(mm(0.35)).as_mm();
    for (share, printed) in [
        (1.0 / 8.0, "0.03789"),
        (1.0 / 4.0, "0.07578"),
        (3.0 / 8.0, "0.11367"),
        (1.0 / 2.0, "0.15155"),
        (5.0 / 8.0, "0.18944"),
        (3.0 / 4.0, "0.22733"),
        (11.0 / 12.0, "0.27785"),
        (1.0, "0.30311"),
        (5.0 / 4.0, "0.37889"),
    ] {
        assert!(agrees(height * share, printed), "{share} H is {}", height * share);
    }
    let limits = external(mm(2.0), mm(0.35), "6h".parse().expect("a class")).expect("in range");
    assert!(agrees((limits.pitch.min() - limits.root_min).as_mm(), "0.21561"));
    let limits = internal(mm(2.0), mm(0.35), "6H".parse().expect("a class")).expect("in range");
    assert!(agrees((limits.major_max - limits.pitch.max()).as_mm(), "0.27785"));
}

/// Three published tables agree on M10x0.75-6g; M8x1-4g6g is from a transcription of ISO 965-1.
#[test]
fn external_limits() {
    for (diameter, pitch, class, printed) in [
        (10.0, 0.75, "6g", ["9.978", "9.838", "9.491", "9.391", "9.166", "8.929"]),
        (8.0, 1.0, "4g6g", ["7.974", "7.794", "7.324", "7.253", "6.891", "6.637"]),
    ] {
        let class = class.parse().expect("a class");
        let limits = external(mm(diameter), mm(pitch), class).expect("in range");
        let ours = [
            limits.major.max(),
            limits.major.min(),
            limits.pitch.max(),
            limits.pitch.min(),
            limits.minor_flat_max,
            limits.root_min,
        ];
        for (value, printed) in ours.into_iter().zip(printed) {
            assert!(agrees(value.as_mm(), printed), "{class}: {value} is not {printed}");
        }
    }
}

/// Three published tables agree on M10x0.75-6H.
#[test]
fn internal_limits() {
    let limits = internal(mm(10.0), mm(0.75), "6H".parse().expect("a class")).expect("in range");
    let ours = [limits.pitch.min(), limits.pitch.max(), limits.minor.min(), limits.minor.max()];
    for (value, printed) in ours.into_iter().zip(["9.513", "9.645", "9.188", "9.378"]) {
        assert!(agrees(value.as_mm(), printed), "{value} is not {printed}");
    }
    // A tap maker's catalogue p. 645: M6x1-6G, +26 to +176 micrometres over the basic size.
    let limits = internal(mm(6.0), mm(1.0), "6G".parse().expect("a class")).expect("in range");
    let basic = iso724::basic_sizes(mm(6.0), mm(1.0)).pitch;
    assert!(((limits.pitch.min() - basic).as_mm() - 0.026).abs() < 1e-9);
    assert!(((limits.pitch.max() - basic).as_mm() - 0.176).abs() < 1e-9);
}

/// Base A: a tap maker's catalogue p. 722. Base B: a drill chart for M8x1.25 and 1/4-20, and
/// Machinery's Handbook 31 p. 2155 table 2 for #0-80 (major diameter 0.060 in).
#[test]
fn percentages_of_thread() {
    let inch = Length::inch;
    for (major, hole, pitch, base, printed) in [
        (mm(10.0), mm(8.5), mm(1.5), Base::FullDepth, "92.4"),
        (mm(10.0), mm(8.676), mm(1.5), Base::FullDepth, "81.5"),
        (mm(8.0), mm(6.8), mm(1.25), Base::DrillChart, "73.90"),
        (inch(0.25), inch(0.201), inch(1.0 / 20.0), Base::DrillChart, "75.44"),
        (inch(0.060), inch(0.0512), inch(1.0 / 80.0), Base::DrillChart, "54"),
        (inch(0.060), inch(0.0472), inch(1.0 / 80.0), Base::DrillChart, "79"),
    ] {
        let percent = of_hole(major, hole, pitch, base);
        assert!(agrees(percent, printed), "{} %: {percent} is not {printed}", base.name());
        // And back: the percentage asks for the hole that made it.
        assert!((hole_for(major, pitch, percent, base) - hole).abs() < mm(1e-12));
    }
    // Limits: a hole of the major diameter leaves nothing, the basic minor one all of base A.
    let none = ThreadPercent::of_hole(mm(10.0), mm(10.0), mm(0.75));
    assert_eq!((none.full_depth, none.drill_chart), (0.0, 0.0));
    let minor = iso724::basic_sizes(mm(10.0), mm(0.75)).minor;
    assert!((of_hole(mm(10.0), minor, mm(0.75), Base::FullDepth) - 100.0).abs() < 1e-9);
    let deep = ThreadPercent::of_hole(mm(10.0), mm(9.25), mm(0.75));
    assert_eq!(deep.to_string(), "92 % of full depth (77 % on drill charts)");
}

/// US "75 % thread" hole: D - 0.97428 P (drill charts, base B).
#[test]
fn hole_for_three_quarters() {
    let hole = hole_for(mm(10.0), mm(1.0), 75.0, Base::DrillChart);
    assert!(agrees((mm(10.0) - hole).as_mm(), "0.97428"));
}
