//! Replaces a folder's set of files by another, as one step.
//!
//! The new set is written, synced and read back beside the folder; then both folders change places
//! in one system call. Until then nothing of the old set is touched, and at no moment does a
//! reader, or a crash, see half of either. Files of other origin stay.

use std::ffi::OsStr;
use std::fmt;

use crate::export::File;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A folder could not be written; what was there before is still there.
#[derive(Debug)]
pub struct ArchiveError {
    /// What was being done.
    doing: &'static str,
    /// With what.
    path: PathBuf,
    /// What the system said.
    source: io::Error,
}

impl ArchiveError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "archive.not-written"
    }
}

impl fmt::Display for ArchiveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { doing, path, source } = self;
        write!(f, "could not {doing} {}: {source}; nothing was changed", path.display())
    }
}

impl std::error::Error for ArchiveError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.source)
    }
}

/// Makes `folder` hold exactly this set of our files, beside what others put there.
///
/// `ours` names every file that may be of an earlier set: those not in the new set go.
///
/// # Errors
/// The folder's place can't be written to, or the disk is full. The earlier set is then whole.
pub fn replace(
    folder: &Path,
    set: &[File],
    ours: &[impl AsRef<OsStr>],
) -> Result<(), ArchiveError> {
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    attempt("make the folder", parent, fs::create_dir_all(parent))?;
    let beside = beside(folder);
    recover(folder, &beside, ours)?;
    attempt("make the folder", &beside, fs::create_dir(&beside))?;
    let written = write_set(&beside, set).and_then(|()| swap(folder, &beside));
    if written.is_err() {
        // The set is not complete: it must not be found by the next run.
        let _ = fs::remove_dir_all(&beside);
    }
    written?;
    recover(folder, &beside, ours)
}

/// The name under which a set is prepared, and the old one is left until it is cleared: hidden,
/// in the same folder and so on the same disk.
pub(super) fn beside(folder: &Path) -> PathBuf {
    let name = folder.file_name().unwrap_or(OsStr::new("set"));
    let mut hidden = OsStr::new(".").to_owned();
    hidden.push(name);
    hidden.push(".sectionwright");
    folder.with_file_name(hidden)
}

/// Writes files into a folder that is there, those in folders of it too, and syncs them.
pub(super) fn write_set(beside: &Path, set: &[File]) -> Result<(), ArchiveError> {
    let mut folders = vec![beside.to_owned()];
    for file in set {
        let path = beside.join(&file.name);
        if let Some(folder) = path.parent().filter(|folder| !folders.iter().any(|it| it == folder))
        {
            attempt("make the folder", folder, fs::create_dir_all(folder))?;
            folders.push(folder.to_owned());
        }
        write_whole(&path, &file.bytes)?;
    }
    folders.iter().try_for_each(|folder| attempt("sync", folder, sync(folder)))
}

/// Writes a new file, syncs it, and reads it back.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), ArchiveError> {
    let write = || {
        let mut open = fs::File::create(path)?;
        open.write_all(bytes)?;
        open.sync_all()
    };
    attempt("write", path, write())?;
    read_back(path, bytes)
}

/// Sees that a file holds what was written to it, before it takes the place of an earlier one.
pub(super) fn read_back(path: &Path, bytes: &[u8]) -> Result<(), ArchiveError> {
    let there = attempt("read back", path, fs::read(path))?;
    let other = || io::Error::new(io::ErrorKind::InvalidData, "it is not what was written");
    attempt("read back", path, if there == bytes { Ok(()) } else { Err(other()) })
}

/// Lets the prepared folder take the place of the old one.
fn swap(folder: &Path, beside: &Path) -> Result<(), ArchiveError> {
    let swapped =
        if folder.exists() { exchange(folder, beside) } else { fs::rename(beside, folder) };
    attempt("put in place", folder, swapped)?;
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    attempt("sync", parent, sync(parent))
}

/// Exchanges two folders in one step where the system can, else in the two steps that all have.
fn exchange(a: &Path, b: &Path) -> io::Result<()> {
    #[cfg(target_os = "linux")]
    {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        match renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE) {
            Err(rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS) => {}
            other => return other.map_err(io::Error::from),
        }
    }
    let aside = a.with_extension("old");
    fs::rename(a, &aside)?;
    fs::rename(b, a)?;
    fs::rename(&aside, b)
}

/// Clears what an exchange left beside the folder: the old set goes, files of other origin move
/// to where the folder now is. Also what a killed run left.
fn recover(folder: &Path, beside: &Path, ours: &[impl AsRef<OsStr>]) -> Result<(), ArchiveError> {
    if !beside.exists() {
        return Ok(());
    }
    let entries = attempt("read", beside, fs::read_dir(beside))?;
    for entry in entries {
        let entry = attempt("read", beside, entry)?;
        let foreign = !ours.iter().any(|name| entry.file_name() == name.as_ref());
        if foreign && folder.exists() {
            let mut name = entry.file_name();
            while folder.join(&name).exists() {
                // Somebody made another file of this name meanwhile: neither is to be lost.
                name.push(".kept");
            }
            let home = folder.join(name);
            attempt("keep", &home, fs::rename(entry.path(), &home))?;
        }
    }
    attempt("clear", beside, fs::remove_dir_all(beside))
}

pub(super) fn sync(folder: &Path) -> io::Result<()> {
    // Only some systems let a folder be opened; where they don't, there is nothing to sync.
    if cfg!(unix) { fs::File::open(folder)?.sync_all() } else { Ok(()) }
}

pub(super) fn attempt<T>(
    doing: &'static str,
    path: &Path,
    done: io::Result<T>,
) -> Result<T, ArchiveError> {
    done.map_err(|source| ArchiveError { doing, path: path.to_owned(), source })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    const OURS: &[&str] = &["a.txt", "b.txt"];

    fn set(files: &[(&str, &str)]) -> Vec<File> {
        files.iter().map(|(name, text)| File::new(*name, text.as_bytes())).collect()
    }

    fn found(folder: &Path) -> BTreeMap<String, String> {
        let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
        let name = |e: &fs::DirEntry| e.file_name().into_string().unwrap();
        entries.map(|e| (name(&e), fs::read_to_string(e.path()).unwrap_or_default())).collect()
    }

    fn names(folder: &Path) -> Vec<String> {
        found(folder).into_keys().collect()
    }

    #[test]
    fn an_earlier_set_goes_and_foreign_files_stay() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("out/pen");
        replace(&folder, &set(&[("a.txt", "1"), ("b.txt", "1")]), OURS).unwrap();
        fs::write(folder.join("notes.md"), "mine").unwrap();
        fs::create_dir(folder.join("photos")).unwrap();
        replace(&folder, &set(&[("a.txt", "2")]), OURS).unwrap();
        assert_eq!(names(&folder), ["a.txt", "notes.md", "photos"]);
        assert_eq!(found(&folder)["a.txt"], "2");
        assert_eq!(found(&folder)["notes.md"], "mine");
        assert_eq!(names(folder.parent().unwrap()), ["pen"], "no litter");
    }

    #[test]
    fn what_a_killed_run_left_is_cleared_and_nothing_foreign_is_lost() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("pen");
        replace(&folder, &set(&[("a.txt", "1")]), OURS).unwrap();
        // Killed between the exchange and the clearing: the old set is beside.
        fs::create_dir(beside(&folder)).unwrap();
        fs::write(beside(&folder).join("a.txt"), "0").unwrap();
        fs::write(beside(&folder).join("notes.md"), "mine").unwrap();
        replace(&folder, &set(&[("a.txt", "2")]), OURS).unwrap();
        assert_eq!(names(&folder), ["a.txt", "notes.md"]);
        assert_eq!(names(home.path()), ["pen"]);
    }

    #[test]
    fn a_file_is_read_back() {
        let home = tempfile::tempdir().unwrap();
        let path = home.path().join("a.stl");
        write_whole(&path, b"as made").unwrap();
        for other in [b"as_made".as_slice(), b"as mad", b""] {
            fs::write(&path, other).unwrap();
            let error = read_back(&path, b"as made").unwrap_err();
            assert!(error.to_string().contains("it is not what was written"), "{error}");
        }
    }

    #[test]
    fn a_set_that_cannot_be_written_leaves_the_old_one() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("pen");
        replace(&folder, &set(&[("a.txt", "1")]), OURS).unwrap();
        // A file taken for a folder stands for a full disk: the second write fails.
        let broken = set(&[("a.txt", "2"), ("a.txt/b", "")]);
        let error = replace(&folder, &broken, OURS).unwrap_err();
        assert!(error.to_string().contains("nothing was changed"), "{error}");
        assert_eq!(found(&folder)["a.txt"], "1");
        assert_eq!(names(home.path()), ["pen"]);
    }
}
