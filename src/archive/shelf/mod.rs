//! What is kept in a folder.
//!
//! Every archive is verified whole once; what was found of it stands in an index beside it, and is
//! believed as long as size, times and place on the disk are those of the file that was verified.
//! The index can be thrown away at any time: it is then made anew.

mod index;
mod stamp;

use std::fs;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::kept::Kept;
use crate::diagnostic::Diagnostic;
use index::Index;
use stamp::Stamp;

/// An archive's ending.
const ENDING: &str = "zip";

/// What is on a shelf.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Listing {
    /// Every archive, in the order of its file's name.
    pub archives: Vec<Shelved>,
    /// How many of them were read whole, since the index did not vouch for them.
    pub read: usize,
}

/// A file on a shelf.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct Shelved {
    /// Its name.
    pub file: String,
    /// What it is.
    pub state: State,
}

/// What a file on a shelf is.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// An archive that is what it says.
    Sound(Box<Row>),
    /// One of a format that this program does not know yet, in the words of [`Kept::open`].
    Newer(String),
    /// Damaged, or no archive: what is wrong, each with its code.
    Damaged(Vec<(String, String)>),
}

/// What a shelf knows of an archive.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct Row {
    /// The design's name.
    pub name: String,
    /// The nib unit's name.
    pub unit: String,
    /// The thread for it.
    pub thread: String,
    /// The tenon's thread.
    pub tenon: String,
    /// Length of the grip, its diameter in front and at the shoulder, in mm.
    pub grip_mm: [f64; 3],
    /// The material.
    pub material: String,
    /// The worst verdict.
    pub verdict: String,
    /// The day of keeping, if it was said.
    pub date: Option<String>,
    /// The version of the program that kept it.
    pub tool: String,
}

/// Lists a folder's archives, and brings its index up to date where it can be written.
///
/// `anew` verifies all of them, whatever the index says.
///
/// # Errors
/// The folder can't be read. A folder that is not there holds nothing.
pub fn list(folder: &Path, anew: bool) -> io::Result<Listing> {
    let index = if anew { Index::default() } else { Index::read(folder) };
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Listing::default()),
        Err(error) => return Err(error),
    };
    let mut names = Vec::new();
    for entry in entries {
        let name = entry?.file_name();
        let is_archive = Path::new(&name).extension().is_some_and(|ending| ending == ENDING);
        // A name that is no text is none of ours.
        names.extend(name.into_string().ok().filter(|name| is_archive && !name.starts_with('.')));
    }
    names.sort();
    let mut listing = Listing::default();
    let mut next = Index::default();
    for file in names {
        let path = folder.join(&file);
        let stamp = Stamp::of(&path);
        let known = stamp.as_ref().and_then(|stamp| index.state(&file, stamp));
        listing.read += usize::from(known.is_none());
        let state = known.unwrap_or_else(|| State::of(&path));
        // A file that changed while it was read is looked at again next time.
        if let Some(stamp) = stamp.filter(|stamp| Stamp::of(&path).as_ref() == Some(stamp)) {
            next.add(&file, stamp, &state);
        }
        listing.archives.push(Shelved { file, state });
    }
    if listing.read > 0 || anew || !next.is_as_long_as(&index) {
        next.write(folder);
    }
    Ok(listing)
}

impl State {
    /// Reads an archive whole.
    fn of(path: &Path) -> Self {
        match Kept::open_file(path) {
            Ok(kept) => Self::Sound(Box::new(Row::of(&kept))),
            Err(faults) => match &faults[..] {
                [newer] if newer.code == "archive.format-newer" => {
                    Self::Newer(newer.message.clone())
                }
                faults => {
                    let told = |it: &Diagnostic| (it.code.to_owned(), it.message.clone());
                    Self::Damaged(faults.iter().map(told).collect())
                }
            },
        }
    }
}

impl Row {
    fn of(kept: &Kept) -> Self {
        let manifest = &kept.manifest;
        let summary = manifest.summary.clone();
        Self {
            name: manifest.name.clone(),
            unit: summary.unit,
            thread: summary.unit_thread,
            tenon: summary.tenon,
            grip_mm: summary.grip,
            material: summary.material,
            verdict: summary.verdict,
            date: summary.date,
            tool: manifest.tool.clone(),
        }
    }
}

#[cfg(test)]
mod tests;
