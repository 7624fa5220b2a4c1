//! What comes of a design: a section with everything set, and what was said on the way.

use std::path::PathBuf;
use std::sync::Arc;

use super::{Values, Written};
use crate::diagnostic::{Diagnostic, Place, Sources};
use crate::quantity::Length;
use crate::section::{Plate, PlateValue, Printer, Section, Workshop};

/// A value that the files leave out, and what it was made from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Derived {
    /// The key that would set it: `bores.recess.diameter`.
    pub key: String,
    /// Its value, as the key would take it.
    pub value: String,
    /// What it was made from: `collar 9 mm + 0.3 mm`.
    pub from: String,
}

/// How a value of the unit was measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Its key in the unit's file: `collar.diameter`.
    pub key: String,
    /// What was read.
    pub value: Length,
    /// It may be off by this much to either side.
    pub uncertainty: Length,
    /// How it was measured; "not said" where the file is silent.
    pub how: String,
}

/// What a drawing's title block says of whoever made it; what is not given is not drawn.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Credits {
    /// Who drew it.
    pub drawn_by: Option<String>,
    /// When, as ISO 8601 writes a day: 2026-03-14.
    pub date: Option<String>,
}

/// A size that was really cut, in the words in which it was said.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeSize {
    /// Its key: `bores.clearance.depth`; whether there is such a size is not known here.
    pub key: String,
    /// What was cut.
    pub value: Length,
    /// Where it is said.
    pub at: Option<Place>,
}

/// What was really cut. The section that a design describes does not change by it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// The sizes, in the order in which they are said.
    pub sizes: Vec<MadeSize>,
    /// The last step that is done, in words, and where that is said.
    pub after: Option<(String, Option<Place>)>,
}

/// A design, resolved.
#[derive(Clone, Debug)]
pub struct Resolved {
    /// The section.
    pub section: Section,
    /// What is at hand where it is made.
    pub workshop: Workshop,
    /// What its drawing says of whoever made it.
    pub credits: Credits,
    /// What was really cut, if the design says so.
    pub made: Made,
    /// What the files leave out.
    pub derived: Vec<Derived>,
    /// How the unit was measured.
    pub readings: Vec<Reading>,
    /// Notes, none of which stops anything.
    pub notes: Vec<Diagnostic>,
    /// Every file that was read.
    pub sources: Sources,
    /// The same files, and what led to each, to be kept.
    pub written: Written,
    /// Its values as written, to be solved again with others.
    pub values: Arc<Values>,
}

/// A printer, resolved.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadedPrinter {
    /// The printer.
    pub printer: Printer,
    /// Its file, as the path was made up; none for a built-in one.
    pub path: Option<PathBuf>,
    /// Where its file says what it builds.
    pub build: Place,
    /// Notes, none of which stops anything.
    pub notes: Vec<Diagnostic>,
    /// Every file that was read.
    pub sources: Sources,
}

/// The readings of a calibration plate.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadedReadings {
    /// The printer that printed it, before it was calibrated.
    pub printer: Printer,
    /// The printer's file; none for a built-in one.
    pub printer_path: Option<PathBuf>,
    /// Its plate.
    pub plate: Plate,
    /// What was read, in the order of the plate's readings; what was left empty is not among it.
    pub taken: Vec<PlateValue>,
    /// Where each of them stands.
    pub(super) places: Vec<Place>,
    /// Where the form asks for each size, by its key.
    pub(super) asked: Vec<(String, Place)>,
    /// Where the form names the printer.
    pub form: Place,
    /// Notes, none of which stops anything.
    pub notes: Vec<Diagnostic>,
    /// Every file that was read.
    pub sources: Sources,
}

/// Why there is no section, no printer, or no reading: every error that was found, and the files they point into.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    /// Errors and notes.
    pub diagnostics: Vec<Diagnostic>,
    /// Every file that was read.
    pub sources: Sources,
}
