//! A part beside the section: its file, and what the report says of it.

use super::{File, stl};
use crate::check::Chord;
use crate::mesh::{Audit, Mesh};
use crate::solid::Body;

/// A part that was built and cut into triangles.
#[derive(Clone, Debug)]
pub struct MadePart {
    /// Its name: `unit`, `blank-3`.
    pub name: String,
    /// Its exact solid.
    pub body: Body,
    /// Its triangles.
    pub mesh: Mesh,
    /// What the mesh's audit found.
    pub audit: Audit,
    /// The chord error that it was cut with.
    pub chord: Chord,
}

impl MadePart {
    /// Its files: `NAME.stl`.
    pub fn files(&self) -> Vec<File> {
        vec![File::new(stl_name(&self.name), stl(&self.mesh))]
    }
}

/// Stages that a blank has at most: every tool of the bore is one. Fewer, and a file of an
/// earlier make could stay behind.
const MOST_STAGES: usize = 400;

/// Every name that a part's file may have, for whoever clears an earlier set.
pub fn part_file_names() -> Vec<String> {
    let fixed = ["unit", "barrel", "unit-plug", "unit-ring", "tenon-ring", "barrel-plug"];
    let blanks = (1..=MOST_STAGES).map(|n| format!("blank-{n}"));
    fixed.into_iter().map(str::to_owned).chain(blanks).map(|name| stl_name(&name)).collect()
}

fn stl_name(part: &str) -> String {
    format!("{part}.stl")
}
