//! What the drawing of each part says beside its sizes.

use super::limits::{by_allotment, general};
use super::notes;
use super::subject::Subject;
use super::thread_table;
use super::words::Units;
use crate::drawing::sheet_frame::Table;
use crate::scene::Allotment;
use crate::section::{Item, NamedPart, PartKind, Section};
use crate::standard::GeneralClass;

/// A part of a section, ready to be drawn. The section's own limits are those that were allotted.
pub fn subject<'a>(
    section: &'a Section,
    named: &'a NamedPart,
    allotment: &'a Allotment,
    units: Units,
) -> Subject<'a> {
    let of_section = named.kind == PartKind::Section;
    let name =
        if of_section { section.name.clone() } else { format!("{} {}", section.name, named.name) };
    let class = if of_section { allotment.class } else { GeneralClass::Medium };
    let shoulder = section.grip.length().as_mm();
    Subject {
        part: &named.part,
        title: title(named.kind).to_owned(),
        supplement: supplement(section, named),
        name,
        material: material(section, named.kind),
        axis: of_section.then_some((Item::TenonThread, 'A')),
        back: of_section.then_some((shoulder, 'B')),
        tap: (named.kind == PartKind::SizingTap).then(|| section.sizing_tap()),
        front: if of_section { 'C' } else { 'A' },
        tolerances: class.to_string(),
        allowed: if of_section {
            Box::new(by_allotment(allotment))
        } else {
            Box::new(general(named))
        },
        table: threads(named, units),
        notes: notes::of(section, named, allotment, units),
    }
}

/// What a machinist calls it.
fn title(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Section => "Grip section",
        PartKind::Unit => "Stand-in for the mating unit",
        PartKind::Barrel => "Barrel, its mouth",
        PartKind::Cap => "Cap, inside",
        PartKind::Converter => "Stand-in for the converter",
        PartKind::CheckPlug => "Check plug (no gauge)",
        PartKind::CheckRing => "Check ring (no gauge)",
        PartKind::Bushing => "Holding bushing",
        PartKind::LipPlug => "Support plug",
        PartKind::SizingTap => "Sizing tap",
        PartKind::Blank => "Blank at a stage",
    }
}

/// What it is for, in a machinist's words.
fn supplement(section: &Section, named: &NamedPart) -> Option<String> {
    let threads = named.part.threads.iter().map(|thread| thread.designation.to_string());
    let threads: Vec<String> = threads.collect();
    Some(match named.kind {
        PartKind::Section => return None,
        PartKind::Unit => "for fit tests, in place of the bought unit".to_owned(),
        PartKind::Barrel | PartKind::Cap | PartKind::Converter => "for fit tests".to_owned(),
        PartKind::CheckPlug | PartKind::CheckRing => format!("for {}", threads.join(", ")),
        PartKind::Bushing => "to hold the grip section by its tenon".to_owned(),
        PartKind::LipPlug => "for the front edge, while the outside is turned".to_owned(),
        PartKind::SizingTap => {
            let tap = section.sizing_tap();
            format!("{}, {:.2} over size", tap.thread.designation, tap.oversize)
        }
        PartKind::Blank => named.what.clone(),
    })
}

/// What it is made of; what the section is made of, where its drawing is of that.
fn material(section: &Section, kind: PartKind) -> String {
    match kind {
        PartKind::Section | PartKind::Blank => section.material.clone(),
        PartKind::SizingTap => section.sizing_tap().steel.to_owned(),
        PartKind::CheckPlug | PartKind::CheckRing | PartKind::Bushing | PartKind::LipPlug => {
            "free-cutting brass or aluminium".to_owned()
        }
        PartKind::Unit | PartKind::Barrel | PartKind::Cap | PartKind::Converter => {
            "any that is firm".to_owned()
        }
    }
}

/// The limits of a part's threads.
fn threads(named: &NamedPart, units: Units) -> Table {
    Table {
        columns: thread_table::COLUMNS.to_vec(),
        heading: thread_table::HEADING.map(str::to_owned).to_vec(),
        rows: thread_table::rows(&named.part, units).into_iter().map(|row| row.to_vec()).collect(),
    }
}
