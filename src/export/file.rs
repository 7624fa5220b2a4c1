//! The whole set of files of a design.

use super::report::report;
use super::{ExportError, half_section_dxf, half_section_svg, stl};
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
pub const NAMES: &[&str] = &[STL, DXF, SVG, REPORT];

const STL: &str = "section.stl";
const DXF: &str = "half-section.dxf";
const SVG: &str = "half-section.svg";
const REPORT: &str = "report.json";

/// All files of a section. The report comes last: it lists the others with their digests.
///
/// # Errors
/// [`ExportError`] where a drawing can't be written.
pub fn files(
    section: &Section,
    body: &Body,
    (mesh, audit): (&Mesh, Audit),
    examination: &Examination,
) -> Result<Vec<File>, ExportError> {
    let mut files = vec![
        File::new(STL, stl(mesh)),
        File::new(DXF, half_section_dxf(section)?),
        File::new(SVG, half_section_svg(section)),
    ];
    let text = report(section, body, (mesh, audit), &files, examination);
    files.push(File::new(REPORT, text));
    Ok(files)
}
