//! Dimensions of a drawing made by hand, in its DXF: read back by the `dxf` crate here, by another
//! reader in the judges' tests.
//!
//! The part: two steps, Ø10 to x = 12 and Ø14 to x = 20.125, a hole from the front that ends in a
//! drill's cone, a countersink from the back. Values: worked out by hand beside each.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use dxf::entities::{DimensionBase, EntityType};
use dxf::enums::{AttachmentPoint, DimensionType, NonAngularUnits, UnitFormat};
use sectionwright::drawing::{
    Anchor, Dimension, Drawing, Layer, Measure, Point, Polyline, Segment, Shape, Text,
};
use sectionwright::export::dxf as writer;

/// Height of the dimensions' words.
const HEIGHT: f64 = 0.7;
/// tan 59°: half a drill's included angle of 118°. Source: a table of tangents, from memory.
const TAN_59: f64 = 1.664_279_482_350_517_4;
/// tan 22.5° = sqrt 2 - 1: the bulge of a quarter circle.
const QUARTER: f64 = std::f64::consts::SQRT_2 - 1.0;

fn p(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A dimension's place: a point of its line, and its words.
#[derive(Clone, Copy)]
struct Place {
    line: Point,
    text: Point,
    turned: bool,
}

fn below(x: f64, y: f64) -> Place {
    Place { line: p(x, y), text: p(x, y + 0.25), turned: false }
}

fn right(x: f64, y: f64) -> Place {
    Place { line: p(x, y), text: p(x - 0.25, y), turned: true }
}

/// An arrowhead at a tip that points along a direction of length 1.
fn arrow(tip: Point, [dx, dy]: [f64; 2]) -> Shape {
    let [long, wide] = [HEIGHT, HEIGHT / 6.0];
    let side = |s: f64| p(tip.x - long * dx - s * wide * dy, tip.y - long * dy + s * wide * dx);
    Shape::Triangle([tip, side(1.0), side(-1.0)])
}

fn picture(measure: Measure, line: Point) -> Vec<Shape> {
    let spanned = |a: Point, b: Point, from: [Point; 2], way: [f64; 2]| {
        let [dx, dy] = way;
        let lines = [[a, b], [from[0], a], [from[1], b]];
        let lines = lines.into_iter().filter(|[a, b]| a != b).map(Shape::Line);
        lines.chain([arrow(a, [-dx, -dy]), arrow(b, way)]).collect()
    };
    match measure {
        Measure::Length { from, to } => {
            let way = [(to.x - from.x).signum(), 0.0];
            spanned(p(from.x, line.y), p(to.x, line.y), [from, to], way)
        }
        Measure::Diameter { at } => {
            let other = at.mirrored();
            let way = [0.0, (other.y - at.y).signum()];
            spanned(p(line.x, at.y), p(line.x, other.y), [at, other], way)
        }
        Measure::Radius { centre, on } => {
            let radius = measure.value();
            let way = [(on.x - centre.x) / radius, (on.y - centre.y) / radius];
            vec![Shape::Line([centre, on]), arrow(on, way)]
        }
        Measure::Angle { apex, on } => {
            // The arc through a point of the line that lies on the cone's side.
            let share = (line.x - apex.x) / (on.x - apex.x);
            let end = p(line.x, apex.y + share * (on.y - apex.y));
            let turn = libm::tan((measure.value() / 4.0).to_radians());
            let bulge = if (end.y < apex.y) == (end.x > apex.x) { turn } else { -turn };
            let arc = Segment { from: end, to: p(end.x, 2.0 * apex.y - end.y), bulge };
            vec![Shape::Polyline(Polyline::of([arc]))]
        }
    }
}

/// Adds a dimension in millimetres.
fn add(drawing: &mut Drawing, measure: Measure, place: Place, words: &str, decimals: usize) {
    add_times(drawing, measure, place, words, decimals, 1.0);
}

fn add_times(
    drawing: &mut Drawing,
    measure: Measure,
    place: Place,
    words: &str,
    decimals: usize,
    factor: f64,
) {
    let Place { line, text, turned } = place;
    let text = Text::new(text, HEIGHT, Anchor::Middle, "");
    let mut dimension = Dimension {
        measure,
        line,
        words: words.to_owned(),
        decimals,
        factor,
        text: if turned { text.turned() } else { text },
        picture: picture(measure, line),
    };
    dimension.text.words = dimension.shown();
    drawing.dimension(dimension);
}

/// Every kind of dimension, upright and turned.
fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    let step = vec![p(0.0, 0.0), p(0.0, 5.0), p(12.0, 5.0), p(12.0, 7.0), p(20.125, 7.0)];
    let outline = Polyline::straight([step, vec![p(20.125, 0.0)]].concat());
    drawing.polyline(Layer::Outline, outline);
    let countersink = vec![p(20.125, 3.5), p(16.625, 0.0)];
    // The arcs' extents are known: they end where their circles are outermost.
    let fillet = Segment { from: p(10.0, 5.0), to: p(12.0, 7.0), bulge: QUARTER };
    drawing.polyline(Layer::Bore, Polyline::straight(countersink));
    drawing.polyline(Layer::Bore, Polyline::of([fillet]));
    let drill = vec![p(0.0, 2.0 * TAN_59), p(4.0, 2.0 * TAN_59), p(6.0, 0.0)];
    drawing.polyline(Layer::Bore, Polyline::straight(drill));
    drawing.line(Layer::Axis, p(-1.0, 0.0), p(21.0, 0.0));

    let length = |to: Point| Measure::Length { from: p(0.0, 5.0), to };
    add(&mut drawing, length(p(12.0, 7.0)), below(6.0, 10.0), "<>", 2);
    add(&mut drawing, length(p(20.125, 7.0)), below(10.0, 13.0), "<> \u{b1}0.050", 3);
    let back = Measure::Length { from: p(20.125, 7.0), to: p(12.0, 7.0) };
    add(&mut drawing, back, Place { turned: true, ..below(16.0, 9.0) }, "<>", 4);
    let diameter = |x: f64, r: f64| Measure::Diameter { at: p(x, r) };
    add(&mut drawing, diameter(20.125, 7.0), right(24.0, 1.0), "\u{d8}<>", 3);
    add(
        &mut drawing,
        diameter(0.0, -5.0),
        Place { turned: false, ..right(-4.0, 1.0) },
        "\u{d8}<>",
        0,
    );
    // 9.525 mm is 3/8 in.
    add_times(&mut drawing, diameter(0.0, 4.7625), right(-8.0, 0.0), "\u{d8}<>", 4, 1.0 / 25.4);
    add(&mut drawing, diameter(20.125, 7.0), right(28.0, 0.0), "M14\u{d7}0.75-6g", 2);
    let radius = Measure::Radius { centre: p(10.0, 7.0), on: p(12.0, 7.0) };
    add(&mut drawing, radius, below(12.0, 7.0), "R<>", 1);
    // 3, 4, 5.
    let other = Measure::Radius { centre: p(32.0, 0.0), on: p(35.0, 4.0) };
    add(&mut drawing, other, right(34.0, 2.0), "R<>", 1);
    let drill = Measure::Angle { apex: p(6.0, 0.0), on: p(4.0, 2.0 * TAN_59) };
    add(&mut drawing, drill, below(3.0, -4.0), "<>\u{b0}", 0);
    let sink = Measure::Angle { apex: p(16.625, 0.0), on: p(20.125, 3.5) };
    add(&mut drawing, sink, right(22.0, -1.0), "<>\u{b0} \u{b1}0.5\u{b0}", 1);
    // Halfway between 3.12 and 3.13.
    let halfway = Measure::Length { from: p(0.0, -5.0), to: p(3.125, -5.0) };
    add(&mut drawing, halfway, below(1.5, -8.0), "<>", 2);
    // What formatted text takes for a command.
    let braced = Measure::Length { from: p(12.0, -7.0), to: p(20.0, -7.0) };
    add(&mut drawing, braced, below(16.0, -10.0), "{<>} a\\b as written", 2);
    drawing
}

fn written() -> Vec<u8> {
    writer::write(&drawing()).expect("written")
}

fn read() -> dxf::Drawing {
    dxf::Drawing::load(&mut written().as_slice()).expect("a readable file")
}

fn base(entity: &EntityType) -> Option<&DimensionBase> {
    match entity {
        EntityType::RotatedDimension(d) => Some(&d.dimension_base),
        EntityType::RadialDimension(d) => Some(&d.dimension_base),
        EntityType::AngularThreePointDimension(d) => Some(&d.dimension_base),
        _ => None,
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn the_drawing_is_left_for_the_judges() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("dxf");
    fs::create_dir_all(&folder).unwrap();
    assert_eq!(written(), written(), "the same bytes");
    fs::write(folder.join("dimensions.dxf"), written()).unwrap();
}

#[test]
fn each_is_drawn_once_by_a_block_of_its_own() {
    let (drawing, file) = (drawing(), read());
    assert_eq!(file.entities().count(), drawing.entities.len());
    let mut names = BTreeSet::new();
    for (entity, read) in drawing.entities.iter().zip(file.entities()) {
        let Shape::Dimension(dimension) = &entity.shape else { continue };
        assert_eq!(read.common.layer, Layer::Dimension.name());
        let base = base(&read.specific).expect("a DIMENSION");
        assert!(base.is_block_reference_referenced_by_this_block_only);
        assert!(names.insert(base.block_name.clone()), "{} is shown twice", base.block_name);
        let block = file.blocks().find(|b| b.name == base.block_name).expect("its block");
        assert!(block.is_anonymous());
        assert_eq!(block.entities.len(), dimension.picture.len() + 1);
        assert!(block.entities.iter().all(|e| e.common.layer == Layer::Dimension.name()));
        let Some(EntityType::Text(text)) = block.entities.last().map(|e| &e.specific) else {
            panic!("no words");
        };
        assert_eq!(plain(&text.value), in_dxf(dimension));
        assert_eq!(dimension.text.words, dimension.shown());
    }
    assert_eq!(names.len(), 13);
    assert_eq!(names.first().map(String::as_str), Some("*D1"));
}

/// A dimension's words, with the x that DXF has for the sign of multiplication.
fn in_dxf(dimension: &Dimension) -> String {
    dimension.shown().replace('\u{d7}', "x")
}

/// Words with the signs that their codes stand for.
fn plain(words: &str) -> String {
    words.replace("%%c", "\u{d8}").replace("%%p", "\u{b1}").replace("%%d", "\u{b0}")
}

/// A DIMENSION's words with the value by its style. Readers put R before a radius, a degree sign
/// behind an angle.
#[test]
fn its_style_gives_the_words_that_are_drawn() {
    let (drawing, file) = (drawing(), read());
    for (entity, read) in drawing.entities.iter().zip(file.entities()) {
        let Shape::Dimension(dimension) = &entity.shape else { continue };
        let base = base(&read.specific).expect("a DIMENSION");
        let style = file.dim_styles().find(|s| s.name == base.dimension_style_name);
        let style = style.expect("a style of its own");
        assert_eq!(style.dimension_unit_format, UnitFormat::Decimal);
        assert_eq!(style.dimension_non_angular_units, NonAngularUnits::Decimal);
        let angle = base.dimension_type == DimensionType::AngularThreePoint;
        let (value, decimals) = if angle {
            (base.actual_measurement.to_degrees(), style.angular_dimension_precision)
        } else {
            let factor = style.dimension_linear_measurement_scale_factor;
            (base.actual_measurement * factor, style.dimension_unit_tolerance_decimal_places)
        };
        let value = format!("{value:.*}", usize::try_from(decimals).unwrap());
        let value = match base.dimension_type {
            DimensionType::Radius => format!("R{value}"),
            DimensionType::AngularThreePoint => format!("{value}\u{b0}"),
            _ => value,
        };
        let words = plain(&base.text).replace("<>", &value);
        let words = words.replace("\\{", "{").replace("\\}", "}").replace("\\\\", "\\");
        assert_eq!(words, in_dxf(dimension));
        assert_eq!(base.attachment_point, AttachmentPoint::MiddleCenter);
        assert!(base.actual_measurement > 0.0);
    }
}

/// Only a value halfway between two shown ones is written out, for readers round it as they like.
#[test]
fn measured_words_follow_the_measure() {
    let file = read();
    let words: Vec<&str> =
        file.entities().filter_map(|e| base(&e.specific)).map(|b| b.text.as_str()).collect();
    let alone: Vec<&&str> = words.iter().filter(|w| !w.contains("<>")).collect();
    assert_eq!(alone, [&"M14x0.75-6g", &"3.12"]);
    assert_eq!(words[12], "\\{<>\\} a\\\\b as written");
}

/// Equal decimals, factor, height and way of reading are one style.
#[test]
fn a_style_is_written_once() {
    let file = read();
    let names = file.dim_styles().map(|s| s.name.as_str()).filter(|n| n.starts_with("dimension"));
    let names: BTreeSet<&str> = names.collect();
    // 2 along, 3 along, 4 along, 0 upright, 4 in inches, 1 upright, 1 along; 0 upright is the
    // drill's too.
    assert_eq!(names.len(), 7, "{names:?}");
    for style in file.dim_styles().filter(|s| s.name.starts_with("dimension")) {
        assert_eq!(style.dimensioning_text_height, HEIGHT);
        // ISO 129-1: along the line, but upright where the drawing has them so.
        let upright = style.dimension_text_inside_horizontal;
        assert_eq!(style.dimension_text_outside_horizontal, upright);
    }
}

#[test]
fn definition_points_are_those_of_the_part() {
    let file = read();
    let all: Vec<&EntityType> =
        file.entities().map(|e| &e.specific).filter(|e| base(e).is_some()).collect();
    let at = |p: &dxf::Point, x: f64, y: f64| near(p.x, x) && near(p.y, y) && p.z == 0.0;
    let EntityType::RotatedDimension(length) = all[0] else { panic!("{:?}", all[0]) };
    assert!(at(&length.definition_point_2, 0.0, 5.0) && at(&length.definition_point_3, 12.0, 7.0));
    assert!(at(&length.dimension_base.definition_point_1, 12.0, 10.0));
    assert_eq!(length.rotation_angle, 0.0);
    // Half a capital above the baseline.
    assert!(at(&length.dimension_base.text_mid_point, 6.0, 10.25 + HEIGHT / 2.0));
    let EntityType::RotatedDimension(across) = all[2] else { panic!("{:?}", all[2]) };
    assert_eq!(across.dimension_base.text_rotation_angle, 90.0);
    let EntityType::RotatedDimension(diameter) = all[4] else { panic!("{:?}", all[4]) };
    assert!(at(&diameter.definition_point_2, 0.0, 5.0));
    assert!(at(&diameter.definition_point_3, 0.0, -5.0));
    assert_eq!(diameter.rotation_angle, 90.0);
    assert_eq!(diameter.dimension_base.text_rotation_angle, 0.0);
    let EntityType::RadialDimension(radius) = all[8] else { panic!("{:?}", all[8]) };
    assert!(at(&radius.dimension_base.definition_point_1, 32.0, 0.0));
    assert!(at(&radius.definition_point_2, 35.0, 4.0));
    assert!(at(&radius.dimension_base.text_mid_point, 33.75 - HEIGHT / 2.0, 2.0));
    // A drill's cone opens to the left: turning left, its upper side comes first.
    let EntityType::AngularThreePointDimension(drill) = all[9] else { panic!("{:?}", all[9]) };
    assert!(at(&drill.definition_point_4, 6.0, 0.0));
    assert!(at(&drill.definition_point_2, 4.0, 2.0 * TAN_59));
    assert!(at(&drill.definition_point_3, 4.0, -2.0 * TAN_59));
    // 3, 4, 5: the arc goes through (3, -4), so its middle is 5 from the tip.
    assert!(at(&drill.dimension_base.definition_point_1, 1.0, 0.0));
    assert!(near(drill.dimension_base.actual_measurement, 118.0_f64.to_radians()));
    let EntityType::AngularThreePointDimension(sink) = all[10] else { panic!("{:?}", all[10]) };
    assert!(at(&sink.definition_point_2, 20.125, -3.5));
    assert!(at(&sink.definition_point_3, 20.125, 3.5));
}
