//! The outside of a section: every run, corner, ring and thread that a grip may have, against
//! plane geometry, Pappus and the solid.

mod common;

use std::cell::Cell;
use std::f64::consts::{PI, TAU};

use common::section::{r1, run, shaped};
use common::{basic_thread, mm};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use sectionwright::section::{
    CapThread, Corner, Curve, Facet, Feature, GripRun, Item, Ring, RingForm, Run, Section, Shape,
    Side, Station, faults,
};
use sectionwright::solid::{Measures, Meridian, build};

fn measures(section: &Section) -> Measures {
    assert_eq!(faults(section), []);
    build(&section.part()).unwrap().measures()
}

/// R1 with a cylinder of 12 mm as its grip, and rings on it.
fn ringed(rings: &[(Item, RingForm, f64)]) -> Section {
    let mut section = r1();
    section.grip.front = mm(12.0);
    section.grip.runs = vec![run(12.0, 21.0)];
    let ring = |(item, form, height): &(Item, RingForm, f64)| {
        let (at, width) = (mm(15.0), mm(2.0));
        Ring { item: *item, form: *form, at, width, height: mm(*height) }
    };
    section.grip.rings = rings.iter().map(ring).collect();
    section
}

/// Pappus' theorems (any handbook of geometry): a turned area's volume is the area times the way
/// of its centroid, a turned arc's surface its length times the way of its centroid. A circular
/// segment of half angle a has the area R^2 (a - sin a cos a) and its centroid 2/3 R sin^3 a /
/// (a - sin a cos a) from the centre; the arc has its centroid R sin a / a from it.
#[test]
fn a_bead_and_a_groove_have_pappus_volume_and_area() {
    let plain = measures(&ringed(&[]));
    let cases =
        [(Item::Bead(1), RingForm::Bead, 1.0), (Item::Groove(1), RingForm::RoundGroove, -1.0)];
    for ((item, form, side), height) in
        cases.into_iter().flat_map(|c| [(c, 0.3), (c, 0.8), (c, 1.0)])
    {
        let found = measures(&ringed(&[(item, form, height)]));
        let radius = height / 2.0 + 1.0 / (2.0 * height);
        // Past the half circle there is none; at it the angle is a right one.
        let half = 2.0 * libm::atan(height);
        let segment = half - libm::sin(half) * libm::cos(half);
        let sine = libm::sin(half);
        let centre = 6.0 + side * (height - radius);
        let area_at = centre + side * 2.0 / 3.0 * radius * sine * sine * sine / segment;
        let volume = side * radius * radius * segment * TAU * area_at;
        assert!((found.volume - plain.volume - volume).abs() < 1e-8, "{item} {height}");
        let arc_at = centre + side * radius * sine / half;
        let area = 2.0 * radius * half * TAU * arc_at - TAU * 6.0 * 2.0;
        assert!((found.area - plain.area - area).abs() < 1e-8, "{item} {height}");
        let top = if side > 0.0 { 6.0 + height } else { 6.0 };
        assert!((found.bounds.max[0] - top).abs() < 1e-12);
    }
}

/// Plane geometry: a square groove takes a ring, a vee a third of one less, by Pappus.
#[test]
fn straight_grooves_take_what_they_should() {
    let plain = measures(&ringed(&[]));
    let depth = 0.5;
    let cut = |form| plain.volume - measures(&ringed(&[(Item::Groove(1), form, depth)])).volume;
    let square = PI * (36.0 - 5.5 * 5.5) * 2.0;
    assert!((cut(RingForm::SquareGroove) - square).abs() < 1e-8);
    let vee = depth * 2.0 / 2.0 * TAU * (6.0 - depth / 3.0);
    assert!((cut(RingForm::VeeGroove) - vee).abs() < 1e-8);
}

/// A corner of 90 degrees on a cylinder, rounded: by Pappus the square less the quarter circle,
/// (1 - pi / 4) R^2, its centroid (10 - 3 pi) / (12 - 3 pi) R from the sharp corner's sides.
#[test]
fn a_rounded_shoulder_loses_its_corner() {
    let plain = ringed(&[]);
    let mut rounded = plain.clone();
    let radius = 0.6;
    rounded.grip.runs[0].corner = Corner::Fillet(mm(radius));
    let lost = (1.0 - PI / 4.0) * radius * radius;
    let from_side = (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI) * radius;
    let expected = lost * TAU * (6.0 - from_side);
    let found = measures(&plain).volume - measures(&rounded).volume;
    assert!((found - expected).abs() < 1e-8, "{found} {expected}");
    let mut cut = plain.clone();
    cut.grip.runs[0].corner = Corner::Chamfer { before: mm(0.6), after: mm(0.3) };
    let expected = 0.6 * 0.3 / 2.0 * TAU * (6.0 - 0.1);
    let found = measures(&plain).volume - measures(&cut).volume;
    assert!((found - expected).abs() < 1e-8, "{found} {expected}");
}

fn ends(run: &Run) -> [[f64; 2]; 2] {
    let meridian = Meridian::of(run);
    [0.0, 1.0].map(|v| {
        let [r, z] = meridian.rate(v);
        let length = libm::hypot(r, z);
        [r / length, z / length]
    })
}

/// Every fillet of a part runs on into what it joins; every tangent run into its neighbour.
fn assert_tangent(section: &Section) {
    let runs = section.part().runs;
    let count = runs.len();
    for n in 0..count {
        let (here, next) = (&runs[n], &runs[(n + 1) % count]);
        assert_eq!(here.to, next.from, "the chain is closed");
        let fillet = |run: &Run| run.feature.facet == Facet::Fillet;
        let curve = |run: &Run| match run.feature {
            Feature { item: Item::Grip(k), facet: Facet::Side } => {
                Some(section.grip.runs[usize::from(k) - 1].curve)
            }
            _ => None,
        };
        let sharp = |run: &Run| run.feature.facet == Facet::Chamfer;
        let tangent = fillet(here)
            || fillet(next)
            || (curve(here) == Some(Curve::TangentAfter) && !sharp(next))
            || (curve(next) == Some(Curve::TangentBefore) && !sharp(here));
        if tangent {
            let (a, b) = (ends(here)[1], ends(next)[0]);
            let dot = a[0] * b[0] + a[1] * b[1];
            assert!((dot - 1.0).abs() < 1e-9, "{} {}: {dot}", here.feature, next.feature);
        }
    }
}

#[test]
fn a_grip_with_everything_is_drawn_and_built() {
    let section = shaped();
    assert_eq!(faults(&section), []);
    assert_tangent(&section);
    let part = section.part();
    let names: Vec<String> = part.runs.iter().map(|run| run.feature.to_string()).collect();
    for name in [
        "front-face.fillet",
        "grip-1",
        "grip-2.fillet",
        "groove-1.flank.back",
        "bead-1",
        "grip-5.chamfer",
        "grip-6",
        "grip-9.chamfer",
    ] {
        assert!(names.iter().any(|other| other == name), "{name} in {names:?}");
    }
    for section in [section.clone(), section.at_least_material()] {
        let body = build(&section.part()).unwrap();
        assert_eq!((body.genus(), body.threads().len()), (1, 3));
    }
    let cap = section.grip.thread.as_ref().unwrap();
    assert_eq!((cap.thread.from, cap.thread.to), (mm(15.0), mm(18.0)));
}

/// A thread on a cylinder between wider and narrower runs, at its least: the cylinder follows the
/// crest and what is beside it stays.
#[test]
fn a_worn_cap_thread_leaves_its_neighbours() {
    let mut section = r1();
    section.grip.front = mm(12.0);
    section.grip.runs =
        vec![run(12.0, 10.0), run(12.0, 14.0), run(12.0, 16.0), run(13.0, 18.0), run(12.5, 21.0)];
    let thread = basic_thread(Item::CapThread, Side::External, "M12x1", 10.0, 14.0);
    section.grip.thread = Some(CapThread { run: 1, thread });
    assert_eq!(faults(&section), []);
    let cap = section.grip.thread.as_mut().unwrap();
    cap.thread.form.crest = mm(11.8);
    let runs = section.part().runs;
    let at = |name: &str| {
        let own = runs.iter().filter(|run| run.feature.to_string() == name);
        own.map(|run| (run.from.diameter.as_mm(), run.to.diameter.as_mm())).collect::<Vec<_>>()
    };
    assert_eq!(at("grip-1"), [(12.0, 12.0)]);
    assert_eq!(at("grip-2"), [(11.8, 11.8)]);
    assert_eq!(at("grip-2.floor"), [(12.0, 11.8), (11.8, 12.0)]);
    assert_eq!(at("grip-3"), [(12.0, 12.0)]);
    assert!(build(&section.part()).is_ok());
}

fn curve() -> impl Strategy<Value = Curve> {
    prop_oneof![
        4 => Just(Curve::Straight),
        2 => (6.0_f64..60.0).prop_map(|r| Curve::Concave(mm(r))),
        2 => (6.0_f64..60.0).prop_map(|r| Curve::Convex(mm(r))),
        1 => Just(Curve::TangentBefore),
        1 => Just(Curve::TangentAfter),
    ]
}

fn corner() -> impl Strategy<Value = Corner> {
    prop_oneof![
        4 => Just(Corner::Sharp),
        2 => (0.05_f64..0.4).prop_map(|r| Corner::Fillet(mm(r))),
        1 => (0.05_f64..0.3, 0.05_f64..0.3)
            .prop_map(|(a, b)| Corner::Chamfer { before: mm(a), after: mm(b) }),
    ]
}

/// Five runs of 4 mm, some of them steps, with any curves and corners.
fn runs() -> impl Strategy<Value = Vec<GripRun>> {
    let run = (11.0_f64..12.5, prop::bool::weighted(0.2), curve(), corner());
    prop::collection::vec(run, 5).prop_map(|runs| {
        let mut z = 0.0;
        let mut before = true;
        let last = runs.len() - 1;
        let lay = |(n, (d, step, curve, corner)): (usize, (f64, bool, Curve, Corner))| {
            let step = step && !before && n != last;
            before = step;
            if n == last {
                z = 21.0;
            } else if !step {
                z += 4.0;
            }
            let curve = if step { Curve::Straight } else { curve };
            GripRun { to: Station::new(mm(d), mm(z)), curve, corner }
        };
        runs.into_iter().enumerate().map(lay).collect()
    })
}

/// Whatever is asked for: it is refused with words, or it is a closed chain that goes from the
/// front to the back, tangent where it should be, and a solid. The same grips on every run.
#[test]
fn any_grip_is_refused_or_built() {
    /// Enough that every pair of kinds of run meets many times with each kind of corner.
    const GRIPS: u32 = 2000;
    let config = Config { cases: GRIPS, failure_persistence: None, ..Config::default() };
    let mut runner =
        TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let (built, filleted) = (Cell::new(0), Cell::new(0));
    let asked = (runs(), corner(), 10.8_f64..12.0);
    let result = runner.run(&asked, |(runs, rim, front)| {
        let mut section = r1();
        (section.grip.front, section.grip.rim, section.grip.runs) = (mm(front), rim, runs);
        let found = faults(&section);
        for fault in &found {
            prop_assert!(!fault.hint().is_empty() && !fault.to_string().is_empty());
        }
        if !found.is_empty() {
            return Ok(());
        }
        assert_tangent(&section);
        let part = section.part();
        for run in part.runs.iter().filter(|run| run.shape != Shape::Straight) {
            let arc = Meridian::of(run);
            let back = (0..20).any(|n| arc.rate(f64::from(n) / 19.0)[1] < -1e-6);
            prop_assert!(!back, "{:?}", run);
            filleted.set(filleted.get() + u32::from(run.feature.facet == Facet::Fillet));
        }
        let body = build(&part);
        prop_assert!(body.is_ok(), "{:?}", body.err());
        prop_assert_eq!(body.unwrap().genus(), 1);
        built.set(built.get() + 1);
        Ok(())
    });
    result.unwrap();
    println!("{} of {GRIPS} built, with {} fillets", built.get(), filleted.get());
    assert!(built.get() > GRIPS / 5 && filleted.get() > GRIPS / 5);
}
