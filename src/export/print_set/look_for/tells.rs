//! What the print can tell, check by check.

use super::lines::{head, list, wrapped};
use crate::print::{Proof, Tells};

/// What it shows, what lies too near, and what it tells nothing of, and why.
pub(super) fn tells(proofs: &[Proof]) -> String {
    let of = |want: fn(&Tells) -> bool| proofs.iter().filter(move |proof| want(&proof.tells));
    let mut text = head("What the print can tell");
    text += &wrapped(
        "",
        "",
        "The checker was run on the section as the printer makes it: all sizes as designed, each \
         off by what the printer scatters from print to print.",
    );
    let shows: Vec<String> = of(|t| *t == Tells::Shows)
        .map(|proof| {
            let by: Vec<&str> = proof.by.iter().map(|kind| kind.name()).collect();
            let verdict = proof.printed.unwrap_or(proof.design);
            format!("{} ({verdict}): with {}", proof.title, by.join(", "))
        })
        .collect();
    let near: Vec<String> = of(|t| *t == Tells::TooNear)
        .map(|proof| format!("{} ({} in the design)", proof.title, proof.design))
        .collect();
    for (words, items) in [
        ("It shows:", shows),
        ("It can't tell, the printer scatters by more than what decides:", near),
    ] {
        if !items.is_empty() {
            text += &format!("\n{words}\n");
            text += list(&items).trim_end();
            text += "\n";
        }
    }
    let mut reasons: Vec<(&str, Vec<&str>)> = Vec::new();
    for proof in proofs {
        let Tells::Nothing(why) = proof.tells else { continue };
        match reasons.iter_mut().find(|(known, _)| *known == why) {
            Some((_, titles)) => titles.push(proof.title),
            None => reasons.push((why, vec![proof.title])),
        }
    }
    if !reasons.is_empty() {
        text += "\nIt tells nothing of:\n";
        let items = reasons.iter().map(|(why, titles)| format!("{}: {why}", titles.join("; ")));
        text += list(&items.collect::<Vec<_>>()).trim_end();
        text += "\n";
    }
    text + "\n"
}
