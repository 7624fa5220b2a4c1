//! Why there is no plan.

use std::error::Error;
use std::fmt;

use crate::design::Fault;
use crate::solid::BuildError;

/// What prevents a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanError {
    /// The workpiece can't be built after one of the steps, or the section at an end of its
    /// tolerances.
    Solid(BuildError),
    /// The operations do not end in the section: what they leave differs from it.
    NotTheSection {
        /// Volume that the operations leave, in mm3.
        made: f64,
        /// Volume of the section, in mm3.
        meant: f64,
    },
}

impl PlanError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Solid(cause) => cause.code(),
            Self::NotTheSection { .. } => "plan.not-the-section",
        }
    }
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Solid(cause) => write!(f, "the work can't be planned: {cause}"),
            Self::NotTheSection { made, meant } => write!(
                f,
                "the operations leave {made:.4} mm3 and the section has {meant:.4} mm3: a sheet of \
                 them would not make the part"
            ),
        }
    }
}

impl Error for PlanError {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::Solid(cause) => Some(cause),
            Self::NotTheSection { .. } => None,
        }
    }
}

impl From<BuildError> for PlanError {
    fn from(cause: BuildError) -> Self {
        Self::Solid(cause)
    }
}

impl From<PlanError> for Fault {
    fn from(error: PlanError) -> Self {
        let (code, message) = (error.code(), error.to_string());
        match error {
            PlanError::Solid(cause) => Self { message, ..cause.into() },
            PlanError::NotTheSection { .. } => Self::new(code, message),
        }
    }
}
