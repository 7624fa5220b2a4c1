//! The paths of `profile.dxf`: closed, without a needless corner, not crossing themselves, and of
//! the plain solid's volume. The judges read the file itself.

use std::collections::BTreeSet;
use std::f64::consts::PI;

use dxf::entities::EntityType;
use sectionwright::drawing::profile::geometry;
use sectionwright::drawing::{Drawing, Layer, Point, Polyline, Segment, Shape, Text};
use sectionwright::export::profile_dxf;
use sectionwright::quantity::{Angle, Length};
use sectionwright::section::{Bore, Depth, Item, Mouth, Point as End, Section};
use sectionwright::solid::{Meridian, build};

use crate::common::section;

/// R1 without its through bore, a hole of its own from the back.
fn blind() -> Section {
    let mut section = section::r1();
    "Blind".clone_into(&mut section.name);
    let back = Bore {
        mouth: Mouth::Back,
        depth: Depth::To(Length::mm(6.0)),
        point: End::Cone(Angle::deg(118.0)),
        ..section::bore(Item::BoreStep(Mouth::Back, 1), 6.0, 6.0, 118.0)
    };
    section.bores[3] = back;
    section
}

fn all() -> Vec<Section> {
    section::all().into_iter().chain([blind()]).collect()
}

fn paths(drawing: &Drawing) -> Vec<(Layer, &Polyline)> {
    drawing
        .entities
        .iter()
        .filter_map(|entity| match &entity.shape {
            Shape::Polyline(path) => Some((entity.layer, path)),
            _ => None,
        })
        .collect()
}

fn words(drawing: &Drawing) -> Vec<&Text> {
    drawing
        .entities
        .iter()
        .filter_map(|entity| match &entity.shape {
            Shape::Text(text) => Some(text),
            _ => None,
        })
        .collect()
}

/// What a path encloses, turned about the axis: pi times the integral of y^2 dx. A line's share is
/// a frustum; an arc's is that of many chords, extrapolated (Richardson) from 512 and 1024.
fn turned(path: &Polyline) -> f64 {
    let frustum = |a: Point, b: Point| PI * (b.x - a.x) * (a.y * a.y + a.y * b.y + b.y * b.y) / 3.0;
    let chords = |segment: Segment, count: u32| -> f64 {
        let at = |n: u32| segment.at(f64::from(n) / f64::from(count));
        (0..count).map(|n| frustum(at(n), at(n + 1))).sum()
    };
    let share = |segment: Segment| match segment.meridian() {
        Meridian::Line { .. } => frustum(segment.from, segment.to),
        Meridian::Arc { .. } => (4.0 * chords(segment, 1024) - chords(segment, 512)) / 3.0,
    };
    path.segments().map(share).sum()
}

#[test]
fn outline_less_bores_is_the_plain_solid() {
    for section in all() {
        let drawing = geometry(&section);
        let sign = |layer| if layer == Layer::Outline { 1.0 } else { -1.0 };
        let found: f64 = paths(&drawing).iter().map(|(l, path)| sign(*l) * turned(path)).sum();
        let plain = build(&section.plain_part()).expect("a body").measures().volume;
        assert!((found / plain - 1.0).abs() < 1e-9, "{}: {found} {plain}", section.name);
    }
}

/// R1 by hand: a taper, the shoulder, the tenon with its chamfer; four flat steps.
#[test]
fn the_paths_of_r1_are_its_drawing() {
    let section = section::r1();
    let drawing = geometry(&section);
    let tap = section.unit_thread.form.crest.as_mm() / 2.0;
    let outline =
        [(0.0, 0.0), (0.0, 4.85), (21.0, 5.7), (21.0, 5.0), (31.5, 5.0), (32.0, 4.5), (32.0, 0.0)];
    let bore = [
        (0.0, 0.0),
        (0.0, 4.45),
        (1.2, 4.45),
        (1.2, 4.15),
        (4.6, 4.15),
        (4.6, tap),
        (13.5, tap),
        (13.5, 3.45),
        (32.0, 3.45),
        (32.0, 0.0),
    ];
    let found = paths(&drawing);
    for ((layer, path), (wanted, expected)) in
        found.iter().zip([(Layer::Outline, &outline[..]), (Layer::Bore, &bore[..])])
    {
        assert_eq!(*layer, wanted);
        assert!(path.segments().all(|segment| segment.bulge == 0.0));
        assert_eq!(path.points().len(), expected.len(), "{:?}", path.points());
        for (p, (x, y)) in path.points().iter().zip(expected) {
            assert!((p.x - x).abs() < 1e-12 && (p.y - y).abs() < 1e-12, "{p:?} {x} {y}");
        }
    }
    assert_eq!(found.len(), 2);
}

#[test]
fn layers_hold_a_path_or_an_origin_or_the_words() {
    for section in all() {
        let drawing = geometry(&section);
        let mut seen = BTreeSet::new();
        for entity in &drawing.entities {
            match &entity.shape {
                Shape::Polyline(path) => assert!(path.is_closed() && seen.insert(entity.layer)),
                Shape::Point(_) => assert!(seen.insert(entity.layer)),
                Shape::Text(_) => assert_eq!(entity.layer, Layer::ThreadData),
                other => panic!("{other:?}"),
            }
        }
        let bores = match section.name.as_str() {
            "Blind" => vec![Layer::BoreFront, Layer::BoreBack],
            _ => vec![Layer::Bore],
        };
        let others = [Layer::Outline, Layer::OriginFront, Layer::OriginBack];
        assert_eq!(seen, bores.into_iter().chain(others).collect(), "{}", section.name);
        let origin = |layer| drawing.entities.iter().find(|e| e.layer == layer).map(|e| &e.shape);
        let back = Point::new(section.length().as_mm(), 0.0);
        assert_eq!(origin(Layer::OriginFront), Some(&Shape::Point(Point::new(0.0, 0.0))));
        assert_eq!(origin(Layer::OriginBack), Some(&Shape::Point(back)));
    }
}

/// Arcs as 64 chords; neighbours share a point, all others none.
#[test]
fn no_path_crosses_itself_or_has_a_needless_corner() {
    for section in all() {
        let drawing = geometry(&section);
        for (layer, path) in paths(&drawing) {
            let segments: Vec<Segment> = path.segments().collect();
            assert!(segments.iter().all(|s| s.from != s.to), "{} {layer:?}", section.name);
            let next = segments.iter().cycle().skip(1);
            for (a, b) in
                segments.iter().zip(next).filter(|(a, b)| a.bulge == 0.0 && b.bulge == 0.0)
            {
                let turn = cross(a.from, a.to, b.to).abs();
                assert!(turn > 1e-9, "{} {layer:?}: no corner at {:?}", section.name, a.to);
            }
            let lines: Vec<[Point; 2]> = segments.iter().flat_map(|s| chords(*s)).collect();
            let count = lines.len();
            for (n, a) in lines.iter().enumerate() {
                for (m, b) in lines.iter().enumerate().skip(n + 2) {
                    let neighbours = n == 0 && m == count - 1;
                    assert!(neighbours || !meet(*a, *b), "{} {layer:?}: {a:?} {b:?}", section.name);
                }
            }
        }
    }
}

fn chords(segment: Segment) -> Vec<[Point; 2]> {
    let count = if segment.bulge == 0.0 { 1 } else { 64 };
    let at = |n: u32| segment.at(f64::from(n) / f64::from(count));
    (0..count).map(|n| [at(n), at(n + 1)]).collect()
}

fn cross(a: Point, b: Point, c: Point) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

/// Whether two lines have a point in common.
fn meet([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let sides = |a, b, c, d| cross(a, b, c) * cross(a, b, d) <= 0.0;
    let near = |low: f64, high: f64, u: f64, v: f64| {
        low.min(high) <= u.max(v) && u.min(v) <= low.max(high)
    };
    near(a.x, b.x, c.x, d.x) && near(a.y, b.y, c.y, d.y) && sides(a, b, c, d) && sides(c, d, a, b)
}

/// R1: tenon M10x0.75 from 21 to 32, chamfered by 0.5, so full to 31.5; unit thread M8.05x0.55
/// from 4.6 to 11.75. Limits: ISO 965-1 and -2 are held elsewhere; here they are those of the part.
#[test]
fn the_words_say_what_the_paths_follow() {
    let section = section::r1();
    let drawing = geometry(&section);
    let all: Vec<&str> = words(&drawing).iter().map(|text| text.words.as_str()).collect();
    let all = all.join(" ");
    for wanted in [
        "y is the radius",
        "origin-back at x 32.000",
        "External thread at the back: M10x0.75",
        "The path follows its nominal major diameter: Ø10.000.",
        "Full thread 0.500 to 11.000 from the back face (x 21.000 to 31.500).",
        "Internal thread from the front: M8.05x0.55",
        "Full thread 4.600 to 11.750 from the finished front face (x 4.600 to 11.750).",
        "right hand, 1 start. Pitch 0.550, lead 0.550.",
        "no approval",
    ] {
        assert!(all.contains(wanted), "{wanted}\n{all}");
    }
    let shaped = geometry(&section::shaped());
    let all: Vec<&str> = words(&shaped).iter().map(|text| text.words.as_str()).collect();
    assert!(all.join(" ").contains("3 starts. Pitch 0.800, lead 2.400."), "{all:?}");
}

/// Words stand below the axis, under one another, none in another's room.
#[test]
fn words_are_clear_of_the_paths_and_of_each_other() {
    for section in all() {
        let drawing = geometry(&section);
        let rooms: Vec<[Point; 2]> = words(&drawing).iter().map(|text| text.corners()).collect();
        assert!(rooms[0][1].y < 0.0, "{}", section.name);
        assert!(rooms.windows(2).all(|pair| pair[1][1].y < pair[0][0].y), "{}", section.name);
    }
}

/// Flag 1 of an LWPOLYLINE is closed, $PDMODE says how a POINT is shown. Source: DXF reference.
#[test]
fn the_file_holds_closed_polylines_points_and_words() {
    for section in all() {
        let bytes = profile_dxf(&section).expect("written");
        assert_eq!(bytes, profile_dxf(&section).expect("written"));
        let text = std::str::from_utf8(&bytes).expect("text");
        assert!(text.is_ascii() && text.contains("$PDMODE") && !text.contains("-0.0\n"));
        let file = dxf::Drawing::load(&mut bytes.as_slice()).expect("a readable file");
        let drawing = geometry(&section);
        assert_eq!(file.entities().count(), drawing.entities.len());
        for (read, drawn) in file.entities().zip(&drawing.entities) {
            assert_eq!(read.common.layer, drawn.layer.name());
            match (&read.specific, &drawn.shape) {
                (EntityType::LwPolyline(chain), Shape::Polyline(path)) => {
                    assert!(chain.is_closed());
                    let bulges = chain.vertices.iter().map(|v| v.bulge);
                    let near = |(a, b): (f64, Segment)| (a - b.bulge).abs() < 1e-11;
                    assert_eq!(chain.vertices.len(), path.segments().len());
                    assert!(bulges.zip(path.segments()).all(near));
                }
                (EntityType::ModelPoint(point), Shape::Point(at)) => {
                    assert_eq!((point.location.x, point.location.y), (at.x, at.y));
                }
                (EntityType::Text(_), Shape::Text(_)) => {}
                other => panic!("{other:?}"),
            }
        }
    }
}
