//! The index of a shelf: one file that can be thrown away.
//!
//! ```text
//!   shelf index 1 <SHA-256 of everything behind this line>
//!   {"pen-0123456789abcdef.zip": {"stamp": ..., "state": ...}, ...}
//! ```
//! One that is missing, damaged or of another version is none; so a bit that flips in it never
//! makes a row.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::{Stamp, State};
use crate::archive::replace_file;
use crate::export::digest;

/// Its name in the shelf's folder.
const NAME: &str = "shelf.index";
/// How it begins; the number grows when what is behind it is written otherwise.
const HEAD: &str = "shelf index 1 ";

/// What was found of each file, and when it was that file.
#[derive(Debug, Default)]
pub struct Index {
    entries: BTreeMap<String, Entry>,
    /// The index's own, as a file.
    stamp: Option<Stamp>,
}

#[derive(Clone, Debug, Deserialize, Serialize)]
struct Entry {
    stamp: Stamp,
    state: State,
}

impl Index {
    /// The index of a folder; an empty one where there is none that can be believed.
    pub fn read(folder: &Path) -> Self {
        let path = folder.join(NAME);
        // Its time is taken first: a later one would vouch for more than was known.
        let stamp = Stamp::of(&path);
        let text = fs::read_to_string(&path).unwrap_or_default();
        let entries = text.strip_prefix(HEAD).and_then(|text| text.split_once('\n'));
        let entries = entries.filter(|(sum, rest)| digest(rest.as_bytes()) == *sum);
        let entries = entries.and_then(|(_, rest)| serde_json::from_str(rest).ok());
        Self { entries: entries.unwrap_or_default(), stamp }
    }

    /// What was found of a file, if it is still that file.
    pub fn state(&self, file: &str, stamp: &Stamp) -> Option<State> {
        let entry = self.entries.get(file).filter(|entry| entry.stamp == *stamp)?;
        let own = self.stamp.as_ref()?;
        stamp.is_settled_before(own).then(|| entry.state.clone())
    }

    /// Notes what was found of a file.
    pub fn add(&mut self, file: &str, stamp: Stamp, state: &State) {
        self.entries.insert(file.to_owned(), Entry { stamp, state: state.clone() });
    }

    /// Whether both know the same number of files.
    pub fn is_as_long_as(&self, other: &Self) -> bool {
        self.entries.len() == other.entries.len()
    }

    /// Writes it. Where that fails (a shelf that can only be read), the next listing only takes
    /// longer.
    pub fn write(&self, folder: &Path) {
        let Ok(rest) = serde_json::to_string(&self.entries) else { return };
        let text = format!("{HEAD}{}\n{rest}", digest(rest.as_bytes()));
        let _ = replace_file(&folder.join(NAME), text.as_bytes());
    }
}
