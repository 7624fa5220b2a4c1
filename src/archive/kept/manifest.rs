//! The manifest: what an archive is, how it was asked for, and what it holds.
//!
//! An archive's format has a version, which the manifest says. What a version wrote is always read:
//! it is on somebody's shelf.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::{fault, form};
use crate::design::{Lookup, Written};
use crate::diagnostic::Diagnostic;
use crate::export::{File, digest};

/// The version that is written. Since 2 the facts of `section.json` have names.
const FORMAT: u32 = 2;

/// How an archive's exports were asked for, in the words of the command line; the same words make
/// them again.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AskedFor {
    /// How far triangles may stray, in mm.
    pub chord: f64,
    /// Kinds of files, if not all.
    pub only: Option<String>,
    /// The parts.
    pub parts: Vec<String>,
    /// Limits.
    pub limits: Vec<String>,
    /// A rack in place of the design's.
    pub rack: Option<String>,
    /// The drawing's sheet, scale and unit.
    pub sheet: Option<String>,
    /// Its scale.
    pub scale: Option<String>,
    /// Its unit.
    pub units: String,
    /// Sizes that were cut otherwise.
    pub set: Vec<String>,
    /// The last step that was done.
    pub after: Option<String>,
}

/// What a shelf shows of an archive.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Summary {
    /// The nib unit's name.
    pub unit: String,
    /// The designation of the thread for it.
    pub unit_thread: String,
    /// The designation of the tenon's thread.
    pub tenon: String,
    /// Length of the grip, its diameter in front and at the shoulder, in mm.
    pub grip: [f64; 3],
    /// The material.
    pub material: String,
    /// The worst verdict.
    pub verdict: String,
    /// The day on which it was kept, as ISO 8601 writes it, if that was said.
    pub date: Option<String>,
}

/// An archive's manifest.
#[derive(Clone, Debug, PartialEq)]
pub struct Manifest {
    /// The format that it was read from.
    pub format: u32,
    /// The version of the program that kept it.
    pub tool: String,
    /// The design's name.
    pub name: String,
    /// How it was asked for.
    pub asked: AskedFor,
    /// What it is.
    pub summary: Summary,
    /// The design's files, in the order of reading.
    pub written: Vec<String>,
    /// What led to each of them.
    pub lookups: Vec<Lookup>,
    /// Every other entry: how many bytes, and their SHA-256.
    pub files: BTreeMap<String, (u64, String)>,
}

/// A text of an archive as it can be printed: what would steer a terminal shows as a sign of its
/// own, for who made the archive is not known.
pub fn printable(text: &str) -> String {
    text.replace(|c: char| c.is_control() && c != '\n' && c != '\t', "\u{fffd}")
}

impl Manifest {
    /// The manifest of these entries.
    pub fn new(
        name: String,
        asked: AskedFor,
        summary: Summary,
        written: &Written,
        files: &[File],
    ) -> Self {
        let listed =
            |file: &File| (file.name.clone(), (file.bytes.len() as u64, digest(&file.bytes)));
        Self {
            format: FORMAT,
            tool: env!("CARGO_PKG_VERSION").to_owned(),
            name,
            asked,
            summary,
            written: written.files.iter().map(|file| file.name.clone()).collect(),
            lookups: written.lookups.clone(),
            files: files.iter().map(listed).collect(),
        }
    }

    /// As a file, in the format that it has.
    pub fn write(&self) -> String {
        form::write(self)
    }

    /// Reads a manifest of any version that there was.
    ///
    /// # Errors
    /// It is no manifest, or of a version that this program does not know.
    pub fn read(bytes: &[u8]) -> Result<Self, Box<Diagnostic>> {
        #[derive(Deserialize)]
        struct Version {
            format: u64,
        }
        let version: Version =
            serde_json::from_slice(bytes).map_err(|e| fault::bad_manifest(&e.to_string()))?;
        match version.format {
            1 | 2 => form::read(bytes).map_err(|why| Box::new(fault::bad_manifest(&why))),
            newer if newer > u64::from(FORMAT) => Err(Box::new(fault::newer(newer, FORMAT))),
            other => Err(Box::new(fault::unknown_format(other, FORMAT))),
        }
    }

    /// Where entries are not those that it lists.
    pub fn faults(&self, files: &BTreeMap<String, Vec<u8>>) -> Vec<Diagnostic> {
        let mut wrong = Vec::new();
        for (name, (size, sum)) in &self.files {
            match files.get(name) {
                None => wrong.push(fault::missing(name)),
                Some(bytes) if bytes.len() as u64 != *size || digest(bytes) != *sum => {
                    wrong.push(fault::changed(name));
                }
                Some(_) => {}
            }
        }
        let unlisted = files.keys().filter(|name| !self.files.contains_key(*name));
        wrong.extend(unlisted.map(|name| fault::unlisted(name)));
        let lost = self.written.iter().map(|name| format!("{}{name}", super::WRITTEN));
        let needed = lost.chain([super::SECTION.to_owned()]);
        wrong.extend(
            needed.filter(|name| !self.files.contains_key(name)).map(|it| fault::missing(&it)),
        );
        let count = self.written.len();
        let astray =
            |lookup: &Lookup| lookup.file >= count || lookup.from.is_some_and(|n| n >= count);
        if self.lookups.iter().any(astray) {
            wrong.push(fault::bad_manifest("a name leads to no file"));
        }
        wrong
    }
}
