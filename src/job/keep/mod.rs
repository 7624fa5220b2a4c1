//! A design, with all that was made of it, in one file on the maker's shelf.

mod given;
mod place;

pub use place::shelf_folder;

use std::path::PathBuf;

use super::asmade;
use super::make::{self, produce};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::archive::kept::{AskedFor, Contents, Kept, Summary};
use crate::archive::{PlaceError, Placed, Standing, place as put};
use crate::design::{Kind, Library, Resolved};
use crate::diagnostic::Diagnostic;
use crate::export::Record;
use crate::quantity::Length;
use crate::scene::Examination;

/// What is asked of [`keep`].
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// What is made, and of what; its `out` is not written to.
    pub make: make::Request,
    /// Texts to keep with it.
    pub notes: Vec<String>,
    /// Photographs, or any other files, to keep with it as they are.
    pub photos: Vec<PathBuf>,
    /// The day of keeping, as ISO 8601 writes it.
    pub date: Option<String>,
    /// The folder of archives; without it [`shelf_folder`]'s.
    pub shelf: Option<PathBuf>,
    /// Sizes that were cut otherwise, as [`asmade::Request`] has them.
    pub set: Vec<String>,
    /// The last step that was done.
    pub after: Option<String>,
}

/// What was kept.
pub struct KeptNow {
    /// The design.
    pub resolved: Resolved,
    /// What the checks found.
    pub examination: Examination,
    /// Where the archive is.
    pub placed: Placed,
    /// What is said of the design.
    pub said: Vec<Said>,
}

/// Makes a design's files and keeps them, with everything that they were made from.
///
/// # Errors
/// Everything that is wrong with the request or the design; then, and when it is cancelled, nothing
/// is written.
pub fn keep(library: &Library, request: &Request, watch: &dyn Watch) -> Result<KeptNow, Stopped> {
    step(watch, "reading the design")?;
    let (mut said, mut wrong) = (Vec::new(), Vec::new());
    let notes = given::notes(&request.notes, &mut wrong);
    let photos = given::photos(&request.photos, &mut wrong);
    given::date(request.date.as_deref(), &mut wrong);
    let shelf = shelf_folder(request.shelf.as_deref()).and_then(place::no_output);
    let shelf = shelf.map_err(|fault| wrong.push(*fault)).ok();
    let sound = wrong.is_empty();
    said.push(Said::of_request(wrong));
    let prepared = make::prepared(library, &request.make, &mut said);
    let (Some((resolved, wanted)), Some(shelf), true) = (prepared, shelf, sound) else {
        return Err(Stopped::wrong(said));
    };
    step(watch, "measuring what was cut otherwise")?;
    let as_made = asmade::to_keep(&resolved, &request.set, request.after.as_deref());
    let as_made = match as_made {
        Ok(as_made) => as_made,
        Err(fault) => {
            said.push(fault);
            return Err(Stopped::wrong(said));
        }
    };
    let products = produce(&resolved, wanted, request.make.chord, &Standing::default(), watch);
    let products = products.map_err(|stopped| stopped.after(&said))?;
    let contents = Contents {
        written: resolved.written.clone(),
        record: Record::new(&resolved.section, &products.examination),
        exports: products.files,
        as_made,
        notes,
        photos,
    };
    let examination = products.examination;
    let summary = summary(&resolved, &examination, request.date.clone());
    let archive = Kept::pack(request.asked_for(&resolved), summary, contents);
    let archive = archive.map_err(|fault| Stopped::by(Why::Wrong, said.clone(), *fault))?;
    step(watch, "writing the archive")?;
    let placed = put(&shelf, &archive);
    let placed = placed.map_err(|error| refused(&error).after(&said))?;
    Ok(KeptNow { resolved, examination, placed, said })
}

/// Why nothing was put in its place.
pub(super) fn refused(error: &PlaceError) -> Stopped {
    let told = Diagnostic::error(error.code(), error.to_string());
    match error {
        PlaceError::Taken(_) => {
            let told = told.hint("move it away, or take another folder; `recall` says what it is");
            Stopped::by(Why::Wrong, Vec::new(), told)
        }
        PlaceError::NotWritten(_) => Stopped::by(Why::Failed, Vec::new(), told),
    }
}

impl Request {
    /// The same words, to make it again by; a rack by the name that it is kept under.
    fn asked_for(&self, resolved: &Resolved) -> AskedFor {
        let make = &self.make;
        let rack = make.rack.as_ref().and_then(|_| resolved.written.asked(Kind::Rack));
        AskedFor {
            chord: make.chord,
            only: make.only.clone(),
            parts: make.parts.clone(),
            limits: make.limits.clone(),
            rack: rack.map(str::to_owned),
            sheet: make.drawing.sheet.clone(),
            scale: make.drawing.scale.clone(),
            units: make.drawing.units.clone(),
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
