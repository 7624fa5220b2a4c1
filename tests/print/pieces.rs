//! Specimens as they are sent to the printer: sound, standing on the plate, with the flank
//! clearances and the grooves that they are said to have.

use nalgebra::Vector3;
use sectionwright::design::{Library, load, load_printer};
use sectionwright::mesh::{Mesh, tessellate};
use sectionwright::print::offset::{Amounts, offset};
use sectionwright::print::specimen::{Ladder, Mated, SpecimenKind, least_pitch, specimens};
use sectionwright::print::{Piece, layout, pieces};
use sectionwright::quantity::Length;
use sectionwright::section::{Facet, Printer, Section};
use sectionwright::solid::{Body, Screw, build};

use super::space::{distance_within, point};
use crate::common::mm;

fn printer(name: &str) -> Printer {
    load_printer(&Library::new(Vec::new()), name).unwrap().printer
}

/// The demo, and the designs that others are tested with.
fn designs() -> Vec<Section> {
    let library = Library::new(Vec::new());
    let fixtures = ["r1", "outside", "capped", "both-ends", "reliefs", "threads", "blind"];
    let fixtures = fixtures.map(|name| format!("tests/fixtures/{name}.toml"));
    let names = fixtures.into_iter().chain(["demo".to_owned()]);
    names.map(|name| load(&library, &name).unwrap().section).collect()
}

fn made(section: &Section, printer: &Printer, kind: SpecimenKind) -> Vec<Piece> {
    let ladder = Ladder::usual(printer, Mated::Unit);
    let fine = section.unit_thread.form.pitch < least_pitch(printer);
    if kind == SpecimenKind::Ladder && fine {
        let wrong = pieces(section, &[kind], printer, &ladder, mm(0.005)).unwrap_err();
        assert_eq!(wrong[0].code(), "print.ladder-too-fine");
        return Vec::new();
    }
    pieces(section, &[kind], printer, &ladder, mm(0.005)).unwrap_or_else(|e| {
        panic!("{} {kind} on {}: {e:?}", section.name, printer.name);
    })
}

#[test]
fn every_specimen_of_every_design_is_sound_and_stands() {
    for section in designs() {
        for printer in ["resin", "filament"].map(printer) {
            for kind in SpecimenKind::ALL {
                for piece in made(&section, &printer, kind) {
                    let name = format!("{} {} on {}", section.name, piece.name, printer.name);
                    for part in [&piece.part, &piece.wanted] {
                        let body = build(part).unwrap_or_else(|e| panic!("{name}: {e}"));
                        tessellate(&body, 0.02).unwrap_or_else(|e| panic!("{name}: {e}"));
                    }
                    assert_eq!(piece.part.extent()[0], Length::ZERO, "{name}");
                }
            }
        }
    }
}

/// The least distance between the flanks of two threads, centred in each other, found in space:
/// points of the external flanks against the internal ones' surfaces.
fn gap(internal: &Body, external: &Body) -> f64 {
    let flank = |facet| matches!(facet, Facet::FlankFront | Facet::FlankBack);
    let flanks = |body: &Body| -> Vec<Screw> {
        let of =
            body.faces().filter(|(f, name)| flank(name.feature.facet) && f.surface().climb != 0.0);
        of.map(|(face, _)| face.surface()).collect()
    };
    let (hole, bolt) = (&internal.threads()[0], &external.threads()[0]);
    // A ridge in the middle of a groove.
    let shift = hole.ridge_z + hole.pitch / 2.0 - bolt.ridge_z;
    let inside = flanks(internal);
    let mut least = f64::MAX;
    for screw in flanks(external) {
        for v in [0.0, 0.25, 0.5, 0.75, 1.0] {
            let r = screw.r(v);
            // Where both have flanks.
            if r < hole.crest.max(bolt.root) || r > hole.root.min(bolt.crest) {
                continue;
            }
            let p = point(&screw, 0.7, v) + Vector3::new(0.0, 0.0, shift);
            let off = inside.iter().map(|s| distance_within(s, p, 0.0)).fold(f64::MAX, f64::min);
            least = least.min(off);
        }
    }
    least
}

/// As printed: what is put right for the printer is what the printer takes away again.
#[test]
fn rungs_have_the_clearance_that_they_are_said_to_have() {
    let printer = printer("resin");
    for section in designs() {
        for mated in Mated::ALL {
            let ladder =
                Ladder { first: mm(0.01), step: mm(0.02), ..Ladder::usual(&printer, mated) };
            let found = specimens(&section, SpecimenKind::Ladder, &printer, &ladder).unwrap();
            for specimen in &found {
                let rung = specimen.rung.as_ref().unwrap();
                let opened = match mated {
                    Mated::Unit => Amounts { internal_thread: rung.opened, ..Amounts::default() },
                    Mated::Tenon => Amounts { external_thread: rung.opened, ..Amounts::default() },
                };
                let rung_body = build(&offset(&specimen.part, &opened).unwrap().part).unwrap();
                let measured = match mated {
                    Mated::Unit => gap(&rung_body, &build(&section.unit.part()).unwrap()),
                    Mated::Tenon => gap(&build(&section.barrel.part()).unwrap(), &rung_body),
                };
                let stated = rung.clearance.as_mm();
                assert!(
                    (measured - stated).abs() < 1e-3,
                    "{} {mated:?} {}: {measured} instead of {stated}",
                    section.name,
                    rung.number
                );
            }
        }
    }
}

/// What is exported differs from that by the printer's own amount, on every rung alike.
#[test]
fn exported_rungs_have_the_printers_amount_beside_it() {
    let printer = printer("resin");
    let section = load(&Library::new(Vec::new()), "demo").unwrap().section;
    let unit = build(&section.unit.part()).unwrap();
    for piece in made(&section, &printer, SpecimenKind::Ladder) {
        let rung = piece.rung.as_ref().unwrap();
        // Turned over on the plate, a thread keeps its hand.
        let body = build(&piece.part.turned_over()).unwrap();
        let expected = (rung.clearance + printer.internal_flank).as_mm();
        let measured = gap(&body, &unit);
        assert!((measured - expected).abs() < 1e-3, "{}: {measured} {expected}", piece.name);
    }
}

/// How many rings of a mesh's points lie at the bottom of a groove so deep.
fn grooves(mesh: &Mesh, depth: f64) -> usize {
    let points = mesh.points.iter().map(|p| p.map(f64::from));
    let points: Vec<(f64, f64)> = points.map(|[x, y, z]| (z, libm::hypot(x, y))).collect();
    let outside = points.iter().map(|(_, r)| *r).fold(0.0, f64::max);
    let bottom = |r: f64| (r - (outside - depth)).abs() < 0.05;
    let mut rings: Vec<f64> = points.iter().filter(|(_, r)| bottom(*r)).map(|(z, _)| *z).collect();
    rings.sort_by(f64::total_cmp);
    rings.dedup_by(|b, a| *b - *a < 0.1);
    rings.len()
}

#[test]
fn rungs_are_numbered_by_their_grooves() {
    for feature in [0.15, 0.3] {
        let mut printer = printer("resin");
        printer.least_feature.value = mm(feature);
        let section = load(&Library::new(Vec::new()), "demo").unwrap().section;
        for mated in Mated::ALL {
            let ladder = Ladder { rungs: 7, ..Ladder::usual(&printer, mated) };
            let made =
                pieces(&section, &[SpecimenKind::Ladder], &printer, &ladder, mm(0.005)).unwrap();
            assert_eq!(made.len(), 7);
            for (number, piece) in (1..).zip(&made) {
                let mesh = tessellate(&build(&piece.part).unwrap(), 0.005).unwrap().0;
                let depth = 0.5_f64.max(printer.least_feature.value.as_mm());
                assert_eq!(grooves(&mesh, depth), number, "{feature} {mated:?} {}", piece.name);
            }
        }
    }
}

#[test]
fn pieces_lie_side_by_side_on_the_plate() {
    let printer = printer("resin");
    let section = load(&Library::new(Vec::new()), "demo").unwrap().section;
    let made = made(&section, &printer, SpecimenKind::Ladder);
    let places = layout(&made, &printer).unwrap();
    for (n, a) in places.places.iter().enumerate() {
        for (at, size) in a.at.iter().zip(places.size) {
            assert!(at - a.radius >= 4.9 && at + a.radius <= size - 4.9, "{a:?}");
        }
        for b in &places.places[n + 1..] {
            let apart = libm::hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) - a.radius - b.radius;
            assert!(apart >= 4.9, "{a:?} {b:?}");
        }
    }
    let many: Vec<Piece> = (0..40).flat_map(|_| made.clone()).collect();
    let wrong = layout(&many, &printer).unwrap_err();
    assert_eq!(wrong[0].code(), "print.plate-full");
}
