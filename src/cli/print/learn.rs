//! From the readings of a calibration plate to a printer's profile.

use std::path::{Path, PathBuf};

use super::put;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::design::{Library, LoadedReadings, load_readings};
use crate::diagnostic::{Diagnostic, Severity};
use crate::drawing::CAUTION;
use crate::print::calibrate::{calibrate, changes, changes_table, profile, residuals_table};

/// Reads a form, fits it, shows how well, and writes the profile.
pub(super) fn learn(
    library: &Library,
    readings: &Path,
    into: Option<&Path>,
    screen: Screen,
) -> Outcome {
    let loaded = match load_readings(library, readings) {
        Ok(loaded) => loaded,
        Err(mut failure) => {
            failure.diagnostics.retain(|d| !screen.quiet() || d.severity == Severity::Error);
            screen.diagnostics(&failure.diagnostics, &failure.sources);
            return Outcome::Wrong;
        }
    };
    if !screen.quiet() {
        screen.diagnostics(&loaded.notes, &loaded.sources);
    }
    let calibration = match calibrate(&loaded.plate, &loaded.taken) {
        Ok(calibration) => calibration,
        Err(faults) => {
            let told: Vec<Diagnostic> = faults.iter().map(|f| f.diagnostic(&loaded)).collect();
            screen.diagnostics(&told, &loaded.sources);
            return Outcome::Wrong;
        }
    };
    let target = target(&loaded, readings, into);
    let name = target.file_stem().map_or_else(
        || format!("{}-measured", loaded.printer.name),
        |stem| stem.to_string_lossy().into_owned(),
    );
    let like = like(&loaded, &target);
    if same(loaded.printer_path.as_deref(), &target) {
        screen.complain(
            "print.like-itself",
            format!(
                "{} can't be made from itself: name another file with --into",
                target.display()
            ),
        );
        return Outcome::Wrong;
    }
    let text = profile(&calibration, &loaded.printer, &like, &name);
    if let Some(stopped) = put(&target, &text, None, screen) {
        return stopped;
    }
    let new = calibration.applied(&loaded.printer);
    screen.say(&format!("{}\n", residuals_table(&calibration)));
    screen.say(&changes_table(&changes(&loaded.printer, &new)));
    for kept in calibration.kept() {
        screen.say(&format!("{kept}\n"));
    }
    screen.say(&format!(
        "\nWritten:\n  {}\nUse it with --printer {}\n{CAUTION}\n",
        target.display(),
        target.display()
    ));
    Outcome::Fine
}

/// Where the profile goes: beside the form, unless it is said.
fn target(loaded: &LoadedReadings, readings: &Path, into: Option<&Path>) -> PathBuf {
    let usual = || readings.with_file_name(format!("{}-measured.toml", loaded.printer.name));
    into.map_or_else(usual, Path::to_owned)
}

/// How the new profile names the one that it is like: a built-in one by its name, a file by a path
/// that holds from anywhere.
fn like(loaded: &LoadedReadings, target: &Path) -> String {
    let Some(path) = &loaded.printer_path else { return loaded.printer.name.clone() };
    let beside = path.parent() == target.parent();
    match path.file_name().filter(|_| beside) {
        Some(name) => format!("./{}", name.to_string_lossy()),
        None => std::path::absolute(path).unwrap_or(path.clone()).display().to_string(),
    }
}

fn same(one: Option<&Path>, other: &Path) -> bool {
    let whole = |path: &Path| std::path::absolute(path).ok();
    one.is_some_and(|one| whole(one) == whole(other))
}
