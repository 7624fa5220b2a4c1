//! What is kept.

mod filter;

pub use filter::Looked;

use std::path::{Path, PathBuf};

use super::keep::shelf_folder;
use super::read::{Reading, design_or_archive, of_archive};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::archive::kept::Kept;
use crate::archive::shelf::{Shelved, State, list};
use crate::check::Verdict;
use crate::design::Library;
use crate::diagnostic::Diagnostic;
use crate::scene::fit;
use crate::section::Section;
use filter::Filter;

/// What is asked of [`shelf`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Request {
    /// The folder of archives; without it [`shelf_folder`]'s.
    pub folder: Option<PathBuf>,
    /// Which archives are looked for.
    pub looked: Looked,
    /// Only what goes into the barrel and cap of this design or archive, by the checker.
    pub fits: Option<String>,
    /// Whether every archive is verified anew, byte by byte.
    pub verify: bool,
}

/// What was found on a shelf.
pub struct Listing {
    /// The shelf.
    pub folder: PathBuf,
    /// What is looked for, and what can't be read.
    pub archives: Vec<Shelved>,
    /// How many archives there are.
    pub of_all: usize,
}

impl Listing {
    /// Whether one of them is damaged.
    pub fn is_damaged(&self) -> bool {
        self.archives.iter().any(|it| matches!(it.state, State::Damaged(_)))
    }
}

/// Lists what is kept, and what of it is damaged.
///
/// # Errors
/// Everything that is wrong with the request; the folder can't be read.
pub fn shelf(library: &Library, request: &Request, watch: &dyn Watch) -> Result<Listing, Stopped> {
    step(watch, "reading the shelf")?;
    let mut wrong = Vec::new();
    let filter = Filter::read(&request.looked, &mut wrong);
    let folder = match &request.folder {
        Some(folder) if !folder.is_dir() => {
            let message = format!("there is no folder {}", folder.display());
            let told = Diagnostic::error("shelf.folder", message);
            wrong.push(told.hint("without a folder, the one that `keep` takes is listed"));
            None
        }
        folder => shelf_folder(folder.as_deref()).map_err(|fault| wrong.push(*fault)).ok(),
    };
    let sound = wrong.is_empty();
    let mut said = vec![Said::of_request(wrong)];
    let barrel = request.fits.as_ref();
    let barrel =
        barrel.map(|name| design_or_archive(library, name, Reading::ErrorsAlone, &mut said));
    let (Some(folder), true, false) = (folder, sound, matches!(barrel, Some(None))) else {
        return Err(Stopped::wrong(said));
    };
    let barrel = barrel.flatten().map(|resolved| resolved.section);
    let mut archives = match list(&folder, request.verify) {
        Ok(listing) => listing.archives,
        Err(error) => {
            let message = format!("could not read {}: {error}", folder.display());
            let told = Diagnostic::error("shelf.unreadable", message);
            return Err(Stopped::by(Why::Failed, said, told));
        }
    };
    let of_all = archives.len();
    // What can't be read passes no filter, and is told all the same: the pen that is looked for may
    // be in it.
    archives.retain(|archive| match &archive.state {
        State::Sound(row) => filter.passes(row),
        State::Newer(_) | State::Damaged(_) => true,
    });
    if let Some(barrel) = &barrel {
        archives.retain(|archive| goes_into(&folder, archive, barrel));
    }
    Ok(Listing { folder, archives, of_all })
}

/// Whether an archive's section goes into a barrel and a cap without a check that breaks; what
/// can't be read stays.
fn goes_into(folder: &Path, archive: &Shelved, barrel: &Section) -> bool {
    let State::Sound(row) = &archive.state else { return true };
    if !filter::same_thread(&row.tenon, &barrel.barrel.thread.designation) {
        return false;
    }
    let section = Kept::open_file(&folder.join(&archive.file)).ok();
    let section = section.and_then(|kept| of_archive(&kept).ok()).map(|resolved| resolved.section);
    section.is_some_and(|section| {
        fit(&section, barrel).is_ok_and(|fit| fit.verdict() != Verdict::Breaks)
    })
}
