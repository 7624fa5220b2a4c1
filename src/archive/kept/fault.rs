//! What can be wrong with an archive.

use super::manifest::printable;
use crate::diagnostic::Diagnostic;

/// What helps where bytes are not as they were kept.
const OTHER_COPY: &str = "take another copy of it; nothing of this one was used";
/// What helps where the file was never an archive of ours.
const NOT_OURS: &str = "an archive is made by `keep`, and no other program may change it";

pub fn too_large(size: u64, limit: u64) -> Diagnostic {
    let message = format!("it has {size} bytes; an archive has {limit} at most");
    Diagnostic::error("archive.too-large", message).hint("fewer or smaller photographs")
}

pub fn no_seal() -> Diagnostic {
    let message = "it does not end in the seal of an archive: it is cut short, or something else";
    Diagnostic::error("archive.no-seal", message).hint(OTHER_COPY)
}

pub fn broken_seal() -> Diagnostic {
    let message = "its bytes are not those that were sealed when it was kept";
    Diagnostic::error("archive.seal", message).hint(OTHER_COPY)
}

pub fn no_zip(why: &str) -> Diagnostic {
    Diagnostic::error("archive.zip", format!("it can't be read as a ZIP file: {why}"))
        .hint(OTHER_COPY)
}

pub fn too_many(count: usize, limit: usize) -> Diagnostic {
    let message = format!("it has {count} entries; an archive has {limit} at most");
    Diagnostic::error("archive.too-many", message).hint(NOT_OURS)
}

pub fn one_name() -> Diagnostic {
    Diagnostic::error("archive.duplicate", "two of its entries have one name").hint(NOT_OURS)
}

pub fn duplicate(name: &str) -> Diagnostic {
    let message = format!("more than one entry would be unpacked as {name:?}");
    Diagnostic::error("archive.duplicate", message).hint(NOT_OURS)
}

pub fn bad_name(name: &str, why: &str) -> Diagnostic {
    let message = format!("an entry can't be called {name:?}: {why}");
    Diagnostic::error("archive.entry-name", message).hint(NOT_OURS)
}

pub fn no_file(name: &str) -> Diagnostic {
    let message = format!("the entry {name:?} is a link or a device and no file");
    Diagnostic::error("archive.entry-kind", message).hint(NOT_OURS)
}

pub fn packed(name: &str) -> Diagnostic {
    let message =
        format!("the entry {name:?} is compressed or encrypted; entries are stored as they are");
    Diagnostic::error("archive.entry-packed", message).hint(NOT_OURS)
}

pub fn unreadable_entry(name: &str, why: &str) -> Diagnostic {
    let message = format!("the entry {name:?} can't be read: {why}");
    Diagnostic::error("archive.entry-unreadable", message).hint(OTHER_COPY)
}

pub fn no_manifest() -> Diagnostic {
    Diagnostic::error("archive.no-manifest", "it has no manifest.json").hint(NOT_OURS)
}

pub fn bad_manifest(why: &str) -> Diagnostic {
    let message = format!("its manifest can't be read: {}", printable(why));
    Diagnostic::error("archive.manifest", message).hint(OTHER_COPY)
}

pub fn newer(format: u64, known: u32) -> Diagnostic {
    let message = format!("it has format {format}, which is newer than this program");
    let hint =
        format!("this program reads format {known} and older; a newer release of it reads it");
    Diagnostic::error("archive.format-newer", message).hint(hint)
}

pub fn unknown_format(format: u64, known: u32) -> Diagnostic {
    Diagnostic::error("archive.format-unknown", format!("there is no format {format}"))
        .hint(format!("this program reads format {known} and older"))
}

pub fn missing(name: &str) -> Diagnostic {
    Diagnostic::error("archive.entry-missing", format!("the entry {name:?} is gone"))
        .hint(OTHER_COPY)
}

pub fn unlisted(name: &str) -> Diagnostic {
    Diagnostic::error("archive.entry-unlisted", format!("the manifest does not list {name:?}"))
        .hint(NOT_OURS)
}

pub fn changed(name: &str) -> Diagnostic {
    let message = format!("the entry {name:?} is not as it was kept");
    Diagnostic::error("archive.entry-changed", message).hint(OTHER_COPY)
}

pub fn unreadable(path: &str, why: &str) -> Diagnostic {
    Diagnostic::error("archive.unreadable", format!("can't read {path}: {why}"))
        .hint("`shelf` lists what is kept, each with its file")
}
