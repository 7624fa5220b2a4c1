//! What a ladder's rungs did, and what follows from it.

mod change;

use std::fs;
use std::path::PathBuf;

use super::{FOLDER, printer, word};
use crate::design::{Asked, Library, Resolved};
use crate::diagnostic::Diagnostic;
use crate::export::print_set::{PRINT_RECORD, PrintRecord};
use crate::job::read::{Reading, load};
use crate::job::stopped::{Said, Stopped};
use crate::job::watch::{Watch, step};
use crate::print::specimen::{Mated, Rung};
use crate::print::{Found, Mate, TriedError, found, read_tried};
use crate::section::Printer;

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
        Change::Printer => change::printer(request, &loaded, &printed, (&found, mate)),
        Change::Design => change::design(library, request, &resolved, (&printed, &found)),
    };
    Ok(Tried { rungs: printed.rungs, found, changed, said })
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
