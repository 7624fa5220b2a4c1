//! `make`: build, check, write: the section, and whatever else of its parts is asked for.

use std::path::Path;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::{CAUTION, table};
use crate::check::{Chord, Examination, chord, examine};
use crate::design::{self, Library, Resolved};
use crate::diagnostic::{Diagnostic, Sources};
use crate::export::{self, File, MadePart};
use crate::mesh::tessellate;
use crate::section::{NamedPart, Section};
use crate::solid::build;
use crate::{archive, diagnostic};

/// What of a design is made, and how.
pub(super) struct Wanted {
    /// The parts, by name; `section` alone unless others are asked for.
    pub parts: Vec<String>,
    /// The chord error that is asked for.
    pub chord: f64,
}

/// The part that comes with drawings, checks and the report.
const SECTION: &str = "section";

/// Makes a design's files in a folder of its name in `out`.
pub(super) fn make(
    library: &Library,
    design: &str,
    out: &Path,
    wanted: &Wanted,
    screen: Screen,
) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let Some(resolved) = load(library, design, screen) else { return Outcome::Wrong };
    let parts = match chosen(&resolved.section, &wanted.parts) {
        Ok(parts) => parts,
        Err(unknown) => {
            screen.diagnostics(&unknown, &Sources::default());
            return Outcome::Wrong;
        }
    };
    let made = match produce(&resolved, parts, wanted.chord, &progress) {
        Ok(made) => made,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    progress.step("writing the files");
    let folder = out.join(&resolved.section.name);
    let of_parts = export::part_file_names();
    let own: Vec<&str> = made.files.iter().map(|file| file.name.as_str()).collect();
    // Without the section its set stays as it is, and only the parts' files are replaced.
    let ours = match made.examination {
        Some(_) => {
            export::NAMES.iter().copied().chain(of_parts.iter().map(String::as_str)).collect()
        }
        None => own,
    };
    if let Err(error) = archive::replace(&folder, &made.files, &ours) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    if let Some(examination) = &made.examination {
        screen.say(&(table::table(&resolved, examination, screen.style()) + "\n"));
    }
    let names = made.files.iter().map(|file| format!("  {}\n", folder.join(&file.name).display()));
    let files: String = names.collect();
    screen.say(&format!("Written{}:\n{files}\n{CAUTION}\n", made.said));
    made.examination.as_ref().map_or(Outcome::Fine, table::outcome)
}

/// The parts that are asked for, each once, in the order of [`Section::parts`].
fn chosen(section: &Section, names: &[String]) -> Result<Vec<NamedPart>, Vec<Diagnostic>> {
    let all = section.parts();
    let known = |name: &String| all.iter().any(|part| part.name == *name);
    let list = || all.iter().map(|part| format!("{} ({})", part.name, part.what));
    let unknown: Vec<Diagnostic> = names
        .iter()
        .filter(|name| !known(name))
        .map(|name| {
            Diagnostic::error("make.part", format!("this design has no part {name:?}"))
                .hint(format!("the parts are {}", list().collect::<Vec<_>>().join(", ")))
        })
        .collect();
    if !unknown.is_empty() {
        return Err(unknown);
    }
    Ok(all.into_iter().filter(|part| names.contains(&part.name)).collect())
}

/// Reads a design; says what is wrong with it, and what is worth knowing.
pub(super) fn load(library: &Library, design: &str, screen: Screen) -> Option<Resolved> {
    match design::load(library, design) {
        Ok(resolved) => {
            if !screen.quiet() {
                screen.diagnostics(&resolved.notes, &resolved.sources);
            }
            Some(resolved)
        }
        Err(failure) => {
            let only = |d: &&diagnostic::Diagnostic| {
                !screen.quiet() || d.severity == diagnostic::Severity::Error
            };
            let shown: Vec<_> = failure.diagnostics.iter().filter(only).cloned().collect();
            screen.diagnostics(&shown, &failure.sources);
            None
        }
    }
}

/// What was made of a design, all in memory.
struct Made {
    files: Vec<File>,
    /// Of the section, where it is among the parts.
    examination: Option<Examination>,
    /// How many triangles, how near to the surface, and where a chord was tightened.
    said: String,
}

/// Why nothing is made: a code and a message.
type Fault = (&'static str, String);

/// Everything from the section to the bytes of its files.
fn produce(
    resolved: &Resolved,
    parts: Vec<NamedPart>,
    chord: f64,
    progress: &Progress,
) -> Result<Made, Fault> {
    let section = &resolved.section;
    let mut made = Vec::new();
    for named in parts {
        made.push(one_part(named, chord, progress)?);
    }
    let said = said(&made);
    let place = made.iter().position(|part| part.name == SECTION);
    let Some(place) = place else {
        let files = made.iter().flat_map(MadePart::files).collect();
        return Ok(Made { files, examination: None, said });
    };
    let whole = made.remove(place);
    progress.step("checking walls and threads");
    let examination = examine(section).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("drawing");
    let files = export::files(section, &whole, &made, &examination)
        .map_err(|e| (e.code(), e.to_string()))?;
    Ok(Made { files, examination: Some(examination), said })
}

fn one_part(named: NamedPart, asked: f64, progress: &Progress) -> Result<MadePart, Fault> {
    progress.step("building the solid");
    let body = build(&named.part).map_err(|e| (e.code(), e.to_string()))?;
    let chord = chord(&named.part, &body, asked);
    progress.step("cutting the surface into triangles");
    let (mesh, audit) = tessellate(&body, chord.in_force).map_err(|e| (e.code(), e.to_string()))?;
    Ok(MadePart { name: named.name, body, mesh, audit, chord })
}

/// Triangles, how far they stray, and each chord that was tightened with its reason.
fn said(parts: &[MadePart]) -> String {
    let triangles: usize = parts.iter().map(|part| part.mesh.triangles.len()).sum();
    let strays = parts.iter().map(|part| part.mesh.chord_error).fold(0.0, f64::max);
    let tightened: String = parts
        .iter()
        .filter_map(|part| {
            let thin = part.chord.tightened_by.as_ref()?;
            let Chord { asked, in_force, .. } = part.chord;
            let (name, feature, size) = (&part.name, &thin.feature, thin.size);
            Some(format!(
                "; {name}: {asked} mm was asked for, {in_force:.4} mm is used, since the \
                 {feature} is {size:.3} mm"
            ))
        })
        .collect();
    format!(
        " ({triangles} flat triangles, none farther than {strays:.4} mm from the true surface{tightened})"
    )
}
