//! Files for others to read: bytes from the section, its solid, its mesh and its checks.
//!
//! ```text
//!   Mesh    -> stl            section.stl, to print
//!   Section -> half_section -> Drawing -> dxf   half-section.dxf, to measure and cut from
//!                           -> Sheet   -> svg   half-section.svg, to look at
//!   all of them -> report     report.json, for other programs
//! ```
//! Every output is the same to the byte for the same section: no clock, no chance, no locale.

pub mod drawing;
pub mod dxf;
mod error;
mod file;
pub mod half_section;
mod part;
mod report;
mod stl;
pub mod svg;

pub use error::ExportError;
pub use file::{File, NAMES, files};
pub use part::{MadePart, part_file_names};
pub use report::{FORMAT, checks_json};
pub use stl::stl;

use crate::section::Section;

/// The bytes of `half-section.dxf`: [`half_section::geometry`] as ASCII DXF R2000, 1:1, in mm.
///
/// # Errors
/// [`ExportError`] where the drawing can't be written.
pub fn half_section_dxf(section: &Section) -> Result<Vec<u8>, ExportError> {
    dxf::write(&half_section::geometry(section))
}

/// The text of `half-section.svg`: [`half_section::sheet`] as a picture that stands alone.
pub fn half_section_svg(section: &Section) -> String {
    svg::write(&half_section::sheet(section))
}
