//! The files that people write, and their resolution into a [`Section`](crate::section::Section).
//!
//! ```text
//!   name or path -> file, over the one it is `like`   (library, load, tree)
//!                -> design, unit, material as written (reader, value, *_file)
//!                -> section                           (resolve)
//! ```
//! Every error is found in one pass and has its place; `profiles/README.md` shows the files.

mod bores_file;
mod cap_file;
mod design_file;
mod grip_file;
mod library;
mod load;
mod made_file;
mod maker_file;
mod material_file;
mod pen_name;
mod places;
mod reader;
mod resolve;
mod resolved;
mod template;
mod thread_file;
mod tree;
mod unit_file;
mod value;

pub use library::{Entry, Kind, Library};
pub use pen_name::file_name_fault;
pub use resolved::{Credits, Derived, Failure, Made, MadeSize, Reading, Resolved};
pub use template::template;
pub use value::GREATEST;

use crate::diagnostic::Severity;
use load::Loader;
use resolve::Making;

/// A design by its name in the library, or by the path of its file, made into a section; `limits`,
/// each as `walls.lip=0.4`, go over the material's and the design's own.
///
/// # Errors
/// Everything that is wrong with the design, its unit and its material: what can't be read, and,
/// once all can be read, what can't be made.
pub fn load_with(
    library: &Library,
    name_or_path: &str,
    limits: &[String],
) -> Result<Resolved, Failure> {
    let mut loader = Loader::new(library);
    let mut making = Making::default();
    let made = make(&mut loader, name_or_path, limits, &mut making);
    let Loader { sources, log: mut diagnostics, .. } = loader;
    diagnostics.append(&mut making.log);
    match made {
        Some((section, credits, said)) => {
            let Making { derived, readings, .. } = making;
            let notes = diagnostics;
            Ok(Resolved { section, credits, made: said, derived, readings, notes, sources })
        }
        None => Err(Failure { diagnostics, sources }),
    }
}

/// The maker of a design that names none.
const USUAL_MAKER: &str = "bench";

/// As [`load_with`], without further limits.
///
/// # Errors
/// As [`load_with`].
pub fn load(library: &Library, name_or_path: &str) -> Result<Resolved, Failure> {
    load_with(library, name_or_path, &[])
}

fn make(
    loader: &mut Loader<'_>,
    name_or_path: &str,
    limits: &[String],
    making: &mut Making,
) -> Option<(crate::section::Section, Credits, Made)> {
    let typed = loader.typed(limits);
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
    let unit = unit.map(|unit| loader.read(&unit, unit_file::UnitFile::read));
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
    let origins = resolve::criteria::Origins { design: &written, command_line: typed.as_ref() };
    let credits = resolve::credits::resolve(&design.drawing, making);
    let section = resolve::resolve(&design, &origins, &unit?, &material?, &maker?, making)?;
    Some((section, credits, design.made.map(|made| made.value).unwrap_or_default()))
}
