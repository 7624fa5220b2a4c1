//! Reasons why a file can't be written.

use std::error::Error;
use std::fmt;

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
        }
    }
}

impl Error for ExportError {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::Dxf(cause) => Some(cause),
            Self::Pdf(cause) => Some(cause),
            Self::NoGroupCode { .. } | Self::StepTooLarge { .. } | Self::PdfPage { .. } => None,
            Self::Solid(cause) => Some(cause),
        }
    }
}

impl From<::dxf::DxfError> for ExportError {
    fn from(cause: ::dxf::DxfError) -> Self {
        Self::Dxf(cause)
    }
}

impl From<BuildError> for ExportError {
    fn from(cause: BuildError) -> Self {
        Self::Solid(cause)
    }
}
