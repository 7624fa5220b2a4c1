//! The verdicts as a maker reads them: no geometry words, numbers as a caliper shows them.

use super::outcome::Outcome;
use super::tight::tight;
use crate::check::{Bound, Finding, Verdict};
use crate::design::{Resolved, Write};
use crate::diagnostic::{Style, Tone, paint};
use crate::scene::Examination;

/// The table of all findings, what was worked out, and the sum of it.
pub(super) fn table(resolved: &Resolved, examination: &Examination, style: Style) -> String {
    let section = &resolved.section;
    let title = format!("{}: {}, unit {:?}", section.name, section.material, section.unit.name);
    let mut text = format!("{}\n\n", paint(&title, Tone::Strong, style));
    text += &findings(examination, style);
    if !resolved.derived.is_empty() {
        text += &format!(
            "\n{}\n",
            paint("Worked out (set it in the design to change it)", Tone::Strong, style)
        );
        for derived in &resolved.derived {
            text += &format!("  {:<28} {:<12} {}\n", derived.key, derived.value, derived.from);
        }
    }
    text += &tight(&examination.room, style);
    text + "\n" + &sum(examination, style) + "\n"
}

/// Verdicts, then what is told for information.
pub(super) fn findings(examination: &Examination, style: Style) -> String {
    let mut text = String::new();
    let heads = line("", "", ["as drawn", "at worst", "limit"], "");
    text += &paint(&heads, Tone::Faint, style);
    let (judged, told): (Vec<_>, Vec<_>) =
        examination.findings.iter().partition(|finding| finding.judgement.is_some());
    for finding in judged {
        text += &row(finding, style);
    }
    if !told.is_empty() {
        text += &format!("\n{}\n", paint("For information", Tone::Strong, style));
    }
    for finding in told {
        let drawn = rounded(finding.measured, finding.unit);
        text += &line("", finding.title, [&drawn, "", ""], finding.unit);
    }
    text
}

/// One line of the table in its columns: verdict, what, three numbers, unit.
fn line(verdict: &str, title: &str, [drawn, worst, limit]: [&str; 3], unit: &str) -> String {
    let text = format!("{verdict:8}{title:54}{drawn:>9}{worst:>10}{limit:>16} {unit}");
    text.trim_end().to_owned() + "\n"
}

fn row(finding: &Finding, style: Style) -> String {
    let unit = finding.unit;
    let Some(judged) = &finding.judgement else { return String::new() };
    let side = match judged.bound {
        Bound::AtLeast => "at least",
        Bound::AtMost => "at most",
    };
    let numbers = [
        rounded(finding.measured, unit),
        rounded(judged.worst, unit),
        format!("{side} {}", rounded(judged.limit, unit)),
    ];
    let word = judged.verdict.to_string();
    let plain = line(&word, finding.title, numbers.each_ref().map(String::as_str), &said(finding));
    let mut text = plain.replacen(&word, &paint(&word, tone(judged.verdict), style), 1);
    if judged.verdict != Verdict::Holds {
        let place = finding.place.map(|p| format!("{} mm from the front", rounded(p.z(), "mm")));
        let source = format!("limit: {}", judged.limit_source);
        let why = [place, finding.note.clone(), Some(source)].into_iter().flatten();
        text += &format!("{:8}{}\n", "", why.collect::<Vec<_>>().join("; "));
        if let Some(advice) = judged.advice {
            let by = judged.means.as_ref().map_or(String::new(), |means| format!(": {means}"));
            text += &format!("{:8}-> {advice}{by}\n", "");
            if !judged.write.is_empty() {
                text += &format!("{:8}   write {}\n", "", written(&judged.write));
            }
        }
    }
    text
}

/// What to write into the design's file, one key after the other.
pub(super) fn written(write: &[Write]) -> String {
    write.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

/// The unit in words; percent of thread on both bases that are in use, since each is taken for
/// the other.
fn said(finding: &Finding) -> String {
    match finding.detail("on drill charts") {
        Some(chart) => format!("% of full depth ({chart:.0} % on drill charts)"),
        None => finding.unit.to_owned(),
    }
}

/// A value with the digits that can be measured: hundredths of a millimetre, whole percent,
/// tenths of a turn.
pub(super) fn rounded(value: f64, unit: &str) -> String {
    let digits = match unit {
        "mm" => 2,
        "turns" | "mm3" | "mm2" => 1,
        _ => 0,
    };
    let text = format!("{value:.digits$}");
    // A value that rounds to nothing has no sign.
    if text.trim_matches(['-', '0', '.']).is_empty() { text.replace('-', "") } else { text }
}

pub(super) fn tone(verdict: Verdict) -> Tone {
    match verdict {
        Verdict::Holds => Tone::Good,
        Verdict::Close => Tone::Watch,
        Verdict::Breaks => Tone::Bad,
    }
}

fn sum(examination: &Examination, style: Style) -> String {
    let count =
        |verdict| examination.findings.iter().filter(|f| f.verdict() == Some(verdict)).count();
    let [holds, close, breaks] = [Verdict::Holds, Verdict::Close, Verdict::Breaks].map(count);
    let (words, tone) = if breaks > 0 {
        (format!("{breaks} break, {close} close, {holds} hold"), Tone::Bad)
    } else if close > 0 {
        (format!("Nothing breaks; {close} close, {holds} hold"), Tone::Watch)
    } else {
        (format!("All {holds} hold"), Tone::Good)
    };
    paint(&words, tone, style)
}

/// What the exit status is to say.
pub(super) fn outcome(examination: &Examination) -> Outcome {
    let breaks = examination.findings.iter().any(|f| f.verdict() == Some(Verdict::Breaks));
    if breaks { Outcome::Breaks } else { Outcome::Fine }
}
