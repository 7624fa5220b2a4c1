//! The exact solid against closed forms, an independent kernel, and independent quadrature.

mod common;

use common::r1;
use sectionwright::solid::build;

/// Source: computed by an independent boundary-representation kernel (OCCT 8.0, one-turn
/// helicoid faces) and by closed forms: 1264.605798 mm3, 2170.634868 mm2, z 16.735077.
#[test]
fn r1_measures() {
    let body = build(&r1()).unwrap();
    let m = body.measures();
    println!("{m:?}");
    assert!((m.volume / 1_264.605_798 - 1.0).abs() < 1e-8, "{}", m.volume);
    assert!((m.area / 2_170.634_868 - 1.0).abs() < 1e-8, "{}", m.area);
    assert!((m.centroid[2] / 16.735_077 - 1.0).abs() < 1e-7, "{}", m.centroid[2]);
    assert!((m.centroid[0] - 0.000_914_4).abs() < 1e-7, "{}", m.centroid[0]);
    assert!((m.centroid[1] - 0.001_660_5).abs() < 1e-7, "{}", m.centroid[1]);
    assert_eq!(body.genus(), 1);
}

/// The same part through its design file.
#[test]
fn r1_from_its_file() {
    let library = sectionwright::design::Library::new(vec![]);
    let resolved = sectionwright::design::load(&library, "tests/fixtures/r1.toml").unwrap();
    let part = resolved.section.part();
    assert_eq!(sectionwright::section::faults(&resolved.section), []);
    let (from_file, by_hand) = (build(&part).unwrap().measures(), build(&r1()).unwrap().measures());
    assert!((from_file.volume / by_hand.volume - 1.0).abs() < 1e-12);
    assert!((from_file.area / by_hand.area - 1.0).abs() < 1e-12);
    assert!((from_file.centroid[0] - by_hand.centroid[0]).abs() < 1e-9);
}
