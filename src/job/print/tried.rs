//! What a ladder's rungs did, put to the printer's profile or to the design's thread.

use std::fs;
use std::path::{Path, PathBuf};

use super::{FOLDER, printer, put, word};
use crate::archive;
use crate::design::{
    self, Asked, EditError, Failure, Library, LoadedPrinter, Resolved, with_numbers,
};
use crate::diagnostic::Diagnostic;
use crate::export::print_set::{PRINT_RECORD, PrintRecord};
use crate::job::read::{Reading, load};
use crate::job::stopped::{Said, Stopped, Why};
use crate::job::watch::{Watch, step};
use crate::print::specimen::{Mated, Rung};
use crate::print::{Found, Mate, TriedError, found, read_tried};
use crate::quantity::Length;
use crate::section::Printer;

/// Decimals of a millimetre that are written: a tenth of a micron, less than anybody can print.
const STEPS: f64 = 1e4;

/// What is asked of [`tried`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TriedRequest {
    /// The design's file or name.
    pub design: String,
    /// The printer's file or name.
    pub printer: String,
    /// What the rungs did: `3=free,2=bound`.
    pub tried: String,
    /// What they were tried with, real or printed.
    pub mate: String,
    /// What is changed, printer or design.
    pub change: String,
    /// Where the print was written to.
    pub out: PathBuf,
    /// The changed file; without it the one that it was, or for a built-in printer
    /// PRINTER-measured.toml.
    pub into: Option<PathBuf>,
}

/// What is changed.
#[derive(Clone, Copy)]
enum Change {
    Printer,
    Design,
}

/// A ladder as it was printed.
struct Printed {
    record: PrintRecord,
    mated: Mated,
    rungs: Vec<Rung>,
}

/// What follows from a ladder.
pub struct Tried {
    /// Its rungs.
    pub rungs: Vec<Rung>,
    /// Between which of them the thread fits, and what that says.
    pub found: Found,
    /// What was changed by it, or why it could not be.
    pub changed: Result<Changed, Stopped>,
    /// What is said of design and printer.
    pub said: Vec<Said>,
}

/// What was changed, and where.
pub enum Changed {
    /// The printer.
    Printer {
        /// As it was.
        before: Box<Printer>,
        /// As it is.
        now: Box<Printer>,
        /// Its file.
        target: PathBuf,
    },
    /// The design.
    Design {
        /// What is written now.
        sizes: Vec<NewSize>,
        /// Its file.
        target: PathBuf,
    },
}

/// A size that is written anew, in millimetres.
pub struct NewSize {
    /// Its key.
    pub key: String,
    /// What it was.
    pub was: f64,
    /// What it is.
    pub is: f64,
}

/// Finds what follows from a ladder, and changes printer or design by it.
///
/// # Errors
/// Everything that is wrong with the request, the design, the printer or the record of the print;
/// then, when it is cancelled, and where nothing was changed, nothing is written.
pub fn tried(
    library: &Library,
    request: &TriedRequest,
    watch: &dyn Watch,
) -> Result<Tried, Stopped> {
    step(watch, "reading the design")?;
    let mut said = Vec::new();
    let resolved = load(library, &request.design, Asked::default(), Reading::WithNotes, &mut said);
    let loaded = printer(library, &request.printer, &mut said);
    let mut wrong = Vec::new();
    let mates = [("real", Mate::Real), ("printed", Mate::Printed)];
    let mate = word("print.mate", "mate", &request.mate, &mates, &mut wrong);
    let known = [("printer", Change::Printer), ("design", Change::Design)];
    let change = word("print.change", "thing to change", &request.change, &known, &mut wrong);
    let printed = resolved.as_ref().and_then(|resolved| printed(request, resolved, &mut wrong));
    let told =
        |error: &TriedError| Diagnostic::error(error.code(), error.to_string()).hint(error.hint());
    let read = read_tried(&request.tried);
    let read = read.map_err(|errors| wrong.extend(errors.iter().map(told))).ok();
    let outcome = printed.as_ref().zip(read.as_ref()).and_then(|(printed, read)| {
        let found = found(&printed.rungs, read);
        found.map_err(|errors| wrong.extend(errors.iter().map(told))).ok()
    });
    said.push(Said::of_request(wrong));
    let (Some(resolved), Some(loaded), Some(printed), Some(found), Some(mate), Some(change)) =
        (resolved, loaded, printed, outcome, mate, change)
    else {
        return Err(Stopped::wrong(said));
    };
    step(watch, "writing what follows")?;
    let changed = match change {
        Change::Printer => change_printer(request, &loaded, &printed, (&found, mate)),
        Change::Design => change_design(library, request, &resolved, (&printed, &found)),
    };
    Ok(Tried { rungs: printed.rungs, found, changed, said })
}

/// That a file can't take the numbers.
fn unwritable(error: &EditError) -> Stopped {
    Stopped::by(Why::Wrong, Vec::new(), Diagnostic::error(error.code(), error.to_string()))
}

/// The record of the design's print; noted where there is none, or none with a ladder.
fn printed(
    request: &TriedRequest,
    resolved: &Resolved,
    wrong: &mut Vec<Diagnostic>,
) -> Option<Printed> {
    let path = request.out.join(&resolved.section.name).join(FOLDER).join(PRINT_RECORD);
    let hint = format!(
        "sectionwright print {} --printer {} --what ladder,stand-in",
        request.design, request.printer
    );
    let text = fs::read_to_string(&path).ok();
    let record = text.and_then(|text| PrintRecord::read(&text));
    let Some(record) = record else {
        let message = format!("there is no record of a print at {}", path.display());
        wrong.push(Diagnostic::error("print.no-record", message).hint(hint));
        return None;
    };
    let Some((mated, rungs)) = record.rungs() else {
        let message = format!("the print at {} has no ladder", path.display());
        wrong.push(Diagnostic::error("print.no-ladder", message).hint(hint));
        return None;
    };
    if record.printer != request.printer {
        let message =
            format!("the ladder was printed on {}, not on {}", record.printer, request.printer);
        let hint = format!("--printer {}", record.printer);
        wrong.push(Diagnostic::error("print.other-printer", message).hint(hint));
        return None;
    }
    Some(Printed { record, mated, rungs })
}

/// Puts it into the printer's profile: over its own file, or a new one like the built-in one.
fn change_printer(
    request: &TriedRequest,
    loaded: &LoadedPrinter,
    printed: &Printed,
    (found, mate): (&Found, Mate),
) -> Result<Changed, Stopped> {
    let new = found.printer(&loaded.printer, printed.record.used(), (printed.mated, mate));
    let (internal, external) = (digits(new.internal_flank), digits(new.external_flank));
    let target = match (&request.into, &loaded.path) {
        (Some(into), _) => into.clone(),
        (None, Some(path)) => path.clone(),
        (None, None) => PathBuf::from(format!("{}-measured.toml", loaded.printer.name)),
    };
    let start = match loaded.path.as_ref().map(fs::read_to_string) {
        Some(Ok(text)) => text,
        Some(Err(error)) => {
            let message = format!("{}: {error}", request.printer);
            let told = Diagnostic::error("file.unreadable", message);
            return Err(Stopped::by(Why::Failed, Vec::new(), told));
        }
        None => {
            let name = target.file_stem().unwrap_or_default().to_string_lossy();
            format!(
                "# Made from a ladder that was tried. What is not here is as it was.\nformat = 1\n\
                 like = \"{}\"\nname = \"{name}\"\n",
                loaded.printer.name
            )
        }
    };
    let numbers = [("thread.internal", internal), ("thread.external", external)];
    let text = with_numbers(&start, &numbers).map_err(|error| unwritable(&error))?;
    put(&target, &text, loaded.path.as_deref())?;
    let new = crate::section::Printer {
        internal_flank: Length::mm(internal),
        external_flank: Length::mm(external),
        ..new
    };
    let before = Box::new(loaded.printer.clone());
    Ok(Changed::Printer { before, now: Box::new(new), target })
}

/// Puts it into the design's thread, where that design still makes a section.
fn change_design(
    library: &Library,
    request: &TriedRequest,
    resolved: &Resolved,
    (printed, found): (&Printed, &Found),
) -> Result<Changed, Stopped> {
    let path = Path::new(&request.design);
    let Ok(start) = fs::read_to_string(path) else {
        let message = format!("{} is built in, and can't be changed", request.design);
        let hint =
            format!("sectionwright profiles {0} > {0}.toml, then print that", request.design);
        let error = Diagnostic::error("print.built-in", message).hint(hint);
        return Err(Stopped::by(Why::Wrong, Vec::new(), error));
    };
    if !printed.record.is_of(&resolved.section) {
        let message =
            format!("{} is not the design that the ladder was printed of", request.design);
        let error = Diagnostic::error("print.other-design", message)
            .hint("what its rungs said is in it already, or they are to be printed anew");
        return Err(Stopped::by(Why::Wrong, Vec::new(), error));
    }
    let thread = printed.mated.thread(&resolved.section);
    let [pitch, root] = found.thread(&thread.form, thread.side).map(digits);
    let tapped = start.parse::<toml::Table>().ok().is_some_and(|file| {
        let thread = file.get("bores").and_then(|bores| bores.get("thread"));
        thread.is_some_and(|thread| thread.get("tap").is_some())
    });
    let numbers = match printed.mated {
        Mated::Unit if tapped => {
            [("bores.thread.tap.pitch_diameter", pitch), ("bores.thread.tap.major", root)]
        }
        Mated::Unit => {
            [("bores.thread.form.pitch_diameter", pitch), ("bores.thread.form.major", root)]
        }
        Mated::Tenon => [("tenon.form.pitch_diameter", pitch), ("tenon.form.minor", root)],
    };
    let text = with_numbers(&start, &numbers).map_err(|error| unwritable(&error))?;
    let target = request.into.clone().unwrap_or_else(|| path.to_owned());
    // The design must still be one: tried beside the old one, from where its profiles are found.
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let beside = path.with_file_name(format!(".{stem}.tried.sectionwright.toml"));
    let tried = archive::replace_file(&beside, text.as_bytes());
    let checked = tried.map(|()| design::load(library, &beside.display().to_string()));
    let _ = fs::remove_file(&beside);
    match checked {
        Err(error) => {
            let told = Diagnostic::error(error.code(), error.to_string());
            return Err(Stopped::by(Why::Failed, Vec::new(), told));
        }
        Ok(Err(Failure { diagnostics, sources })) => {
            return Err(Stopped::wrong(vec![Said { diagnostics, sources }]));
        }
        Ok(Ok(_)) => {}
    }
    put(&target, &text, Some(path))?;
    let old = [thread.form.pitch_diameter, thread.form.root].map(Length::as_mm);
    let sizes = numbers.iter().zip(old).map(|((key, new), old)| NewSize {
        key: (*key).to_owned(),
        was: old,
        is: *new,
    });
    Ok(Changed::Design { sizes: sizes.collect(), target })
}

fn digits(length: Length) -> f64 {
    (length.as_mm() * STEPS).round() / STEPS + 0.0
}
