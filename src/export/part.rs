//! A part beside the section: its files, and what the report says of it.

use super::drawn::{self, TAP_ORDER};
use super::kind::{Kind, Kinds};
use super::report::OtherPart;
use super::step::step;
use super::{Earlier, ExportError, File, proven_stl};
use crate::check::Chord;
use crate::mesh::{Audit, Mesh, MeshError, tessellate, weigh};
use crate::section::{NamedPart, Section};
use crate::solid::Body;

/// Triangles, with what was found of them and what they were asked to keep to.
#[derive(Clone, Debug)]
pub struct Meshed {
    /// The triangles.
    pub mesh: Mesh,
    /// What the mesh's audit found.
    pub audit: Audit,
    /// Its volume in cubic millimetres, as a second library finds it.
    pub weighed: f64,
    /// The chord error that it was cut with.
    pub chord: Chord,
}

impl Meshed {
    /// Triangles of a body, audited, and weighed by a second library.
    ///
    /// # Errors
    /// [`MeshError`]: they can't be cut, or the audit or the second library found a fault.
    pub fn new(body: &Body, chord: Chord) -> Result<Self, MeshError> {
        let (mesh, audit) = tessellate(body, chord.in_force)?;
        let weighed = weigh(&mesh, &audit)?;
        Ok(Self { mesh, audit, weighed, chord })
    }
}

/// A part that was built.
#[derive(Clone, Debug)]
pub struct MadePart {
    /// Its name: `unit`, `blank-3`.
    pub name: String,
    /// What it is, for people.
    pub what: String,
    /// Its exact solid.
    pub body: Body,
    /// Its triangles, where an STL is made.
    pub mesh: Option<Meshed>,
}

impl MadePart {
    /// Its files of some kinds: `NAME.stl`, `NAME.step`.
    ///
    /// # Errors
    /// [`ExportError`] where the solid can't be written.
    pub fn files(&self, section: &Section, kinds: &Kinds) -> Result<Vec<File>, ExportError> {
        let mut files = Vec::new();
        if let Some(meshed) = &self.mesh {
            files.push(File::new(stl_name(&self.name), proven_stl(&meshed.mesh)?));
        }
        if kinds.has(Kind::Step) {
            let product = format!("{} {}", section.name, self.name);
            let about = format!(
                "For a section: {}, threads as modelled, in millimetres; computed, no approval.",
                self.what
            );
            files.push(File::new(step_name(&self.name), step(&self.body, &product, &about)?));
        }
        Ok(files)
    }
}

/// What is said of the parts: those made now, and those of which files of an earlier set still
/// stand, in the order of [`Section::parts`].
pub(super) fn of_parts(
    made: &[MadePart],
    earlier: Option<&Earlier>,
    standing: &[File],
) -> Vec<OtherPart> {
    let stands = |name: String| standing.iter().any(|file| file.name == name);
    let mut parts: Vec<OtherPart> = made.iter().map(OtherPart::from).collect();
    for mut old in earlier.into_iter().flat_map(Earlier::parts).cloned() {
        let (has_stl, has_step) = (stands(stl_name(&old.name)), stands(step_name(&old.name)));
        if !has_stl {
            old.mesh = None;
        }
        match parts.iter_mut().find(|part| part.name == old.name) {
            Some(part) => part.mesh = part.mesh.take().or(old.mesh),
            None if has_stl || has_step => parts.push(old),
            None => {}
        }
    }
    let order: Vec<String> = part_names().collect();
    parts.sort_by_key(|part| order.iter().position(|name| *name == part.name));
    parts
}

/// Stages that a blank has at most: every tool of the bore is one. Fewer, and a file of an
/// earlier make could stay behind.
const MOST_STAGES: usize = 400;

/// Every name that a part beside the section may have, in the order of [`Section::parts`].
fn part_names() -> impl Iterator<Item = String> {
    let fixed = NamedPart::FIXED.into_iter().filter(|name| *name != NamedPart::SECTION);
    let blanks = (1..=MOST_STAGES).map(|n| format!("blank-{n}"));
    fixed.map(str::to_owned).chain(blanks)
}

/// Every name that a file of such a part may have, for whoever clears an earlier set.
pub fn part_file_names() -> Vec<String> {
    let all = Kinds::all();
    let solids = part_names().flat_map(|part| [stl_name(&part), step_name(&part)]);
    let drawings = part_names().chain([TAP_ORDER.to_owned()]);
    solids.chain(drawings.flat_map(|part| drawn::names(&part, &all))).collect()
}

pub(super) fn stl_name(part: &str) -> String {
    format!("{part}.stl")
}

pub(super) fn step_name(part: &str) -> String {
    format!("{part}.step")
}
