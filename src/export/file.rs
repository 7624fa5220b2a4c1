//! The whole set of files of a design.

use super::report::report;
use super::{ExportError, MadePart, half_section_dxf, half_section_svg};
use crate::check::Examination;
use crate::section::Section;

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

/// All files of a section, and of the parts that were made with it. The report comes last: it
/// lists the others with their digests.
///
/// # Errors
/// [`ExportError`] where a drawing can't be written.
pub fn files(
    section: &Section,
    made: &MadePart,
    parts: &[MadePart],
    examination: &Examination,
) -> Result<Vec<File>, ExportError> {
    let mut files = made.files();
    files.push(File::new(DXF, half_section_dxf(section)?));
    files.push(File::new(SVG, half_section_svg(section)));
    files.extend(parts.iter().flat_map(MadePart::files));
    let text = report(section, made, parts, &files, examination);
    files.push(File::new(REPORT, text));
    Ok(files)
}
