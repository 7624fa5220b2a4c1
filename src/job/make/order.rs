//! What is asked for in words, held against what there is.

use super::Drawing;
use crate::diagnostic::Diagnostic;
use crate::drawing::part::{Format, Units};
use crate::drawing::sheet_frame::{UnknownPaperSize, UnknownScale};
use crate::export::{Kind, Kinds, TAP_ORDER, UnknownKinds};
use crate::mesh::{DEFAULT_CHORD, check_chord};
use crate::section::{NamedPart, Section};

/// What is wrong with the chord that is asked for; held against its limits, triangles or not.
pub fn chord_fault(chord: f64) -> Option<Diagnostic> {
    let error = check_chord(chord).err()?;
    let works = format!("--chord {DEFAULT_CHORD} is finer than any print shows");
    Some(Diagnostic::error(error.code(), error.to_string()).hint(works))
}

/// The kinds that are asked for.
pub(super) fn kinds(only: Option<&str>) -> Result<Kinds, UnknownKinds> {
    only.map_or_else(|| Ok(Kinds::all()), Kinds::read)
}

/// The parts that are asked for, each once, in the order of [`Section::parts`]; and whether the
/// sheet to order a tap by is.
///
/// Errors name every part that there is not, and every one that has none of the kinds.
pub(super) fn parts(
    section: &Section,
    names: &[String],
    kinds: Option<&Kinds>,
) -> Result<(Vec<NamedPart>, bool), Vec<Diagnostic>> {
    let names: Vec<&str> = names.iter().map(|name| name.trim()).collect();
    let all = section.parts();
    let mut wrong = Vec::new();
    for name in &names {
        if *name != TAP_ORDER && !all.iter().any(|part| part.name == *name) {
            wrong.push(unknown(name, &all));
        } else if let Some(kinds) = kinds {
            wrong.extend(no_file(name, kinds));
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let parts = all.into_iter().filter(|part| names.contains(&part.name.as_str())).collect();
    Ok((parts, names.contains(&TAP_ORDER)))
}

/// How drawings are asked for; everything that is wrong with that.
pub(super) fn format(typed: &Drawing) -> Result<Format, Vec<Diagnostic>> {
    let mut wrong = Vec::new();
    let paper = typed.sheet.as_ref().and_then(|words| {
        let fault = |e: UnknownPaperSize| Diagnostic::error(e.code(), e.to_string());
        words.parse().map_err(|e| wrong.push(fault(e).hint("--sheet A3"))).ok()
    });
    let scale = typed.scale.as_ref().and_then(|words| {
        let fault = |e: UnknownScale| Diagnostic::error(e.code(), e.to_string());
        words.parse().map_err(|e| wrong.push(fault(e).hint("--scale 5:1"))).ok()
    });
    let units = Units::ALL.into_iter().find(|units| units.name() == typed.units);
    if units.is_none() {
        let message = format!("`{}` is no unit of a drawing; there are mm, inch", typed.units);
        wrong.push(Diagnostic::error("drawing.units", message).hint("--units inch"));
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(Format { paper, scale, units: units.unwrap_or_default(), ..Format::default() })
}

fn unknown(name: &str, all: &[NamedPart]) -> Diagnostic {
    let mut list: Vec<_> =
        all.iter().map(|part| format!("{} ({})", part.name, part.what)).collect();
    list.push(format!("{TAP_ORDER} (a sheet to have the tap of the unit thread made)"));
    Diagnostic::error("make.part", format!("this design has no part {name:?}"))
        .hint(format!("the parts are {}", list.join(", ")))
}

/// That nothing of the kinds is made of a part: the report is the section's, and what orders a tap
/// is a drawing.
fn no_file(name: &str, kinds: &Kinds) -> Option<Diagnostic> {
    let made: &[Kind] = if name == TAP_ORDER { &Kind::WITH_DRAWING } else { &Kind::OF_EVERY_PART };
    if name == NamedPart::SECTION || made.iter().any(|kind| kinds.has(*kind)) {
        return None;
    }
    let message = format!("nothing of {} is made of the part {name:?}", kinds.list());
    let works: Vec<&str> = made.iter().map(|kind| kind.name()).collect();
    let hint = format!("of it there are {}: --only {}", works.join(", "), works[0]);
    Some(Diagnostic::error("make.no-file", message).hint(hint))
}
