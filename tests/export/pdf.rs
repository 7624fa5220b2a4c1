//! Sheets as PDF. They are left in Cargo's folder for tests' files, where the outside judges read
//! them (`tests/judges/test_pdf.py`): a name, its file, the size of its page in mm, its title, and
//! its words.

use std::fs;
use std::path::PathBuf;

use sectionwright::drawing::Sheet;
use sectionwright::drawing::half_section::sheet;
use sectionwright::drawing::{
    Anchor, Dimension, Drawing, Layer, Measure, Point, Polyline, Segment, Shade, Shape, Text,
};
use sectionwright::export::{ExportError, pdf, svg};

use crate::common::section;

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A sheet of one shape of each kind and of signs, on A4 upright.
fn trial() -> Sheet {
    let mut drawing = Drawing::default();
    let frame =
        [at(10.0, 10.0), at(200.0, 10.0), at(200.0, 287.0), at(10.0, 287.0), at(10.0, 10.0)];
    drawing.polyline(Layer::Frame, Polyline::straight(frame.to_vec()));
    for (n, layer) in Layer::ALL.into_iter().enumerate() {
        let y = 150.0 + 5.0 * n as f64;
        drawing.line(layer, at(20.0, y), at(90.0, y));
        drawing.text(layer, Text::new(at(95.0, y), 2.5, Anchor::Start, layer.name()));
    }
    for (n, bulge) in [-1.0, 0.2, 0.9, -2.0].into_iter().enumerate() {
        let x = 150.0 + 10.0 * n as f64;
        let arc = Segment { from: at(x, 200.0), to: at(x + 6.0, 204.0), bulge };
        let line = Segment::line(arc.to, at(x, 215.0));
        drawing.polyline(Layer::Outline, Polyline::of([arc, line]));
    }
    for (n, shade) in Shade::ALL.into_iter().enumerate() {
        let x = 150.0 + 8.0 * n as f64;
        let corners = [at(x, 180.0), at(x + 8.0, 180.0), at(x + 8.0, 190.0), at(x, 190.0)];
        drawing.area(Layer::Band, corners.to_vec(), shade);
    }
    drawing.triangle(Layer::Note, [at(150.0, 160.0), at(160.0, 158.0), at(160.0, 162.0)]);
    let lines = [
        "Ø11.4 ±0.05 × 45° Rz 6.3 µm, 1/2 in, 2 ≤ n ≥ 1 − 0.5",
        "⌀ ↗ 0.02 A-B ↧ 12² ½ √ ∠ □ Δ → Größe ΑΩ Жизнь",
        "Lacking 漢 and 字, two that the font has not",
    ];
    for (n, words) in lines.into_iter().enumerate() {
        let y = 140.0 - 10.0 * n as f64;
        drawing.text(Layer::Title, Text::new(at(20.0, y), 3.5, Anchor::Start, words));
    }
    for (x, anchor) in [(30.0, Anchor::Start), (50.0, Anchor::Middle), (70.0, Anchor::End)] {
        let words = format!("turned {anchor:?}");
        drawing.text(Layer::Note, Text::new(at(x, 70.0), 3.5, anchor, words.clone()).turned());
        let words = words.replace("turned", "upright");
        drawing.text(Layer::Note, Text::new(at(130.0, 40.0 + x), 3.5, anchor, words));
        drawing.line(Layer::Hatch, at(x, 70.0), at(x + 5.0, 70.0));
        drawing.line(Layer::Hatch, at(130.0, 40.0 + x), at(130.0, 35.0 + x));
    }
    let (from, to) = (at(100.0, 20.0), at(140.0, 20.0));
    drawing.dimension(Dimension {
        measure: Measure::Length { from, to },
        line: from,
        words: "<>".to_owned(),
        factor: 1.0,
        decimals: 2,
        text: Text::new(at(120.0, 21.0), 3.5, Anchor::Middle, "40.00"),
        picture: vec![
            Shape::Line([from, to]),
            Shape::Triangle([from, at(103.0, 20.5), at(103.0, 19.5)]),
            Shape::Triangle([to, at(137.0, 20.5), at(137.0, 19.5)]),
        ],
    });
    Sheet {
        drawing,
        scale: 1.0,
        area: [at(0.0, 0.0), at(210.0, 297.0)],
        title: "Trial of shapes & signs: Ø ± °".to_owned(),
        description: "A shape of each kind.".to_owned(),
    }
}

/// The demo and other half-sections, and the trial.
fn sheets() -> Vec<(String, Sheet)> {
    let sections = section::all();
    let named = sections.iter().enumerate().map(|(n, s)| (format!("half-section-{n}"), sheet(s)));
    named.chain([("trial".to_owned(), trial())]).collect()
}

fn words(shape: &Shape) -> Vec<String> {
    match shape {
        Shape::Text(text) => vec![text.words.clone()],
        Shape::Dimension(dimension) => {
            let parts = dimension.picture.iter().flat_map(words);
            parts.chain([dimension.text.words.clone()]).collect()
        }
        _ => Vec::new(),
    }
}

#[test]
fn sheets_are_written_for_the_judges() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("pdf");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let mut said = serde_json::Map::new();
    for (name, sheet) in sheets() {
        let bytes = pdf::write(&sheet).unwrap();
        assert!(bytes.starts_with(b"%PDF-1.7"), "{name}");
        assert!(bytes == pdf::write(&sheet).unwrap(), "{name}: the same bytes");
        fs::write(folder.join(format!("{name}.pdf")), bytes).unwrap();
        fs::write(folder.join(format!("{name}.svg")), svg::write(&sheet)).unwrap();
        let [low, high] = sheet.area;
        let about = serde_json::json!({
            "title": sheet.title,
            "size_mm": [(high.x - low.x) * sheet.scale, (high.y - low.y) * sheet.scale],
            "words": sheet.drawing.entities.iter().flat_map(|e| words(&e.shape)).collect::<Vec<_>>(),
        });
        said.insert(name, about);
    }
    assert!(said.len() > 5, "too few sheets: {}", said.len());
    let said = serde_json::to_string_pretty(&said).unwrap();
    fs::write(folder.join("about.json"), said).unwrap();
}

#[test]
fn a_sheet_larger_than_a_page_may_be_is_refused() {
    let mut large = trial();
    large.scale = 20.0;
    let error = pdf::write(&large).unwrap_err();
    assert_eq!(error.code(), "export.pdf-page");
    assert!(matches!(error, ExportError::PdfPage { size: [4200.0, 5940.0], .. }));
    assert!(error.to_string().contains("4200 mm by 5940 mm"), "{error}");
}

#[test]
fn a_sheet_with_nothing_on_it_is_a_page() {
    let sheet = Sheet { drawing: Drawing::default(), ..trial() };
    assert!(pdf::write(&sheet).is_ok());
    assert!(!svg::write(&sheet).contains("<defs>"));
}
