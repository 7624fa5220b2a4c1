//! A plate of pieces, with its files: of a design, or to calibrate a printer by.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::laid::{files, laid_out, moved};
use super::{FOLDER, Request, kinds, ladder, printer};
use crate::archive;
use crate::design::{Asked, Fault, Library, LoadedPrinter};
use crate::diagnostic::{Diagnostic, Sources};
use crate::export::File;
use crate::export::print_set::{PrintOf, print_file_names};
use crate::job::make::chord_fault;
use crate::job::read::{Reading, load};
use crate::job::stopped::{Said, Stopped, Why};
use crate::job::watch::{Watch, step};
use crate::print::calibrate::{Plate, form};
use crate::print::{Piece, Proof, calibration_pieces, proofs};
use crate::quantity::Length;

/// The form of a calibration plate.
const READINGS: &str = "readings.toml";

/// What was made to be printed of a design.
pub struct Printed {
    /// What it is, and for which printer.
    pub title: String,
    /// The pieces.
    pub pieces: Vec<Piece>,
    /// What the print can tell.
    pub proofs: Vec<Proof>,
    /// Where it was written.
    pub folder: PathBuf,
    /// The files.
    pub files: Vec<File>,
    /// What is said of design and printer.
    pub said: Vec<Said>,
}

/// Makes what is to be printed of a design.
///
/// # Errors
/// Everything that is wrong with the request, the design or the printer; then, and when it is
/// cancelled, nothing is written.
pub fn print(library: &Library, request: &Request, watch: &dyn Watch) -> Result<Printed, Stopped> {
    step(watch, "reading the design")?;
    let mut said = Vec::new();
    let resolved = load(library, &request.design, Asked::default(), Reading::WithNotes, &mut said);
    let loaded = printer(library, &request.printer, &mut said);
    let mut wrong: Vec<Diagnostic> = chord_fault(request.chord).into_iter().collect();
    let kinds = kinds(request, &mut wrong);
    let ladder = loaded.as_ref().and_then(|loaded| ladder(request, &loaded.printer, &mut wrong));
    let sound = wrong.is_empty();
    said.push(Said::of_request(wrong));
    let (Some(resolved), Some(loaded), Some(ladder), true) = (resolved, loaded, ladder, sound)
    else {
        return Err(Stopped::wrong(said));
    };
    let (section, printer) = (&resolved.section, &loaded.printer);
    let wrong = |said: &[Said], diagnostics, sources: &Sources| {
        Stopped::wrong(vec![Said { diagnostics, sources: sources.clone() }]).after(said)
    };
    step(watch, "moving every surface for the printer")?;
    let pieces = moved(&resolved, &kinds, printer, &ladder, Length::mm(request.chord));
    let pieces = pieces.map_err(|errors| wrong(&said, errors, &resolved.sources))?;
    let layout = laid_out(&pieces, &loaded);
    let layout = layout.map_err(|errors| wrong(&said, errors, &loaded.sources))?;
    step(watch, "finding what the print can tell")?;
    let proofs = resolved.attempt(|section| proofs(section, printer));
    let proofs = proofs.map_err(|fault| wrong(&said, vec![*fault], &resolved.sources))?;
    let title = format!("{} on {}", section.name, printer.name);
    let of = PrintOf { section, design: &request.design, ladder: &ladder, proofs: &proofs };
    let files = files(&title, request, &loaded, (&pieces, &layout), Some(of), watch)?;
    let files =
        files.map_err(|fault| wrong(&said, vec![resolved.placed(fault)], &resolved.sources))?;
    step(watch, "writing the files")?;
    let folder = request.out.join(&section.name).join(FOLDER);
    written(&folder, &files, &print_file_names()).map_err(|stopped| stopped.after(&said))?;
    Ok(Printed { title, pieces, proofs, folder, files, said })
}

/// A plate that a printer is calibrated by.
pub struct CalibrationPlate {
    /// What it is, and for which printer.
    pub title: String,
    /// Rings and plugs.
    pub pieces: Vec<Piece>,
    /// How many readings its form asks for.
    pub readings: usize,
    /// Where it was written.
    pub folder: PathBuf,
    /// The files.
    pub files: Vec<File>,
    /// The form, where somebody has typed readings into it: it stays as it is.
    pub filled_in: Option<PathBuf>,
    /// What is said of the printer.
    pub said: Vec<Said>,
}

/// Makes the plate that a printer is calibrated by. Readings that somebody has typed into its form
/// stay.
///
/// # Errors
/// As [`print()`].
pub fn calibration(
    library: &Library,
    request: &Request,
    watch: &dyn Watch,
) -> Result<CalibrationPlate, Stopped> {
    let mut said = Vec::new();
    let loaded = printer(library, &request.printer, &mut said);
    let wrong: Vec<Diagnostic> = chord_fault(request.chord).into_iter().collect();
    let sound = wrong.is_empty();
    said.push(Said::of_request(wrong));
    let (Some(loaded), true) = (loaded, sound) else { return Err(Stopped::wrong(said)) };
    let wrong = |said: &[Said], diagnostics| {
        let sources = loaded.sources.clone();
        Stopped::wrong(vec![Said { diagnostics, sources }]).after(said)
    };
    let plate = Plate::new(&loaded.printer);
    let pieces = calibration_pieces(&plate);
    let layout = laid_out(&pieces, &loaded).map_err(|errors| wrong(&said, errors))?;
    let title = format!("Calibration of {}", loaded.printer.name);
    let files = files(&title, request, &loaded, (&pieces, &layout), None, watch)?;
    let mut files = files.map_err(|Fault { code, message, hint, .. }| {
        wrong(&said, vec![Diagnostic::error(code, message).at(loaded.build).hint(hint)])
    })?;
    let folder = request.out.join(format!("calibration-{}", loaded.printer.name));
    let names = pieces.iter().map(|piece| format!("{}.stl", piece.name));
    let mut ours: Vec<String> = names.chain(print_file_names()).collect();
    // The form says where the printer's profile is, seen from the form's own folder.
    let blank = form(&from_folder(&loaded, &request.printer), &plate);
    let there = std::fs::read_to_string(folder.join(READINGS)).ok();
    let filled_in = there.is_some_and(|there| there != blank);
    if !filled_in {
        files.push(File::new(READINGS, blank));
        ours.push(READINGS.to_owned());
    }
    step(watch, "writing the files")?;
    written(&folder, &files, &ours).map_err(|stopped| stopped.after(&said))?;
    let readings = plate.readings().iter().map(|reading| reading.times).sum();
    let filled_in = filled_in.then(|| folder.join(READINGS));
    Ok(CalibrationPlate { title, pieces, readings, folder, files, filled_in, said })
}

fn written(folder: &Path, files: &[File], ours: &[impl AsRef<OsStr>]) -> Result<(), Stopped> {
    archive::replace(folder, files, ours).map_err(|error| {
        let told = Diagnostic::error(error.code(), error.to_string());
        Stopped::by(Why::Failed, Vec::new(), told)
    })
}

/// How the form names the printer: a built-in one by its name, a file by a path that holds wherever
/// the form goes.
fn from_folder(loaded: &LoadedPrinter, typed: &str) -> String {
    let path = loaded.path.as_ref().and_then(|path| std::path::absolute(path).ok());
    path.map_or_else(|| typed.to_owned(), |path| path.display().to_string())
}
