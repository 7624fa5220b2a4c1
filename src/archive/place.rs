//! New files and folders at places where nothing is: an archive on its shelf, a set unpacked.

use std::fmt;
use std::fs::{self, File as Open, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::ArchiveError;
use super::replace::{attempt, beside, read_back, sync, write_set};
use crate::export::File;

/// The name under which an archive is written before it is whole; one a shelf, so that the next
/// run clears what a killed one left.
const BEING_WRITTEN: &str = ".keeping.sectionwright";

/// How often the file that is written is opened anew where another run put its own in place
/// meanwhile. Less, and two runs at once could fail; more only waits longer.
const TRIES: usize = 50;

/// What became of an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Placed {
    /// It was written.
    New(PathBuf),
    /// The same one, to the byte, was there.
    There(PathBuf),
}

/// Why nothing was put in a place.
#[derive(Debug)]
pub enum PlaceError {
    /// Something else is there.
    Taken(PathBuf),
    /// The system refused.
    NotWritten(ArchiveError),
}

impl PlaceError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Taken(_) => "archive.taken",
            Self::NotWritten(cause) => cause.code(),
        }
    }
}

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Taken(path) => {
                write!(f, "{} is there already; it was left as it is", path.display())
            }
            Self::NotWritten(cause) => cause.fmt(f),
        }
    }
}

impl std::error::Error for PlaceError {}

impl From<ArchiveError> for PlaceError {
    fn from(cause: ArchiveError) -> Self {
        Self::NotWritten(cause)
    }
}

/// Puts a file into a folder, whole or not at all, and never over another content.
///
/// # Errors
/// Another content is there; the place can't be written to; the disk is full. What was there is
/// then as it was.
pub fn place(folder: &Path, file: &File) -> Result<Placed, PlaceError> {
    let existed = folder.exists();
    attempt("make the folder", folder, fs::create_dir_all(folder))?;
    let hidden = folder.join(BEING_WRITTEN);
    let placed = attempt("write", &hidden, alone(&hidden))
        .map_err(PlaceError::from)
        .and_then(|open| put(open, &hidden, &folder.join(&file.name), &file.bytes));
    if !matches!(placed, Ok(Placed::New(_))) {
        // What is not whole, or not needed, must not stay; nor a folder that holds nothing.
        let _ = fs::remove_file(&hidden);
        if !existed {
            let _ = fs::remove_dir(folder);
        }
    }
    placed
}

/// The file that is written, empty, with nobody else writing to it.
fn alone(hidden: &Path) -> io::Result<Open> {
    for _ in 0..TRIES {
        let open = OpenOptions::new().create(true).truncate(false).write(true).open(hidden)?;
        match open.lock() {
            // Where there are no locks, there is nobody to wait for.
            Err(error) if error.kind() != ErrorKind::Unsupported => return Err(error),
            _ => {}
        }
        if is_at(&open, hidden) {
            open.set_len(0)?;
            return Ok(open);
        }
    }
    Err(io::Error::new(ErrorKind::ResourceBusy, "other runs keep writing to this folder"))
}

/// Whether a path still leads to an open file: another run may have put it in its place.
fn is_at(open: &Open, path: &Path) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        let id = |data: io::Result<fs::Metadata>| data.ok().map(|data| (data.dev(), data.ino()));
        id(open.metadata()) == id(fs::symlink_metadata(path))
    }
    #[cfg(not(unix))]
    {
        let _ = open;
        path.exists()
    }
}

fn put(mut open: Open, hidden: &Path, to: &Path, bytes: &[u8]) -> Result<Placed, PlaceError> {
    if fs::symlink_metadata(to).is_ok() {
        let same = fs::read(to).is_ok_and(|there| there == bytes);
        let path = to.to_owned();
        return if same { Ok(Placed::There(path)) } else { Err(PlaceError::Taken(path)) };
    }
    let written = open.write_all(bytes).and_then(|()| open.sync_all());
    attempt("write", hidden, written)?;
    read_back(hidden, bytes)?;
    move_new(hidden, to)?;
    let folder = to.parent().unwrap_or(Path::new("."));
    attempt("sync", folder, sync(folder))?;
    Ok(Placed::New(to.to_owned()))
}

/// Makes a new folder of a set of files, all of it or none.
///
/// # Errors
/// Something is there; the place can't be written to; the disk is full. What was there is then as
/// it was.
pub fn unpack(folder: &Path, set: &[File]) -> Result<(), PlaceError> {
    if fs::symlink_metadata(folder).is_ok() {
        return Err(PlaceError::Taken(folder.to_owned()));
    }
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    attempt("make the folder", parent, fs::create_dir_all(parent))?;
    let hidden = beside(folder);
    if hidden.exists() {
        attempt("clear", &hidden, fs::remove_dir_all(&hidden))?;
    }
    attempt("make the folder", &hidden, fs::create_dir(&hidden))?;
    let moved = write_set(&hidden, set).map_err(PlaceError::from);
    let moved = moved.and_then(|()| move_new(&hidden, folder));
    if moved.is_err() {
        let _ = fs::remove_dir_all(&hidden);
    }
    moved?;
    Ok(attempt("sync", parent, sync(parent))?)
}

/// Renames where nothing is: in one step where the system can, else after a look.
fn move_new(from: &Path, to: &Path) -> Result<(), PlaceError> {
    #[cfg(target_os = "linux")]
    {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        use rustix::io::Errno;
        match renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE) {
            Err(Errno::INVAL | Errno::NOSYS) => {}
            Err(Errno::EXIST) => return Err(PlaceError::Taken(to.to_owned())),
            other => return Ok(attempt("put in place", to, other.map_err(io::Error::from))?),
        }
    }
    if fs::symlink_metadata(to).is_ok() {
        return Err(PlaceError::Taken(to.to_owned()));
    }
    Ok(attempt("put in place", to, fs::rename(from, to))?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name());
        let mut names: Vec<String> = entries.map(|name| name.into_string().unwrap()).collect();
        names.sort();
        names
    }

    #[test]
    fn another_content_is_never_written_over() {
        let home = tempfile::tempdir().unwrap();
        let shelf = home.path().join("a/shelf");
        let put = |text: &str| place(&shelf, &File::new("pen.zip", text.as_bytes()));
        assert_eq!(put("first").unwrap(), Placed::New(shelf.join("pen.zip")));
        assert_eq!(put("first").unwrap(), Placed::There(shelf.join("pen.zip")));
        assert_eq!(put("second").unwrap_err().code(), "archive.taken");
        assert_eq!(fs::read_to_string(shelf.join("pen.zip")).unwrap(), "first");
        assert_eq!(names(&shelf), ["pen.zip"]);
    }

    #[test]
    fn what_a_killed_run_left_is_cleared() {
        let home = tempfile::tempdir().unwrap();
        let half = home.path().join(BEING_WRITTEN);
        for text in ["new", "new"] {
            fs::write(&half, "a longer text that is not whole").unwrap();
            place(home.path(), &File::new("pen.zip", text.as_bytes())).unwrap();
            assert_eq!(fs::read_to_string(home.path().join("pen.zip")).unwrap(), text);
            assert_eq!(names(home.path()), ["pen.zip"]);
        }
    }

    #[test]
    fn runs_at_once_wait_for_each_other() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path();
        std::thread::scope(|scope| {
            for n in 0..8 {
                scope.spawn(move || {
                    let bytes = vec![n; 1_000_000];
                    place(folder, &File::new(format!("{n}.zip"), bytes)).unwrap();
                });
            }
        });
        assert_eq!(names(folder).len(), 8);
        for n in 0..8 {
            assert!(fs::read(folder.join(format!("{n}.zip"))).unwrap().iter().all(|b| *b == n));
        }
    }

    #[test]
    fn a_set_is_unpacked_whole_and_nowhere_else() {
        let home = tempfile::tempdir().unwrap();
        let to = home.path().join("pen");
        let set = [File::new("a.txt", "a"), File::new("exports/b.txt", "b")];
        fs::create_dir(beside(&to)).unwrap();
        unpack(&to, &set).unwrap();
        assert_eq!(fs::read_to_string(to.join("exports/b.txt")).unwrap(), "b");
        assert_eq!(unpack(&to, &set).unwrap_err().code(), "archive.taken");
        let clash = [File::new("a", "a"), File::new("a/b", "b")];
        assert_eq!(
            unpack(&home.path().join("x"), &clash).unwrap_err().code(),
            "archive.not-written"
        );
        assert_eq!(names(home.path()), ["pen"]);
    }
}
