//! What goes to a printer to try a fit, and what comes back from it.
//!
//! ```text
//!   a design, a printer   -> pieces, plate, what to look for   (plate)
//!   a printer             -> rings and plugs, and a form       (plate)
//!   the form, filled in   -> the printer's profile             (learn)
//!   what the ladder did   -> printer or design                 (tried)
//! ```

mod laid;
mod learn;
mod plate;
mod tried;

pub use learn::{LearnRequest, Learned, learn};
pub use plate::{CalibrationPlate, Printed, calibration, print};
pub use tried::{Changed, NewSize, Tried, TriedRequest, tried};

use std::path::{Path, PathBuf};

use super::stopped::{Said, Stopped, Why};
use crate::archive;
use crate::design::{self, Failure, Library, LoadedPrinter};
use crate::diagnostic::Diagnostic;
use crate::mesh::DEFAULT_CHORD;
use crate::print::specimen::{Ladder, Mated, SpecimenKind};
use crate::quantity::{Length, parse_length};
use crate::section::Printer;

/// The folder of prints in a design's.
const FOLDER: &str = "print";

/// What is asked of a print.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// The design's file or name; of no account for a calibration plate.
    pub design: String,
    /// The printer's file or name.
    pub printer: String,
    /// The kinds of specimens: `section`, `ladder`.
    pub what: Vec<String>,
    /// The thread that a ladder tries, unit or tenon.
    pub thread: String,
    /// How many rungs a ladder has, if not the usual number.
    pub rungs: Option<u8>,
    /// Clearance between the flanks of its first rung, if any.
    pub first: Option<String>,
    /// By how much it grows from rung to rung, if not by what the printer's sizes scatter.
    pub step: Option<String>,
    /// How far triangles may stray, in mm.
    pub chord: f64,
    /// Where the folder goes.
    pub out: PathBuf,
}

impl Request {
    /// The whole section of a design for a printer, as usual, to `out`.
    pub fn of(
        design: impl Into<String>,
        printer: impl Into<String>,
        out: impl Into<PathBuf>,
    ) -> Self {
        Self {
            design: design.into(),
            printer: printer.into(),
            what: vec![SpecimenKind::ALL[0].name().to_owned()],
            thread: Mated::Unit.name().to_owned(),
            rungs: None,
            first: None,
            step: None,
            chord: DEFAULT_CHORD,
            out: out.into(),
        }
    }
}

/// Reads the printer's profile; none where it is wrong. What is said of it is added.
fn printer(library: &Library, name: &str, said: &mut Vec<Said>) -> Option<LoadedPrinter> {
    match design::load_printer(library, name) {
        Ok(loaded) => {
            let (diagnostics, sources) = (loaded.notes.clone(), loaded.sources.clone());
            said.push(Said { diagnostics, sources });
            Some(loaded)
        }
        Err(Failure { diagnostics, sources }) => {
            said.push(Said { diagnostics, sources });
            None
        }
    }
}

/// Writes a profile or a design: over the file that it was made from (`own`), or where nothing is. A
/// file of another content is never written over.
fn put(target: &Path, text: &str, own: Option<&Path>) -> Result<(), Stopped> {
    let whole = |path: &Path| std::path::absolute(path).ok();
    let is_own = own.is_some_and(|own| whole(own) == whole(target));
    let there = std::fs::read(target).ok();
    if !is_own && there.is_some_and(|there| there != text.as_bytes()) {
        let message = format!("{} is there already, and says something else", target.display());
        let hint = format!(
            "--printer {0} goes on from it; or name another file with --into",
            target.display()
        );
        let error = Diagnostic::error("print.taken", message).hint(hint);
        return Err(Stopped::by(Why::Wrong, Vec::new(), error));
    }
    archive::replace_file(target, text.as_bytes()).map_err(|error| {
        let told = Diagnostic::error(error.code(), error.to_string());
        Stopped::by(Why::Failed, Vec::new(), told)
    })
}

/// A word of a list; noted where it is none.
fn word<T: Copy>(
    code: &'static str,
    what: &str,
    typed: &str,
    known: &[(&'static str, T)],
    wrong: &mut Vec<Diagnostic>,
) -> Option<T> {
    let found = known.iter().find(|(name, _)| *name == typed.trim());
    if found.is_none() {
        let names: Vec<&str> = known.iter().map(|(name, _)| *name).collect();
        let message = format!("`{typed}` is no {what}; there are {}", names.join(", "));
        wrong.push(Diagnostic::error(code, message).hint(format!("such as {}", names[0])));
    }
    found.map(|(_, value)| *value)
}

/// The kinds that are asked for, each once, in their own order; notes every word that is none.
fn kinds(request: &Request, wrong: &mut Vec<Diagnostic>) -> Vec<SpecimenKind> {
    let known = SpecimenKind::ALL.map(|kind| (kind.name(), kind));
    let mut asked = Vec::new();
    for name in &request.what {
        asked.extend(word("print.what", "specimen", name, &known, wrong));
    }
    SpecimenKind::ALL.into_iter().filter(|kind| asked.contains(kind)).collect()
}

/// The ladder that is asked for; notes what is wrong with it.
fn ladder(request: &Request, printer: &Printer, wrong: &mut Vec<Diagnostic>) -> Option<Ladder> {
    let known = Mated::ALL.map(|mated| (mated.name(), mated));
    let mated = word("print.thread", "thread of a ladder", &request.thread, &known, wrong);
    let mut length = |name: &str, code, text: &Option<String>| -> Option<Option<Length>> {
        let Some(text) = text else { return Some(None) };
        let told = |error: crate::quantity::LengthError| {
            Diagnostic::error(code, format!("--{name}: {error}")).hint(error.hint())
        };
        parse_length(text).map_err(|error| wrong.push(told(error))).ok().map(Some)
    };
    let first = length("first", "print.first", &request.first);
    let step = length("step", "print.step", &request.step);
    let usual = Ladder::usual(printer, mated?);
    Some(Ladder {
        rungs: request.rungs.unwrap_or(usual.rungs),
        first: first?.unwrap_or(usual.first),
        step: step?.unwrap_or(usual.step),
        ..usual
    })
}
