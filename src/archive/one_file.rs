//! One file at a place that was asked for, whole or not at all.

use std::fs;
use std::path::Path;

use super::ArchiveError;
use super::replace::{attempt, beside, write_whole};

/// Writes a file, over one that is there; until it is written whole, that one is whole.
///
/// # Errors
/// The place can't be written to, or the disk is full.
pub fn replace_file(path: &Path, bytes: &[u8]) -> Result<(), ArchiveError> {
    let prepared = beside(path);
    let written = write_whole(&prepared, bytes);
    let placed = written.and_then(|()| attempt("put in place", path, fs::rename(&prepared, path)));
    if placed.is_err() {
        // What is not whole must not stay.
        let _ = fs::remove_file(&prepared);
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole_or_left() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("walls.svg");
        for text in ["first", "second"] {
            replace_file(&path, text.as_bytes()).unwrap();
            assert_eq!(fs::read_to_string(&path).unwrap(), text);
        }
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
        // A folder is there: nothing is written, and nothing is left beside it.
        let taken = folder.path().join("taken");
        fs::create_dir(&taken).unwrap();
        fs::write(taken.join("kept"), "kept").unwrap();
        assert_eq!(replace_file(&taken, b"x").unwrap_err().code(), "archive.not-written");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
    }
}
