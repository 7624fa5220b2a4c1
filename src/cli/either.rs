//! A design, or an archive of one.

use std::path::Path;

use super::make::load;
use super::screen::Screen;
use crate::archive::kept::Kept;
use crate::design::{self, Asked, Failure, Kind, Library, Resolved};
use crate::diagnostic::Sources;

/// An archive's ending.
const ARCHIVE: &str = "zip";

/// The design of an archive, resolved from its own files with the limits and the rack that were
/// asked for.
///
/// # Errors
/// This program can't make a section of the files.
pub(super) fn resolve(kept: &Kept) -> Result<Resolved, Failure> {
    let written = kept.written();
    let design = written.asked(Kind::Design).unwrap_or_default().to_owned();
    let asked = &kept.manifest.asked;
    let with = Asked { limits: &asked.limits, rack: asked.rack.as_deref() };
    design::load_asked(&Library::of_written(written), &design, with)
}

/// A design by its name or file, or the one in an archive; says what is wrong with it.
pub(super) fn design_or_archive(
    library: &Library,
    typed: &str,
    screen: Screen,
) -> Option<Resolved> {
    let path = Path::new(typed);
    if path.extension().is_none_or(|ending| ending != ARCHIVE) {
        return load(library, typed, Asked::default(), screen);
    }
    let kept = Kept::open_file(path)
        .map_err(|faults| screen.diagnostics(&faults, &Sources::default()))
        .ok()?;
    let said = |failure: Failure| screen.diagnostics(&failure.diagnostics, &failure.sources);
    resolve(&kept).map_err(said).ok()
}
