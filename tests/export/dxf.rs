//! `half-section.dxf` by its group codes, and read back by the `dxf` crate.
//!
//! Codes: DXF reference of release 2000 (5 and 105 handles, 330 owner, 340 to 360 pointers).
//! $INSUNITS 4 is millimetres, AC1015 is R2000: DXF reference, HEADER table.

use std::collections::BTreeSet;

use dxf::entities::EntityType;
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use sectionwright::drawing::half_section::{geometry, sheet};
use sectionwright::drawing::{Drawing, Layer, Point, Shape};
use sectionwright::export::{dxf as writer, half_section_dxf};
use sectionwright::section::Section;

use crate::common::section;

/// Group codes with their values; the first of each record has code 0 or 9.
fn records(bytes: &[u8]) -> Vec<Vec<(i32, String)>> {
    let text = std::str::from_utf8(bytes).expect("text");
    assert!(text.is_ascii());
    let lines: Vec<&str> = text.lines().collect();
    let mut records: Vec<Vec<(i32, String)>> = Vec::new();
    for pair in lines.chunks_exact(2) {
        let code = pair[0].trim().parse().expect("a group code");
        if code == 0 || code == 9 {
            records.push(Vec::new());
        }
        records.last_mut().expect("a record").push((code, pair[1].trim().to_owned()));
    }
    records
}

fn written(section: &Section) -> Vec<u8> {
    half_section_dxf(section).expect("a drawing that can be written")
}

/// Geometry alone, and everything that a drawing can hold.
fn every_file() -> Vec<(String, Vec<u8>)> {
    let both = |s: &Section| {
        let whole = writer::write(&sheet(s).drawing).expect("written");
        [(s.name.clone(), written(s)), (format!("{}, sheet", s.name), whole)]
    };
    section::all().iter().flat_map(both).collect()
}

#[test]
fn handles_are_given_once_and_pointers_lead_somewhere() {
    for (name, bytes) in every_file() {
        let mut handles = BTreeSet::new();
        let mut pointers = BTreeSet::new();
        for record in records(&bytes).iter().filter(|r| r[0].0 == 0) {
            let kind = record[0].1.as_str();
            let handle_code = if kind == "DIMSTYLE" { 105 } else { 5 };
            let own: Vec<&String> =
                record.iter().filter(|p| p.0 == handle_code).map(|p| &p.1).collect();
            let framing = ["SECTION", "ENDSEC", "ENDTAB", "EOF"].contains(&kind);
            assert_eq!(own.len(), usize::from(!framing), "{name}: {kind}");
            for handle in own {
                assert!(handles.insert(handle.clone()), "{name}: {handle} is given twice");
            }
            let owners = record.iter().filter(|p| p.0 == 330).count();
            assert_eq!(owners, usize::from(!framing), "{name}: owner of {kind}");
            let points = record.iter().filter(|p| (320..370).contains(&p.0) || p.0 == 390);
            pointers.extend(points.map(|p| p.1.clone()).filter(|p| p != "0"));
        }
        assert!(pointers.is_subset(&handles), "{name}: {:?}", pointers.difference(&handles));
        let seed = records(&bytes).into_iter().find(|r| r[0].1 == "$HANDSEED").expect("a seed");
        let value = |h: &str| u64::from_str_radix(h, 16).expect("hexadecimal");
        assert!(handles.iter().all(|h| value(h) < value(&seed[1].1)), "{name}: seed");
    }
}

#[test]
fn model_space_owns_what_is_drawn() {
    let records = records(&written(&section::r1()));
    let named = |r: &&Vec<(i32, String)>, kind, name: &str| {
        r[0].1 == kind && r.iter().any(|p| p.0 == 2 && p.1 == name)
    };
    let model = records.iter().find(|r| named(r, "BLOCK_RECORD", "*Model_Space")).expect("model");
    assert!(records.iter().any(|r| named(&r, "BLOCK_RECORD", "*Paper_Space")));
    assert!(records.iter().any(|r| named(&r, "BLOCK", "*Model_Space")));
    let handle = &model.iter().find(|p| p.0 == 5).expect("a handle").1;
    let drawn = records.iter().filter(|r| ["LINE", "LWPOLYLINE"].contains(&r[0].1.as_str()));
    let owners: BTreeSet<&String> =
        drawn.filter_map(|r| r.iter().find(|p| p.0 == 330)).map(|p| &p.1).collect();
    assert_eq!(owners, BTreeSet::from([handle]));
}

#[test]
fn there_is_no_clock_no_chance_and_no_minus_zero() {
    for section in section::all() {
        let bytes = written(&section);
        assert_eq!(bytes, written(&section));
        for record in records(&bytes) {
            let kind = &record[0].1;
            assert!(!kind.starts_with("$TD") && !kind.ends_with("GUID"), "{kind}");
            for (code, value) in record.iter().filter(|p| (10..60).contains(&p.0)) {
                let number: f64 = value.parse().expect("a number");
                assert!(number.is_finite(), "{kind} {code} {value}");
                assert!(number != 0.0 || !value.starts_with('-'), "{kind} {code} {value}");
            }
        }
    }
}

#[test]
fn every_layer_and_line_type_is_defined_once() {
    for (name, bytes) in every_file() {
        let records = records(&bytes);
        let of = |kind: &str| -> Vec<String> {
            let entries = records.iter().filter(|r| r[0].1 == kind);
            entries.filter_map(|r| r.iter().find(|p| p.0 == 2)).map(|p| p.1.clone()).collect()
        };
        let (layers, line_types) = (of("LAYER"), of("LTYPE"));
        for names in [&layers, &line_types] {
            assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{name}");
        }
        for record in records.iter().filter(|r| r[0].0 == 0) {
            for (code, value) in record {
                let known = match code {
                    8 => layers.contains(value),
                    6 => line_types.contains(value),
                    _ => true,
                };
                assert!(known, "{name}: {} {code} {value}", record[0].1);
            }
        }
    }
}

/// ISO 128-2:2022: wide to narrow 2:1; ISO 6410-1:1993: crests wide, roots narrow.
#[test]
fn layers_have_the_width_of_their_line() {
    let records = records(&written(&section::r1()));
    let width = |layer: Layer| -> i32 {
        let named = |r: &&Vec<(i32, String)>| {
            r[0].1 == "LAYER" && r.iter().any(|p| p.0 == 2 && p.1 == layer.name())
        };
        let entry = records.iter().find(named).expect("the layer");
        entry.iter().find(|p| p.0 == 370).expect("a width").1.parse().expect("a number")
    };
    assert_eq!(width(Layer::Outline), 2 * width(Layer::Thread));
    assert_eq!(width(Layer::Bore), width(Layer::Outline));
    assert_eq!(width(Layer::Axis), width(Layer::Thread));
}

#[test]
fn the_crate_reads_back_what_was_drawn() {
    for section in section::all() {
        let drawn = geometry(&section);
        let bytes = written(&section);
        let file = dxf::Drawing::load(&mut bytes.as_slice()).expect("a readable file");
        assert_eq!(file.header.version, AcadVersion::R2000);
        assert_eq!(file.header.default_drawing_units, Units::Millimeters);
        assert_eq!(file.header.drawing_units, DrawingUnits::Metric);
        compare(&drawn, &file);
    }
}

/// Coordinates agree to a millionth of a micrometre.
fn compare(drawn: &Drawing, file: &dxf::Drawing) {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    assert_eq!(file.entities().count(), drawn.entities.len());
    for (entity, read) in drawn.entities.iter().zip(file.entities()) {
        assert_eq!(read.common.layer, entity.layer.name());
        let points: Vec<(f64, f64)> = match (&entity.shape, &read.specific) {
            (Shape::Line(_), EntityType::Line(line)) => {
                vec![(line.p1.x, line.p1.y), (line.p2.x, line.p2.y)]
            }
            (Shape::Polyline(drawn), EntityType::LwPolyline(chain)) => {
                assert!(!chain.is_closed());
                for (segment, vertex) in drawn.segments().zip(&chain.vertices) {
                    assert!(near(segment.bulge, vertex.bulge), "{segment:?} {vertex:?}");
                }
                chain.vertices.iter().map(|v| (v.x, v.y)).collect()
            }
            other => panic!("{other:?}"),
        };
        assert_eq!(points.len(), entity.shape.points().len());
        for (p, (x, y)) in entity.shape.points().iter().zip(points) {
            assert!(near(p.x, x) && near(p.y, y), "{p:?} {x} {y}");
        }
    }
}

/// A sheet holds words and arrowheads too; a line break in a name must not shift the file.
#[test]
fn a_whole_sheet_is_read_back() {
    let mut section = section::r1();
    "broken\nin two, Ø ±°é".clone_into(&mut section.unit.name);
    let drawing = sheet(&section).drawing;
    let bytes = writer::write(&drawing).expect("written");
    let file = dxf::Drawing::load(&mut bytes.as_slice()).expect("a readable file");
    assert_eq!(file.entities().count(), drawing.entities.len());
    let words = file.entities().filter_map(|e| match &e.specific {
        EntityType::Text(text) => Some(text.value.clone()),
        _ => None,
    });
    let words: Vec<String> = words.collect();
    assert!(words.iter().any(|w| w.starts_with("broken in two, %%c %%p%%dé")), "{words:?}");
    assert!(words.iter().any(|w| w == "%%c8.90"), "{words:?}");
}

/// The whole file of one line: structure, order and number format, to the byte. The expected file
/// is ours; an independent reader (ezdxf 1.4) audits it with no error and nothing to mend.
#[test]
fn one_line_makes_this_file() {
    let mut drawing = Drawing::default();
    drawing.line(Layer::Axis, Point::new(-0.0, 0.0), Point::new(1.0 / 3.0, 0.1 + 0.2));
    let bytes = writer::write(&drawing).expect("written");
    assert_eq!(std::str::from_utf8(&bytes), Ok(include_str!("one-line.dxf")));
}
