//! A section as made, as a maker reads it.

use super::super::explain::wrapped;
use super::super::table::{rounded, tone};
use super::steps;
use crate::check::{Bound, Finding, Verdict};
use crate::diagnostic::{Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::job::asmade::{AsCut, in_words};
use crate::scene::{Room, SideRoom};
use crate::section::Stage;
use crate::shop::as_made::{AsMade, Measured, Rescue};

/// Everything: what was cut, what that breaks, what saves it, what is left.
pub(super) fn said(cut: &AsCut, style: Style) -> String {
    let AsCut { plan, made, rooms, left, .. } = cut;
    let section = &plan.section;
    let head = |text: &str| format!("\n{}\n", paint(text, Tone::Strong, style));
    let title =
        format!("{} as made: {}, unit {:?}", section.name, section.material, section.unit.name);
    let mut text = format!("{}\n", paint(&title, Tone::Strong, style));
    text += &sizes(made, rooms, style);
    if let Some((size, left)) = made.rod_leaves {
        let measured = rounded(size.get(&made.section).unwrap_or_default(), "mm");
        let (key, left) = (size.name(), rounded(left.as_mm(), "mm"));
        text += &format!(
            "Between its faces the rod leaves {left} mm for the {size}; measured was {measured} mm: \
             say {key}={left} too.\n"
        );
    }
    text += &head("What that does");
    text += &effects(made, style);
    if made.made.is_worse_than(&made.drawn) {
        text += &head("What can save it");
        text += &rescues(made, style);
    }
    let with = if made.rescues.is_empty() { "" } else { ", with 1 above" };
    text += &head(&format!("Still to be done{with}, numbered as on the sheet"));
    match left.as_deref() {
        None => text += "  nothing can be done with it\n",
        Some([]) => text += "  nothing\n",
        Some(rows) => text.extend(rows.iter().map(steps::said)),
    }
    let unsanded = section.allowance.sanding.as_mm() > 0.0 && !made.done.contains(&Stage::Sanded);
    if unsanded && left.as_ref().is_some_and(|rows| !rows.is_empty()) {
        text += "  Depths here are from the face as it is then, before it is sanded; those above are \
                 from the finished face.\n";
    }
    format!("{text}\n{CAUTION}\n")
}

/// What was cut against what was asked for.
fn sizes(made: &AsMade, rooms: &[Room], style: Style) -> String {
    let heads = ["drawn", "made", "off", "may be off"];
    let line = |name: &str, key: &str, [drawn, made, off, room]: [&str; 4]| {
        let text = format!("  {name:<46}{key:<28}{drawn:>8}{made:>8}{off:>8}   {room}");
        text.trim_end().to_owned() + "\n"
    };
    let mut text = paint(&line("", "", heads), Tone::Faint, style);
    for size in &made.sizes {
        let numbers = [size.drawn, size.made].map(|length| rounded(length.as_mm(), "mm"));
        let off = format!("{:+.2}", (size.made - size.drawn).as_mm()).replace("-0.00", "+0.00");
        let room = rooms.iter().find(|room| room.parameter == size.parameter).map(room_of);
        let key = size.parameter.name();
        let row = [&numbers[0], &numbers[1], &off, room.as_deref().unwrap_or_default()];
        text += &line(&size.parameter.to_string(), &key, row);
    }
    let done: Vec<String> = made.done.iter().map(ToString::to_string).collect();
    text + &format!("Done by then: {}.\n", done.join(", "))
}

/// By how much it may be off, alone, before a verdict is worse than as drawn.
fn room_of(room: &Room) -> String {
    let side = |sign: &str, side: &SideRoom| match side.then {
        Some(_) => format!("{sign}{:.2}", (side.room * 100.0 + 1e-9).floor() / 100.0),
        None => format!("{sign}2 or more"),
    };
    let less = room.less.as_ref().map_or(String::new(), |less| side("-", less) + " ");
    less + &side("+", &room.more)
}

fn effects(made: &AsMade, style: Style) -> String {
    if let Measured::Impossible(faults) = &made.made {
        let bad = paint("There is no such section.", Tone::Bad, style);
        let why = faults.iter().map(|fault| format!("  {} [{}]\n", fault.message, fault.code));
        return format!("{bad}\n{}", why.collect::<String>());
    }
    let rows = |moved: &[(Option<&Finding>, &Finding)]| -> String {
        moved.iter().map(|(before, now)| row(*before, now, style)).collect()
    };
    let mut text = match made.worse() {
        none if none.is_empty() => {
            format!("{}\n", paint("No verdict is worse than as drawn.", Tone::Good, style))
        }
        worse => rows(&worse),
    };
    let (holds, not): (Vec<_>, Vec<_>) =
        made.same().into_iter().partition(|(_, now)| now.verdict() == Some(Verdict::Holds));
    for (what, found) in [("No better than as drawn", not), ("Better than as drawn", made.better())]
    {
        if !found.is_empty() {
            text += &format!("{what}:\n{}", rows(&found));
        }
    }
    text + &format!("{} hold as they did.\n", holds.len())
}

/// A finding before and now, at the worst of its tolerances.
fn row(before: Option<&Finding>, now: &Finding, style: Style) -> String {
    let Some(judged) = &now.judgement else { return String::new() };
    let worst = |finding: &Finding| {
        finding.judgement.as_ref().map(|judged| rounded(judged.worst, finding.unit))
    };
    let was = before.and_then(worst).map_or(String::new(), |was| format!("{was} -> "));
    let side = if judged.bound == Bound::AtLeast { "at least" } else { "at most" };
    let verdict = judged.verdict.to_string();
    let word = paint(&format!("{verdict:8}"), tone(judged.verdict), style);
    let had = before.and_then(Finding::verdict).map_or(String::new(), |v| format!(" (was: {v})"));
    let unit = now.unit;
    let (worst, limit) = (rounded(judged.worst, unit), rounded(judged.limit, unit));
    format!("{word}{:<56}{was}{worst} {unit} at worst, {side} {limit}{had}\n", now.title)
}

fn rescues(made: &AsMade, style: Style) -> String {
    let mut text = String::new();
    for (n, rescue) in (1..).zip(&made.rescues) {
        text += &format!("{n}. {}\n", in_words(&made.section, &rescue.remedy));
        text += &proof(made, rescue, style);
    }
    if !made.rescues.is_empty() {
        return text;
    }
    text += "No change of one size that is still to be cut saves it.\n";
    let Some(now) = made.made.examination() else { return text };
    let titles = |wanted: Verdict| {
        let titles = now.findings.iter().filter(|finding| finding.verdict() == Some(wanted));
        titles.map(|finding| finding.title).collect::<Vec<_>>().join("; ")
    };
    for (what, verdict) in
        [("Breaks", Verdict::Breaks), ("Close", Verdict::Close), ("Holds", Verdict::Holds)]
    {
        let titles = titles(verdict);
        if !titles.is_empty() {
            text += &wrapped(&format!("{what}: {titles}."));
        }
    }
    text
}

/// What was measured with a rescue, of what was worse without it.
fn proof(made: &AsMade, rescue: &Rescue, style: Style) -> String {
    let was: Vec<&'static str> = made.worse().iter().map(|(_, now)| now.code).collect();
    let found = rescue.examination.findings.iter().filter(|finding| was.contains(&finding.code));
    let rows: Vec<String> =
        found.map(|now| row(made.drawn.finding(now.code), now, style)).collect();
    let rows = rows.iter().fold(String::new(), |text, row| text + "   " + row);
    format!("{rows}   measured again: no verdict is worse than as drawn\n")
}
