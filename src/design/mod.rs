//! The files that people write, and their resolution into a [`Section`].
//!
//! ```text
//!   name or path -> file, over the one it is `like`   (library, load, tree)
//!                -> design, unit, material, rack as written (reader, value, *_file, racks)
//!                -> section and workshop              (resolve)
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
mod rack_file;
mod racks;
mod reader;
mod resolve;
mod resolved;
mod template;
mod thread_file;
mod tree;
mod unit_file;
mod value;
mod written;

pub use library::{Entry, Kind, Library};
pub use pen_name::file_name_fault;
pub use resolve::credits::is_day;
pub use resolved::{Credits, Derived, Failure, Made, MadeSize, Reading, Resolved};
pub use template::template;
pub use value::GREATEST;
pub use written::{Lookup, Written, WrittenFile};

use crate::diagnostic::Severity;
use crate::section::{Section, Workshop};
use load::Loader;
use racks::Racks;
use resolve::Making;

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
        Some(Parts { section, workshop, credits, made }) => {
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

/// What a design is made into.
struct Parts {
    section: Section,
    workshop: Workshop,
    credits: Credits,
    made: Made,
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
    let (racks, material) = (racks?, material?);
    let section = resolve::resolve(&design, &origins, &unit?, &material, &maker?, making);
    let workshop = resolve::workshop::resolve(&racks, &material, &origins, making);
    let made = design.made.map(|made| made.value).unwrap_or_default();
    Some(Parts { section: section?, workshop: workshop?, credits, made })
}
