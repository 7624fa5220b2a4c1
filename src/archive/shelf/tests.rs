//! Listings of small archives.

use std::fs;
use std::path::{Path, PathBuf};

use super::*;
use crate::archive::kept::tests::packed;

const INDEX: &str = "shelf.index";

fn put(folder: &Path, name: &str) -> PathBuf {
    let file = packed(name);
    let path = folder.join(&file.name);
    fs::write(&path, &file.bytes).unwrap();
    settle(&path);
    path
}

/// Makes a file look old enough for the index to vouch for it, but for its time of change, which
/// nobody can set: the index is made younger instead.
fn settle(path: &Path) {
    let open = fs::File::options().append(true).open(path).unwrap();
    open.set_modified(std::time::UNIX_EPOCH).unwrap();
}

fn age_index(folder: &Path) {
    let open = fs::File::options().append(true).open(folder.join(INDEX)).unwrap();
    open.set_modified(std::time::SystemTime::now() + std::time::Duration::from_secs(5)).unwrap();
}

fn names(listing: &Listing) -> Vec<&str> {
    let sound = |it: &'_ Shelved| matches!(it.state, State::Sound(_));
    listing.archives.iter().filter(|it| sound(it)).map(|it| &it.file[..1]).collect()
}

#[test]
fn the_index_is_believed_as_long_as_the_file_is_the_same() {
    let home = tempfile::tempdir().unwrap();
    let a = put(home.path(), "a");
    put(home.path(), "b");
    let first = list(home.path(), false).unwrap();
    assert_eq!((first.read, names(&first)), (2, vec!["a", "b"]));
    // Written in the same moment as the archives: not believed yet.
    assert_eq!(list(home.path(), false).unwrap().read, 2);
    age_index(home.path());
    let again = list(home.path(), false).unwrap();
    assert_eq!((again.read, &again.archives), (0, &first.archives));
    assert_eq!(list(home.path(), true).unwrap().read, 2, "all are read where that is asked for");
    age_index(home.path());
    // The same size and time of content, one bit otherwise.
    let mut bytes = fs::read(&a).unwrap();
    bytes[50] ^= 1;
    fs::write(&a, bytes).unwrap();
    settle(&a);
    let damaged = list(home.path(), false).unwrap();
    assert_eq!((damaged.read, names(&damaged)), (1, vec!["b"]));
    let State::Damaged(faults) = &damaged.archives[0].state else { panic!() };
    assert_eq!(faults[0].0, "archive.seal");
}

/// Every bit of an index, flipped: the listing is what it was.
#[test]
fn a_damaged_index_is_none() {
    let home = tempfile::tempdir().unwrap();
    put(home.path(), "a");
    let first = list(home.path(), false).unwrap();
    let index = fs::read(home.path().join(INDEX)).unwrap();
    for n in 0..index.len() {
        let mut flipped = index.clone();
        flipped[n] ^= 1 << (n % 8);
        fs::write(home.path().join(INDEX), &flipped).unwrap();
        age_index(home.path());
        let listed = list(home.path(), false).unwrap();
        assert_eq!(listed.archives, first.archives, "byte {n}");
        assert_eq!(listed.read, 1, "byte {n}");
    }
}

#[test]
fn what_is_gone_is_not_listed() {
    let home = tempfile::tempdir().unwrap();
    let a = put(home.path(), "a");
    put(home.path(), "b");
    fs::write(home.path().join("notes.txt"), "mine").unwrap();
    fs::write(home.path().join("empty.zip"), "").unwrap();
    list(home.path(), false).unwrap();
    age_index(home.path());
    fs::remove_file(a).unwrap();
    let listing = list(home.path(), false).unwrap();
    assert_eq!(names(&listing), ["b"]);
    assert_eq!(listing.archives.len(), 2, "the empty one is listed as damaged");
    assert_eq!(list(&home.path().join("none"), false).unwrap(), Listing::default());
}
