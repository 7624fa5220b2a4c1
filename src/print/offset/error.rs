//! Why a part can't be offset.

use std::fmt;

use crate::design::Fault;
use crate::section::Feature;

/// A reason not to offset a part.
#[derive(Clone, Debug, PartialEq)]
pub enum OffsetError {
    /// Nothing is left but a few lines that close nothing.
    NothingLeft,
    /// Two neighbours do not meet any more, and nothing can join them.
    NoJoint {
        /// One of them.
        one: Feature,
        /// The other.
        other: Feature,
    },
    /// Two surfaces cross: the wall between them is thinner than what comes off it.
    Crossing {
        /// One of them.
        one: Feature,
        /// The other.
        other: Feature,
        /// Where, in millimetres from the part's z = 0.
        z: f64,
    },
}

impl OffsetError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::NothingLeft => "print.nothing-left",
            Self::NoJoint { .. } => "print.no-joint",
            Self::Crossing { .. } => "print.crossing",
        }
    }
}

impl fmt::Display for OffsetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingLeft => write!(f, "what is taken off for the printer leaves nothing"),
            Self::NoJoint { one, other } => {
                write!(f, "moved for the printer, {one} and {other} do not meet any more")
            }
            Self::Crossing { one, other, z } => write!(
                f,
                "moved for the printer, {one} and {other} cross at z = {z:.2} mm: \
                 the wall between them is thinner than what comes off it"
            ),
        }
    }
}

impl std::error::Error for OffsetError {}

impl From<OffsetError> for Fault {
    fn from(error: OffsetError) -> Self {
        let fault = Self::new(error.code(), error.to_string())
            .hint("print another specimen, or on a printer that needs less compensation");
        match error {
            OffsetError::NothingLeft => fault,
            OffsetError::NoJoint { one, other } | OffsetError::Crossing { one, other, .. } => {
                fault.about([one.item, other.item])
            }
        }
    }
}
