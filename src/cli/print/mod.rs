//! `print`: what goes to a printer to try a fit, and what comes back from it.
//!
//! ```text
//!   print DESIGN --printer P [--what ladder,stand-in]   pieces, plate, what to look for   (plate)
//!   print --calibrate --printer P                       rings and plugs, and a form       (plate)
//!   print --readings FILE                               the form -> the printer's profile (learn)
//!   print DESIGN --printer P --tried 3=free,2=bound     the ladder -> printer or design   (tried)
//! ```

mod learn;
mod plate;
mod tried;

use std::path::{Path, PathBuf};

use super::outcome::Outcome;
use super::screen::Screen;
use crate::archive;
use crate::design::{self, Library, LoadedPrinter};
use crate::diagnostic::{Diagnostic, Severity, Sources};
use crate::mesh::DEFAULT_CHORD;
use crate::print::specimen::{Ladder, Mated, SpecimenKind};
use crate::quantity::{Length, parse_length};
use crate::section::Printer;

/// The printer that is used when none is named.
const USUAL_PRINTER: &str = "resin";

/// The folder of prints in a design's.
const FOLDER: &str = "print";

/// What is asked of a print, as typed.
#[derive(Clone, Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, or the name of a built-in one
    #[arg(default_value = super::DEMO)]
    design: String,
    /// The printer: a profile's file, or the name of one
    #[arg(long, value_name = "PRINTER", default_value = USUAL_PRINTER)]
    printer: String,
    /// What to print, comma-separated: section (whole), coupon (front and back alone), ladder (one
    /// thread opened step by step), stand-in (the nib unit, so that no good one is ruined), ring
    /// (for the tenon), plug (for the barrel), cap-probe (the outside alone)
    #[arg(long, value_name = "NAMES", value_delimiter = ',', default_value = "section")]
    what: Vec<String>,
    /// The thread that a ladder tries, unit or tenon
    #[arg(long, value_name = "THREAD", default_value = "unit")]
    thread: String,
    /// How many rungs a ladder has; rung n is marked by n grooves
    #[arg(long, value_name = "COUNT")]
    rungs: Option<u8>,
    /// Clearance between the flanks of a ladder's first rung, square to them; left out, none
    #[arg(long, value_name = "LENGTH", allow_negative_numbers = true)]
    first: Option<String>,
    /// By how much it grows from rung to rung; left out, by what the printer's sizes scatter
    #[arg(long, value_name = "LENGTH", allow_negative_numbers = true)]
    step: Option<String>,
    /// How far flat triangles may stray from the true surface, in mm
    #[arg(long, value_name = "MM", default_value_t = DEFAULT_CHORD)]
    chord: f64,
    /// Write to a folder `print` in the design's folder in this one; a calibration plate to
    /// `calibration-PRINTER` in this one
    #[arg(long, value_name = "FOLDER", default_value = "out")]
    out: PathBuf,
    /// Make a plate of rings and plugs that the printer is calibrated by, and a form for its readings
    #[arg(long, conflicts_with_all = ["readings", "tried"])]
    calibrate: bool,
    /// Make the printer's profile from a form of readings that was filled in
    #[arg(long, value_name = "FILE", conflicts_with = "tried")]
    readings: Option<PathBuf>,
    /// What the ladder's rungs did when they were tried: `3=free,2=bound`
    #[arg(long, value_name = "RUNG=HOW")]
    tried: Option<String>,
    /// What they were tried with: real (the bought unit, the barrel that was made), or printed
    #[arg(long, value_name = "MATE", default_value = "real")]
    mate: String,
    /// What is changed by what they did: the printer's compensation, or the design's thread
    #[arg(long, value_name = "WHAT", default_value = "printer")]
    change: String,
    /// Write the changed profile or design to this file; left out, over its own, or for a built-in
    /// printer to PRINTER-measured.toml
    #[arg(long, value_name = "FILE")]
    into: Option<PathBuf>,
}

/// Does what is asked.
pub(super) fn print(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    if let Some(form) = &typed.readings {
        return learn::learn(library, form, typed.into.as_deref(), screen);
    }
    if typed.calibrate {
        return plate::calibration(library, typed, screen);
    }
    match &typed.tried {
        Some(words) => tried::tried(library, typed, words, screen),
        None => plate::print(library, typed, screen),
    }
}

/// Reads the printer's profile; says what is wrong with it.
fn printer(library: &Library, name: &str, screen: Screen) -> Option<LoadedPrinter> {
    match design::load_printer(library, name) {
        Ok(loaded) => {
            if !screen.quiet() {
                screen.diagnostics(&loaded.notes, &loaded.sources);
            }
            Some(loaded)
        }
        Err(mut failure) => {
            failure.diagnostics.retain(|d| !screen.quiet() || d.severity == Severity::Error);
            screen.diagnostics(&failure.diagnostics, &failure.sources);
            None
        }
    }
}

/// Writes a profile or a design: over the file that it was made from (`own`), or where nothing is. A
/// file of another content is never written over.
fn put(target: &Path, text: &str, own: Option<&Path>, screen: Screen) -> Option<Outcome> {
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
        screen.diagnostics(&[error], &Sources::default());
        return Some(Outcome::Wrong);
    }
    let written = archive::replace_file(target, text.as_bytes());
    written.err().map(|error| {
        screen.complain(error.code(), error.to_string());
        Outcome::Failed
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
fn kinds(typed: &Typed, wrong: &mut Vec<Diagnostic>) -> Vec<SpecimenKind> {
    let known = SpecimenKind::ALL.map(|kind| (kind.name(), kind));
    let mut asked = Vec::new();
    for name in &typed.what {
        asked.extend(word("print.what", "specimen", name, &known, wrong));
    }
    SpecimenKind::ALL.into_iter().filter(|kind| asked.contains(kind)).collect()
}

/// The ladder that is asked for; notes what is wrong with it.
fn ladder(typed: &Typed, printer: &Printer, wrong: &mut Vec<Diagnostic>) -> Option<Ladder> {
    let known = Mated::ALL.map(|mated| (mated.name(), mated));
    let mated = word("print.thread", "thread of a ladder", &typed.thread, &known, wrong);
    let mut length = |name: &str, code, text: &Option<String>| -> Option<Option<Length>> {
        let Some(text) = text else { return Some(None) };
        let told = |error: crate::quantity::LengthError| {
            Diagnostic::error(code, format!("--{name}: {error}")).hint(error.hint())
        };
        parse_length(text).map_err(|error| wrong.push(told(error))).ok().map(Some)
    };
    let first = length("first", "print.first", &typed.first);
    let step = length("step", "print.step", &typed.step);
    let usual = Ladder::usual(printer, mated?);
    Some(Ladder {
        rungs: typed.rungs.unwrap_or(usual.rungs),
        first: first?.unwrap_or(usual.first),
        step: step?.unwrap_or(usual.step),
        ..usual
    })
}
