//! The whole set of files of a design, or those of some kinds.

use super::kind::{Kind, Kinds};
use super::report::{Measured, report};
use super::step::{plain_step, section_step};
use super::{Earlier, ExportError, half_section_dxf, half_section_svg, stl};
use crate::check::Examination;
use crate::mesh::{Audit, Mesh};
use crate::section::Section;
use crate::solid::Body;

/// A file's name and bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// Its name in the design's folder.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

impl File {
    /// A file of a name.
    pub fn new(name: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Self {
        Self { name: name.into(), bytes: bytes.into() }
    }
}

/// Every name that a set may hold: what is of this list in a design's folder is ours.
pub const NAMES: &[&str] = &[STL, STEP, PLAIN_STEP, DXF, SVG, REPORT];

/// The name of the report.
pub const REPORT: &str = "report.json";

const STL: &str = "section.stl";
const STEP: &str = "section.step";
const PLAIN_STEP: &str = "section-plain.step";
const DXF: &str = "half-section.dxf";
const SVG: &str = "half-section.svg";

/// The names of the files of some kinds; the report is always among them.
pub fn names(kinds: &Kinds) -> Vec<&'static str> {
    let kind_of = [
        (STL, Kind::Stl),
        (STEP, Kind::Step),
        (PLAIN_STEP, Kind::Step),
        (DXF, Kind::Dxf),
        (SVG, Kind::Svg),
    ];
    let asked = kind_of.into_iter().filter(|(_, kind)| kinds.has(*kind)).map(|(name, _)| name);
    asked.chain([REPORT]).collect()
}

/// What the files of a section are made from.
#[derive(Clone, Copy, Debug)]
pub struct Sources<'a> {
    /// The section.
    pub section: &'a Section,
    /// Its solid.
    pub body: &'a Body,
    /// Its solid without threads ([`Section::plain_part`]).
    pub plain: &'a Body,
    /// Its mesh, where an STL is made.
    pub mesh: Option<(&'a Mesh, Audit)>,
    /// Its checks.
    pub examination: &'a Examination,
}

/// The files of some kinds, then those that still stand from an earlier set, then the report: it
/// lists the others with their digests.
///
/// # Errors
/// [`ExportError`] where a drawing or a solid can't be written.
pub fn files(
    sources: &Sources,
    kinds: &Kinds,
    earlier: Option<&Earlier>,
    standing: Vec<File>,
) -> Result<Vec<File>, ExportError> {
    let Sources { section, body, plain, mesh, examination } = *sources;
    let mut files = Vec::new();
    if let Some((mesh, _)) = mesh {
        files.push(File::new(STL, stl(mesh)));
    }
    if kinds.has(Kind::Step) {
        files.push(File::new(STEP, section_step(section, body)?));
        files.push(File::new(PLAIN_STEP, plain_step(section, plain)?));
    }
    if kinds.has(Kind::Dxf) {
        files.push(File::new(DXF, half_section_dxf(section)?));
    }
    if kinds.has(Kind::Svg) {
        files.push(File::new(SVG, half_section_svg(section)));
    }
    let stl_stands = standing.iter().any(|file| file.name == STL);
    files.extend(standing);
    let measured = match mesh {
        Some((mesh, audit)) => Some(Measured::Now(mesh, audit)),
        None if stl_stands => earlier.map(Measured::Earlier),
        None => None,
    };
    let text = report(section, [body, plain], measured, &files, examination);
    files.push(File::new(REPORT, text));
    Ok(files)
}
