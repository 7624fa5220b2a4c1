//! The notes of a drawing: what no size says.

use super::words::Units;
use crate::check::info;
use crate::drawing::CAUTION;
use crate::quantity::Length;
use crate::scene::Allotment;
use crate::section::{NamedPart, PartKind, Section};
use crate::standard::designation::Hand;

/// How a machinist is to treat what he does not know (common practice).
const MATERIAL_CARE: &str = "Keep tools sharp and the material cool; extract dust and swarf. The \
instructions of the material's and the machine's makers come first.";

/// What edges are broken to at most (common practice, no source): more, and a lip of some tenths is
/// gone.
const BROKEN: Length = Length::mm(0.1);

/// The notes of a part, in their order.
pub fn of(
    section: &Section,
    named: &NamedPart,
    allotment: &Allotment,
    units: Units,
) -> Vec<String> {
    let mut notes = match named.kind {
        PartKind::Section => of_section(section, allotment, units),
        PartKind::SizingTap => of_sizing_tap(section, units),
        PartKind::CheckPlug | PartKind::CheckRing => vec![
            "A check, no gauge: nothing about it is calibrated. It is made with the workpiece, to \
             try its thread while it is still held."
                .to_owned(),
        ],
        PartKind::Bushing => vec![
            "Bored and threaded in one holding, and not taken out before the section is done: \
             the section then runs as true as the bushing."
                .to_owned(),
            "The section's shoulder bears on face A.".to_owned(),
        ],
        PartKind::LipPlug => vec![
            "Supports the front edge while the outside is turned; a bare 60° centre would split \
             it. Made to slide into counterbore and clearance bore by hand, without shake."
                .to_owned(),
        ],
        PartKind::Unit => vec![
            "For fit tests only, in place of the bought unit: its sizes are readings, with \
             their uncertainty."
                .to_owned(),
        ],
        PartKind::Barrel | PartKind::Cap | PartKind::Converter => {
            vec!["For fit tests only: as far as the section meets it.".to_owned()]
        }
        PartKind::Blank => vec![format!("As it is at one stage: {}.", named.what)],
    };
    if named.kind != PartKind::Section {
        notes.push("Lengths from datum face A.".to_owned());
        notes.push(format!("Break edges {} at most.", size(BROKEN, units)));
    }
    notes.push(MATERIAL_CARE.to_owned());
    notes.push(CAUTION.to_owned());
    notes
}

fn of_section(section: &Section, allotment: &Allotment, units: Units) -> Vec<String> {
    let long = allotment.long_run_out;
    let drilled_long = if long > allotment.run_out {
        format!("; of a hole drilled long, at its end: {}", size(long, units))
    } else {
        String::new()
    };
    let mut notes = vec![
        format!("General tolerances {}; tighter ones stand at the size.", allotment.class),
        "Lengths from datum faces: from C, the front face, and for the back end from B, the \
         shoulder."
            .to_owned(),
        format!(
            "Circular run-out of the outside from C to B, and of the bores from the front, to \
             A-B (axis of the thread {}, shoulder face): {}{drilled_long}.",
            section.tenon.thread.designation,
            size(allotment.run_out, units)
        ),
        format!(
            "{}: mating unit supplied. Thread to accept it by hand, collar seated, no perceptible \
             shake; limits for reference.",
            section.unit_thread.designation
        ),
        "Threads: full form over the lengths given; run-out beyond them where there is room. First \
         thread chamfered."
            .to_owned(),
        format!(
            "Break edges {} at most; no burrs in the bores.",
            size(BROKEN, units)
        ),
    ];
    if allotment.unmade {
        let warning = "ASK BEFORE CUTTING: some sizes meet so closely that, off to different sides, \
             they leave no such part.";
        notes.insert(0, warning.to_owned());
    }
    if !allotment.unheld.is_empty() {
        let title = |code: &&'static str| info(code).map_or("", |info| info.title).to_lowercase();
        let titles: Vec<String> = allotment.unheld.iter().map(title).collect();
        let warning = format!(
            "ASK BEFORE CUTTING: {}. Checks not kept by these limits: {}.",
            titles.join("; "),
            allotment.unheld.join(", ")
        );
        notes.insert(0, warning);
    }
    notes
}

fn of_sizing_tap(section: &Section, units: Units) -> Vec<String> {
    let tap = section.sizing_tap();
    let flutes = tap.flutes;
    let hand = match tap.thread.designation.hand() {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    let [low, high] = tap.hardness_hrc;
    vec![
        format!(
            "Thread {} with pitch and major diameter {} over size, {hand} hand: clears a thread \
             that binds. Not for cutting a thread from a plain hole.",
            tap.thread.designation,
            size(tap.oversize, units)
        ),
        format!(
            "{} flutes, {}, bottom radius {}, core Ø{}; rake {}°; equally spaced; through the \
             thread, running out in the neck.",
            flutes.count,
            flutes.form,
            size(flutes.radius, units),
            size(flutes.core, units),
            tap.rake.as_deg()
        ),
        format!("Lead chamfer {} pitches, relieved behind the edge.", tap.lead_pitches),
        format!("Steel: {}. Harden and temper to {low} to {high} HRC.", tap.steel),
        format!(
            "Square {} across flats, {} long, at the end of the shank.",
            size(tap.shank.across_flats, units),
            size(tap.shank.square_length, units)
        ),
    ]
}

/// A size in a sentence.
pub fn size(size: Length, units: Units) -> String {
    match units {
        Units::Millimetres => {
            let places = super::words::decimals(size.as_mm(), 3);
            format!("{:.places$}", size.as_mm())
        }
        Units::Inches => format!("{:.4}", size.as_mm() * units.factor()),
    }
}
