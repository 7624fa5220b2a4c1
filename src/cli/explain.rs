//! What a check means, in words, and all that it found.

use super::table::{rounded, written};
use crate::check::{self, CheckInfo, Finding, Place, Spot};
use crate::diagnostic::{Style, Tone, paint};
use crate::scene::Examination;

/// Width of a line of text: a terminal's.
const WIDTH: usize = 96;

/// All checks: code and title.
pub(super) fn list(style: Style) -> String {
    let row = |check: &&CheckInfo| {
        let code = format!("{:<28}", check.code);
        format!("{}{}\n", paint(&code, Tone::Strong, style), check.title)
    };
    check::list().iter().map(row).collect()
}

/// What it measures, and what its limit means.
pub(super) fn meaning(check: &CheckInfo, style: Style) -> String {
    let title = format!("{}: {}", check.code, check.title);
    let title = paint(&title, Tone::Strong, style);
    format!("{title}\n\n{}\n{}\n", wrapped(check.measures), wrapped(check.limit))
}

/// Everything that a check found on a section.
pub(super) fn found(examination: &Examination, check: &CheckInfo, style: Style) -> String {
    let Some(finding) = examination.finding(check.code) else {
        return "The section has nothing to measure for it.\n".to_owned();
    };
    let unit = finding.unit;
    let mut text = String::new();
    let mut line = |name: &str, value: String| text += &format!("  {name:<52}{value}\n");
    line("as drawn", format!("{} +/- {:.0e} {unit}", number(finding.measured), finding.error));
    if let Some(judged) = &finding.judgement {
        line("verdict", judged.verdict.to_string());
        line("at the worst", format!("{} {unit}", number(judged.worst)));
        line("readings may take", format!("{} {unit}", number(judged.uncertainty)));
        line("band of the lathe", format!("{} {unit}", number(judged.band)));
        line("limit", format!("{} {unit}, {}", number(judged.limit), judged.limit_source));
        line("margin", format!("{} {unit}", number(judged.margin)));
        if let Some(advice) = &judged.advice {
            line("advice", advice.to_string());
        }
        if !judged.write.is_empty() {
            line("write", written(&judged.write));
        }
        if let Some(means) = &judged.means {
            line("by", means.clone());
        }
    }
    if let Some(Place { inner, outer }) = finding.place {
        line("from", spot(inner));
        line("to", spot(outer));
    }
    for detail in &finding.details {
        line(&detail.name, format!("{} {}", number(detail.value), detail.unit));
    }
    if let Some(note) = &finding.note {
        line("note", note.clone());
    }
    text + &series(finding, style)
}

fn spot(spot: Spot) -> String {
    format!("{}: diameter {}, z {} mm", spot.feature, number(spot.r * 2.0), number(spot.z))
}

/// A measure along the part, every point.
fn series(finding: &Finding, style: Style) -> String {
    let Some(series) = &finding.series else { return String::new() };
    let title =
        format!("{} ({}), by {} ({})", series.name, series.unit, series.along, series.along_unit);
    let title = paint(&title, Tone::Strong, style);
    let points = series
        .points
        .iter()
        .map(|[at, value]| format!("  {:>10} {:>12}\n", rounded(*at, "mm"), number(*value)));
    format!("\n{title}\n{}", points.collect::<String>())
}

/// A value with the digits of a good computation, not of a caliper: tenths of a micron.
fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    if text.trim_matches(['-', '0', '.']).is_empty() { "0".to_owned() } else { text }
}

/// What is said of a code that there is not.
pub(super) fn unknown(code: &str) -> String {
    let near =
        check::list().into_iter().map(|check| (strsim::jaro_winkler(check.code, code), check.code));
    let near = near.reduce(|a, b| if b.0 > a.0 { b } else { a });
    let hint = near.map_or(String::new(), |(_, code)| format!("; did you mean {code}?"));
    format!("there is no check {code:?}{hint} (`check --list` has them all)")
}

/// Text in lines no longer than a terminal's.
pub(super) fn wrapped(text: &str) -> String {
    let mut lines: Vec<String> = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.last_mut().expect("one line at least");
        if !last.is_empty() && last.len() + 1 + word.len() > WIDTH {
            lines.push(word.to_owned());
        } else {
            if !last.is_empty() {
                last.push(' ');
            }
            last.push_str(word);
        }
    }
    lines.join("\n") + "\n"
}
