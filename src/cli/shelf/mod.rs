//! `shelf`: what is kept.

mod filter;
mod table;

use std::path::{Path, PathBuf};

use super::either::{design_or_archive, resolve};
use super::keep::shelf_folder;
use super::outcome::Outcome;
use super::screen::{Screen, print};
use crate::archive::kept::Kept;
use crate::archive::shelf::{Shelved, State, list};
use crate::check::Verdict;
use crate::design::Library;
use crate::diagnostic::{Diagnostic, Sources};
use crate::scene::fit;
use crate::section::Section;
use filter::Filter;

/// What is asked of [`shelf`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// The folder of archives; without it the one that `keep` takes
    folder: Option<PathBuf>,
    #[command(flatten)]
    filter: filter::Looked,
    /// Only what goes into the barrel and cap of this design or archive, by the checker
    #[arg(long, value_name = "BARREL")]
    fits: Option<String>,
    /// Verify every archive anew, byte by byte
    #[arg(long)]
    verify: bool,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// Lists what is kept, and what of it is damaged.
pub(super) fn shelf(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    let mut wrong = Vec::new();
    let filter = Filter::read(&typed.filter, &mut wrong);
    let folder = match &typed.folder {
        Some(folder) if !folder.is_dir() => {
            let message = format!("there is no folder {}", folder.display());
            let told = Diagnostic::error("shelf.folder", message);
            wrong.push(told.hint("without a folder, the one that `keep` takes is listed"));
            None
        }
        folder => shelf_folder(folder.as_deref()).map_err(|fault| wrong.push(*fault)).ok(),
    };
    screen.diagnostics(&wrong, &Sources::default());
    let barrel =
        typed.fits.as_ref().map(|typed| design_or_archive(library, typed, screen.without_notes()));
    let (Some(folder), true, false) = (folder, wrong.is_empty(), matches!(barrel, Some(None)))
    else {
        return Outcome::Wrong;
    };
    let barrel = barrel.flatten().map(|resolved| resolved.section);
    let listing = match list(&folder, typed.verify) {
        Ok(listing) => listing,
        Err(error) => {
            let message = format!("could not read {}: {error}", folder.display());
            screen.complain("shelf.unreadable", message);
            return Outcome::Failed;
        }
    };
    let mut archives = listing.archives;
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
    let damaged = archives.iter().any(|it| matches!(it.state, State::Damaged(_)));
    if typed.json {
        print(&table::json(&folder, &archives));
    } else {
        screen.say(&table::table(&folder, &archives, of_all, screen.style()));
    }
    if damaged { Outcome::Breaks } else { Outcome::Fine }
}

/// Whether an archive's section goes into a barrel and a cap without a check that breaks; what
/// can't be read stays.
fn goes_into(folder: &Path, archive: &Shelved, barrel: &Section) -> bool {
    let State::Sound(row) = &archive.state else { return true };
    if !filter::same_thread(&row.tenon, &barrel.barrel.thread.designation) {
        return false;
    }
    let section = Kept::open_file(&folder.join(&archive.file)).ok();
    let section = section.and_then(|kept| resolve(&kept).ok()).map(|resolved| resolved.section);
    section.is_some_and(|section| {
        fit(&section, barrel).is_ok_and(|fit| fit.verdict() != Verdict::Breaks)
    })
}
