//! The drawing to make a part from: what stands where, and the conventions of drawings.

use sectionwright::drawing::part::{Allowed, Subject, Units, crosses, overlap, views};
use sectionwright::drawing::sheet_frame::Table;
use sectionwright::drawing::{Drawing, Entity, Layer, Measure, Point, Shape, Text};
use sectionwright::section::{Item, Part, Section, Side};

use crate::common::{random, section};

/// Scales of ISO 5455 that a detail may have.
const SCALES: [f64; 6] = [50.0, 20.0, 10.0, 5.0, 2.0, 1.0];
/// Height of letters on paper.
const HEIGHT: f64 = 3.5;

fn drawn(part: &Part, back: Option<f64>, scale: f64) -> Drawing {
    let subject = Subject {
        part,
        title: "part".to_owned(),
        name: "test".to_owned(),
        material: "resin".to_owned(),
        axis: Some((Item::TenonThread, 'A')),
        back: back.map(|z| (z, 'B')),
        front: 'C',
        supplement: None,
        tolerances: "ISO 2768-m".to_owned(),
        allowed: Box::new(|_| Allowed::Own([0.02, 0.05]).into()),
        table: Table::default(),
        tap: None,
        notes: Vec::new(),
    };
    views(&subject, Units::Millimetres, scale, HEIGHT, &SCALES)
}

fn of_section(section: &Section, scale: f64) -> Drawing {
    drawn(&section.part(), Some(section.grip.length().as_mm()), scale)
}

/// Every line as straight pieces, and all words.
fn taken(drawing: &Drawing) -> (Vec<[Point; 2]>, Vec<Text>) {
    fn gather(shape: &Shape, lines: &mut Vec<[Point; 2]>, words: &mut Vec<Text>) {
        match shape {
            Shape::Line(ends) => lines.push(*ends),
            Shape::Polyline(chain) => {
                for segment in chain.segments() {
                    let at = |n: u32| segment.at(f64::from(n) / 32.0);
                    lines.extend((0..32).map(|n| [at(n), at(n + 1)]));
                }
            }
            Shape::Triangle([a, b, c]) => lines.extend([[*a, *b], [*b, *c], [*c, *a]]),
            Shape::Text(text) => words.push(text.clone()),
            Shape::Dimension(dimension) => {
                for shape in &dimension.picture {
                    gather(shape, lines, words);
                }
                words.push(dimension.text.clone());
            }
            other => panic!("no such shape is drawn: {other:?}"),
        }
    }
    let (mut lines, mut words) = (Vec::new(), Vec::new());
    for entity in &drawing.entities {
        gather(&entity.shape, &mut lines, &mut words);
    }
    (lines, words)
}

/// What overlaps, in words.
fn clashes(drawing: &Drawing) -> Vec<String> {
    /// Shared borders are no overlap, in millimetres.
    const HAIR: f64 = 1e-6;
    let (lines, words) = taken(drawing);
    let rooms: Vec<[Point; 2]> = words
        .iter()
        .map(|text| {
            let [low, high] = text.corners();
            [Point::new(low.x + HAIR, low.y + HAIR), Point::new(high.x - HAIR, high.y - HAIR)]
        })
        .collect();
    let mut found = Vec::new();
    for (n, room) in rooms.iter().enumerate() {
        let others = rooms[..n].iter().enumerate().filter(|(_, other)| overlap(*room, **other));
        found.extend(others.map(|(m, _)| format!("{} | {}", words[n].words, words[m].words)));
        let through = lines.iter().filter(|line| crosses(**line, *room));
        found.extend(through.map(|line| format!("{} -- {line:?}", words[n].words)));
    }
    found
}

#[test]
fn no_text_meets_a_line_or_another_text() {
    for section in section::all() {
        for scale in [2.0, 5.0, 10.0] {
            let found = clashes(&of_section(&section, scale));
            assert!(found.is_empty(), "{} {scale}:1: {found:#?}", section.name);
        }
    }
}

#[test]
fn nor_on_random_parts() {
    for seed in 0..100 {
        let (part, traits) = random::part(seed);
        let found = clashes(&drawn(&part, None, 5.0));
        assert!(found.is_empty(), "{seed} {traits:?}: {found:#?}");
    }
}

/// The words of all dimensions.
fn words(drawing: &Drawing) -> Vec<(Measure, String)> {
    let of = |entity: &Entity| match &entity.shape {
        Shape::Dimension(dimension) => Some((dimension.measure, dimension.shown())),
        _ => None,
    };
    drawing.entities.iter().filter_map(of).collect()
}

/// Expectations: R1's numbers, from its own description; what a machinist needs and no more.
/// `ISO 129-1` (from memory): each feature once, Ø before diameters, a thread's designation
/// instead; a chamfer of 45 degrees as `0.5 × 45°`.
#[test]
fn r1_has_each_size_once() {
    let section = section::r1();
    let found = words(&of_section(&section, 5.0));
    let mut shown: Vec<&str> =
        found.iter().map(|(_, words)| words.split(" +").next().unwrap_or_default()).collect();
    shown.sort_unstable();
    let hole = format!("Ø{:.3}", section.unit_thread.form.crest.as_mm());
    let mut expected = vec![
        // Lengths: recess, clearance bore, thread, tap drill; shoulder; tenon.
        "1.20",
        "4.60",
        "11.75",
        "13.50",
        "21.00",
        "11.00",
        // Diameters of the outside, and what the tenon carries.
        "Ø9.70",
        "Ø11.40",
        "M10x0.75",
        "0.50",
        // Of the bore.
        "Ø8.90",
        "Ø8.30",
        "M8.05x0.55",
        hole.as_str(),
        "Ø6.90",
    ];
    expected.sort_unstable();
    assert_eq!(shown, expected, "{found:#?}");
}

fn on(drawing: &Drawing, layer: Layer) -> Vec<Vec<Point>> {
    let here = drawing.entities.iter().filter(|e| e.layer == layer);
    here.map(|e| e.shape.points().to_vec()).collect()
}

/// ISO 6410-1:1993: crests continuous wide, roots continuous narrow, the lines at least twice the
/// wide line or 0.7 mm apart, whichever is larger, at any scale.
#[test]
fn thread_lines_stand_apart_on_paper() {
    let section = section::r1();
    for scale in [1.0, 2.0, 5.0, 10.0] {
        let drawing = of_section(&section, scale);
        for thread in section.threads() {
            let crest = thread.form.crest.as_mm() / 2.0;
            let z = (thread.from + thread.to).as_mm() / 2.0;
            let on_it = |line: &Vec<Point>| {
                line[0].y > 0.0 && line[0].x.min(line[1].x) < z && line[0].x.max(line[1].x) > z
            };
            let root = on(&drawing, Layer::Thread).into_iter().find(on_it).expect("a root line");
            let gap = (root[0].y - crest).abs() * scale;
            let wide = Layer::Outline.line().width();
            assert!(gap >= (2.0 * wide).max(0.7) - 1e-9, "{scale}:1 {gap}");
            assert!(gap + 1e-9 >= thread.form.depth().as_mm() * scale);
            let inside = root[0].y < crest;
            assert_eq!(inside, thread.side == Side::External);
        }
    }
    assert_eq!(Layer::Thread.line().width() * 2.0, Layer::Outline.line().width());
}

/// ISO 6410-1:1993: from the end a root is about three quarters of a narrow circle.
#[test]
fn a_root_is_three_quarters_of_a_circle_from_the_front() {
    let drawing = of_section(&section::r1(), 5.0);
    let roots: Vec<_> =
        drawing.entities.iter().filter(|e| e.layer == Layer::EndViewThread).collect();
    assert_eq!(roots.len(), 1);
    let Shape::Polyline(arc) = &roots[0].shape else { panic!("an arc") };
    let turn: f64 = arc.segments().map(|s| 4.0 * libm::atan(s.bulge)).sum();
    assert!((turn.to_degrees() - 270.0).abs() < 1e-9);
    assert_eq!(Layer::EndViewThread.line(), Layer::Thread.line());
}

/// ISO 6410-1:1993: hatching runs to the crest line: it ends on outline and bore, whatever the
/// threads.
#[test]
fn hatching_runs_to_the_crests() {
    let section = section::r1();
    let drawing = of_section(&section, 5.0);
    let tenon = section.tenon.thread.form.crest.as_mm() / 2.0;
    let tops = on(&drawing, Layer::Hatch).into_iter().flatten().filter(|p| p.y == tenon);
    assert!(tops.count() > 3);
}

/// ISO 129-1 (from memory): numbers are read from the bottom or from the right.
#[test]
fn numbers_are_read_from_the_bottom_or_the_right() {
    use sectionwright::drawing::Reads;
    let drawing = of_section(&section::r1(), 5.0);
    for entity in &drawing.entities {
        let Shape::Dimension(dimension) = &entity.shape else { continue };
        let expected = match dimension.measure {
            Measure::Length { .. } if !dimension.shown().contains('×') => Reads::FromBelow,
            _ => Reads::FromRight,
        };
        assert_eq!(dimension.text.reads, expected, "{}", dimension.text.words);
        assert_eq!(dimension.shown(), dimension.text.words);
    }
}

/// A detail is drawn where corners would run together, and nowhere else.
#[test]
fn details_are_drawn_where_they_are_needed() {
    let labels = |section: &Section, scale| {
        let (_, words) = taken(&of_section(section, scale));
        words.into_iter().filter(|text| text.words.ends_with(":1)")).count()
    };
    // R1's closest corners lie 0.3 apart, radially, at 4.6: 1.5 mm on paper, and 3 at 10:1.
    assert_eq!(labels(&section::r1(), 10.0), 0);
    assert!(labels(&section::r1(), 2.0) > 0);
}
