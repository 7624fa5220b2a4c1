//! A part by its name and its kind.

use crate::section::Part;

/// What sort of part it is: what a drawing is titled by, and which notes it bears.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PartKind {
    /// The section itself.
    Section,
    /// A stand-in for the bought nib unit, for fit tests.
    Unit,
    /// A ring of the barrel's mouth.
    Barrel,
    /// The cap.
    Cap,
    /// The converter.
    Converter,
    /// A plug to check an internal thread with; no gauge.
    CheckPlug,
    /// A ring to check an external thread with; no gauge.
    CheckRing,
    /// What the section is held by at its tenon.
    Bushing,
    /// What supports the lip.
    LipPlug,
    /// What clears the unit's thread.
    SizingTap,
    /// The blank at a stage.
    Blank,
}

/// A part that can be made of a section or for it.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedPart {
    /// Its name, which is its file's: `check-plug`, `blank-3`.
    pub name: String,
    /// What sort of part it is.
    pub kind: PartKind,
    /// What it is, for people.
    pub what: String,
    /// Its half-section.
    pub part: Part,
}

impl NamedPart {
    /// The name of the section itself among its parts.
    pub const SECTION: &str = "section";

    /// Every name that a part may have, but for the blank's stages (`blank-1` and on), in their
    /// order.
    pub const FIXED: [&str; 12] = [
        Self::SECTION,
        "unit",
        "barrel",
        "cap",
        "converter",
        "check-plug",
        "unit-ring",
        "check-ring",
        "barrel-plug",
        "bushing",
        "lip-plug",
        "sizing-tap",
    ];

    pub(super) fn new(
        name: impl Into<String>,
        kind: PartKind,
        what: impl Into<String>,
        part: Part,
    ) -> Self {
        Self { name: name.into(), kind, what: what.into(), part }
    }
}
