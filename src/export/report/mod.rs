//! `report.json`: what was measured, for other programs. `report.schema.json` is its schema.
//!
//! Numbers keep all their digits; people's rounding is the screen's and the sheet's matter.

mod finding;
mod measured;
mod room;

use std::collections::BTreeMap;
use std::fmt::Write;

use serde::Serialize;
use sha2::{Digest, Sha256};

use super::File;
use crate::scene::Examination;
use crate::section::{Section, Workshop};
use crate::solid::Body;
use finding::{Check, Information, findings};
use measured::SolidPart;
use room::RoomPart;

pub(super) use measured::{MeshPart, OtherPart};

/// The version of the report's form; it grows when a key changes its meaning or goes.
pub const FORMAT: u32 = 1;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    name: &'a str,
    unit: &'a str,
    material: &'a str,
    section_sha256: String,
    workshop_sha256: String,
    solid: SolidPart,
    plain: SolidPart,
    mesh: Option<MeshPart>,
    parts: Vec<OtherPart>,
    files: BTreeMap<&'a str, String>,
    checks: Vec<Check>,
    information: Vec<Information>,
    room: Vec<RoomPart>,
}

/// What a set of files is made from.
#[derive(Clone, Copy, Debug)]
pub struct MadeFrom<'a> {
    /// The section.
    pub section: &'a Section,
    /// What is at hand: only the sheet is made from it.
    pub workshop: &'a Workshop,
}

/// The report of a section's solids (with threads and without), its mesh, the parts beside it,
/// files and checks.
pub(super) fn report(
    MadeFrom { section, workshop }: MadeFrom,
    [body, plain]: [&Body; 2],
    mesh: Option<MeshPart>,
    parts: Vec<OtherPart>,
    files: &[File],
    examination: &Examination,
) -> String {
    let (checks, information) = findings(examination);
    json(&Report {
        format: FORMAT,
        name: &section.name,
        unit: &section.unit.name,
        material: &section.material,
        section_sha256: digest_of(section),
        workshop_sha256: digest_of_workshop(workshop),
        solid: body.into(),
        plain: plain.into(),
        mesh,
        parts,
        files: files.iter().map(|file| (file.name.as_str(), digest(&file.bytes))).collect(),
        checks,
        information,
        room: rooms(examination),
    })
}

fn rooms(examination: &Examination) -> Vec<RoomPart> {
    examination.room.iter().map(RoomPart::from).collect()
}

/// What a set is made from: the resolved section, all its digits, and this program's version.
pub(super) fn digest_of(section: &Section) -> String {
    digest(format!("{} {section:?}", env!("CARGO_PKG_VERSION")).as_bytes())
}

/// What a sheet is made from beside the section.
pub(super) fn digest_of_workshop(workshop: &Workshop) -> String {
    digest(format!("{workshop:?}").as_bytes())
}

/// The checks alone, as the report has them.
pub fn checks_json(examination: &Examination) -> String {
    #[derive(Serialize)]
    struct Findings {
        format: u32,
        checks: Vec<Check>,
        information: Vec<Information>,
        room: Vec<RoomPart>,
    }
    let (checks, information) = findings(examination);
    json(&Findings { format: FORMAT, checks, information, room: rooms(examination) })
}

/// A value as the text of a JSON file.
pub(in crate::export) fn json(value: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(value).expect("plain structs serialize");
    text + "\n"
}

/// SHA-256 in lower-case hexadecimal.
pub fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").expect("writing to memory does not fail");
        text
    })
}
