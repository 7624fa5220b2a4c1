//! From the readings of a calibration plate to a printer's profile.

use std::path::{Path, PathBuf};

use super::put;
use crate::design::{Failure, Library, LoadedReadings, load_readings};
use crate::diagnostic::Diagnostic;
use crate::job::stopped::{Said, Stopped};
use crate::job::watch::{Watch, step};
use crate::print::calibrate::{Calibration, calibrate, profile};
use crate::section::Printer;

/// What is asked of [`learn`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LearnRequest {
    /// The form, filled in.
    pub readings: PathBuf,
    /// The profile's file; without it PRINTER-measured.toml beside the form.
    pub into: Option<PathBuf>,
}

/// What the readings say.
pub struct Learned {
    /// The line through them, and how far each is off it.
    pub calibration: Calibration,
    /// The printer as it was thought to be.
    pub before: Printer,
    /// The profile's file.
    pub target: PathBuf,
    /// What is said of the form.
    pub said: Vec<Said>,
}

/// Reads a form, fits it and writes the profile.
///
/// # Errors
/// Everything that is wrong with the form or its readings; then, and when it is cancelled, nothing is
/// written.
pub fn learn(
    library: &Library,
    request: &LearnRequest,
    watch: &dyn Watch,
) -> Result<Learned, Stopped> {
    step(watch, "reading the form")?;
    let loaded = load_readings(library, &request.readings).map_err(|failure| {
        let Failure { diagnostics, sources } = failure;
        Stopped::wrong(vec![Said { diagnostics, sources }])
    })?;
    let heard = |diagnostics| Said { diagnostics, sources: loaded.sources.clone() };
    let mut said = vec![heard(loaded.notes.clone())];
    let calibration = calibrate(&loaded.plate, &loaded.taken).map_err(|faults| {
        let told = heard(faults.iter().map(|fault| fault.diagnostic(&loaded)).collect());
        Stopped::wrong(vec![told]).after(&said)
    })?;
    let target = target(&loaded, &request.readings, request.into.as_deref());
    let name = target.file_stem().map_or_else(
        || format!("{}-measured", loaded.printer.name),
        |stem| stem.to_string_lossy().into_owned(),
    );
    let like = like(&loaded, &target);
    if same(loaded.printer_path.as_deref(), &target) {
        let message = format!(
            "{} can't be made from itself: name another file with --into",
            target.display()
        );
        let told = Diagnostic::error("print.like-itself", message);
        said.push(heard(vec![told.at(loaded.form).hint("--into another.toml")]));
        return Err(Stopped::wrong(said));
    }
    step(watch, "writing the profile")?;
    let text = profile(&calibration, &loaded.printer, &like, &name);
    put(&target, &text, None).map_err(|stopped| stopped.after(&said))?;
    Ok(Learned { calibration, before: loaded.printer, target, said })
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
