//! `what-to-look-for.txt`: how to print the plate, what each piece is for, what it means when it
//! enters, turns or binds, and what the print can't tell.

mod ladder;
mod left_out;
mod lines;
mod tells;

use super::PrintSources;
use crate::drawing::CAUTION;
use crate::print::Piece;
use crate::print::specimen::SpecimenKind;
use crate::quantity::Length;
use crate::section::{Printer, Process};
use ladder::ladder;
use left_out::left_out;
use lines::{head, list};
use tells::tells;

/// The text.
pub(super) fn text(sources: &PrintSources) -> String {
    let PrintSources { title, printer, pieces, of, .. } = *sources;
    let mut text = format!("{title}\n{}\n\n", "=".repeat(title.chars().count()));
    text += &head("How to print it");
    text += &list(&how(printer, of.is_some()));
    match of {
        None => text += &calibration(),
        Some(of) => {
            text += &head("What it is for");
            text += &list(&pieces_for(pieces));
            if pieces.iter().any(|piece| piece.kind == Some(SpecimenKind::Ladder)) {
                text += &ladder(sources, &of);
            }
            let left = left_out(pieces, printer);
            if !left.is_empty() {
                text += &head("What the printer can't show of it");
                text += &list(&left);
            }
            text += &tells(of.proofs);
        }
    }
    text += &head("Care");
    text += &list(&care(printer));
    text
}

fn how(printer: &Printer, compensated: bool) -> Vec<String> {
    let [across, layer] = [printer.across, printer.layer].map(Length::as_mm);
    let unit = match printer.process {
        Process::Resin => "pixel",
        Process::Filament => "nozzle",
    };
    let mut how = vec![
        format!("Printer profile: {}, {unit} {across} mm, layers of {layer} mm.", printer.name),
        "At its size: 100 %, in millimetres. The 3MF says so; for an STL choose it.".to_owned(),
        "Upright, as the pieces stand: axis up. No supports inside holes and threads.".to_owned(),
    ];
    how.push(if compensated {
        "The file is made right for this printer: turn off whatever the printer's own program does \
         to holes, outsides and first layers, or it is done twice."
            .to_owned()
    } else {
        "Without any compensation, the printer's own program's included: what it does is what is \
         to be found out."
            .to_owned()
    });
    how.push(
        "Washed, cured or cooled as your parts always are: what shrinks later counts too."
            .to_owned(),
    );
    how
}

fn calibration() -> String {
    let steps = [
        "Take the burr off each foot with a knife, and nothing else.",
        "Know each piece by its grooves; read what readings.toml asks for and type it there.",
        "Then: sectionwright print --readings readings.toml",
    ];
    head("When it has come out") + &list(&steps)
}

/// What each piece is for, and what to look at.
fn pieces_for(pieces: &[Piece]) -> Vec<String> {
    let has = |kind| pieces.iter().any(|piece| piece.kind == Some(kind));
    let mut all = Vec::new();
    for (kind, words) in [
        (
            SpecimenKind::Section,
            "section: the whole. How it lies in the hand; whether the unit's collar comes to rest \
             before anything else touches; whether the shoulder closes on the barrel, flush; \
             whether it passes into the cap.",
        ),
        (
            SpecimenKind::Coupon,
            "coupon-front, coupon-back: the same fits on less material. The unit into the one: its \
             collar must rest on its seat, not hang on the thread. The barrel onto the other: the \
             shoulder must close before the tenon bottoms.",
        ),
        (
            SpecimenKind::Ladder,
            "ladder-1 and on: one thread, its flanks opened step by step; below.",
        ),
        (
            SpecimenKind::StandIn,
            "stand-in: the unit as you measured it, to try threads with, so that no good unit is \
             ruined. Its thread is a print too: what binds on it may be the stand-in.",
        ),
        (
            SpecimenKind::Ring,
            "ring: the barrel's thread as a ring, for a tenon that is cut or printed. It should \
             turn on by two fingers, without rocking.",
        ),
        (
            SpecimenKind::Plug,
            "plug: the tenon's thread as a plug, for the barrel. It should turn in by two fingers, \
             without rocking.",
        ),
        (
            SpecimenKind::CapProbe,
            "cap-probe: the outside alone. It must pass the cap's mouth and go as far in as the \
             section will, and shows how the grip feels. It is heavier than the section: it is \
             solid.",
        ),
    ] {
        if has(kind) {
            all.push(words.to_owned());
        }
    }
    all
}

fn care(printer: &Printer) -> Vec<String> {
    let own = match printer.process {
        Process::Resin => {
            "Uncured resin burns skin and eyes: gloves, eye protection, fresh air; wash and cure \
             before anything is touched or tried. What is poured away goes where local rules say."
        }
        Process::Filament => "Nozzle and plate are hot. Fresh air where plastic is melted.",
    };
    vec![
        own.to_owned(),
        "Dust of any print stays out of the lungs: extraction, a respirator, wet sanding."
            .to_owned(),
        "A print proves feel, seat, length and passage. A tapped thread is proved on an offcut of \
         the section's own material."
            .to_owned(),
        CAUTION.to_owned(),
    ]
}
