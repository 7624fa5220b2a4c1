//! An archive of one design: one file that can be trusted years later.
//!
//! ```text
//!   manifest.json          what it is, how it was asked for, SHA-256 of every other entry
//!   written/1-demo.toml    the design and every profile it used, as written
//!   section.json           the resolved section, as numbers
//!   exports/...            report, solid, drawings, sheet
//!   as-made.json           what was cut otherwise, measured, if it was said
//!   notes/1.txt, photos/*  as they were given
//!   (comment)              SHA-256 of every byte before it: the seal
//! ```
//! `zipped` writes and reads the bytes, `manifest` the list and `form` its text, `entry_name` what an
//! entry may be called; `format_1` reads the section of an archive that is older than the names of
//! facts, by `names_1`. [`Kept`] is the whole, verified.

mod entry_name;
mod fault;
mod form;
mod format_1;
mod manifest;
mod names_1;
mod on_disk;
mod zipped;

use std::collections::BTreeMap;

use crate::design::{Written, WrittenFile};
use crate::diagnostic::Diagnostic;
use crate::export::{File, Record, digest};

pub use entry_name::entry_name_fault;
use manifest::printable;
pub use manifest::{AskedFor, Manifest, Summary};
pub use zipped::LARGEST;

/// The list of what an archive holds.
pub const MANIFEST: &str = "manifest.json";
/// The resolved section.
const SECTION: &str = "section.json";
/// What was cut otherwise.
const AS_MADE: &str = "as-made.json";
/// Folders of an archive.
const WRITTEN: &str = "written/";
const EXPORTS: &str = "exports/";
const NOTES: &str = "notes/";
const PHOTOS: &str = "photos/";

/// Hexadecimal digits of the manifest's digest in an archive's name. Fewer, and two archives of one
/// pen might be called the same; more, and a name does not fit a line.
const DIGITS: usize = 16;

/// What goes into an archive beside what the manifest says.
#[derive(Clone, Debug)]
pub struct Contents {
    /// The design's files.
    pub written: Written,
    /// The resolved section, with what its checks found.
    pub record: Record,
    /// Its exports.
    pub exports: Vec<File>,
    /// What was cut otherwise, measured, as JSON.
    pub as_made: Option<String>,
    /// Texts.
    pub notes: Vec<String>,
    /// Photographs, or whatever else is to be kept, each by its name.
    pub photos: Vec<File>,
}

/// An archive that is what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// What it is.
    pub manifest: Manifest,
    /// Every entry but the manifest, by its name.
    pub files: BTreeMap<String, Vec<u8>>,
    /// The manifest as it stands in the archive.
    text: Vec<u8>,
    /// SHA-256 of it.
    digest: String,
}

impl Kept {
    /// Packs an archive: its name, and its bytes. The same to the byte for the same contents.
    ///
    /// # Errors
    /// It could not be opened again: it is larger than [`LARGEST`], a name in it is none.
    pub fn pack(
        asked: AskedFor,
        summary: Summary,
        contents: Contents,
    ) -> Result<File, Box<Diagnostic>> {
        let Contents { written, record, exports, as_made, notes, photos } = contents;
        let mut files = vec![File::new(SECTION, record.write())];
        files.extend(as_made.map(|text| File::new(AS_MADE, text)));
        for (n, note) in (1..).zip(notes) {
            files.push(File::new(format!("{NOTES}{n}.txt"), note));
        }
        let moved =
            |folder: &str, file: File| File::new(format!("{folder}{}", file.name), file.bytes);
        files.extend(
            written
                .files
                .iter()
                .map(|file| File::new(format!("{WRITTEN}{}", file.name), file.text.as_bytes())),
        );
        files.extend(exports.into_iter().map(|file| moved(EXPORTS, file)));
        files.extend(photos.into_iter().map(|file| moved(PHOTOS, file)));
        let name = record.name.clone();
        let manifest = Manifest::new(name, asked, summary, &written, &files);
        let text = manifest.write();
        let called = format!("{}-{}.zip", manifest.name, &digest(text.as_bytes())[..DIGITS]);
        files.push(File::new(MANIFEST, text));
        let bytes = zipped::write(files)?;
        // What could not be opened again is not kept.
        if let Err(faults) = Self::open(&bytes) {
            return Err(Box::new(faults.into_iter().next().unwrap_or_else(fault::no_seal)));
        }
        Ok(File::new(called, bytes))
    }

    /// Opens an archive: nothing of it is trusted before its seal, its entries' names and sizes and
    /// their digests are verified.
    ///
    /// # Errors
    /// Everything that is wrong with it. `archive.format-newer` alone says that nothing is, but
    /// that this program is too old.
    pub fn open(bytes: &[u8]) -> Result<Self, Vec<Diagnostic>> {
        let (entries, mut wrong) = zipped::read(bytes);
        let Some(mut files) = entries else { return Err(wrong) };
        let Some(text) = files.remove(MANIFEST) else {
            wrong.push(fault::no_manifest());
            return Err(wrong);
        };
        let digest = digest(&text);
        let manifest = match Manifest::read(&text) {
            Ok(manifest) => manifest,
            Err(fault) => {
                wrong.push(*fault);
                return Err(wrong);
            }
        };
        wrong.extend(manifest.faults(&files));
        let kept = Self { manifest, files, text, digest };
        if wrong.is_empty() && kept.record().is_none() {
            wrong.push(fault::bad_manifest("its section.json is in no known form"));
        }
        if wrong.is_empty() { Ok(kept) } else { Err(wrong) }
    }

    /// The design's files, to be resolved again.
    pub fn written(&self) -> Written {
        let text = |name: &String| {
            let bytes = self.files.get(&format!("{WRITTEN}{name}"));
            String::from_utf8_lossy(bytes.map_or(&[], Vec::as_slice)).into_owned()
        };
        let files = self.manifest.written.iter();
        let files = files.map(|name| WrittenFile { name: name.clone(), text: text(name) });
        Written { files: files.collect(), lookups: self.manifest.lookups.clone() }
    }

    /// The resolved section as it was then; every archive that opens has one.
    pub fn record(&self) -> Option<Record> {
        let bytes = self.files.get(SECTION)?;
        let text = std::str::from_utf8(bytes).ok()?;
        match self.manifest.format {
            1 => format_1::read(text),
            _ => Record::read(text),
        }
    }

    /// The exports, in the order of their names.
    pub fn exports(&self) -> impl Iterator<Item = (&str, &[u8])> {
        self.files
            .iter()
            .filter_map(|(name, bytes)| Some((name.strip_prefix(EXPORTS)?, bytes.as_slice())))
    }

    /// The notes, in the order in which they were given.
    pub fn notes(&self) -> Vec<String> {
        let mut found: Vec<(u32, String)> = Vec::new();
        for (name, bytes) in &self.files {
            let number = name.strip_prefix(NOTES).and_then(|name| name.strip_suffix(".txt"));
            if let Some(n) = number.and_then(|n| n.parse().ok()) {
                found.push((n, printable(&String::from_utf8_lossy(bytes))));
            }
        }
        found.sort();
        found.into_iter().map(|(_, text)| text).collect()
    }

    /// The photographs' names.
    pub fn photos(&self) -> impl Iterator<Item = &str> {
        self.files.keys().filter_map(|name| name.strip_prefix(PHOTOS))
    }

    /// Every entry, the manifest included, to be unpacked.
    pub fn unpacked(&self) -> Vec<File> {
        let mut files: Vec<File> =
            self.files.iter().map(|(name, bytes)| File::new(name, bytes.as_slice())).collect();
        files.push(File::new(MANIFEST, self.text.as_slice()));
        files
    }

    /// Whether a file's name is the one that it was kept under.
    pub fn is_called(&self, name: &str) -> bool {
        name == format!("{}-{}.zip", self.manifest.name, &self.digest[..DIGITS])
    }
}

#[cfg(test)]
pub(in crate::archive) mod tests;
