//! The whole set of files of a design, or those of some parts and kinds.

use super::drawn::Drawn;
use super::kind::Kind;
use super::order::Order;
use super::part::of_parts;
use super::report::{MadeFrom, MeshPart, report};
use super::step::{plain_step, section_step};
use super::{
    Earlier, ExportError, MadePart, Meshed, half_section_dxf, half_section_svg, profile_dxf,
    proven_stl, walls_svg,
};
use crate::scene::Examination;
use crate::section::{Section, Workshop};
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

/// The section's own names: what is of this list in a design's folder is ours.
pub const NAMES: &[&str] = &[
    STL,
    STEP,
    PLAIN_STEP,
    DXF,
    PROFILE,
    SVG,
    WALLS,
    "drawing.dxf",
    "drawing.svg",
    "drawing.pdf",
    SHEET_HTML,
    SHEET_PDF,
    REPORT,
];

/// The name of the report.
pub const REPORT: &str = "report.json";

const STL: &str = "section.stl";
const STEP: &str = "section.step";
const PLAIN_STEP: &str = "section-plain.step";
const DXF: &str = "half-section.dxf";
const PROFILE: &str = "profile.dxf";
const SVG: &str = "half-section.svg";
const WALLS: &str = "walls.svg";
/// The sheet beside the lathe, for a screen.
pub const SHEET_HTML: &str = "sheet.html";
/// The same, to print.
pub const SHEET_PDF: &str = "sheet.pdf";

/// The section's files but for the report, and the kind of each.
pub(super) const SECTION_FILES: [(&str, Kind); 9] = [
    (STL, Kind::Stl),
    (STEP, Kind::Step),
    (PLAIN_STEP, Kind::Step),
    (DXF, Kind::Dxf),
    (PROFILE, Kind::Dxf),
    (SVG, Kind::Svg),
    (WALLS, Kind::Svg),
    (SHEET_HTML, Kind::Sheet),
    (SHEET_PDF, Kind::Sheet),
];

/// What the files of a section, and of the parts beside it, are made from.
#[derive(Clone, Copy, Debug)]
pub struct Sources<'a> {
    /// The section.
    pub section: &'a Section,
    /// Its solid.
    pub body: &'a Body,
    /// Its solid without threads ([`Section::plain_part`]).
    pub plain: &'a Body,
    /// Its mesh, where an STL is made.
    pub mesh: Option<&'a Meshed>,
    /// The parts beside it that are asked for.
    pub parts: &'a [MadePart],
    /// The drawings that are asked for, the section's among them.
    pub drawings: &'a [Drawn],
    /// Its sheet's files, where they are asked for.
    pub sheet: &'a [File],
    /// What is at hand where it is made.
    pub workshop: &'a Workshop,
    /// Its checks.
    pub examination: &'a Examination,
}

/// The files that are asked for, then those that still stand from an earlier set, then the report:
/// it lists the others with their digests.
///
/// # Errors
/// [`ExportError`] where a drawing or a solid can't be written.
pub fn files(
    sources: &Sources,
    order: &Order,
    earlier: Option<&Earlier>,
    standing: Vec<File>,
) -> Result<Vec<File>, ExportError> {
    let Sources { section, body, plain, mesh, parts, drawings, sheet, workshop, examination } =
        *sources;
    let mut files = Vec::new();
    if let Some(meshed) = mesh {
        files.push(File::new(STL, proven_stl(&meshed.mesh)?));
    }
    if order.section_as(Kind::Step) {
        files.push(File::new(STEP, section_step(section, body)?));
        files.push(File::new(PLAIN_STEP, plain_step(section, plain)?));
    }
    if order.section_as(Kind::Dxf) {
        files.push(File::new(DXF, half_section_dxf(section)?));
        files.push(File::new(PROFILE, profile_dxf(section)?));
    }
    if order.section_as(Kind::Svg) {
        files.push(File::new(SVG, half_section_svg(section)));
        files.push(File::new(WALLS, walls_svg(section, examination)?));
    }
    for part in parts {
        files.extend(part.files(section, &order.kinds)?);
    }
    for drawn in drawings {
        files.extend(drawn.files(&order.kinds)?);
    }
    files.extend_from_slice(sheet);
    let stl_stands = standing.iter().any(|file| file.name == STL);
    let measured = match mesh {
        Some(meshed) => Some(MeshPart::from(meshed)),
        None if stl_stands => earlier.and_then(Earlier::mesh),
        None => None,
    };
    let said = of_parts(parts, earlier, &standing);
    files.extend(standing);
    let made_from = MadeFrom { section, workshop };
    let text = report(made_from, [body, plain], measured, said, &files, examination);
    files.push(File::new(REPORT, text));
    Ok(files)
}
