//! What a ladder says, put to the printer's profile or to the design's thread.

use std::fs;
use std::path::{Path, PathBuf};

use super::{Changed, NewSize, Printed, TriedRequest};
use crate::archive;
use crate::design::load as load_design;
use crate::design::{EditError, Failure, Library, LoadedPrinter, Resolved, with_numbers};
use crate::diagnostic::Diagnostic;
use crate::job::print::put;
use crate::job::stopped::{Said, Stopped, Why};
use crate::print::specimen::Mated;
use crate::print::{Found, Mate};
use crate::quantity::Length;
use crate::section::Printer;

/// Decimals of a millimetre that are written: a tenth of a micron, less than anybody can print.
const STEPS: f64 = 1e4;

/// That a file can't take the numbers.
fn unwritable(error: &EditError) -> Stopped {
    Stopped::by(Why::Wrong, Vec::new(), Diagnostic::error(error.code(), error.to_string()))
}

/// Puts it into the printer's profile: over its own file, or a new one like the built-in one.
pub(super) fn printer(
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
    let new = Printer {
        internal_flank: Length::mm(internal),
        external_flank: Length::mm(external),
        ..new
    };
    let before = Box::new(loaded.printer.clone());
    Ok(Changed::Printer { before, now: Box::new(new), target })
}

/// Puts it into the design's thread, where that design still makes a section.
pub(super) fn design(
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
    let checked = tried.map(|()| load_design(library, &beside.display().to_string()));
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
