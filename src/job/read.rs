//! Designs and archives, read, and what is said of them.

use std::path::Path;

use super::stopped::Said;
use crate::archive::kept::Kept;
use crate::design::{self, Asked, Failure, Kind, Library, Resolved};
use crate::diagnostic::Diagnostic;
use crate::scene::Scene;
use crate::section::Section;
use crate::solid::{BuildError, build};

/// An archive's ending.
const ARCHIVE: &str = "zip";

/// Which of what is said of a design its reader wants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Notes too: it is read to be made.
    WithNotes,
    /// Errors alone: notes are for who makes it.
    ErrorsAlone,
}

impl Reading {
    fn of(self, mut said: Said) -> Said {
        if self == Self::ErrorsAlone {
            said.keep_errors();
        }
        said
    }
}

/// Reads a design by its name or file; none where it is wrong. What is said of it is added.
pub fn load(
    library: &Library,
    design: &str,
    asked: Asked<'_>,
    reading: Reading,
    said: &mut Vec<Said>,
) -> Option<Resolved> {
    heard(design::load_asked(library, design, asked), reading, said)
}

/// Reads a design by its name or file, or the one in an archive; as [`load`].
pub fn design_or_archive(
    library: &Library,
    name: &str,
    reading: Reading,
    said: &mut Vec<Said>,
) -> Option<Resolved> {
    let path = Path::new(name);
    if path.extension().is_none_or(|ending| ending != ARCHIVE) {
        return load(library, name, Asked::default(), reading, said);
    }
    match Kept::open_file(path) {
        Ok(kept) => heard(of_archive(&kept), Reading::ErrorsAlone, said),
        Err(faults) => {
            said.push(Said::of_request(faults));
            None
        }
    }
}

/// The design of an archive, resolved from its own files with the limits and the rack that were
/// asked for.
///
/// # Errors
/// This program can't make a section of the files.
pub fn of_archive(kept: &Kept) -> Result<Resolved, Failure> {
    let written = kept.written();
    let design = written.asked(Kind::Design).unwrap_or_default().to_owned();
    let asked = &kept.manifest.asked;
    let with = Asked { limits: &asked.limits, rack: asked.rack.as_deref() };
    design::load_asked(&Library::of_written(written), &design, with)
}

fn heard(
    read: Result<Resolved, Failure>,
    reading: Reading,
    said: &mut Vec<Said>,
) -> Option<Resolved> {
    let (resolved, heard) = match read {
        Ok(resolved) => {
            let (diagnostics, sources) = (resolved.notes.clone(), resolved.sources.clone());
            (Some(resolved), Said { diagnostics, sources })
        }
        Err(Failure { diagnostics, sources }) => (None, Said { diagnostics, sources }),
    };
    said.push(reading.of(heard));
    resolved
}

/// A design's scene.
///
/// # Errors
/// What can't be built of it, with its place in the design.
pub fn scene(resolved: &Resolved) -> Result<Scene, Box<Diagnostic>> {
    // What works has to work for everything that is built of a section.
    let works = |section: &Section| {
        let builds = |part| build(&part).is_ok();
        builds(section.part()) && builds(section.plain_part()) && Scene::of(section).is_ok()
    };
    let told = |error: BuildError| Box::new(resolved.told(error.into(), &works));
    Scene::of_design(resolved).map_err(told)
}
