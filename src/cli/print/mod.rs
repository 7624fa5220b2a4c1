//! `print`: what goes to a printer to try a fit, and what comes back from it.

mod said;

use std::path::PathBuf;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use crate::design::Library;
use crate::job::print::{self, Changed, LearnRequest, Request, TriedRequest};
use crate::mesh::DEFAULT_CHORD;

/// The printer that is used when none is named.
const USUAL_PRINTER: &str = "resin";

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

impl Typed {
    fn request(self) -> Request {
        Request {
            design: self.design,
            printer: self.printer,
            what: self.what,
            thread: self.thread,
            rungs: self.rungs,
            first: self.first,
            step: self.step,
            chord: self.chord,
            out: self.out,
        }
    }
}

/// Does what is asked.
pub(super) fn print(library: &Library, mut typed: Typed, screen: Screen) -> Outcome {
    if let Some(readings) = typed.readings.take() {
        return learn(library, &LearnRequest { readings, into: typed.into }, screen);
    }
    if typed.calibrate {
        return calibration(library, &typed.request(), screen);
    }
    match typed.tried.take() {
        Some(words) => {
            let request = TriedRequest {
                design: typed.design,
                printer: typed.printer,
                tried: words,
                mate: typed.mate,
                change: typed.change,
                out: typed.out,
                into: typed.into,
            };
            tried(library, &request, screen)
        }
        None => plate(library, &typed.request(), screen),
    }
}

fn plate(library: &Library, request: &Request, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    let printed = print::print(library, request, &progress);
    drop(progress);
    let printed = match printed {
        Ok(printed) => printed,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&printed.said);
    screen.say(&said::pieces(&printed));
    screen.say(&said::written(&printed.folder, &printed.files));
    Outcome::Fine
}

fn calibration(library: &Library, request: &Request, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    let plate = print::calibration(library, request, &progress);
    drop(progress);
    let plate = match plate {
        Ok(plate) => plate,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&plate.said);
    let (title, pieces, readings) = (&plate.title, plate.pieces.len(), plate.readings);
    screen.say(&format!("{title}: {pieces} rings and plugs, {readings} readings\n"));
    screen.say(&said::written(&plate.folder, &plate.files));
    if let Some(path) = &plate.filled_in {
        screen.say(&format!("{} has readings in it, and stays as it is\n", path.display()));
    }
    Outcome::Fine
}

fn learn(library: &Library, request: &LearnRequest, screen: Screen) -> Outcome {
    match print::learn(library, request, &()) {
        Ok(learned) => {
            screen.said(&learned.said);
            screen.say(&said::learned(&learned));
            Outcome::Fine
        }
        Err(stopped) => screen.stopped(&stopped),
    }
}

fn tried(library: &Library, request: &TriedRequest, screen: Screen) -> Outcome {
    let tried = match print::tried(library, request, &()) {
        Ok(tried) => tried,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&tried.said);
    screen.say(&said::rungs(&tried));
    match &tried.changed {
        Ok(Changed::Printer { before, now, target }) => {
            screen.say(&said::printer(before, now, target));
            Outcome::Fine
        }
        Ok(Changed::Design { sizes, target }) => {
            screen.say(&said::design(sizes, target));
            Outcome::Fine
        }
        Err(stopped) => screen.stopped(stopped),
    }
}
