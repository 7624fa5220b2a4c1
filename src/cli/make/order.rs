//! What is asked for on the command line, held against what there is.

use crate::diagnostic::Diagnostic;
use crate::export::{Kind, Kinds, UnknownKinds};
use crate::mesh::{DEFAULT_CHORD, check_chord};
use crate::section::{NamedPart, Section};

/// What is wrong with the chord that is asked for; held against its limits, triangles or not.
pub(super) fn chord_fault(chord: f64) -> Option<Diagnostic> {
    let error = check_chord(chord).err()?;
    let works = format!("--chord {DEFAULT_CHORD} is finer than any print shows");
    Some(Diagnostic::error(error.code(), error.to_string()).hint(works))
}

/// The kinds that are asked for.
pub(super) fn kinds(only: Option<&str>) -> Result<Kinds, UnknownKinds> {
    only.map_or_else(|| Ok(Kinds::all()), Kinds::read)
}

/// The parts that are asked for, each once, in the order of [`Section::parts`].
///
/// Errors name every part that there is not, and every one that has none of the kinds.
pub(super) fn parts(
    section: &Section,
    names: &[String],
    kinds: Option<&Kinds>,
) -> Result<Vec<NamedPart>, Vec<Diagnostic>> {
    let names: Vec<&str> = names.iter().map(|name| name.trim()).collect();
    let all = section.parts();
    let mut wrong = Vec::new();
    for name in &names {
        if !all.iter().any(|part| part.name == *name) {
            wrong.push(unknown(name, &all));
        } else if let Some(kinds) = kinds {
            wrong.extend(no_file(name, kinds));
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(all.into_iter().filter(|part| names.contains(&part.name.as_str())).collect())
}

fn unknown(name: &str, all: &[NamedPart]) -> Diagnostic {
    let list: Vec<_> = all.iter().map(|part| format!("{} ({})", part.name, part.what)).collect();
    Diagnostic::error("make.part", format!("this design has no part {name:?}"))
        .hint(format!("the parts are {}", list.join(", ")))
}

/// That nothing of the kinds is made of a part: drawings and the report are the section's.
fn no_file(name: &str, kinds: &Kinds) -> Option<Diagnostic> {
    let some = Kind::OF_EVERY_PART.into_iter().any(|kind| kinds.has(kind));
    if some || name == NamedPart::SECTION {
        return None;
    }
    let message = format!("nothing of {} is made of the part {name:?}", kinds.list());
    let works = Kind::OF_EVERY_PART.map(Kind::name).join(",");
    let hint = format!("--only {works} makes {name}.stl and {name}.step");
    Some(Diagnostic::error("make.no-file", message).hint(hint))
}
