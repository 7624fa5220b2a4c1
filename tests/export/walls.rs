//! `walls.svg`: every wall named, marked and shaded by its verdict; legible.

use std::collections::BTreeSet;

use proptest::prelude::*;
use sectionwright::check::{Finding, Verdict, WallCurve};
use sectionwright::drawing::half_section::walls_sheet;
use sectionwright::drawing::{Drawing, Entity, Layer, Point, Shade, Shape};
use sectionwright::export::walls_svg;
use sectionwright::scene::{Examination, verdicts};
use sectionwright::section::{Depth, Item, Point as End, Section};

use crate::common::{mm, section};

/// A blind section, and the others.
fn sections() -> Vec<Section> {
    let mut blind = section::relieved();
    "Blind".clone_into(&mut blind.name);
    let through = blind.bores.iter_mut().find(|bore| bore.item == Item::ThroughBore).unwrap();
    (through.depth, through.point) = (Depth::To(mm(26.0)), End::Flat);
    let mut all: Vec<Section> = section::all().into_iter().chain([blind]).collect();
    for section in &mut all {
        // The thread stands on its own cylinder, so that the unit can be built too.
        section.unit.steps[1].diameter.value = section.unit.thread.form.crest;
    }
    all
}

fn drawn(section: &Section) -> (Examination, Drawing) {
    let examination = verdicts(section).unwrap();
    let curve = WallCurve::new(section).unwrap();
    let drawing = walls_sheet(section, &examination, &curve).drawing;
    (examination, drawing)
}

fn texts(drawing: &Drawing) -> Vec<([Point; 2], &str)> {
    let text = |e: &'_ Entity| matches!(e.shape, Shape::Text(_));
    let found = drawing.entities.iter().filter(|e| text(e)).filter_map(|e| match &e.shape {
        Shape::Text(text) => Some((text.corners(), text.words.as_str())),
        _ => None,
    });
    found.collect()
}

/// Area of a polygon that does not cross itself.
fn area(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    (corners.iter().zip(next).map(|(p, q)| p.x * q.y - q.x * p.y).sum::<f64>() / 2.0).abs()
}

#[test]
fn every_judged_wall_has_its_line_and_its_number() {
    for section in sections() {
        let (examination, drawing) = drawn(&section);
        let words: Vec<&str> = texts(&drawing).iter().map(|(_, words)| *words).collect();
        let judged = examination.findings.iter().filter(|f| f.code.starts_with("wall."));
        let judged: Vec<_> = judged.filter(|f| f.judgement.is_some()).collect();
        assert!(judged.len() >= 8, "{}", section.name);
        let mut numbers = BTreeSet::new();
        for text in &words {
            let parts: Option<Vec<usize>> = text.split(", ").map(|n| n.parse().ok()).collect();
            numbers.extend(parts.into_iter().flatten());
        }
        for (n, finding) in (1..).zip(judged) {
            assert!(words.contains(&finding.title), "{}: {}", section.name, finding.code);
            let worst = format!("{:.2}", finding.judgement.as_ref().unwrap().worst);
            assert!(words.contains(&worst.as_str()), "{}: {worst}", finding.code);
            assert!(numbers.contains(&n), "{}: no number {n}", section.name);
            // The mark runs from one of its points to the other.
            let place = finding.place.unwrap();
            let ends = [place.inner, place.outer].map(|spot| Point::new(spot.z, spot.r));
            let near = |a: Point, b: Point| (a.x - b.x).abs() < 0.011 && (a.y - b.y).abs() < 0.011;
            let marked = drawing.entities.iter().any(|e| {
                let points = e.shape.points();
                e.layer == Layer::Note
                    && points.len() == 2
                    && near(points[0], ends[0])
                    && near(points[1], ends[1])
            });
            assert!(marked, "{}: {} has no mark", section.name, finding.code);
        }
    }
}

/// The band is the cut material and nothing else: areas of its pieces against the area under the
/// outlines, by hand for R1: cone 21 long between radii 4.85 and 5.7, tenon 11 by 5 less its
/// chamfer, less the bores.
#[test]
fn the_band_covers_the_cut_material() {
    let (_, drawing) = drawn(&sections()[0]);
    let crest = 8.05 / 2.0 - 0.55 * 3.0_f64.sqrt() * 5.0 / 16.0;
    let outside = 21.0 * (4.85 + 5.7) / 2.0 + 11.0 * 5.0 - 0.5 * 0.5 / 2.0;
    let bores = 1.2 * 4.45 + (4.6 - 1.2) * 4.15 + (13.5 - 4.6) * crest + (32.0 - 13.5) * 3.45;
    let band: f64 = drawing
        .entities
        .iter()
        .filter_map(|e| match &e.shape {
            // What lies under the axis is a sample of the scale.
            Shape::Area(corners, _) if corners.iter().all(|p| p.y > 0.0) => Some(area(corners)),
            _ => None,
        })
        .sum();
    assert!((band - (outside - bores)).abs() < 1e-9, "{band}");
}

/// The darkest shade is in the band where a wall breaks, and only then; the next where the worst
/// is close.
#[test]
fn shades_say_what_the_verdicts_say() {
    let mut seen = BTreeSet::new();
    for base in sections() {
        for holding in [0.0, 0.02, 0.1, 0.3] {
            let mut section = base.clone();
            section.criteria.offsets.holding = mm(holding);
            let (examination, drawing) = drawn(&section);
            let shades = drawing.entities.iter().filter_map(|e| match &e.shape {
                Shape::Area(corners, shade) if corners.iter().all(|p| p.y >= 0.0) => Some(*shade),
                _ => None,
            });
            let darkest = shades.min().unwrap();
            let walls = examination.findings.iter().filter(|f| f.code.starts_with("wall."));
            let verdict = walls.filter_map(Finding::verdict).max().unwrap();
            let expected = match verdict {
                Verdict::Breaks => darkest == Shade::Darkest,
                Verdict::Close => darkest == Shade::Dark,
                Verdict::Holds => darkest > Shade::Dark,
            };
            assert!(expected, "{}: {verdict} {darkest:?}", section.name);
            seen.insert(verdict);
            // In grey, what does not hold is hatched.
            let hatched = drawing.layers().contains(&Layer::BandHatch);
            assert!(hatched, "the scale's samples are");
        }
    }
    assert_eq!(seen.len(), 3, "all verdicts occurred");
}

/// Whether a segment has a point in a box.
fn meets([low, high]: [Point; 2], a: Point, b: Point) -> bool {
    // Liang and Barsky's clipping.
    let mut span = [0.0_f64, 1.0];
    for (from, by, min, max) in [(a.x, b.x - a.x, low.x, high.x), (a.y, b.y - a.y, low.y, high.y)] {
        if by == 0.0 {
            if from < min || from > max {
                return false;
            }
        } else {
            let (s, t) = ((min - from) / by, (max - from) / by);
            span = [span[0].max(s.min(t)), span[1].min(s.max(t))];
        }
    }
    span[0] <= span[1]
}

fn legible(section: &Section) {
    let (_, drawing) = drawn(section);
    let boxes = texts(&drawing);
    for (n, (room, words)) in boxes.iter().enumerate() {
        for (other, beside) in &boxes[n + 1..] {
            let ([a, b], [c, d]) = (room, other);
            let apart = b.x <= c.x || d.x <= a.x || b.y <= c.y || d.y <= a.y;
            assert!(apart, "{}: {words} over {beside}", section.name);
        }
        for entity in &drawing.entities {
            let corners = match &entity.shape {
                Shape::Area(corners, _) => [&corners[..], &corners[..1]].concat(),
                Shape::Polyline(chain) => chain.points().to_vec(),
                other => other.points().to_vec(),
            };
            let crossed = corners.windows(2).any(|w| meets(*room, w[0], w[1]));
            assert!(!crossed, "{}: {words} over {:?}", section.name, entity.layer);
        }
    }
}

#[test]
fn no_words_lie_over_others_or_over_lines() {
    sections().iter().for_each(legible);
}

#[test]
fn it_stands_alone_in_the_palette_and_is_the_same_each_time() {
    let palette: BTreeSet<&str> = Shade::ALL.map(Shade::colour).into_iter().collect();
    for section in sections() {
        let examination = verdicts(&section).unwrap();
        let svg = walls_svg(&section, &examination).unwrap();
        assert_eq!(svg, walls_svg(&section, &examination).unwrap());
        for outside in ["url(", "@import", "<script", "<style", "<image", "NaN", "inf"] {
            assert!(!svg.contains(outside), "{outside}");
        }
        let fills = svg.split("<polygon ").skip(1);
        for polygon in fills {
            let fill = polygon.split("fill=\"").nth(1).unwrap().split('"').next().unwrap();
            assert!(palette.contains(fill), "{fill}");
        }
        // What is said to those who can't see it has every wall too.
        let about = svg.split("<desc>").nth(1).unwrap().split("</desc>").next().unwrap();
        assert!(about.contains("Wall at the tenon's tip") && about.contains("at the worst"));
        assert!(svg.contains("no approval"));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Parts of 8 to 90 mm, names of any length, limits and offsets of any size.
    #[test]
    fn any_section_is_drawn_legibly(
        rest in 0.1..70.0_f64,
        name in "[A-ZØ<& ]{0,90}",
        base in 0..7_usize,
        holding in 0.0..0.6_f64,
        band in 0.0..0.7_f64,
    ) {
        let mut section = sections().swap_remove(base);
        if section.grip.thread.is_none() {
            let grip = section.grip.length().as_mm() + rest;
            let by = mm(rest);
            let last = section.grip.runs.len() - 1;
            section.grip.runs[last].to.z = mm(grip);
            section.tenon.thread.from += by;
            section.tenon.thread.to += by;
        }
        section.name = name;
        section.criteria.offsets.holding = mm(holding);
        section.criteria.band = mm(band);
        if verdicts(&section).is_ok() {
            legible(&section);
        }
    }
}
