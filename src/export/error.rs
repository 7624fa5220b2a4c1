//! Reasons why a file can't be written.

use std::error::Error;
use std::fmt;

use crate::design::Fault;
use crate::drawing::plate_picture::NoSheet;
use crate::solid::BuildError;

/// What went wrong while bytes were made; nothing has been written to disk by then.
#[derive(Debug)]
pub enum ExportError {
    /// The DXF library refused the drawing.
    Dxf(::dxf::DxfError),
    /// What the DXF library wrote is not a sequence of group codes and values.
    NoGroupCode {
        /// The line, counted from 1.
        line: usize,
    },
    /// A STEP file of more control points than are worth writing.
    StepTooLarge {
        /// About how many it takes.
        points: usize,
        /// How many are written at most.
        limit: usize,
    },
    /// A drawing of a size that no page of a PDF has.
    PdfPage {
        /// Its width and height, in mm.
        size: [f64; 2],
        /// The greatest width and height, in mm.
        limit: f64,
    },
    /// The PDF library refused the drawing.
    Pdf(krilla::error::KrillaError),
    /// The solid could not be cut into pieces for STEP.
    Solid(BuildError),
    /// A plate without a part.
    EmptyPlate,
    /// A part that reaches beyond the plate's left or front edge.
    OffPlate {
        /// The part.
        part: String,
        /// Its least x and y on the plate, in mm.
        least: [f64; 2],
    },
    /// A text with a character that XML has no place for.
    NoXml {
        /// The text.
        text: String,
    },
    /// A plate that no sheet holds in a picture.
    Picture(NoSheet),
    /// The package of a 3MF could not be put together.
    Zip(zip::result::ZipError),
    /// The bytes of an STL are not the mesh that they were made of.
    StlRead {
        /// What a reader says or finds.
        what: String,
    },
}

impl ExportError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Dxf(_) => "export.dxf",
            Self::NoGroupCode { .. } => "export.dxf-codes",
            Self::StepTooLarge { .. } => "export.step-too-large",
            Self::PdfPage { .. } => "export.pdf-page",
            Self::Pdf(_) => "export.pdf",
            Self::Solid(cause) => cause.code(),
            Self::EmptyPlate => "export.3mf-empty",
            Self::OffPlate { .. } => "export.3mf-off-plate",
            Self::NoXml { .. } => "export.3mf-text",
            Self::Picture(cause) => cause.code(),
            Self::Zip(_) => "export.3mf-zip",
            Self::StlRead { .. } => "export.stl-read",
        }
    }
}

impl fmt::Display for ExportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Dxf(cause) => write!(f, "the drawing can't be written as DXF: {cause}"),
            Self::NoGroupCode { line } => {
                write!(f, "the drawing can't be written as DXF: no group code in line {line}")
            }
            Self::StepTooLarge { points, limit } => write!(
                f,
                "a STEP file of these threads takes about {points} control points, and {limit} \
                 are written at most: give the threads fewer turns, or make the other files alone, \
                 --only stl,dxf,svg"
            ),
            Self::PdfPage { size: [width, height], limit } => write!(
                f,
                "the drawing can't be written as PDF: it is {width} mm by {height} mm, and a page \
                 has more than nothing and at most {limit} mm each way"
            ),
            Self::Pdf(cause) => write!(f, "the drawing can't be written as PDF: {cause}"),
            Self::Solid(cause) => write!(f, "the solid can't be written as STEP: {cause}"),
            Self::EmptyPlate => f.write_str("a plate without a part can't be written as 3MF"),
            Self::OffPlate { part, least: [x, y] } => write!(
                f,
                "the plate can't be written as 3MF: {part} begins at {x:.3} mm by {y:.3} mm, and \
                 nothing may lie below 0"
            ),
            Self::NoXml { text } => write!(
                f,
                "the plate can't be written as 3MF: {text:?} has a character that XML does not take"
            ),
            Self::Picture(cause) => cause.fmt(f),
            Self::Zip(cause) => write!(f, "the plate can't be written as 3MF: {cause}"),
            Self::StlRead { what } => {
                write!(f, "the STL can't be read back as it was made: {what}; it is not written")
            }
        }
    }
}

impl Error for ExportError {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::Dxf(cause) => Some(cause),
            Self::Pdf(cause) => Some(cause),
            Self::Solid(cause) => Some(cause),
            Self::Picture(cause) => Some(cause),
            Self::Zip(cause) => Some(cause),
            Self::NoGroupCode { .. }
            | Self::StepTooLarge { .. }
            | Self::PdfPage { .. }
            | Self::EmptyPlate
            | Self::OffPlate { .. }
            | Self::NoXml { .. }
            | Self::StlRead { .. } => None,
        }
    }
}

impl From<::dxf::DxfError> for ExportError {
    fn from(cause: ::dxf::DxfError) -> Self {
        Self::Dxf(cause)
    }
}

impl From<zip::result::ZipError> for ExportError {
    fn from(cause: zip::result::ZipError) -> Self {
        Self::Zip(cause)
    }
}

impl From<BuildError> for ExportError {
    fn from(cause: BuildError) -> Self {
        Self::Solid(cause)
    }
}

impl From<NoSheet> for ExportError {
    fn from(cause: NoSheet) -> Self {
        Self::Picture(cause)
    }
}

impl From<ExportError> for Fault {
    fn from(error: ExportError) -> Self {
        let fault = Self::new(error.code(), error.to_string());
        let without = |kinds: &str| format!("--only {kinds} writes the other files");
        match error {
            ExportError::Dxf(_) | ExportError::NoGroupCode { .. } => {
                fault.hint(without("stl,step,svg,pdf"))
            }
            ExportError::StlRead { .. } => fault.hint(without("step,dxf,svg,pdf")),
            ExportError::StepTooLarge { .. } => fault.hint(without("stl,dxf,svg")),
            ExportError::PdfPage { .. } | ExportError::Pdf(_) => {
                fault.hint(without("stl,step,dxf,svg"))
            }
            ExportError::Solid(cause) => Self { message: fault.message, ..cause.into() },
            ExportError::EmptyPlate
            | ExportError::OffPlate { .. }
            | ExportError::NoXml { .. }
            | ExportError::Picture(_)
            | ExportError::Zip(_) => fault.hint("--what section prints that alone"),
        }
    }
}
