//! A picture at a place that was asked for.

use std::path::Path;

use super::outcome::Outcome;
use super::screen::Screen;
use crate::archive;
use crate::drawing::Sheet;
use crate::export::{pdf, svg};

/// Draws a sheet into a file, as PDF where its name says so, else as SVG; over an earlier picture,
/// and over nothing else. Says what went wrong, if anything did.
pub(super) fn draw(path: &Path, sheet: &Sheet, screen: Screen) -> Option<Outcome> {
    if path.extension().is_none_or(|ending| ending != "pdf") {
        return put(path, svg::write(sheet).as_bytes(), screen);
    }
    match pdf::write(sheet) {
        Ok(bytes) => put(path, &bytes, screen),
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            Some(Outcome::Wrong)
        }
    }
}

/// Puts a picture's bytes into a file; as [`draw`].
pub(super) fn put(path: &Path, picture: &[u8], screen: Screen) -> Option<Outcome> {
    /// How the pictures begin that are made here: as SVG, as PDF.
    const BEGINNINGS: [&[u8]; 2] = [b"<svg", b"%PDF"];
    let is_picture = |bytes: &[u8]| BEGINNINGS.iter().any(|start| bytes.starts_with(start));
    if std::fs::read(path).is_ok_and(|bytes| !is_picture(&bytes)) {
        let path = path.display();
        screen.complain("picture.exists", format!("{path} is there already and is no picture"));
        return Some(Outcome::Wrong);
    }
    if let Err(error) = archive::replace_file(path, picture) {
        screen.complain(error.code(), error.to_string());
        return Some(Outcome::Failed);
    }
    None
}
