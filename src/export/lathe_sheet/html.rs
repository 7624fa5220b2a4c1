//! The sheet as a page that stands alone: no script, no file beside it. On a narrow screen each
//! step is a card, on paper it is a table on two pages of A4.

use std::fmt::Write as _;

use super::content::{Block, Content, Line, Row, Table};
use crate::export::svg;

/// What a column is called; on a narrow screen it stands before its words.
const HEADS: [&str; 5] = ["tool", "face", "set", "check", "done"];

/// Size of type on paper at full size, in points: a tenth under that of the PDF's words, for a
/// browser's font and its bold letters may be wider. More, and the last lines fall on a third page.
const POINTS: f64 = 7.5;

/// The page's own style. Black on white; the type on paper is filled in.
const STYLE: &str = include_str!("sheet.css");

/// The page; `size` is the share of the full size of type with which it is two pages on paper.
pub fn write(content: &Content, size: f64) -> String {
    let title = escaped(&content.name);
    let style = STYLE.replace("POINTS", &format!("{:.2}pt", POINTS * size));
    let mut html = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}: sheet for the lathe</title>\n<style>\n{style}</style>\n</head>\n<body>\n"
    );
    head(&mut html, content);
    steps(&mut html, &content.blocks);
    back(&mut html, content);
    // Writing to a String can't fail.
    let _ = writeln!(html, "<footer>{}</footer>\n</body>\n</html>", escaped(&content.foot));
    html
}

fn head(html: &mut String, content: &Content) {
    let _ = writeln!(html, "<header>\n<h1>{}</h1>", escaped(&content.name));
    for line in &content.about {
        let _ = writeln!(html, "<p>{}</p>", escaped(line));
    }
    html.push_str("<ul class=\"first\">\n");
    for line in &content.first_cautions {
        let _ = writeln!(html, "<li>{}</li>", escaped(line));
    }
    html.push_str("</ul>\n</header>\n<section class=\"beside\">\n<figure class=\"bores\">\n");
    html.push_str(&svg::write(&content.figure));
    html.push_str("</figure>\n");
    table(html, &content.letters, "letters");
    html.push_str("</section>\n");
}

fn steps(html: &mut String, blocks: &[Block]) {
    html.push_str("<table class=\"steps\">\n<thead><tr>");
    for head in HEADS {
        let _ = write!(html, "<th scope=\"col\">{head}</th>");
    }
    html.push_str("</tr></thead>\n");
    for block in blocks {
        match block {
            Block::Holding(words) => {
                let words = escaped(words);
                let _ = writeln!(
                    html,
                    "<tbody class=\"hold\"><tr><td colspan=\"5\">{words}</td></tr></tbody>"
                );
            }
            Block::Step(row) => step(html, row),
        }
    }
    html.push_str("</table>\n");
}

/// Beside title and tool: both their rows.
const BOTH: &str = " rowspan=\"2\"";

/// A step: its title over tool and face, and beside them what is set, checked and done.
fn step(html: &mut String, row: &Row) {
    let _ = writeln!(
        html,
        "<tbody class=\"step\"><tr class=\"title\"><th scope=\"rowgroup\" colspan=\"2\"><b>{}</b> \
         {}</th>",
        row.number,
        escaped(&row.title)
    );
    let cell = |html: &mut String, head: &str, rows: &str, words: &str| {
        let _ = writeln!(html, "<td data-head=\"{head}\"{rows}>{words}</td>");
    };
    let [tool, face, set, check, done] = HEADS;
    cell(html, set, BOTH, &lines_of(&row.set));
    cell(html, check, BOTH, &lines_of(&row.check));
    cell(html, done, BOTH, &boxes(&row.boxes));
    html.push_str("</tr>\n<tr>");
    cell(html, tool, "", &lines_of(&row.tool));
    cell(html, face, "", &lines_of(&row.face));
    html.push_str("</tr>\n");
    if !row.notes.is_empty() {
        let notes = lines_of(&row.notes);
        let _ = writeln!(html, "<tr class=\"notes\"><td colspan=\"5\">{notes}</td></tr>");
    }
    html.push_str("</tbody>\n");
}

/// Boxes to write in, each behind its label; a tick where there is nothing to measure.
fn boxes(labels: &[String]) -> String {
    if labels.is_empty() {
        return "<span class=\"tick\"></span>".to_owned();
    }
    let one = |label: &String| {
        format!("<span class=\"box\"><span>{}</span><i></i></span>", escaped(label))
    };
    labels.iter().map(one).collect::<Vec<_>>().concat()
}

fn lines_of(lines: &[Line]) -> String {
    let line = |line: &Line| {
        let words = escaped(line.words());
        match line {
            Line::Set(_) => format!("<p class=\"set\">{words}</p>"),
            Line::Plain(_) => format!("<p>{words}</p>"),
            Line::Warning(_) => format!("<p class=\"warning\">{words}</p>"),
        }
    };
    lines.iter().map(line).collect::<Vec<_>>().concat()
}

fn back(html: &mut String, content: &Content) {
    html.push_str("<section class=\"beside\">\n<div>\n");
    table(html, &content.outside, "outside");
    for slope in &content.slopes {
        let _ = writeln!(html, "<p>{}</p>", escaped(slope));
    }
    html.push_str(
        "</div>\n<figure class=\"template\">\n<figcaption>Template 1:1 on paper; the bar is 50 mm: \
         measure it before you trust the print.</figcaption>\n",
    );
    html.push_str(&svg::write(&content.template));
    html.push_str("</figure>\n</section>\n");
    table(html, &content.binding, "binding");
    html.push_str("<ul class=\"cautions\">\n");
    for line in &content.cautions {
        let _ = writeln!(html, "<li>{}</li>", escaped(line));
    }
    html.push_str("</ul>\n");
}

fn table(html: &mut String, table: &Table, class: &str) {
    let _ = writeln!(
        html,
        "<table class=\"{class}\">\n<caption>{}</caption>\n<thead><tr>",
        escaped(&table.title)
    );
    for head in &table.heads {
        let _ = write!(html, "<th scope=\"col\">{}</th>", escaped(head));
    }
    html.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        html.push_str("<tr>");
        for words in row {
            let _ = write!(html, "<td>{}</td>", escaped(words));
        }
        html.push_str("</tr>\n");
    }
    html.push_str("</tbody>\n</table>\n");
}

/// Words as HTML takes them between and in tags.
fn escaped(words: &str) -> String {
    let mut text = String::new();
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            other => text.push(other),
        }
    }
    text
}
