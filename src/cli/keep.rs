//! `keep`: a design, with all that was made of it, in one file on the maker's shelf.

use std::path::PathBuf;

use super::make::Drawing;
use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::table;
use crate::archive::Placed;
use crate::design::Library;
use crate::drawing::CAUTION;
use crate::job::{keep, make};
use crate::mesh::DEFAULT_CHORD;
use crate::section::NamedPart;

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
    drawing: Drawing,
}

impl Typed {
    fn request(self) -> keep::Request {
        let make = make::Request {
            chord: self.chord,
            only: self.only,
            drawing: self.drawing.into(),
            parts: self.part,
            limits: self.limit,
            rack: self.rack,
            ..make::Request::of(self.design, PathBuf::new())
        };
        keep::Request {
            make,
            notes: self.note,
            photos: self.photo,
            date: self.date,
            shelf: self.shelf,
            set: self.set,
            after: self.after,
        }
    }
}

/// Makes a design's files and keeps them; says what was found, and where the archive is.
pub(super) fn keep(library: &Library, typed: Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    let kept = keep::keep(library, &typed.request(), &progress);
    drop(progress);
    let kept = match kept {
        Ok(kept) => kept,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&kept.said);
    screen.say(&table::table(&kept.resolved, &kept.examination, screen.style()));
    let (word, path) = match &kept.placed {
        Placed::New(path) => ("Kept", path),
        Placed::There(path) => ("Kept already, the same to the byte", path),
    };
    screen.say(&format!("\n{word}:\n  {}\n\n{CAUTION}\n", path.display()));
    table::outcome(&kept.examination)
}
