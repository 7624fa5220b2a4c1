//! What an earlier report says of the files beside it.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::file::{SHEET_HTML, SHEET_PDF};
use super::report::{MadeFrom, MeshPart, OtherPart, digest, digest_of, digest_of_workshop};

/// A report, as far as it tells whether files are still true.
#[derive(Clone, Debug, Deserialize)]
pub struct Earlier {
    section_sha256: String,
    #[serde(default)]
    workshop_sha256: String,
    files: BTreeMap<String, String>,
    mesh: Option<MeshPart>,
    parts: Vec<OtherPart>,
}

impl Earlier {
    /// Reads the text of a `report.json`; none where it is not a report of this program that says
    /// what its files were made from.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok()
    }

    /// Whether these bytes are the file of that name as it would be made of this section, a sheet
    /// with what is at hand.
    pub fn vouches_for(&self, from: MadeFrom, name: &str, bytes: &[u8]) -> bool {
        let sheet = [SHEET_HTML, SHEET_PDF].contains(&name);
        let at_hand = !sheet || self.workshop_sha256 == digest_of_workshop(from.workshop);
        at_hand
            && self.section_sha256 == digest_of(from.section)
            && self.files.get(name) == Some(&digest(bytes))
    }

    /// Whether it lists a file of that name, as it is now or otherwise.
    pub fn lists(&self, name: &str) -> bool {
        self.files.contains_key(name)
    }

    /// What it says of the section's mesh.
    pub(super) fn mesh(&self) -> Option<MeshPart> {
        self.mesh.clone()
    }

    /// What it says of the parts beside the section.
    pub(super) fn parts(&self) -> &[OtherPart] {
        &self.parts
    }
}
