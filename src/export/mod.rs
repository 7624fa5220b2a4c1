//! Files for others to read: bytes from the section, its solid, its mesh and its checks.
//!
//! ```text
//!   Mesh    -> stl            section.stl, to print, and NAME.stl of each part beside it
//!           -> three_mf       many parts on a printer's plate, in millimetres
//!   Body    -> step           section.step and section-plain.step, for CAD and CAM; NAME.step
//!   Section -> half_section -> Drawing -> dxf   half-section.dxf, to measure and cut from
//!           -> profile ------> Drawing -> dxf   profile.dxf, for a lathe's control to cut along
//!           -> half_section -> Sheet   -> svg   half-section.svg, walls.svg, to look at
//!   Plan    -> lathe_sheet -> html, pages -> pdf   sheet.html, sheet.pdf, beside the lathe
//!   RodPlan -> rod_plan     -> Sheet   -> svg, pdf   rod.svg, rod.pdf, to part a rod by
//!   Pieces  -> print_set    -> stl, three_mf, plate_picture -> svg, and words, to a printer
//!   Layout  -> plate_picture -> Sheet  -> svg   plate.svg, to tell printed pieces apart by
//!   all of them -> report     report.json, for other programs
//!               -> record     section.json, to hold a later program's section against
//! ```
//! What is drawn is laid out in [`crate::drawing`], without bytes. Every output is the same to the
//! byte for the same section: no clock, no chance, no locale.

pub mod dxf;
mod drawn;
mod earlier;
mod error;
mod file;
mod kind;
pub mod lathe_sheet;
mod order;
mod part;
pub mod pdf;
pub mod print_set;
mod record;
mod record_change;
mod report;
pub mod step;
mod stl;
pub mod svg;
mod three_mf;

pub use drawn::{Drawn, TAP_ORDER};
pub use earlier::Earlier;
pub use error::ExportError;
pub use file::{File, NAMES, REPORT, SHEET_HTML, SHEET_PDF, Sources, files};
pub use kind::{Kind, Kinds, UnknownKinds};
pub use order::Order;
pub use part::{MadePart, Meshed, part_file_names};
pub use record::{KeptFact, KeptOutline, KeptRun, KeptVerdict, Record};
pub use record_change::{RecordChange, geometry_changes, is_worse, verdict_changes};
pub use report::{FORMAT, MadeFrom, checks_json, digest};
pub use stl::{proven_stl, stl};
pub use three_mf::{PlatePart, three_mf};

use crate::check::WallCurve;
use crate::drawing::{half_section, profile};
use crate::scene::Examination;
use crate::section::Section;

/// The bytes of `half-section.dxf`: [`half_section::geometry`] as ASCII DXF R2000, 1:1, in mm.
///
/// # Errors
/// [`ExportError`] where the drawing can't be written.
pub fn half_section_dxf(section: &Section) -> Result<Vec<u8>, ExportError> {
    dxf::write(&half_section::geometry(section))
}

/// The bytes of `profile.dxf`: [`profile::geometry`] as ASCII DXF R2000, 1:1, in mm.
///
/// # Errors
/// [`ExportError`] where the drawing can't be written.
pub fn profile_dxf(section: &Section) -> Result<Vec<u8>, ExportError> {
    dxf::write(&profile::geometry(section))
}

/// The text of `half-section.svg`: [`half_section::sheet`] as a picture that stands alone.
pub fn half_section_svg(section: &Section) -> String {
    svg::write(&half_section::sheet(section))
}

/// The text of `walls.svg`: [`half_section::walls_sheet`] as a picture that stands alone, of a
/// section and what its examination found.
///
/// # Errors
/// [`ExportError::Solid`] where the section can't be built at an end of its tolerances.
pub fn walls_svg(section: &Section, examination: &Examination) -> Result<String, ExportError> {
    let curve = WallCurve::new(section).map_err(ExportError::Solid)?;
    Ok(svg::write(&half_section::walls_sheet(section, examination, &curve)))
}
