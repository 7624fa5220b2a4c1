//! `keep`: a design, with all that was made of it, in one file on the maker's shelf.

mod given;
mod place;

use std::path::{Path, PathBuf};

use super::asmade;
use super::make::{self, produce::produce};
use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::table;
use crate::archive::kept::{AskedFor, Contents, Kept, Summary};
use crate::archive::{PlaceError, Placed, Standing, place as put};
use crate::design::{Asked, Kind, Library, Resolved};
use crate::diagnostic::{Diagnostic, Sources};
use crate::drawing::CAUTION;
use crate::export::Record;
use crate::mesh::DEFAULT_CHORD;
use crate::quantity::Length;
use crate::scene::Examination;
use crate::section::NamedPart;

pub(super) use place::shelf_folder;

/// What is asked of [`keep`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, or the name of a built-in one
    design: String,
    /// A text to keep with it; as often as there are texts
    #[arg(long, value_name = "TEXT")]
    note: Vec<String>,
    /// A photograph to keep with it, or any other file, as it is; as often as there are files
    #[arg(long, value_name = "FILE")]
    photo: Vec<PathBuf>,
    /// The day of keeping, as ISO 8601 writes it: 2031-05-01; without it none is noted
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    /// The folder of archives; without it the one that `SECTIONWRIGHT_SHELF` names, or
    /// sectionwright/kept in your data folder
    #[arg(long, value_name = "FOLDER")]
    shelf: Option<PathBuf>,
    /// A size that was cut otherwise, as `asmade` takes it: `bores.recess.depth=1.3`
    #[arg(long, value_name = "KEY=VALUE")]
    set: Vec<String>,
    /// The last step that was done, as `asmade` takes it
    #[arg(long, value_name = "STEP")]
    after: Option<String>,
    /// How far flat triangles may stray from the true surface, in mm
    #[arg(long, value_name = "MM", default_value_t = DEFAULT_CHORD)]
    chord: f64,
    /// Keep only these kinds of files, as for `make`; all without it
    #[arg(long, value_name = "KINDS")]
    only: Option<String>,
    /// Keep these parts, as for `make`
    #[arg(long, value_name = "NAMES", value_delimiter = ',', default_value = NamedPart::SECTION)]
    part: Vec<String>,
    /// A limit in place of the material's and the design's, as for `make`
    #[arg(long, value_name = "KEY=VALUE")]
    limit: Vec<String>,
    /// The rack of tools that are at hand, in place of the design's
    #[arg(long, value_name = "RACK")]
    rack: Option<String>,
    #[command(flatten)]
    drawing: make::Drawing,
}

/// Makes a design's files and keeps them, with everything that they were made from.
pub(super) fn keep(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let mut wrong = Vec::new();
    let notes = given::notes(&typed.note, &mut wrong);
    let photos = given::photos(&typed.photo, &mut wrong);
    given::date(typed.date.as_deref(), &mut wrong);
    let shelf = shelf_folder(typed.shelf.as_deref()).and_then(place::no_output);
    let shelf = shelf.map_err(|fault| wrong.push(*fault)).ok();
    screen.diagnostics(&wrong, &Sources::default());
    let request = typed.request();
    let prepared = make::prepared(library, &request, screen);
    let (Some((resolved, wanted)), Some(shelf), true) = (prepared, shelf, wrong.is_empty()) else {
        return Outcome::Wrong;
    };
    progress.step("measuring what was cut otherwise");
    let as_made = match asmade::to_keep(&resolved, &typed.set, typed.after.as_deref()) {
        Ok(as_made) => as_made,
        Err((faults, sources)) => {
            screen.diagnostics(&faults, &sources);
            return Outcome::Wrong;
        }
    };
    let made = match produce(&resolved, wanted, typed.chord, &Standing::default(), &progress) {
        Ok(made) => made,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    let contents = Contents {
        written: resolved.written.clone(),
        record: Record::new(&resolved.section, &made.examination),
        exports: made.files,
        as_made,
        notes,
        photos,
    };
    let summary = summary(&resolved, &made.examination, typed.date.clone());
    let archive = match Kept::pack(typed.asked_for(&resolved), summary, contents) {
        Ok(archive) => archive,
        Err(fault) => {
            screen.diagnostics(&[*fault], &Sources::default());
            return Outcome::Wrong;
        }
    };
    progress.step("writing the archive");
    let placed = put(&shelf, &archive);
    drop(progress);
    match placed {
        Ok(placed) => {
            screen.say(&table::table(&resolved, &made.examination, screen.style()));
            let (word, path) = match &placed {
                Placed::New(path) => ("Kept", path),
                Placed::There(path) => ("Kept already, the same to the byte", path),
            };
            screen.say(&format!("\n{word}:\n  {}\n\n{CAUTION}\n", path.display()));
            table::outcome(&made.examination)
        }
        Err(error) => refused(&error, screen),
    }
}

/// Says why nothing was put in its place.
pub(super) fn refused(error: &PlaceError, screen: Screen) -> Outcome {
    let told = Diagnostic::error(error.code(), error.to_string());
    match error {
        PlaceError::Taken(_) => {
            let told = told.hint("move it away, or take another folder; `recall` says what it is");
            screen.diagnostics(&[told], &Sources::default());
            Outcome::Wrong
        }
        PlaceError::NotWritten(_) => {
            screen.diagnostics(&[told], &Sources::default());
            Outcome::Failed
        }
    }
}

impl Typed {
    fn request(&self) -> make::Request<'_> {
        make::Request {
            design: &self.design,
            out: Path::new(""),
            chord: self.chord,
            only: self.only.as_deref(),
            drawing: &self.drawing,
            parts: &self.part,
            asked: Asked { limits: &self.limit, rack: self.rack.as_deref() },
            tools: false,
        }
    }

    /// The same words, to make it again by; a rack by the name that it is kept under.
    fn asked_for(&self, resolved: &Resolved) -> AskedFor {
        let rack = self.rack.as_ref().and_then(|_| resolved.written.asked(Kind::Rack));
        AskedFor {
            chord: self.chord,
            only: self.only.clone(),
            parts: self.part.clone(),
            limits: self.limit.clone(),
            rack: rack.map(str::to_owned),
            sheet: self.drawing.sheet.clone(),
            scale: self.drawing.scale.clone(),
            units: self.drawing.units.clone(),
            set: self.set.clone(),
            after: self.after.clone(),
        }
    }
}

/// What the shelf shows.
fn summary(resolved: &Resolved, examination: &Examination, date: Option<String>) -> Summary {
    let section = &resolved.section;
    let grip = &section.grip;
    Summary {
        unit: section.unit.name.clone(),
        unit_thread: section.unit_thread.designation.to_string(),
        tenon: section.tenon.thread.designation.to_string(),
        grip: [grip.length(), grip.front, grip.back()].map(Length::as_mm),
        material: section.material.clone(),
        verdict: examination.verdict().to_string(),
        date,
    }
}
