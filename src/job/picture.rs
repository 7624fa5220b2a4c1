//! A picture at a place that was asked for.

use std::path::Path;

use super::stopped::{Stopped, Why};
use crate::archive;
use crate::diagnostic::Diagnostic;
use crate::drawing::Sheet;
use crate::export::{pdf, svg};

/// Draws a sheet into a file, as PDF where its name says so, else as SVG; over an earlier picture,
/// and over nothing else.
///
/// # Errors
/// It can't be a PDF, something else is there, or the place can't be written to.
pub(super) fn draw(path: &Path, sheet: &Sheet) -> Result<(), Stopped> {
    if path.extension().is_none_or(|ending| ending != "pdf") {
        return put(path, svg::write(sheet).as_bytes());
    }
    let bytes = pdf::write(sheet).map_err(|error| {
        let told = Diagnostic::error(error.code(), error.to_string());
        Stopped::by(Why::Wrong, Vec::new(), told.hint("--picture FILE.svg"))
    })?;
    put(path, &bytes)
}

/// Puts a picture's bytes into a file; as [`draw`].
///
/// # Errors
/// Something else is there, or the place can't be written to.
pub(super) fn put(path: &Path, picture: &[u8]) -> Result<(), Stopped> {
    /// How the pictures begin that are made here: as SVG, as PDF.
    const BEGINNINGS: [&[u8]; 2] = [b"<svg", b"%PDF"];
    let is_picture = |bytes: &[u8]| BEGINNINGS.iter().any(|start| bytes.starts_with(start));
    if std::fs::read(path).is_ok_and(|bytes| !is_picture(&bytes)) {
        let message = format!("{} is there already and is no picture", path.display());
        let told = Diagnostic::error("picture.exists", message);
        return Err(Stopped::by(Why::Wrong, Vec::new(), told.hint("name another file")));
    }
    archive::replace_file(path, picture).map_err(|error| {
        let told = Diagnostic::error(error.code(), error.to_string());
        Stopped::by(Why::Failed, Vec::new(), told)
    })
}
