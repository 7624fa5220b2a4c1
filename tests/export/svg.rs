//! `half-section.svg`: well formed, alone, legible.

use sectionwright::drawing::half_section::{geometry, sheet};
use sectionwright::drawing::{Layer, Point, Shape};
use sectionwright::export::{half_section_dxf, half_section_svg};
use sectionwright::section::{Depth, Section};

use crate::common::{mm, section};
use proptest::prelude::*;

/// The tags of an XML text in their order, without its words: "g", "/g", "line/".
fn tags(xml: &str) -> Vec<String> {
    let mut tags = Vec::new();
    for piece in xml.split('<').skip(1) {
        let (tag, words) = piece.split_once('>').expect("a tag that ends");
        assert_eq!(tag.matches('"').count() % 2, 0, "quotes in <{tag}>");
        assert!(!words.contains('>'), "a bare > in {words}");
        for entity in words.split('&').skip(1) {
            let (name, _) = entity.split_once(';').expect("an entity that ends");
            assert!(["amp", "lt", "gt", "quot"].contains(&name), "&{name};");
        }
        let name = tag.split_whitespace().next().expect("a name").trim_end_matches('/');
        tags.push(format!("{name}{}", if tag.ends_with('/') { "/" } else { "" }));
    }
    tags
}

#[test]
fn every_tag_is_closed_in_its_turn() {
    for section in section::all() {
        let svg = half_section_svg(&section);
        let mut open = Vec::new();
        for tag in tags(&svg) {
            if let Some(name) = tag.strip_prefix('/') {
                assert_eq!(open.pop().as_deref(), Some(name), "{}", section.name);
            } else if !tag.ends_with('/') {
                open.push(tag);
            }
        }
        assert!(open.is_empty(), "{}: {open:?}", section.name);
        assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\""));
    }
}

#[test]
fn it_stands_alone_and_is_the_same_each_time() {
    for section in section::all() {
        let svg = half_section_svg(&section);
        assert_eq!(svg, half_section_svg(&section));
        for outside in ["url(", "@import", "<script", "<style", "<image"] {
            assert!(!svg.contains(outside), "{outside}");
        }
        for target in svg.split("href=\"").skip(1) {
            let id = target.strip_prefix('#').expect("a target in the file").split('"').next();
            let id = format!("id=\"{}\"", id.unwrap());
            assert_eq!(svg.matches(&id).count(), 1, "{id}");
        }
        for bad in ["NaN", "inf", "\"-0\""] {
            assert!(!svg.contains(bad), "{}: {bad}", section.name);
        }
    }
}

#[test]
fn names_are_shown_as_they_are() {
    let svg = half_section_svg(&section::relieved());
    assert!(svg.contains("Waisted, &lt;relief&gt; &amp; pilot</text>"));
    assert!(svg.contains("M10x0.75"));
}

/// Every letter but the spaces is drawn, and every word stands in the file to be found: none of it
/// seen, for its font is unknown.
#[test]
fn words_are_shapes_and_words() {
    for section in section::all() {
        let svg = half_section_svg(&section);
        let mut shown = 0;
        for entity in &sheet(&section).drawing.entities {
            let Shape::Text(text) = &entity.shape else { continue };
            let words = text.words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
            assert!(svg.contains(&format!(">{words}</text>")), "{words}");
            shown += text.words.chars().filter(|letter| *letter != ' ').count();
        }
        assert_eq!(svg.matches("<use ").count(), shown, "{}", section.name);
        assert_eq!(svg.matches("<text ").count(), svg.matches("fill-opacity=\"0\"").count());
    }
}

/// What is measured in the DXF and what is seen in the SVG is the same geometry; the sheet's axis
/// goes on beyond the part.
#[test]
fn the_picture_holds_the_whole_geometry() {
    for section in section::all() {
        let (drawn, seen) = (geometry(&section), sheet(&section).drawing);
        for entity in drawn.entities.iter().filter(|e| e.layer != Layer::Axis) {
            assert!(seen.entities.contains(entity), "{}: {entity:?}", section.name);
        }
    }
}

#[test]
fn no_words_lie_over_others_or_over_the_part() {
    section::all().iter().for_each(words_are_apart);
}

fn words_are_apart(section: &Section) {
    let drawing = sheet(section).drawing;
    let boxes: Vec<([Point; 2], &str)> = drawing
        .entities
        .iter()
        .filter_map(|e| match &e.shape {
            Shape::Text(text) => Some((text.corners(), text.words.as_str())),
            _ => None,
        })
        .collect();
    let apart = |[a, b]: [Point; 2], [c, d]: [Point; 2]| {
        b.x <= c.x || d.x <= a.x || b.y <= c.y || d.y <= a.y
    };
    let part = geometry(section).extents().expect("something is drawn");
    for (n, (room, words)) in boxes.iter().enumerate() {
        assert!(apart(*room, part), "{}: {words} lies over the part", section.name);
        for (other, beside) in &boxes[n + 1..] {
            assert!(apart(*room, *other), "{}: {words} over {beside}", section.name);
        }
    }
}

/// A letter for each of the five that every section here has, from front to back.
#[test]
fn bores_are_lettered_from_the_front() {
    for section in section::all() {
        let drawing = sheet(&section).drawing;
        let letters = drawing.entities.iter().filter_map(|e| match &e.shape {
            Shape::Text(text) if text.words.len() == 1 && text.at.y > 0.0 => {
                Some((text.at.x, text.words.clone()))
            }
            _ => None,
        });
        let mut letters: Vec<(f64, String)> = letters.collect();
        letters.sort_by(|a, b| a.0.total_cmp(&b.0));
        let order: String = letters.into_iter().map(|l| l.1).collect();
        assert_eq!(order, "ABCDE", "{}", section.name);
    }
}

/// The collar (8.7) rests on a flat floor, or in a 60 degree cone where that is as wide as it is:
/// from 8.9 that takes 0.1 / tan 30 = 0.173 (plane geometry).
#[test]
fn the_unit_sits_where_its_collar_touches() {
    let front_of_unit = |section: &Section| {
        let drawing = sheet(section).drawing;
        let mates = drawing.entities.iter().filter(|e| e.layer == Layer::Mate);
        mates.flat_map(|e| e.shape.points().to_vec()).fold(f64::INFINITY, |x, p| p.x.min(x))
    };
    // The collar is 1.1 thick; the sample of the line in the table begins at 0.
    let (flat, cone) = (section::crowded(), section::drilled());
    assert!((front_of_unit(&flat) - (0.4 - 1.1)).abs() < 1e-12);
    let seat = 0.9 + 0.1 / libm::tan(30.0_f64.to_radians());
    assert!((front_of_unit(&cone) - (seat - 1.1)).abs() < 1e-12);
    assert!(half_section_svg(&cone).contains("demo unit, M8.05x0.55, seat at 1.07"));
    assert!(half_section_svg(&section::r1()).contains("demo unit, M8.05x0.55, seat at 1.20"));
}

/// Where tools end and how long things are must not matter: depths down to a tenth apart, parts
/// of 8 to 90 mm, names of any length.
fn any_section() -> impl Strategy<Value = Section> {
    let depths = (0.1..3.0_f64, 0.1..6.0_f64, 0.6..9.0_f64, 0.0..3.0_f64);
    // What lies behind the tap drill: a drill that goes deeper than the part is a fault.
    let rest = 0.1..70.0_f64;
    (rest, 3.0..20.0_f64, depths, "[A-ZØ<& ]{0,90}", 0..5_usize).prop_map(
        |(rest, tenon, (recess, clearance, thread, beyond), name, base)| {
            let grip = (recess + clearance + thread + beyond + rest - tenon).max(2.0);
            let mut section = section::all().swap_remove(base);
            let from = recess + clearance;
            section.name = name;
            section.grip.runs = vec![section::run(11.4, grip)];
            section.tenon.length = mm(tenon);
            section.tenon.thread.from = mm(grip);
            section.tenon.thread.to = mm(grip + tenon);
            section.tenon.relief = None;
            section.tenon.pilot = None;
            section.bores[0].depth = Depth::To(mm(recess));
            section.bores[1].depth = Depth::To(mm(from));
            section.unit_thread.from = mm(from);
            section.unit_thread.to = mm(from + thread);
            section.bores[2].depth = Depth::To(mm(from + thread + beyond));
            section
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn any_section_is_drawn_legibly_and_to_size(section in any_section()) {
        words_are_apart(&section);
        let [low, high] = geometry(&section).extents().expect("something is drawn");
        prop_assert_eq!((low.x, high.x), (0.0, section.length().as_mm()));
        prop_assert_eq!((low.y, high.y), (-5.7, 5.7));
        let svg = half_section_svg(&section);
        prop_assert!(!svg.contains("NaN") && !svg.contains("inf"));
        prop_assert!(half_section_dxf(&section).is_ok());
    }
}
