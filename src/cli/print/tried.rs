//! What a ladder's rungs did, put to the printer's profile or to the design's thread.

use std::fs;
use std::path::{Path, PathBuf};

use super::{FOLDER, Typed, printer, put, word};
use crate::archive;
use crate::cli::make::load;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::design::{self, Asked, Library, LoadedPrinter, Resolved, with_numbers};
use crate::diagnostic::{Diagnostic, Sources};
use crate::drawing::CAUTION;
use crate::export::print_set::{PRINT_RECORD, PrintRecord};
use crate::print::calibrate::{changes, changes_table};
use crate::print::specimen::{Mated, Rung};
use crate::print::{Found, Mate, TriedError, found, read_tried};
use crate::quantity::Length;

/// Decimals of a millimetre that are written: a tenth of a micron, less than anybody can print.
const STEPS: f64 = 1e4;

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

/// Says what follows from a ladder, and changes printer or design by it.
pub(super) fn tried(library: &Library, typed: &Typed, words: &str, screen: Screen) -> Outcome {
    let resolved = load(library, &typed.design, Asked::default(), screen);
    let loaded = printer(library, &typed.printer, screen);
    let mut wrong = Vec::new();
    let mates = [("real", Mate::Real), ("printed", Mate::Printed)];
    let mate = word("print.mate", "mate", &typed.mate, &mates, &mut wrong);
    let known = [("printer", Change::Printer), ("design", Change::Design)];
    let change = word("print.change", "thing to change", &typed.change, &known, &mut wrong);
    let printed = resolved.as_ref().and_then(|resolved| printed(typed, resolved, &mut wrong));
    let told =
        |error: &TriedError| Diagnostic::error(error.code(), error.to_string()).hint(error.hint());
    let read = read_tried(words).map_err(|errors| wrong.extend(errors.iter().map(told))).ok();
    let outcome = printed.as_ref().zip(read.as_ref()).and_then(|(printed, read)| {
        let found = found(&printed.rungs, read);
        found.map_err(|errors| wrong.extend(errors.iter().map(told))).ok()
    });
    screen.diagnostics(&wrong, &Sources::default());
    let (Some(resolved), Some(loaded), Some(printed), Some(found), Some(mate), Some(change)) =
        (resolved, loaded, printed, outcome, mate, change)
    else {
        return Outcome::Wrong;
    };
    screen.say(&said(&printed, &found));
    match change {
        Change::Printer => change_printer(typed, &loaded, &printed, (&found, mate), screen),
        Change::Design => change_design(library, typed, &resolved, (&printed, &found), screen),
    }
}

/// The record of the design's print; noted where there is none, or none with a ladder.
fn printed(typed: &Typed, resolved: &Resolved, wrong: &mut Vec<Diagnostic>) -> Option<Printed> {
    let path = typed.out.join(&resolved.section.name).join(FOLDER).join(PRINT_RECORD);
    let hint = format!(
        "sectionwright print {} --printer {} --what ladder,stand-in",
        typed.design, typed.printer
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
    if record.printer != typed.printer {
        let message =
            format!("the ladder was printed on {}, not on {}", record.printer, typed.printer);
        let hint = format!("--printer {}", record.printer);
        wrong.push(Diagnostic::error("print.other-printer", message).hint(hint));
        return None;
    }
    Some(Printed { record, mated, rungs })
}

fn said(printed: &Printed, found: &Found) -> String {
    let [bound, free] = found.between;
    let of = |number: u8| {
        let rung = printed.rungs.iter().find(|rung| rung.number == number);
        rung.map_or(0.0, |rung| rung.clearance.as_mm())
    };
    format!(
        "Rung {bound} ({:.3} mm) bound, rung {free} ({:.3} mm) turned: the flanks came out {:.3} +/- \
         {:.3} mm narrower than said, square to them\n\n",
        of(bound),
        of(free),
        found.lacking.as_mm(),
        found.uncertainty.as_mm()
    )
}

/// Puts it into the printer's profile: over its own file, or a new one like the built-in one.
fn change_printer(
    typed: &Typed,
    loaded: &LoadedPrinter,
    printed: &Printed,
    (found, mate): (&Found, Mate),
    screen: Screen,
) -> Outcome {
    let new = found.printer(&loaded.printer, printed.record.used(), (printed.mated, mate));
    let (internal, external) = (digits(new.internal_flank), digits(new.external_flank));
    let target = match (&typed.into, &loaded.path) {
        (Some(into), _) => into.clone(),
        (None, Some(path)) => path.clone(),
        (None, None) => PathBuf::from(format!("{}-measured.toml", loaded.printer.name)),
    };
    let start = match loaded.path.as_ref().map(fs::read_to_string) {
        Some(Ok(text)) => text,
        Some(Err(error)) => {
            screen.complain("file.unreadable", format!("{}: {error}", typed.printer));
            return Outcome::Failed;
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
    let text = match with_numbers(&start, &numbers) {
        Ok(text) => text,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    if let Some(stopped) = put(&target, &text, loaded.path.as_deref(), screen) {
        return stopped;
    }
    let new = crate::section::Printer {
        internal_flank: Length::mm(internal),
        external_flank: Length::mm(external),
        ..new
    };
    screen.say(&changes_table(&changes(&loaded.printer, &new)));
    ended(&target, screen)
}

/// Puts it into the design's thread, where that design still makes a section.
fn change_design(
    library: &Library,
    typed: &Typed,
    resolved: &Resolved,
    (printed, found): (&Printed, &Found),
    screen: Screen,
) -> Outcome {
    let path = Path::new(&typed.design);
    let Ok(start) = fs::read_to_string(path) else {
        let message = format!("{} is built in, and can't be changed", typed.design);
        let hint = format!("sectionwright profiles {0} > {0}.toml, then print that", typed.design);
        let error = Diagnostic::error("print.built-in", message).hint(hint);
        screen.diagnostics(&[error], &Sources::default());
        return Outcome::Wrong;
    };
    if !printed.record.is_of(&resolved.section) {
        let message = format!("{} is not the design that the ladder was printed of", typed.design);
        let error = Diagnostic::error("print.other-design", message)
            .hint("what its rungs said is in it already, or they are to be printed anew");
        screen.diagnostics(&[error], &Sources::default());
        return Outcome::Wrong;
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
    let text = match with_numbers(&start, &numbers) {
        Ok(text) => text,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    let target = typed.into.clone().unwrap_or_else(|| path.to_owned());
    // The design must still be one: tried beside the old one, from where its profiles are found.
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let beside = path.with_file_name(format!(".{stem}.tried.sectionwright.toml"));
    let tried = archive::replace_file(&beside, text.as_bytes());
    let checked = tried.map(|()| design::load(library, &beside.display().to_string()));
    let _ = fs::remove_file(&beside);
    match checked {
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Failed;
        }
        Ok(Err(failure)) => {
            screen.diagnostics(&failure.diagnostics, &failure.sources);
            return Outcome::Wrong;
        }
        Ok(Ok(_)) => {}
    }
    if let Some(stopped) = put(&target, &text, Some(path), screen) {
        return stopped;
    }
    let old = [thread.form.pitch_diameter, thread.form.root].map(Length::as_mm);
    for ((keys, new), old) in numbers.iter().zip(old) {
        screen.say(&format!("  {keys:<34}{old:>9.4} -> {new:.4} mm\n"));
    }
    screen.say("Cut it so much larger too: the tap, or the tool's depth, decides, not the file.\n");
    ended(&target, screen)
}

fn digits(length: Length) -> f64 {
    (length.as_mm() * STEPS).round() / STEPS + 0.0
}

fn ended(target: &Path, screen: Screen) -> Outcome {
    screen.say(&format!("\nWritten:\n  {}\n{CAUTION}\n", target.display()));
    Outcome::Fine
}
