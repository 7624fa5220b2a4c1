//! The files that people write, and their resolution into a [`Section`].
//!
//! ```text
//!   name or path -> file, over the one it is `like`   (library, load, tree)
//!                -> design, unit, material, rack as written (reader, value, *_file, racks)
//!                -> section and workshop              (resolve)
//!   name or path -> printer                           (printer_file, resolve::printer)
//!   path         -> readings of a calibration plate   (readings_file)
//! ```
//! Every error is found in one pass and has its place; `profiles/README.md` shows the files.

mod bores_file;
mod cap_file;
mod design_file;
mod edit;
mod grip_file;
mod library;
mod load;
mod made_file;
mod maker_file;
mod material_file;
mod pen_name;
mod places;
mod printer_file;
mod rack_file;
mod racks;
mod reader;
mod readings_file;
mod remedy;
mod resolve;
mod resolved;
mod template;
mod thread_file;
mod tree;
mod unit_file;
mod value;
mod values;
mod write;
mod written;

pub use edit::{EditError, with_numbers};
pub use library::{Entry, Kind, Library};
pub use pen_name::file_name_fault;
pub use remedy::Fault;
pub use resolve::credits::is_day;
pub use resolved::{
    Credits, Derived, Failure, LoadedPrinter, LoadedReadings, Made, MadeSize, Reading, Resolved,
};
pub use template::template;
pub use value::GREATEST;
pub use values::{Origin, Values};
pub use write::{InFile, Write};
pub use written::{Lookup, Written, WrittenFile};

use std::path::Path;
use std::sync::Arc;

use crate::diagnostic::{Diagnostic, Severity};
use crate::section::{Plate, Section, Workshop};
use load::Loader;
use racks::Racks;
use resolve::Making;
use values::Files;

/// What is asked for beside a design.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Asked<'a> {
    /// Limits that go over the material's and the design's own, each as `walls.lip=0.4`.
    pub limits: &'a [String],
    /// The name of a rack in the library, or the path of its file, in place of the design's.
    pub rack: Option<&'a str>,
}

/// A design by its name in the library, or by the path of its file, made into a section.
///
/// # Errors
/// Everything that is wrong with the design, its unit, its material, its maker and its rack: what
/// can't be read, and, once all can be read, what can't be made.
pub fn load_asked(
    library: &Library,
    name_or_path: &str,
    asked: Asked<'_>,
) -> Result<Resolved, Failure> {
    let mut loader = Loader::new(library);
    let mut making = Making::default();
    let made = make(&mut loader, name_or_path, asked, &mut making);
    let Loader { sources, log: mut diagnostics, trail, .. } = loader;
    diagnostics.append(&mut making.log);
    match made {
        Some(Parts { section, workshop, credits, made, values }) => {
            let Making { derived, readings, .. } = making;
            let (notes, written) = (diagnostics, trail.written());
            Ok(Resolved {
                section,
                workshop,
                credits,
                made,
                derived,
                readings,
                notes,
                sources,
                written,
                values,
            })
        }
        None => Err(Failure { diagnostics, sources }),
    }
}

/// The maker of a design that names none.
const USUAL_MAKER: &str = "bench";

/// The rack of a design that names none.
const USUAL_RACK: &str = "bench";

/// As [`load_asked`], with limits alone.
///
/// # Errors
/// As [`load_asked`].
pub fn load_with(
    library: &Library,
    name_or_path: &str,
    limits: &[String],
) -> Result<Resolved, Failure> {
    load_asked(library, name_or_path, Asked { limits, rack: None })
}

/// As [`load_asked`], with nothing asked for beside the design.
///
/// # Errors
/// As [`load_asked`].
pub fn load(library: &Library, name_or_path: &str) -> Result<Resolved, Failure> {
    load_asked(library, name_or_path, Asked::default())
}

/// A printer by its name in the library, or by the path of its file.
///
/// # Errors
/// Everything that is wrong with the file and those that it is like: what can't be read, and what
/// no printer does.
pub fn load_printer(library: &Library, name_or_path: &str) -> Result<LoadedPrinter, Failure> {
    let mut loader = Loader::new(library);
    let document = loader.document(Kind::Printer, name_or_path, None);
    let path = document.as_ref().and_then(|document| loader.file(document));
    let file = document.map(|document| loader.read(&document, printer_file::PrinterFile::read));
    let Loader { sources, log: mut diagnostics, .. } = loader;
    let printer = file.and_then(|file| {
        let printer = resolve::printer::resolve(&file, &mut diagnostics)?;
        Some((printer, file.build.at()))
    });
    match printer {
        Some((printer, build)) => {
            Ok(LoadedPrinter { printer, path, build, notes: diagnostics, sources })
        }
        None => Err(Failure { diagnostics, sources }),
    }
}

/// The readings of a printer's calibration plate, by the path of the form that was filled in, with
/// the printer that it names.
///
/// # Errors
/// Everything that is wrong with the form, and with its printer: what can't be read, what the
/// plate does not ask for, and a reading so far off its size that it is another one's.
pub fn load_readings(library: &Library, path: &Path) -> Result<LoadedReadings, Failure> {
    let mut loader = Loader::new(library);
    let form = loader.form("readings", path);
    let form = form.map(|form| loader.read(&form, readings_file::ReadingsFile::read));
    let printer = form.as_ref().and_then(|form| {
        let at = form.printer.place()?;
        let document = loader.document(Kind::Printer, &form.printer.value, Some(at))?;
        let printer_path = loader.file(&document);
        let file = loader.read(&document, printer_file::PrinterFile::read);
        Some((file, printer_path))
    });
    let Loader { sources, log: mut diagnostics, .. } = loader;
    // What was said of the form must not stop the printer from being made: then all is said.
    let mut of_printer = Vec::new();
    let printer = printer.and_then(|(file, printer_path)| {
        Some((resolve::printer::resolve(&file, &mut of_printer)?, printer_path))
    });
    diagnostics.append(&mut of_printer);
    let plate = printer.as_ref().map(|(printer, _)| Plate::new(printer));
    let read = form.map(|form| (form.taken(plate.as_ref(), &mut diagnostics), form));
    let is_error = |diagnostic: &Diagnostic| diagnostic.severity == Severity::Error;
    match printer.zip(plate).zip(read) {
        Some((((printer, printer_path), plate), (taken, form)))
            if !diagnostics.iter().any(is_error) =>
        {
            let (asked, form) = (form.asked(), form.printer.at());
            let (taken, places) = taken.into_iter().unzip();
            let notes = diagnostics;
            Ok(LoadedReadings {
                printer,
                printer_path,
                plate,
                taken,
                places,
                asked,
                form,
                notes,
                sources,
            })
        }
        _ => Err(Failure { diagnostics, sources }),
    }
}

/// What a design is made into.
struct Parts {
    section: Section,
    workshop: Workshop,
    credits: Credits,
    made: Made,
    values: Arc<Values>,
}

fn make(
    loader: &mut Loader<'_>,
    name_or_path: &str,
    asked: Asked<'_>,
    making: &mut Making,
) -> Option<Parts> {
    let typed = loader.typed(asked.limits);
    let written = loader.document(Kind::Design, name_or_path, None)?;
    let design = loader.read(&written, design_file::DesignFile::read);
    let mut part = |kind, name: &reader::Placed<String>| {
        let at = name.place()?;
        loader.document(kind, &name.value, Some(at))
    };
    let unit = part(Kind::Unit, &design.unit);
    let material = part(Kind::Material, &design.material);
    let maker = match &design.maker {
        Some(maker) => part(Kind::Maker, maker),
        None => loader.document(Kind::Maker, USUAL_MAKER, None),
    };
    let maker = maker.map(|maker| loader.read(&maker, maker_file::MakerFile::read));
    let racks = match (asked.rack, &design.rack) {
        (Some(typed), _) => Racks::load(loader, typed, None),
        (None, None) => Racks::load(loader, USUAL_RACK, None),
        (None, Some(written)) => {
            written.place().and_then(|at| Racks::load(loader, &written.value, Some(at)))
        }
    };
    let unit_file = unit.as_ref().map(|unit| loader.read(unit, unit_file::UnitFile::read));
    let material = material.map(|mut material| {
        material.overlay(design.limits.clone().unwrap_or_default());
        if let Some(typed) = &typed {
            material.overlay(typed.table());
        }
        loader.read(&material, material_file::MaterialFile::read)
    });
    if loader.log.iter().any(|diagnostic| diagnostic.severity == Severity::Error) {
        return None;
    }
    let credits = resolve::credits::resolve(&design.drawing, making);
    let made = design.made.as_ref().map(|made| made.value.clone()).unwrap_or_default();
    let racks = racks?;
    let files = Files { design, unit: unit_file?, material: material?, maker: maker? };
    let values = Values { design: written, unit: unit?, typed, files };
    let section = values.solve(&values.files.design, &values.files.unit, making);
    let (material, origins) = (&values.files.material, values.origins());
    let workshop = resolve::workshop::resolve(&racks, material, &origins, making);
    Some(Parts { section: section?, workshop: workshop?, credits, made, values: Arc::new(values) })
}
