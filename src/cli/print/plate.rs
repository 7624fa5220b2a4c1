//! A plate of pieces, with its files: of a design, or to calibrate a printer by.

use std::path::Path;
use std::thread;

use super::{FOLDER, Typed, kinds, ladder, printer};
use crate::archive;
use crate::check::chord;
use crate::cli::make::{self, load};
use crate::cli::outcome::Outcome;
use crate::cli::progress::Progress;
use crate::cli::screen::Screen;
use crate::design::{Asked, Library, LoadedPrinter};
use crate::diagnostic::{Diagnostic, Sources};
use crate::drawing::CAUTION;
use crate::export::print_set::{
    LOOK_FOR, PLATE_3MF, PLATE_SVG, PrintOf, PrintSources, print_file_names, print_files,
};
use crate::export::{File, Meshed};
use crate::print::calibrate::{Plate, form};
use crate::print::{Layout, Piece, Proof, Tells, calibration_pieces, layout, pieces, proofs};
use crate::quantity::Length;
use crate::solid::build;

/// The form of a calibration plate.
const READINGS: &str = "readings.toml";

/// How much finer than asked for a piece is cut at most, where a step that the printer's amounts have
/// made is small: more, and a micron of a lost crest asks for a million triangles. What it is cut to
/// is audited all the same.
const FINEST: f64 = 4.0;

/// A fault: a code and a message.
type Fault = (&'static str, String);

/// Makes what is to be printed of a design.
pub(super) fn print(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let resolved = load(library, &typed.design, Asked::default(), screen);
    let loaded = printer(library, &typed.printer, screen);
    let mut wrong: Vec<Diagnostic> = make::chord_fault(typed.chord).into_iter().collect();
    let kinds = kinds(typed, &mut wrong);
    let ladder = loaded.as_ref().and_then(|loaded| ladder(typed, &loaded.printer, &mut wrong));
    screen.diagnostics(&wrong, &Sources::default());
    let (Some(resolved), Some(loaded), Some(ladder), true) =
        (resolved, loaded, ladder, wrong.is_empty())
    else {
        return Outcome::Wrong;
    };
    let (section, printer) = (&resolved.section, &loaded.printer);
    progress.step("moving every surface for the printer");
    let made = pieces(section, &kinds, printer, &ladder, Length::mm(typed.chord));
    let made = made.map_err(|errors| {
        let told = |error: &crate::print::PieceError| {
            let told = Diagnostic::error(error.code(), error.to_string());
            match error.hint() {
                Some(hint) => told.hint(hint),
                None => told,
            }
        };
        errors.iter().map(told).collect::<Vec<_>>()
    });
    let laid = made.and_then(|made| laid_out(made, &loaded));
    let (made, layout) = match laid {
        Ok(laid) => laid,
        Err(errors) => {
            screen.diagnostics(&errors, &Sources::default());
            return Outcome::Wrong;
        }
    };
    progress.step("finding what the print can tell");
    let proofs = match proofs(section, printer) {
        Ok(proofs) => proofs,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    let title = format!("{} on {}", section.name, printer.name);
    let of = PrintOf { section, design: &typed.design, ladder: &ladder, proofs: &proofs };
    let files = files(&title, typed, &loaded, (&made, &layout), Some(of), &progress);
    let files = match files {
        Ok(files) => files,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    progress.step("writing the files");
    let folder = typed.out.join(&section.name).join(FOLDER);
    if let Err(error) = archive::replace(&folder, &files, &print_file_names()) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    screen.say(&said(&title, &made, &proofs));
    screen.say(&written(&folder, &files));
    Outcome::Fine
}

/// Makes the plate that a printer is calibrated by. Readings that somebody has typed into its form
/// stay.
pub(super) fn calibration(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    let loaded = printer(library, &typed.printer, screen);
    let wrong: Vec<Diagnostic> = make::chord_fault(typed.chord).into_iter().collect();
    screen.diagnostics(&wrong, &Sources::default());
    let (Some(loaded), true) = (loaded, wrong.is_empty()) else { return Outcome::Wrong };
    let plate = Plate::new(&loaded.printer);
    let (made, layout) = match laid_out(calibration_pieces(&plate), &loaded) {
        Ok(laid) => laid,
        Err(errors) => {
            screen.diagnostics(&errors, &Sources::default());
            return Outcome::Wrong;
        }
    };
    let title = format!("Calibration of {}", loaded.printer.name);
    let mut files = match files(&title, typed, &loaded, (&made, &layout), None, &progress) {
        Ok(files) => files,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    let folder = typed.out.join(format!("calibration-{}", loaded.printer.name));
    let names = made.iter().map(|piece| format!("{}.stl", piece.name));
    let mut ours: Vec<String> = names.chain(print_file_names()).collect();
    // The form says where the printer's profile is, seen from the form's own folder.
    let blank = form(&from_folder(&loaded, &typed.printer), &plate);
    let there = std::fs::read_to_string(folder.join(READINGS)).ok();
    let filled_in = there.is_some_and(|there| there != blank);
    if !filled_in {
        files.push(File::new(READINGS, blank));
        ours.push(READINGS.to_owned());
    }
    if let Err(error) = archive::replace(&folder, &files, &ours) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    screen.say(&format!(
        "{title}: {} rings and plugs, {} readings\n",
        made.len(),
        plate.readings().iter().map(|reading| reading.times).sum::<usize>()
    ));
    screen.say(&written(&folder, &files));
    if filled_in {
        let path = folder.join(READINGS);
        screen.say(&format!("{} has readings in it, and stays as it is\n", path.display()));
    }
    Outcome::Fine
}

/// How the form names the printer: a built-in one by its name, a file by a path that holds wherever
/// the form goes.
fn from_folder(loaded: &LoadedPrinter, typed: &str) -> String {
    let path = loaded.path.as_ref().and_then(|path| std::path::absolute(path).ok());
    path.map_or_else(|| typed.to_owned(), |path| path.display().to_string())
}

/// Pieces on the plate; what is wrong with that.
fn laid_out(
    made: Vec<Piece>,
    loaded: &LoadedPrinter,
) -> Result<(Vec<Piece>, Layout), Vec<Diagnostic>> {
    let told = |error: &crate::print::LayoutError| {
        Diagnostic::error(error.code(), error.to_string()).hint(error.hint())
    };
    match layout(&made, &loaded.printer) {
        Ok(layout) => Ok((made, layout)),
        Err(errors) => Err(errors.iter().map(told).collect()),
    }
}

/// All files of a plate, in memory.
fn files(
    title: &str,
    typed: &Typed,
    loaded: &LoadedPrinter,
    (made, layout): (&[Piece], &Layout),
    of: Option<PrintOf>,
    progress: &Progress,
) -> Result<Vec<File>, Fault> {
    progress.step("cutting the surfaces into triangles");
    let meshes = meshes(made, typed.chord)?;
    progress.step("writing the formats");
    let sources = PrintSources {
        title,
        printer: &loaded.printer,
        printer_as: &typed.printer,
        pieces: made,
        layout,
        meshes: &meshes,
        of,
    };
    print_files(&sources).map_err(|error| (error.code(), error.to_string()))
}

/// The triangles of every piece, in their order, on as many threads as there are cores.
fn meshes(made: &[Piece], asked: f64) -> Result<Vec<Meshed>, Fault> {
    let cores = thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let share = made.len().div_ceil(cores).max(1);
    let cut = |piece: &Piece| -> Result<Meshed, Fault> {
        let named = |message: String| format!("{}: {message}", piece.name);
        let body = build(&piece.part).map_err(|e| (e.code(), named(e.to_string())))?;
        let mut chord = chord(&piece.part, &body, asked);
        chord.in_force = chord.in_force.max(asked / FINEST);
        Meshed::new(&body, chord).map_err(|e| (e.code(), named(e.to_string())))
    };
    let cut = &cut;
    thread::scope(|scope| {
        let workers: Vec<_> = made
            .chunks(share)
            .map(|some| scope.spawn(move || some.iter().map(cut).collect::<Vec<_>>()))
            .collect();
        let joined = workers.into_iter().map(thread::ScopedJoinHandle::join);
        let all = joined.map(|done| {
            done.unwrap_or_else(|_| vec![Err(("solid.not-closed", "a piece failed".to_owned()))])
        });
        all.flatten().collect()
    })
}

/// The pieces, what is lost of them, and what the print can tell, in a few lines.
fn said(title: &str, made: &[Piece], proofs: &[Proof]) -> String {
    let mut text = format!("{title}\n\n");
    for piece in made {
        let height = piece.height().as_mm();
        let wide = piece.radius() * 2.0;
        text += &format!("  {:<14}{:<46}{wide:>6.1} x {height:.1} mm\n", piece.name, piece.what);
        for thread in &piece.smooth {
            text += &format!("    {thread} is left smooth: too fine for this printer\n");
        }
        for loss in &piece.losses {
            text += &format!("    {loss}\n");
        }
    }
    let count = |want: fn(&Tells) -> bool| proofs.iter().filter(|p| want(&p.tells)).count();
    let shows = count(|tells| *tells == Tells::Shows);
    let near = count(|tells| *tells == Tells::TooNear);
    let nothing = count(|tells| matches!(tells, Tells::Nothing(_)));
    text + &format!(
        "\nOf {} checks a print shows {shows}; {near} lie too near for this printer; of {nothing} it \
         tells nothing.\n",
        proofs.len()
    )
}

fn written(folder: &Path, files: &[File]) -> String {
    let names = files.iter().map(|file| format!("  {}\n", folder.join(&file.name).display()));
    let names: String = names.collect();
    format!(
        "\nWritten:\n{names}\nLook at {PLATE_SVG}, send {PLATE_3MF} to the printer, keep {LOOK_FOR} \
         beside it.\n{CAUTION}\n"
    )
}
