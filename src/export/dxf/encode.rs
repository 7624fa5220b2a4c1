//! Our drawing in the words of the `dxf` crate.

use dxf::entities::{
    Entity as DxfEntity, EntityType, Line, LwPolyline, ModelPoint, Solid, Text as DxfText,
};
use dxf::enums::{AcadVersion, DrawingUnits, HorizontalTextJustification, Units};
use dxf::tables::{Layer as DxfLayer, LineType};
use dxf::{Block, LwPolylineVertex, Point as DxfPoint};

use super::dimension::{self, Style};
use crate::drawing::{
    Anchor, Dimension, Drawing, Entity, Layer, LineKind, Point, Reads, Shape, Text,
};

/// The view on opening is this much higher than the drawing. Less, and its outline lies on the
/// window's rim; more, and it is small.
const VIEW_MARGIN: f64 = 1.2;
/// Width over height of the window that the view is made for; a narrower one shows less.
const VIEW_ASPECT: f64 = 1.5;
/// Patterns are drawn this much smaller than on paper ($LTSCALE): a part of 10 to 60 mm is looked
/// at and plotted some four times enlarged. At 1 the axis of a short part would be one dash;
/// much smaller, and dots run together.
const PATTERN_SCALE: f64 = 0.25;
/// How readers show a POINT ($PDMODE): a cross in a circle. As a dot, 0, it is lost on a line.
const POINT_MARK: i32 = 34;
/// The size of that mark in mm of the part ($PDSIZE). Greater, and it hides the corner that it
/// stands on; 0 is a share of the screen, which grows with every look at the whole.
const POINT_SIZE: f64 = 0.6;

pub fn encode(drawing: &Drawing) -> dxf::Drawing {
    let mut file = dxf::Drawing::new();
    file.header.version = AcadVersion::R2000;
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
    file.header.line_type_scale = PATTERN_SCALE;
    file.header.point_display_mode = POINT_MARK;
    file.header.point_display_size = POINT_SIZE;
    file.header.display_linewieght_in_model_and_layout_tab = true;
    if let Some(extents) = drawing.extents() {
        show(&mut file, extents);
    }
    let layers = drawing.layers();
    let mut kinds: Vec<LineKind> = layers.iter().map(|layer| layer.line()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    for kind in kinds.into_iter().filter(|kind| !kind.pattern().is_empty()) {
        file.add_line_type(line_type(kind));
    }
    for layer in layers {
        file.add_layer(DxfLayer {
            name: layer.name().to_owned(),
            line_type_name: line_type_name(layer.line()).to_owned(),
            ..DxfLayer::default()
        });
    }
    let mut styles: Vec<Style> = Vec::new();
    let mut blocks = 0;
    for Entity { layer, shape } in &drawing.entities {
        let drawn = shapes(shape).into_iter().map(|specific| on_layer(*layer, specific));
        let Shape::Dimension(measured) = shape else {
            drawn.for_each(|entity| {
                file.add_entity(entity);
            });
            continue;
        };
        blocks += 1;
        let block = format!("*D{blocks}");
        let style = style_of(measured, &mut styles, &mut file);
        let specific = dimension::entity(measured, &block, &style);
        // What is in the block lies on the layer of the dimension itself: on layer 0 some readers
        // would draw it with that layer's width.
        file.add_block(anonymous(block, drawn.collect()));
        file.add_entity(on_layer(*layer, specific));
    }
    file
}

/// The name of a dimension's style, which is added to the file where it is the first of it.
fn style_of(dimension: &Dimension, known: &mut Vec<Style>, file: &mut dxf::Drawing) -> String {
    let style = Style::of(dimension);
    let found = known.iter().position(|s| *s == style);
    let name = |index: usize| format!("dimension-{}", index + 1);
    if let Some(index) = found {
        return name(index);
    }
    let name = name(known.len());
    file.add_dim_style(style.entry(name.clone()));
    known.push(style);
    name
}

/// A block that readers do not offer to their users.
fn anonymous(name: String, entities: Vec<DxfEntity>) -> Block {
    let mut block = Block { name, layer: "0".to_owned(), entities, ..Block::default() };
    block.set_is_anonymous(true);
    block
}

/// Sets the drawing's extents, and the view that a reader opens with.
fn show(file: &mut dxf::Drawing, [low, high]: [Point; 2]) {
    file.header.minimum_drawing_extents = point(low);
    file.header.maximum_drawing_extents = point(high);
    file.header.minimum_drawing_limits = point(low);
    file.header.maximum_drawing_limits = point(high);
    let [width, height] = [high.x - low.x, high.y - low.y];
    for view in file.view_ports_mut() {
        view.view_center = DxfPoint::new(low.x + width / 2.0, low.y + height / 2.0, 0.0);
        view.view_height = height.max(width / VIEW_ASPECT) * VIEW_MARGIN;
        view.view_port_aspect_ratio = VIEW_ASPECT;
    }
}

/// Continuous lines are built into every reader under this name.
fn line_type_name(kind: LineKind) -> &'static str {
    if kind.pattern().is_empty() { "CONTINUOUS" } else { kind.name() }
}

/// Dashes are positive, gaps negative, in mm on paper.
fn line_type(kind: LineKind) -> LineType {
    let pattern = kind.pattern();
    let signed = |(n, length): (usize, &f64)| if n % 2 == 0 { *length } else { -length };
    LineType {
        name: kind.name().to_owned(),
        description: kind.name().replace('-', " "),
        element_count: pattern.len() as i32,
        total_pattern_length: pattern.iter().sum(),
        dash_dot_space_lengths: pattern.iter().enumerate().map(signed).collect(),
        ..LineType::default()
    }
}

fn on_layer(layer: Layer, specific: EntityType) -> DxfEntity {
    let mut entity = DxfEntity::new(specific);
    layer.name().clone_into(&mut entity.common.layer);
    entity
}

/// A shape as entities: the picture of a dimension is several, any other is one.
fn shapes(shape: &Shape) -> Vec<EntityType> {
    let one = match shape {
        Shape::Line([a, b]) => EntityType::Line(Line::new(point(*a), point(*b))),
        Shape::Polyline(chain) => {
            // A vertex's bulge is that of the way to the next one; the last of an open chain has
            // none.
            let bulges = chain.segments().map(|segment| segment.bulge).chain([0.0]);
            let vertex = |(p, bulge): (&Point, f64)| LwPolylineVertex {
                x: p.x,
                y: p.y,
                bulge,
                ..Default::default()
            };
            let vertices = chain.points().iter().zip(bulges).map(vertex).collect();
            let mut polyline = LwPolyline { vertices, ..LwPolyline::default() };
            polyline.set_is_closed(chain.is_closed());
            EntityType::LwPolyline(polyline)
        }
        Shape::Point(at) => EntityType::ModelPoint(ModelPoint::new(point(*at))),
        // A SOLID of three corners gives the third one twice.
        Shape::Triangle([a, b, c]) => EntityType::Solid(Solid {
            first_corner: point(*a),
            second_corner: point(*b),
            third_corner: point(*c),
            fourth_corner: point(*c),
            ..Solid::default()
        }),
        // A shade is for the eye: what is measured is the border.
        Shape::Area(corners, _) => {
            let vertex = |p: &Point| LwPolylineVertex { x: p.x, y: p.y, ..Default::default() };
            let vertices = corners.iter().map(vertex).collect();
            let mut border = LwPolyline { vertices, ..LwPolyline::default() };
            border.set_is_closed(true);
            EntityType::LwPolyline(border)
        }
        Shape::Text(text) => EntityType::Text(words(text)),
        Shape::Dimension(dimension) => {
            let words = EntityType::Text(words(&dimension.text));
            return dimension.picture.iter().flat_map(shapes).chain([words]).collect();
        }
    };
    vec![one]
}

fn words(text: &Text) -> DxfText {
    let justification = match text.anchor {
        Anchor::Start => HorizontalTextJustification::Left,
        Anchor::Middle => HorizontalTextJustification::Center,
        Anchor::End => HorizontalTextJustification::Right,
    };
    let rotation = match text.reads {
        Reads::FromBelow => 0.0,
        Reads::FromRight => 90.0,
    };
    DxfText {
        location: point(text.at),
        second_alignment_point: point(text.at),
        text_height: text.height,
        rotation,
        value: value(&text.words),
        horizontal_text_justification: justification,
        ..DxfText::default()
    }
}

/// Words as a TEXT holds them: its own codes for the signs that shape fonts have, an x for the sign
/// of multiplication (ISO 6410-1 and 129-1 take either); the crate writes other letters beyond
/// ASCII as `\U+` and four digits, which not every reader takes for a letter. A line break would
/// end the value and shift every group code behind it.
pub fn value(words: &str) -> String {
    let signs = words.replace('Ø', "%%c").replace('±', "%%p").replace('°', "%%d").replace('×', "x");
    signs.replace(|c: char| c.is_control(), " ")
}

/// A point of the plane.
pub fn point(p: Point) -> DxfPoint {
    DxfPoint::new(p.x, p.y, 0.0)
}
