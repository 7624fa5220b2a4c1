//! Words: letters as shapes, each defined once and used where it stands, and over them the words
//! themselves, unseen.

use std::collections::BTreeSet;
use std::fmt::{self, Write as _};

use super::value::{escaped, number, place, rounded};
use crate::drawing::font::{CAPITAL_PER_EM, Face, Outline, Step};
use crate::drawing::{Anchor, Drawing, Reads, Shape, Text};

/// Decimals of the size of a font's unit in mm: the widest line of words on an A3 sheet is some
/// 300 000 units long, and its end must be right to the micrometre.
const UNIT_DECIMALS: usize = 9;

/// The letters of a file.
pub struct Letters {
    face: Face,
}

impl Letters {
    /// Of the font that this program carries.
    pub fn new() -> Self {
        Self { face: Face::new() }
    }

    /// Defines every letter of a drawing, y downwards, in the font's units.
    pub fn define(&self, svg: &mut String, drawing: &Drawing) {
        let mut used = BTreeSet::new();
        for entity in &drawing.entities {
            self.collect(&mut used, &entity.shape);
        }
        if used.is_empty() {
            return;
        }
        svg.push_str("<defs>\n");
        for glyph in used {
            let path = path(&self.face.outline(glyph));
            // Writing to a String can't fail.
            let _ = writeln!(svg, "<path id=\"g{glyph}\" d=\"{path}\"/>");
        }
        svg.push_str("</defs>\n");
    }

    /// The glyphs of a shape that show something.
    fn collect(&self, used: &mut BTreeSet<u32>, shape: &Shape) {
        match shape {
            Shape::Text(text) => {
                let letters = self.face.line(&text.words).letters.into_iter();
                let shown = letters.map(|letter| letter.glyph);
                used.extend(shown.filter(|glyph| !self.face.outline(*glyph).is_empty()));
            }
            Shape::Dimension(dimension) => {
                let parts = dimension.picture.iter();
                parts.for_each(|part| self.collect(used, part));
                self.collect(used, &Shape::Text(dimension.text.clone()));
            }
            Shape::Line(_)
            | Shape::Polyline(_)
            | Shape::Point(_)
            | Shape::Triangle(_)
            | Shape::Area(..) => {}
        }
    }

    /// Words at their place.
    pub fn write(&self, svg: &mut String, text: &Text) -> fmt::Result {
        let line = self.face.line(&text.words);
        let size = text.height / CAPITAL_PER_EM;
        let [x, y] = place(text.at);
        let turn = match text.reads {
            Reads::FromBelow => "",
            Reads::FromRight => " rotate(-90)",
        };
        let unit = rounded(size / self.face.em(), UNIT_DECIMALS);
        let before = text.anchor.before(line.width);
        writeln!(
            svg,
            "<g transform=\"translate({x} {y}){turn} scale({unit})\" fill=\"#000\" \
             stroke=\"none\" aria-hidden=\"true\">"
        )?;
        for letter in &line.letters {
            if !self.face.outline(letter.glyph).is_empty() {
                let x = number((letter.x - before) * self.face.em());
                write!(svg, "<use xlink:href=\"#g{}\" x=\"{x}\"/>", letter.glyph)?;
            }
        }
        let around = match text.reads {
            Reads::FromBelow => String::new(),
            Reads::FromRight => format!(" transform=\"rotate(-90 {x} {y})\""),
        };
        let anchor = match text.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        writeln!(
            svg,
            "</g>\n<text x=\"{x}\" y=\"{y}\"{around} font-size=\"{}\" text-anchor=\"{anchor}\" \
             textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" font-family=\"sans-serif\" \
             fill=\"#000\" fill-opacity=\"0\" stroke=\"none\">{}</text>",
            number(size),
            number(line.width * size),
            escaped(&line.words)
        )
    }
}

/// An outline as path data, relative for shortness (SVG 1.1, 8.3).
fn path(outline: &Outline) -> String {
    let mut data = String::new();
    let (mut at, mut start) = ([0.0; 2], [0.0; 2]);
    for step in &outline.0 {
        let from = |[x, y]: [f64; 2]| format!("{} {}", number(x - at[0]), number(at[1] - y));
        let (part, to) = match *step {
            Step::Start(to) => (format!("m{}", from(to)), to),
            Step::Line(to) => (format!("l{}", from(to)), to),
            Step::Parabola(a, to) => (format!("q{} {}", from(a), from(to)), to),
            Step::Cubic(a, b, to) => (format!("c{} {} {}", from(a), from(b), from(to)), to),
            Step::Close => ("z".to_owned(), start),
        };
        if let Step::Start(to) = *step {
            start = to;
        }
        data += &part;
        at = to;
    }
    data.replace(" -", "-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Layer, Point};

    /// SVG 1.1, 8.3: small letters count from the point before, and after z from where the loop
    /// began.
    #[test]
    fn outlines_are_written_from_point_to_point() {
        let outline = Outline(vec![
            Step::Start([100.0, 20.0]),
            Step::Line([90.0, 20.0]),
            Step::Parabola([90.0, 40.5], [100.0, 50.0]),
            Step::Close,
            Step::Start([110.0, 10.0]),
            Step::Cubic([110.0, 0.0], [120.0, 0.0], [120.0, 10.0]),
            Step::Close,
        ]);
        let data = "m100-20l-10 0q0-20.5 10-30zm10 10c0 10 10 10 10 0z";
        assert_eq!(path(&outline), data);
    }

    /// Three words of three letters: each letter once defined, nine times used.
    #[test]
    fn a_letter_is_defined_once_and_used_where_it_stands() {
        let mut drawing = Drawing::default();
        for anchor in [Anchor::Start, Anchor::Middle, Anchor::End] {
            let text = Text::new(Point::new(1.0, 2.0), 3.5, anchor, "Ø 12");
            drawing.text(Layer::Note, text.turned());
        }
        let letters = Letters::new();
        let mut svg = String::new();
        letters.define(&mut svg, &drawing);
        assert_eq!(svg.matches("<path id=").count(), 3, "a space is not seen");
        for entity in &drawing.entities {
            let Shape::Text(text) = &entity.shape else { panic!("words alone") };
            letters.write(&mut svg, text).unwrap();
        }
        assert_eq!(svg.matches("<use ").count(), 9);
        assert_eq!(svg.matches("translate(1 -2) rotate(-90) scale(").count(), 3);
        assert_eq!(svg.matches(">Ø 12</text>").count(), 3);
    }

    /// 2 * 1303 + 1612 + 651 units: digits, diameter sign and space of the font's hmtx table.
    #[test]
    fn the_anchor_is_where_it_is_said_to_be() {
        let letters = Letters::new();
        let first = |anchor: Anchor| {
            let mut svg = String::new();
            let text = Text::new(Point::new(0.0, 0.0), 1.0, anchor, "Ø 12");
            letters.write(&mut svg, &text).unwrap();
            let uses = svg.split(" x=\"").nth(1).unwrap();
            uses.split('"').next().unwrap().parse::<f64>().unwrap()
        };
        let width = 4869.0;
        assert_eq!(first(Anchor::Start), 0.0);
        assert_eq!(first(Anchor::Middle), -width / 2.0);
        assert_eq!(first(Anchor::End), -width);
    }
}
