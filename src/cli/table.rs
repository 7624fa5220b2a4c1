//! The verdicts as a maker reads them: no geometry words, numbers as a caliper shows them.

use super::outcome::Outcome;
use crate::check::{Examination, Finding, Verdict};
use crate::design::Resolved;
use crate::diagnostic::{Style, Tone, paint};

/// The table of all findings, what was worked out, and the sum of it.
pub(super) fn table(resolved: &Resolved, examination: &Examination, style: Style) -> String {
    let section = &resolved.section;
    let title = format!("{}: {}, unit {:?}", section.name, section.material, section.unit.name);
    let mut text = format!("{}\n\n", paint(&title, Tone::Strong, style));
    let heads = format!("{:8}{:44}{:>10}{:>10}{:>12}", "", "", "as drawn", "at worst", "limit");
    text += &format!("{}\n", paint(&heads, Tone::Faint, style));
    for finding in &examination.findings {
        text += &row(finding, style);
    }
    if !resolved.derived.is_empty() {
        text += &format!("\n{}\n", paint("Worked out from the unit", Tone::Strong, style));
        for derived in &resolved.derived {
            text += &format!("  {:<28} {:<12} {}\n", derived.key, derived.value, derived.from);
        }
    }
    text + "\n" + &sum(examination, style) + "\n"
}

fn row(finding: &Finding, style: Style) -> String {
    let unit = finding.unit;
    let drawn = rounded(finding.measured, unit);
    let Some(judged) = &finding.judgement else {
        let (title, word) = (finding.title, paint(&format!("{:8}", ""), Tone::Faint, style));
        return format!("{word}{title:44}{drawn:>10}{:>10}{:>12} {unit}\n", "", "");
    };
    let tone = tone(judged.verdict);
    let word = paint(&format!("{:8}", judged.verdict.to_string()), tone, style);
    let worst = rounded(judged.worst, unit);
    let side = match judged.bound {
        crate::check::Bound::AtLeast => "at least",
        crate::check::Bound::AtMost => "at most",
    };
    let limit = format!("{side} {}", rounded(judged.limit, unit));
    let mut text = format!("{word}{:44}{drawn:>10}{worst:>10}{limit:>16} {unit}\n", finding.title);
    if judged.verdict != Verdict::Holds {
        let place =
            finding.place.map(|p| format!("{} from the front", rounded(p.z(), "mm") + " mm"));
        let source = format!("limit: {}", judged.limit_source);
        let why: Vec<String> =
            [place, finding.note.clone(), Some(source)].into_iter().flatten().collect();
        text += &format!("{:8}{}\n", "", why.join("; "));
        if let Some(advice) = judged.advice {
            text += &format!("{:8}-> {advice}\n", "");
        }
    }
    text
}

/// A value with the digits that can be measured: hundredths of a millimetre, whole percent,
/// tenths of a turn.
fn rounded(value: f64, unit: &str) -> String {
    match unit {
        "mm" => format!("{value:.2}"),
        "turns" => format!("{value:.1}"),
        _ => format!("{value:.0}"),
    }
}

fn tone(verdict: Verdict) -> Tone {
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
