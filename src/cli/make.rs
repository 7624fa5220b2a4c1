//! `make`: build, check, write.

use std::path::Path;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::{CAUTION, table};
use crate::check::{Examination, examine};
use crate::design::{self, Library, Resolved};
use crate::export::{self, File};
use crate::mesh::tessellate;
use crate::solid::build;
use crate::{archive, diagnostic};

/// Makes a design's files in a folder of its name in `out`.
pub(super) fn make(
    library: &Library,
    design: &str,
    out: &Path,
    chord: f64,
    screen: Screen,
) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let Some(resolved) = load(library, design, screen) else { return Outcome::Wrong };
    let made = match produce(&resolved, chord, &progress) {
        Ok(made) => made,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    progress.step("writing the files");
    let folder = out.join(&resolved.section.name);
    if let Err(error) = archive::replace(&folder, &made.files, export::NAMES) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    screen.say(&table::table(&resolved, &made.examination, screen.style()));
    let names = made.files.iter().map(|file| format!("  {}\n", folder.join(&file.name).display()));
    let files: String = names.collect();
    let triangles = made.triangles;
    let strays = made.chord_error;
    screen.say(&format!(
        "\nWritten ({triangles} flat triangles, none farther than {strays:.4} mm from the true surface):\n\
         {files}\n{CAUTION}\n"
    ));
    table::outcome(&made.examination)
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
    examination: Examination,
    triangles: usize,
    chord_error: f64,
}

/// Everything from the section to the bytes of its files. The error is a code and a message.
fn produce(
    resolved: &Resolved,
    chord: f64,
    progress: &Progress,
) -> Result<Made, (&'static str, String)> {
    let section = &resolved.section;
    progress.step("building the solid");
    let body = build(&section.part()).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("checking walls and threads");
    let examination = examine(section).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("cutting the surface into triangles");
    let (mesh, audit) = tessellate(&body, chord).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("drawing");
    let files = export::files(section, &body, (&mesh, audit), &examination)
        .map_err(|e| (e.code(), e.to_string()))?;
    Ok(Made { files, examination, triangles: mesh.triangles.len(), chord_error: mesh.chord_error })
}
