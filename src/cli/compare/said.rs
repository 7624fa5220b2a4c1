//! Two pens side by side, as a maker reads them.

use std::path::Path;

use crate::check::{Bound, Finding, Verdict};
use crate::cli::table::{rounded, tone};
use crate::diagnostic::{Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::job::compare::{Comparison, Difference, goes};
use crate::scene::{Adjusted, Fit, Unfit};

/// Everything: whether they go together, what to change, and what differs.
pub(super) fn said(comparison: &Comparison, picture: &Path, style: Style) -> String {
    let head = |text: &str| format!("\n{}\n", paint(text, Tone::Strong, style));
    let [a, b] = comparison.sections();
    let mut text = String::new();
    for (letter, section) in ["A", "B"].into_iter().zip([a, b]) {
        let words = format!("{}: {}, unit {:?}", section.name, section.material, section.unit.name);
        text += &format!("{} {words}\n", paint(letter, Tone::Strong, style));
    }
    text += &head("In one barrel and cap");
    for (n, [whose, into]) in [["B", "A"], ["A", "B"]].into_iter().enumerate() {
        text += &fitted(whose, into, &comparison.fits[n], style);
    }
    let outside = if comparison.same_outside { "the same" } else { "not the same" };
    text += &format!("From front face to shoulder they are {outside} outside.\n");
    text += &advice(comparison, style);
    let verdicts = comparison.verdicts();
    text += &head("Verdicts that differ");
    text += &paint(&verdict_line("", "A", "B"), Tone::Faint, style);
    for [a, b] in &verdicts {
        let title = a.or(*b).map_or("", |finding| finding.title);
        text += &verdict_line(title, &judged(*a), &judged(*b));
    }
    if verdicts.is_empty() {
        text += "  none\n";
    }
    text += &head("What differs");
    let rows: Vec<_> = comparison.causes().iter().map(Difference::row).collect();
    let wide = rows.iter().map(|row| row[0].chars().count()).max().unwrap_or_default().max(8);
    let line = |[what, a, b, by]: &[String; 4]| {
        let text = format!("  {what:<wide$}  {a:>16}  {b:>16}  {by:>9}");
        text.trim_end().to_owned() + "\n"
    };
    text += &paint(&line(&["", "A", "B", "B less A"].map(str::to_owned)), Tone::Faint, style);
    text.extend(rows.iter().map(line));
    format!("{text}\nDrawn over each other:\n  {}\n\n{CAUTION}\n", picture.display())
}

/// Whether a section goes into the other's barrel and cap, and what is in the way.
fn fitted(whose: &str, into: &str, fit: &Result<Fit, Unfit>, style: Style) -> String {
    let head = format!("{whose}'s section in {into}'s barrel and cap");
    let fit = match fit {
        Err(why) => {
            let word = paint("does not go in", Tone::Bad, style);
            return format!("{head}: {word}: {why}\n");
        }
        Ok(fit) => fit,
    };
    let word = match fit.verdict() {
        Verdict::Holds => "fits",
        Verdict::Close => "fits, close",
        Verdict::Breaks => "does not fit",
    };
    let mut text = format!("{head}: {}\n", paint(word, tone(fit.verdict()), style));
    if !fit.cap {
        text += "  (nothing is said of a cap)\n";
    }
    for verdict in [Verdict::Breaks, Verdict::Close] {
        text.extend(fit.of(verdict).map(|finding| row(finding, style)));
    }
    text
}

fn row(finding: &Finding, style: Style) -> String {
    let Some(judged) = &finding.judgement else { return String::new() };
    let side = if judged.bound == Bound::AtLeast { "at least" } else { "at most" };
    let word = format!("{:8}", judged.verdict.to_string());
    let (worst, limit) = (rounded(judged.worst, finding.unit), rounded(judged.limit, finding.unit));
    format!(
        "  {}{:<58} {worst} {} at worst, {side} {limit}\n",
        paint(&word, tone(judged.verdict), style),
        finding.title,
        finding.unit
    )
}

/// What to change in B; nothing where both go together and look alike.
fn advice(comparison: &Comparison, style: Style) -> String {
    if comparison.interchange() && comparison.outside_change.is_none() {
        return String::new();
    }
    let mut text = format!("\n{}\n", paint("What to change in B", Tone::Strong, style));
    let steps = |adjusted: &Adjusted| {
        adjusted.steps.iter().fold(String::new(), |text, step| text + &format!("  -> {step}\n"))
    };
    let proof = |adjusted: &Adjusted| match adjusted.fit.verdict() {
        Verdict::Holds => "every check of barrel and cap holds",
        _ => "no check of barrel and cap breaks",
    };
    if !goes(&comparison.fits[0]) {
        text += "So that B's section goes into A's barrel and cap:\n";
        match &comparison.section_change {
            Some(adjusted) => {
                text += &steps(adjusted);
                text += &format!(
                    "     measured again: {}, and no verdict of B's own is worse\n",
                    proof(adjusted)
                );
            }
            None => text += "  not even all of A's outside and tenon make it fit\n",
        }
    }
    if !goes(&comparison.fits[1]) {
        text += "So that both sections go into B's barrel and cap too:\n";
        match &comparison.mates_change {
            Some(adjusted) => {
                text += &steps(adjusted);
                text += &format!("     measured again with both sections: {}\n", proof(adjusted));
            }
            None => text += "  not even all of A's barrel and cap makes them take both\n",
        }
    }
    if let Some(adjusted) = &comparison.outside_change {
        text += "So that both look alike from front face to shoulder, and B's section fits:\n";
        text += &steps(adjusted);
        text += &format!("     measured again: {}\n", proof(adjusted));
    }
    text
}

fn judged(finding: Option<&Finding>) -> String {
    finding
        .and_then(|finding| finding.judgement.as_ref().map(|it| (it, finding.unit)))
        .map_or("not checked".to_owned(), |(judged, unit)| {
            format!("{}, {} {unit}", judged.verdict, rounded(judged.worst, unit))
        })
}

fn verdict_line(title: &str, a: &str, b: &str) -> String {
    format!("  {title:<56}{a:<20}{b}").trim_end().to_owned() + "\n"
}
