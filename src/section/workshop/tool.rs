//! A tool that cuts holes, as it lies in the rack.

use std::fmt;

use crate::quantity::{Length, Limits};
use crate::section::Point;
use crate::standard::DrillSize;

/// What kind of tool it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ToolKind {
    /// A twist drill.
    Drill,
    /// A drill with a thinner end, which bores two holes at once.
    StepDrill,
    /// A centre drill: a cone for a centre, and the pilot in front of it.
    CentreDrill,
    /// An end mill, or a drill ground flat.
    EndMill,
    /// A reamer; it follows a hole that is a little too small.
    Reamer,
    /// A boring bar: any diameter above the one that it enters, a flat floor.
    BoringBar,
}

impl fmt::Display for ToolKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Drill => "drill",
            Self::StepDrill => "step drill",
            Self::CentreDrill => "centre drill",
            Self::EndMill => "end mill",
            Self::Reamer => "reamer",
            Self::BoringBar => "boring bar",
        })
    }
}

/// A tool.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// What it is.
    pub kind: ToolKind,
    /// As it is marked; of a boring bar the least hole that it enters, of a centre drill its body.
    pub size: DrillSize,
    /// Over its lips, where somebody measured it.
    pub measured: Option<Length>,
    /// The shape of its end. What is thinner in front of it (a step drill's end, a centre drill's
    /// pilot) is a [`Point::Centre`].
    pub point: Point,
    /// The hole that it left in the section's material, least and greatest, where that is known.
    pub hole: Option<Limits>,
    /// What it may cut over its size, least and greatest, where the hole is not known and the rack
    /// says it; none: as the design says of the hole.
    pub cuts_over: Option<Limits>,
    /// How deep it reaches, where that is less than a section is long.
    pub reach: Option<Length>,
}

impl Tool {
    /// Its diameter: as measured, else as marked.
    pub fn diameter(&self) -> Length {
        self.measured.unwrap_or(self.size.diameter())
    }
}

/// As people say it: `drill 7.3 mm`, `end mill 5/16 in (7.938 mm)`.
impl fmt::Display for Tool {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.kind, self.size)
    }
}
