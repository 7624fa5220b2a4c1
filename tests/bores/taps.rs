//! The tap that clears the unit's thread, and the order for one that cuts it.

use super::common::section::r1;
use super::common::{basic_thread, mm};
use super::variety::{fixed, random};
use sectionwright::design::{Library, load};
use sectionwright::quantity::{Length, Limits};
use sectionwright::section::{Depth, Flank, Item, RunOut, Section, Side, TapEnd};
use sectionwright::solid::build;
use sectionwright::standard::iso2857::TapClass;

/// On the solids: pitch and major radius are over by half the stated amount, the helix is the
/// same, and the root is under the hole or, where the form does not go so deep, over it by no more.
#[test]
fn a_sizing_tap_is_over_by_exactly_what_it_says() {
    let mut straight = 0;
    for section in fixed().into_iter().chain(random(30)) {
        let name = &section.name;
        let tap = section.sizing_tap();
        let over = tap.oversize.as_mm() / 2.0;
        assert_eq!(over, 0.04);
        let (cut, own) = (build(&tap.part()).unwrap(), build(&section.part()).unwrap());
        let (cut, own) = (&cut.threads()[0], own.thread(Item::UnitThread).unwrap());
        assert!((cut.pitch_radius - own.pitch_radius - over).abs() < 1e-9, "{name}");
        assert!((cut.crest - own.root - over).abs() < 1e-9, "{name}");
        assert!(cut.root - own.crest <= over + 1e-9, "{name}");
        assert_eq!((cut.hand, cut.starts), (own.hand, own.starts));
        assert!((cut.pitch - own.pitch).abs() < 1e-12, "{name}");
        // Ridge against groove at one diameter, by the flank alone: wider on both sides by that half of
        // the flank's slope, tan of its half angle.
        let r = f64::midpoint(cut.pitch_radius, own.pitch_radius);
        let wider = cut.ridge_at(r) - (own.pitch - own.ridge_at(r));
        let expected = 2.0 * over * libm::tan(own.half_angle.to_radians());
        if section.unit_thread.form.flank == Flank::Straight {
            straight += 1;
            assert!((wider - expected).abs() < 1e-9, "{name}: {wider} {expected}");
        } else {
            assert!(wider > 0.0, "{name}: {wider}");
        }
    }
    assert!(straight > 30, "{straight}");
}

/// All of the thread is reached before the tip meets the end of the hole or the shank the face.
#[test]
fn a_sizing_tap_reaches_all_of_the_thread() {
    for section in fixed().into_iter().chain(random(30)) {
        let (name, tap, thread) = (&section.name, section.sizing_tap(), &section.unit_thread);
        // At full depth the end of the lead stands at the end of the thread.
        let tip = thread.to + tap.lead;
        assert!(tip - tap.thread.to <= thread.from + mm(1e-9), "{name}: full thread");
        assert!(tip - tap.neck_to < Length::ZERO, "{name}: the shank enters");
        let room = section.bore(Item::TapDrill).map(|bore| bore.full(section.length())[1]);
        let room = room.map_or(f64::INFINITY, |end| (end - thread.to).as_mm());
        let pitch = thread.form.pitch.as_mm();
        assert!(tap.lead.as_mm() <= room.max(pitch) + 1e-9, "{name}: {} in {room}", tap.lead);
        assert!(tap.neck <= tap.thread.form.root && tap.tip < tap.thread.form.root, "{name}");
        assert!(tap.shank.across_flats < tap.shank.diameter && tap.length > tap.neck_to);
        assert!(tap.shank.diameter <= tap.thread.form.crest, "{name}: no step up to the shank");
    }
}

/// By hand, R1: M8.05x0.55 basic, D2 = 8.05 - 0.649519 x 0.55 = 7.692765; 0.08 over 7.772765 and
/// 8.13; the lead one pitch; ISO 237's next shank is 8 with a square of 6.3.
#[test]
fn r1s_sizing_tap_by_hand() {
    let tap = r1().sizing_tap();
    let form = &tap.thread.form;
    assert!((form.pitch_diameter.as_mm() - 7.772_765).abs() < 1e-6);
    assert!((form.crest.as_mm() - 8.13).abs() < 1e-12);
    assert!((tap.thread.limits.pitch.mid() - form.pitch_diameter).abs() < mm(1e-12));
    assert!((tap.lead.as_mm() - 0.55).abs() < 1e-12);
    assert_eq!((tap.shank.diameter, tap.shank.across_flats), (mm(8.0), mm(6.3)));
    assert_eq!((tap.flutes.count, tap.hardness_hrc), (4, [58, 60]));
}

/// R1 with a unit thread of a class, in a material that springs back.
fn springy(designation: &str, back: [f64; 2]) -> Section {
    let mut section = r1();
    section.unit_thread = basic_thread(Item::UnitThread, Side::Internal, designation, 4.6, 11.75);
    section.criteria.spring_back.value = Limits::new(mm(back[0]), mm(back[1])).unwrap();
    section
}

/// Published: a tap maker's table gives a class 2 tap of M10x0.75 +32 to +53 micrometres on 9.513,
/// of M8x1 +35 to +59; and all of the material's spring-back on top.
#[test]
fn an_order_has_the_taps_own_limits() {
    for (designation, basic, low, high) in
        [("M10x0.75-6H", 9.513, 0.032, 0.053), ("M8x1-6H", 7.350, 0.035, 0.059)]
    {
        for back in [[0.0, 0.0], [0.01, 0.04]] {
            let order = springy(designation, back).tap_order();
            assert_eq!(order.class, Some(TapClass::Two));
            assert!((order.basic_pitch_diameter.as_mm() - basic).abs() < 5e-4 + 1e-9);
            let over = |size: Length| (size - order.basic_pitch_diameter).as_mm();
            assert!((over(order.pitch_diameter.min()) - low - back[1]).abs() < 1e-9);
            assert!((over(order.pitch_diameter.max()) - high - back[1]).abs() < 1e-9);
            // Whatever the material does, the thread is no smaller than by a tap of the standard,
            // and within its class: TD2 of 6H is 132 and 150 (ISO 965-1).
            let largest = over(order.pitch_diameter.max()) - back[0];
            assert!(largest < 0.132, "{designation}: {largest}");
            assert!(order.least_major >= order.thread.diameter() + mm(back[1]));
        }
    }
    assert_eq!(springy("M10x0.75-5H", [0.0; 2]).tap_order().class, Some(TapClass::One));
    assert_eq!(springy("M10x0.75-7H", [0.0; 2]).tap_order().class, Some(TapClass::Three));
}

/// A thread that ISO 2857 does not cover has no class, and limits on the free side all the same.
#[test]
fn a_trapezoidal_tap_has_no_class() {
    let mut section = r1();
    section.unit_thread.designation = "Tr8x1.5".parse().unwrap();
    let order = section.tap_order();
    assert_eq!(order.class, None);
    assert_eq!(order.pitch_diameter.min(), section.unit_thread.form.pitch_diameter);
    assert!(order.pitch_diameter.width() > mm(0.01));
}

/// By hand, R1: the tap drill ends at 13.5, the thread at 11.75, the bore behind is narrower.
#[test]
fn an_order_says_whether_the_hole_is_blind() {
    assert_eq!(r1().tap_order().end, TapEnd::Blind { room: mm(13.5) - mm(11.75) });
    let mut section = r1();
    section.bores.iter_mut().find(|bore| bore.item == Item::TapDrill).unwrap().depth =
        Depth::Through;
    assert_eq!(section.tap_order().end, TapEnd::Through);
    let demo = load(&Library::default(), "demo").unwrap().section;
    let order = demo.tap_order();
    assert!(matches!(order.end, TapEnd::Blind { .. }));
    assert_eq!((order.material.as_str(), order.quantity), (demo.material.as_str(), 1));
    assert_eq!(order.thread, demo.unit_thread.designation);
    assert!(order.thread_length > order.lead && order.reach >= order.thread_length);
}

/// A tap's own lead, where the thread's run-out tells it, is the order's; no longer than its hole.
#[test]
fn the_lead_is_that_of_the_thread() {
    let mut section = r1();
    let pitch = section.unit_thread.form.pitch;
    section.unit_thread.run_outs[1] = RunOut::Lead(pitch * 2.0);
    assert!((section.tap_order().lead_pitches - 2.0).abs() < 1e-12);
    // 1.75 of room is 3.18 pitches: three, in halves.
    section.unit_thread.run_outs[1] = RunOut::Lead(pitch * 5.0);
    assert!((section.tap_order().lead_pitches - 3.0).abs() < 1e-12);
    assert!((section.sizing_tap().lead_pitches - 3.0).abs() < 1e-12);
}
