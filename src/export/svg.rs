//! A sheet as SVG 1.1 that stands alone: no font, style sheet or picture from elsewhere.

use std::fmt::Write as _;

use super::drawing::{Anchor, CAPITAL_PER_EM, Layer, Point, Polyline, Reads, Shape, Text};
use super::half_section::Sheet;

/// Decimals of a coordinate: a tenth of a micrometre of the part, which no screen shows. Fewer
/// would bend the slightest tapers, more only fill the file.
const DECIMALS: usize = 4;

/// The picture as text. One user unit is one millimetre of the part; width and height are those
/// on paper.
pub fn write(sheet: &Sheet) -> String {
    let [low, high] = sheet.area;
    let (left, top) = (low.x, -high.y);
    let (width, height) = (high.x - low.x, high.y - low.y);
    let view = [left, top, width, height].map(number);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" \
         viewBox=\"{}\" role=\"img\">\n",
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
    for layer in sheet.drawing.layers() {
        group(&mut svg, sheet, layer);
    }
    svg.push_str("</svg>\n");
    svg
}

/// One layer: a group with its line, and its shapes in it.
fn group(svg: &mut String, sheet: &Sheet, layer: Layer) {
    let line = layer.line();
    let _ = write!(
        svg,
        "<g class=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
        layer.name(),
        layer.colour(),
        number(line.width() / sheet.scale)
    );
    let pattern: Vec<f64> = line.pattern().iter().map(|size| size / sheet.scale).collect();
    match dashes(&pattern) {
        Some(dashes) => svg.push_str(&dashes),
        None => svg.push_str(" stroke-linecap=\"round\""),
    }
    svg.push_str(">\n");
    for entity in sheet.drawing.entities.iter().filter(|e| e.layer == layer) {
        shape(svg, &entity.shape, &pattern);
    }
    svg.push_str("</g>\n");
}

fn dashes(pattern: &[f64]) -> Option<String> {
    let lengths: Vec<String> = pattern.iter().map(|length| number(*length)).collect();
    (!lengths.is_empty()).then(|| format!(" stroke-dasharray=\"{}\"", lengths.join(" ")))
}

/// The pattern, stretched so that a line of this length begins and ends with a whole dash.
fn fitted(pattern: &[f64], length: f64) -> Vec<f64> {
    let period: f64 = pattern.iter().sum();
    let dash = pattern.first().copied().unwrap_or(0.0);
    let count = ((length - dash) / period).round().max(1.0);
    let factor = length / (count * period + dash);
    pattern.iter().map(|size| size * factor).collect()
}

fn shape(svg: &mut String, shape: &Shape, pattern: &[f64]) {
    let _ = match shape {
        Shape::Line([a, b]) => {
            let [x1, y1] = place(*a);
            let [x2, y2] = place(*b);
            let length = ((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y)).sqrt();
            let dashes = dashes(&fitted(pattern, length)).unwrap_or_default();
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
        Shape::Text(text) => words(svg, text),
        Shape::Dimension(dimension) => {
            for part in &dimension.picture {
                self::shape(svg, part, pattern);
            }
            words(svg, &dimension.text)
        }
    };
}

fn words(svg: &mut String, text: &Text) -> std::fmt::Result {
    let [x, y] = place(text.at);
    let size = number(text.height / CAPITAL_PER_EM);
    let anchor = match text.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let turn = match text.reads {
        Reads::FromBelow => String::new(),
        Reads::FromRight => format!(" transform=\"rotate(-90 {x} {y})\""),
    };
    writeln!(
        svg,
        "<text x=\"{x}\" y=\"{y}\"{turn} font-size=\"{size}\" text-anchor=\"{anchor}\" \
         font-family=\"sans-serif\" fill=\"#000\" stroke=\"none\">{}</text>",
        escaped(&text.words)
    )
}

/// SVG's y grows downwards.
fn place(point: Point) -> [String; 2] {
    [number(point.x), number(-point.y)]
}

fn list(points: &[Point]) -> String {
    let pairs: Vec<String> = points.iter().map(|p| place(*p).join(",")).collect();
    pairs.join(" ")
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

/// A number with at most [`DECIMALS`] decimals, without trailing zeros, and never -0.
fn number(value: f64) -> String {
    let fixed = format!("{value:.DECIMALS$}");
    let short = fixed.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// Words as XML 1.0 takes them; what it can't hold at all becomes the replacement character.
fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\t' | '\n' | '\r' => text.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => text.push('\u{fffd}'),
            other => text.push(other),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::drawing::Segment;

    #[test]
    fn numbers_are_short_and_have_no_minus_zero() {
        let cases =
            [(-0.0, "0"), (-0.000_01, "0"), (10.0, "10"), (0.1 + 0.2, "0.3"), (-1.5, "-1.5")];
        for (value, text) in cases {
            assert_eq!(number(value), text);
        }
        assert_eq!(number(100.0), "100");
    }

    #[test]
    fn a_fitted_pattern_begins_and_ends_with_a_dash() {
        let pattern = [6.0, 0.75, 0.125, 0.75];
        for length in [5.0, 20.0, 33.3, 160.0] {
            let fitted = fitted(&pattern, length);
            let period: f64 = fitted.iter().sum();
            let left = (length - fitted[0]) / period;
            assert!((left - left.round()).abs() < 1e-9 && left > 0.5, "{length}: {left}");
            assert!((fitted[1] / fitted[0] - pattern[1] / pattern[0]).abs() < 1e-12);
        }
        assert!(fitted(&[], 3.0).is_empty());
    }

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

    /// XML 1.0 (5th ed.) 2.2 and 2.4.
    #[test]
    fn words_can_not_break_the_file() {
        assert_eq!(escaped("a<b> & \"c\""), "a&lt;b&gt; &amp; &quot;c&quot;");
        assert_eq!(escaped("a\u{1}b\nc"), "a\u{fffd}b c");
    }
}
