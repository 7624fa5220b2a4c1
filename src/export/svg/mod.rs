//! A sheet as SVG 1.1 that stands alone: no font, style sheet or picture from elsewhere. Letters
//! are shapes of the font that this program carries; the words lie over them unseen, to be found,
//! copied and read aloud.

mod letters;
mod value;

use std::fmt::Write as _;

use crate::drawing::Sheet;
use crate::drawing::{Layer, LineKind, Polyline, Shape};
use letters::Letters;
use value::{escaped, list, number, place};

/// The picture as text. One user unit is one millimetre of the part; width and height are those
/// on paper.
pub fn write(sheet: &Sheet) -> String {
    let [low, high] = sheet.area;
    let (left, top) = (low.x, -high.y);
    let (width, height) = (high.x - low.x, high.y - low.y);
    let view = [left, top, width, height].map(number);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" \
         xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{}mm\" height=\"{}mm\" \
         viewBox=\"{}\" role=\"graphics-document document\" xml:lang=\"en\">\n",
        number(width * sheet.scale),
        number(height * sheet.scale),
        view.join(" ")
    );
    let [title, about] = [&sheet.title, &sheet.description].map(|words| escaped(words));
    let [x, y, w, h] = &view;
    // Writing to a String can't fail.
    let _ = writeln!(svg, "<title>{title}</title>");
    let _ = writeln!(svg, "<desc>{about}</desc>");
    let _ = writeln!(svg, "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>");
    let letters = Letters::new();
    letters.define(&mut svg, &sheet.drawing);
    for layer in sheet.drawing.layers() {
        group(&mut svg, &letters, sheet, layer);
    }
    svg.push_str("</svg>\n");
    svg
}

/// One layer: a group with its line, and its shapes in it.
fn group(svg: &mut String, letters: &Letters, sheet: &Sheet, layer: Layer) {
    let line = layer.line();
    let _ = write!(
        svg,
        "<g class=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
        layer.name(),
        layer.colour(),
        number(line.width() / sheet.scale)
    );
    match dashes(&line.pattern(), sheet.scale) {
        Some(dashes) => svg.push_str(&dashes),
        None => svg.push_str(" stroke-linecap=\"round\""),
    }
    svg.push_str(">\n");
    for entity in sheet.drawing.entities.iter().filter(|e| e.layer == layer) {
        shape(svg, letters, &entity.shape, line, sheet.scale);
    }
    svg.push_str("</g>\n");
}

/// A pattern on paper as an attribute.
fn dashes(pattern: &[f64], scale: f64) -> Option<String> {
    let lengths: Vec<String> = pattern.iter().map(|length| number(length / scale)).collect();
    (!lengths.is_empty()).then(|| format!(" stroke-dasharray=\"{}\"", lengths.join(" ")))
}

fn shape(svg: &mut String, letters: &Letters, shape: &Shape, line: LineKind, scale: f64) {
    let _ = match shape {
        Shape::Line([a, b]) => {
            let [x1, y1] = place(*a);
            let [x2, y2] = place(*b);
            let length = libm::hypot(b.x - a.x, b.y - a.y);
            let dashes = dashes(&line.fitted(length * scale), scale).unwrap_or_default();
            writeln!(svg, "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"{dashes}/>")
        }
        Shape::Polyline(chain) if chain.segments().all(|s| s.bulge == 0.0) => {
            let kind = if chain.is_closed() { "polygon" } else { "polyline" };
            writeln!(svg, "<{kind} points=\"{}\"/>", list(chain.points()))
        }
        Shape::Polyline(chain) => writeln!(svg, "<path d=\"{}\"/>", path(chain)),
        // No length and round ends: a dot as wide as the line (SVG 1.1, 11.4).
        Shape::Point(at) => writeln!(svg, "<path d=\"M{} h0\"/>", place(*at).join(",")),
        Shape::Triangle(points) => {
            let points = list(points);
            writeln!(svg, "<polygon points=\"{points}\" fill=\"#000\" stroke=\"none\"/>")
        }
        Shape::Area(corners, shade) => {
            let (points, fill) = (list(corners), shade.colour());
            writeln!(svg, "<polygon points=\"{points}\" fill=\"{fill}\" stroke=\"none\"/>")
        }
        Shape::Text(text) => letters.write(svg, text),
        Shape::Dimension(dimension) => {
            for part in &dimension.picture {
                self::shape(svg, letters, part, line, scale);
            }
            letters.write(svg, &dimension.text)
        }
    };
}

/// A chain with arcs: lines to (L) and arcs to (A) each point (SVG 1.1, 8.3). An arc that turns
/// left on the drawing turns against SVG's positive angle, for its y grows downwards.
fn path(chain: &Polyline) -> String {
    let first = chain.points().first().map(|p| format!("M{}", place(*p).join(",")));
    let parts = chain.segments().map(|segment| {
        let end = place(segment.to).join(",");
        match segment.radius() {
            None => format!("L{end}"),
            Some(radius) => {
                let r = number(radius);
                let large = u8::from(segment.bulge.abs() > 1.0);
                let sweep = u8::from(segment.bulge < 0.0);
                format!("A{r},{r} 0 {large} {sweep} {end}")
            }
        }
    });
    let end = chain.is_closed().then(|| "Z".to_owned());
    first.into_iter().chain(parts).chain(end).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Point, Segment};

    /// Source: SVG 1.1, 8.3.8: flag 1 draws in the direction of growing angles, with y downwards
    /// clockwise: the way an arc turns right on the drawing.
    #[test]
    fn arcs_turn_the_way_they_are_drawn() {
        let (from, to) = (Point::new(0.0, 5.0), Point::new(2.0, 5.0));
        let arc = |bulge| path(&Polyline::of([Segment { from, to, bulge }]));
        assert_eq!(arc(-1.0), "M0,-5 A1,1 0 0 1 2,-5");
        assert_eq!(arc(1.0), "M0,-5 A1,1 0 0 0 2,-5");
        assert_eq!(arc(0.0), "M0,-5 L2,-5");
        let half = [Segment { from, to, bulge: -1.0 }, Segment::line(to, from)];
        assert_eq!(path(&Polyline::closed(half)), "M0,-5 A1,1 0 0 1 2,-5 L0,-5 Z");
    }
}
