//! Check plugs and rings: how they fit each other and what they are made for.

use super::common::{basic_thread, mm};
use sectionwright::design::{Library, load};
use sectionwright::mesh::tessellate;
use sectionwright::section::{Item, NamedPart, Side, check_fit, plug, ring};
use sectionwright::solid::build;

/// Published: ISO 965-1 gives position g 22 micrometres at P 0.75.
#[test]
fn the_fit_is_that_of_position_g_and_half_for_fine_classes() {
    let thread = basic_thread(Item::BarrelThread, Side::Internal, "M10x0.75-6H", 0.0, 9.0);
    assert!((check_fit(&thread).unwrap().clearance.as_mm() - 0.022).abs() < 1e-12);
    let fine = basic_thread(Item::BarrelThread, Side::Internal, "M10x0.75-4H", 0.0, 9.0);
    assert!((check_fit(&fine).unwrap().clearance.as_mm() - 0.011).abs() < 1e-12);
}

/// Independent route: on the solids. A plug and a ring for basic threads of one size are each the
/// clearance away from the basic profile, so twice that from each other, on every diameter.
#[test]
fn a_plug_in_a_ring_has_the_stated_clearance() {
    for designation in ["M10x0.75", "M13xPh2.4P0.8", "M8x1-LH"] {
        let internal = basic_thread(Item::BarrelThread, Side::Internal, designation, 0.0, 9.0);
        let external = basic_thread(Item::TenonThread, Side::External, designation, 21.0, 30.0);
        let fit = check_fit(&internal).unwrap();
        let (plug, ring) = (plug(&internal, fit), ring(&external, fit));
        let (plug, ring) = (build(&plug).unwrap(), build(&ring).unwrap());
        assert_eq!((plug.genus(), ring.genus()), (0, 1));
        let (inner, outer) = (&plug.threads()[0], &ring.threads()[0]);
        assert_eq!((inner.hand, inner.starts), (outer.hand, outer.starts));
        let per_side = fit.clearance.as_mm();
        for (out, inn) in [
            (outer.root, inner.crest),
            (outer.crest, inner.root),
            (outer.pitch_radius, inner.pitch_radius),
        ] {
            assert!((out - inn - per_side).abs() < 1e-12, "{designation}: {out} {inn}");
        }
        // Ridge and groove have the clearance's share along the axis, both flanks together.
        let r = f64::midpoint(inner.crest, outer.crest);
        let room = outer.pitch - outer.ridge_at(r) - inner.ridge_at(r);
        let expected = 2.0 * per_side * libm::tan(30.0_f64.to_radians());
        assert!((room - expected).abs() < 1e-12, "{room} {expected}");
        for body in [&plug, &ring] {
            tessellate(body, 0.01).unwrap();
        }
        // All of the checked thread's length is tried, less the lead chamfers.
        assert!(inner.extent[1] - inner.extent[0] > 8.85);
    }
}

/// Every part that a design names is a sound solid, and its thread passes the one it checks.
#[test]
fn every_named_part_can_be_made() {
    let section = load(&Library::default(), "demo").unwrap().section;
    let parts = section.parts();
    let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
    let fixed = NamedPart::FIXED;
    assert_eq!(names[..fixed.len()], fixed);
    let blanks = &names[fixed.len()..];
    assert!(blanks.iter().all(|name| name.starts_with("blank-")) && blanks.len() > 3);
    for named in &parts {
        let body = build(&named.part).unwrap_or_else(|e| panic!("{}: {e}", named.name));
        tessellate(&body, 0.02).unwrap_or_else(|e| panic!("{}: {e}", named.name));
    }
    let body = |name: &str| build(&parts.iter().find(|p| p.name == name).unwrap().part).unwrap();
    let (section, plug) = (body("section"), body("check-plug"));
    let (tapped, tried) = (section.thread(Item::UnitThread).unwrap(), &plug.threads()[0]);
    assert!(tried.crest < tapped.root && tried.root < tapped.crest);
    assert!(tried.pitch_radius < tapped.pitch_radius);
    assert!((mm(tried.pitch) - mm(tapped.pitch)).abs() < mm(1e-12));
}
