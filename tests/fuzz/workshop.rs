//! Everything that is made of a design file, in memory.

use std::fs;
use std::path::{Path, PathBuf};

use sectionwright::design::{Failure, Library, Resolved, load};
use sectionwright::diagnostic::{Severity, Style, render};
use sectionwright::drawing::part::{Format, Units, page, subject};
use sectionwright::export::{self, Drawn, File, Kinds, Sources, lathe_sheet};
use sectionwright::mesh::MeshError;
use sectionwright::scene::{Scene, allot, examine};
use sectionwright::section::{NamedPart, PartKind, Section};
use sectionwright::shop::{PlanError, plan};
use sectionwright::solid::{BuildError, build};

/// A folder in which a design finds what the fixtures name by path: units, parts, one another.
pub struct Workshop {
    folder: tempfile::TempDir,
    library: Library,
}

/// What became of a design.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// The codes of everything that was wrong with it.
    Refused(Vec<&'static str>),
    /// Files were made, with so many triangles and bytes.
    Made {
        /// In the mesh.
        triangles: usize,
        /// In all files.
        bytes: usize,
    },
}

impl Workshop {
    /// `tests` is the project's folder of that name.
    pub fn new(tests: &Path) -> Self {
        let folder = tempfile::tempdir().expect("a folder for temporary files");
        let designs = folder.path().join("fuzz/corpus");
        let copy = |from: &str, to: PathBuf| {
            fs::create_dir_all(&to).expect("made");
            for file in fs::read_dir(tests.join(from)).expect("there") {
                let path = file.expect("a file").path();
                if path.is_file() {
                    fs::copy(&path, to.join(path.file_name().expect("a name"))).expect("copied");
                }
            }
        };
        // Beside the design, above it as for the coincidences, and as seen from the corpus.
        for to in [designs.clone(), folder.path().join("fuzz"), folder.path().join("fixtures")] {
            copy("fixtures", to);
        }
        copy("diagnostics/parts", designs.join("parts"));
        Self { folder, library: Library::default() }
    }

    fn read(&self, design: &[u8]) -> Result<Resolved, Failure> {
        let file = self.folder.path().join("fuzz/corpus/design-of-the-fuzzer.toml");
        fs::write(&file, design).expect("written");
        load(&self.library, file.to_str().expect("a path of ASCII"))
    }

    /// Makes all that is made of the design in these bytes, at a chord error.
    ///
    /// # Panics
    /// On a fault of the program: it says so itself, or refuses what it can't name.
    pub fn make(&self, design: &[u8], chord: f64) -> Outcome {
        let resolved = match self.read(design) {
            Ok(resolved) => resolved,
            Err(failure) => {
                let said = render(&failure.diagnostics, &failure.sources, Style::Plain);
                let errors = failure.diagnostics.iter().filter(|d| d.severity == Severity::Error);
                let codes: Vec<_> = errors.map(|error| error.code).collect();
                assert!(!codes.is_empty(), "refused without an error:\n{said}");
                return Outcome::Refused(codes);
            }
        };
        render(&resolved.notes, &resolved.sources, Style::Plain);
        let section = &resolved.section;
        let bodies = build(&section.part())
            .and_then(|body| Ok((body, build(&section.plain_part())?, examine(section)?)));
        let (body, plain, examination) = match bodies {
            Ok(bodies) => bodies,
            Err(BuildError::NotSolid { reason }) => panic!("no solid: {reason}"),
            Err(BuildError::ChainBroken { run }) => panic!("the chain is broken at run {run}"),
            Err(error) => return Outcome::Refused(vec![error.code()]),
        };
        let chord = sectionwright::check::chord(&section.part(), &body, chord);
        let meshed = match export::Meshed::new(&body, chord) {
            Ok(meshed) => meshed,
            Err(error @ (MeshError::Chord { .. } | MeshError::TooLarge { .. })) => {
                return Outcome::Refused(vec![error.code()]);
            }
            Err(error) => panic!("{}: {error}", error.code()),
        };
        let drawing = match drawn(section) {
            Ok(drawing) => drawing,
            Err(code) => return Outcome::Refused(vec![code]),
        };
        let sheet = match sheet(&resolved) {
            Ok(sheet) => sheet,
            Err(code) => return Outcome::Refused(vec![code]),
        };
        let sources = Sources {
            section,
            body: &body,
            plain: &plain,
            mesh: Some(&meshed),
            drawings: &[drawing],
            parts: &[],
            sheet: &sheet,
            workshop: &resolved.workshop,
            examination: &examination,
        };
        let order =
            export::Order { kinds: Kinds::all(), parts: vec![NamedPart::SECTION.to_owned()] };
        match export::files(&sources, &order, None, Vec::new()) {
            Ok(files) => Outcome::Made {
                triangles: meshed.mesh.triangles.len(),
                bytes: files.iter().map(|file| file.bytes.len()).sum(),
            },
            Err(error) => Outcome::Refused(vec![error.code()]),
        }
    }
}

/// The sheet for the lathe, or the code of what forbids it; steps that do not make the part are a
/// fault of the program.
fn sheet(resolved: &Resolved) -> Result<Vec<File>, &'static str> {
    let Resolved { section, workshop, .. } = resolved;
    let scene = Scene::of_design(resolved).map_err(|error| error.code())?;
    let plan = match plan(&scene, workshop) {
        Ok(plan) => plan,
        Err(error @ PlanError::NotTheSection { .. }) => panic!("{error}"),
        Err(error) => return Err(error.code()),
    };
    lathe_sheet::files(section, &plan, Units::Millimetres).map_err(|error| error.code())
}

/// The section's drawing, or the code of what forbids it.
fn drawn(section: &Section) -> Result<Drawn, &'static str> {
    let allotment = allot(section).map_err(|error| error.code())?;
    let (name, what) = (NamedPart::SECTION.to_owned(), String::new());
    let named = NamedPart { name, kind: PartKind::Section, what, part: section.part() };
    let subject = subject(section, &named, &allotment, Units::Millimetres);
    let sheet = page(&subject, &Format::default()).map_err(|error| error.code())?;
    Ok(Drawn { part: named.name.clone(), sheet })
}
