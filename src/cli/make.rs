//! `make`: build, check, write.

use std::path::Path;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::{CAUTION, table};
use crate::archive::Standing;
use crate::check::{Examination, examine};
use crate::design::{self, Library, Resolved};
use crate::export::{self, File, Kind, Kinds, Sources};
use crate::mesh::tessellate;
use crate::solid::build;
use crate::{archive, diagnostic};

/// What is asked of [`make`].
pub(super) struct Request<'a> {
    /// The design's file or name.
    pub design: &'a str,
    /// Where its folder goes.
    pub out: &'a Path,
    /// How far triangles may stray.
    pub chord: f64,
    /// A list of kinds, if not all are asked for.
    pub only: Option<&'a str>,
}

/// Makes a design's files in a folder of its name in `out`.
///
/// With `only`, files of other kinds stay where the folder's report proves that they are of the
/// same section; what it does not vouch for goes, so that a folder never mixes two designs.
pub(super) fn make(library: &Library, request: &Request, screen: Screen) -> Outcome {
    let kinds = match request.only.map_or_else(|| Ok(Kinds::all()), Kinds::read) {
        Ok(kinds) => kinds,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let Some(resolved) = load(library, request.design, screen) else { return Outcome::Wrong };
    let section = &resolved.section;
    let folder = request.out.join(&section.name);
    let anew = export::names(&kinds);
    let standing = archive::standing(&folder, section, export::NAMES, &anew);
    let made = match produce(&resolved, request.chord, &kinds, &standing, &progress) {
        Ok(made) => made,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    progress.step("writing the files");
    if let Err(error) = archive::replace(&folder, &made.files, export::NAMES) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    screen.say(&table::table(&resolved, &made.examination, screen.style()));
    let list = |names: &[&str]| -> String {
        let lines: Vec<String> =
            names.iter().map(|name| format!("  {}", folder.join(name).display())).collect();
        lines.join("\n") + "\n"
    };
    let about = made.mesh.map_or_else(String::new, |(triangles, strays)| {
        format!(
            " ({triangles} flat triangles, none farther than {strays:.4} mm from the true surface)"
        )
    });
    let mut said = format!("\nWritten{about}:\n{}", list(&anew));
    if !standing.files.is_empty() {
        let names: Vec<&str> = standing.files.iter().map(|file| file.name.as_str()).collect();
        said += &format!("Still true from an earlier run:\n{}", list(&names));
    }
    if !standing.gone.is_empty() {
        let names: Vec<&str> = standing.gone.iter().map(String::as_str).collect();
        said += &format!("Removed, not of the design as it is now:\n{}", list(&names));
    }
    screen.say(&format!("{said}\n{CAUTION}\n"));
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
    /// Triangles, and how far they stray, where there are any.
    mesh: Option<(usize, f64)>,
}

/// Everything from the section to the bytes of its files. The error is a code and a message.
fn produce(
    resolved: &Resolved,
    chord: f64,
    kinds: &Kinds,
    standing: &Standing,
    progress: &Progress,
) -> Result<Made, (&'static str, String)> {
    let section = &resolved.section;
    progress.step("building the solid");
    let body = build(&section.part()).map_err(|e| (e.code(), e.to_string()))?;
    let plain = build(&section.plain_part()).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("checking walls and threads");
    let examination = examine(section).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("cutting the surface into triangles");
    let cut = || tessellate(&body, chord).map_err(|e| (e.code(), e.to_string()));
    let mesh = kinds.has(Kind::Stl).then(cut).transpose()?;
    progress.step("drawing");
    let sources = Sources {
        section,
        body: &body,
        plain: &plain,
        mesh: mesh.as_ref().map(|(mesh, audit)| (mesh, *audit)),
        examination: &examination,
    };
    let files = export::files(&sources, kinds, standing.report.as_ref(), standing.files.clone())
        .map_err(|e| (e.code(), e.to_string()))?;
    let mesh = mesh.map(|(mesh, _)| (mesh.triangles.len(), mesh.chord_error));
    Ok(Made { files, examination, mesh })
}
