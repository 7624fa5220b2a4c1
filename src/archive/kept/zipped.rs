//! The bytes of an archive: a ZIP file (APPNOTE.TXT 6.3, ISO/IEC 21320-1) whose entries are stored
//! as they are, sorted by name, at 1980-01-01, and whose comment is the seal.
//!
//! The seal is SHA-256, in lower-case hexadecimal, of every byte before it; the comment is the last
//! thing in a ZIP file, so no byte can change unseen.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

use super::entry_name::entry_name_fault;
use super::fault;
use crate::diagnostic::Diagnostic;
use crate::export::{File, digest};

/// Bytes of an archive at most: it is read into memory whole. Less, and some photographs of today's
/// cameras do not go in; more, and a small machine can't verify it.
pub const LARGEST: u64 = 512 * 1024 * 1024;

/// Entries of an archive at most: a design that makes every part and kind has some hundreds. More
/// only makes a hostile file slow to refuse.
const MOST_ENTRIES: usize = 4096;

/// Letters of the seal.
const SEAL: usize = 64;

/// Bytes of the end record without its comment (APPNOTE 4.3.16): signature, six counts and places,
/// and the comment's length as the last two.
const END: usize = 22;
/// How an end record begins.
const END_SIGNATURE: &[u8] = b"PK\x05\x06";

/// Every entry in the order of its name, and the seal.
pub fn write(mut files: Vec<File>) -> Result<Vec<u8>, Box<Diagnostic>> {
    files.sort_by(|a, b| a.name.cmp(&b.name));
    let size: u64 = files.iter().map(|file| file.bytes.len() as u64 + 1024).sum();
    if size > LARGEST {
        return Err(Box::new(fault::too_large(size, LARGEST)));
    }
    zipped(&files).map_err(|error| Box::new(fault::no_zip(&error.to_string())))
}

fn zipped(files: &[File]) -> zip::result::ZipResult<Vec<u8>> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for file in files {
        writer.start_file(&file.name, options)?;
        writer.write_all(&file.bytes)?;
    }
    writer.set_comment("0".repeat(SEAL))?;
    let mut bytes = writer.finish()?.into_inner();
    let sealed = bytes.len() - SEAL;
    let seal = digest(&bytes[..sealed]);
    bytes[sealed..].copy_from_slice(seal.as_bytes());
    Ok(bytes)
}

/// Every entry by its name, where the names can be used at all; and all that is wrong.
pub fn read(bytes: &[u8]) -> (Option<BTreeMap<String, Vec<u8>>>, Vec<Diagnostic>) {
    let mut wrong = Vec::new();
    if bytes.len() as u64 > LARGEST {
        return (None, vec![fault::too_large(bytes.len() as u64, LARGEST)]);
    }
    match seal_of(bytes) {
        None => wrong.push(fault::no_seal()),
        Some((sealed, seal)) if digest(sealed).as_bytes() != seal => {
            wrong.push(fault::broken_seal());
        }
        Some(_) => {}
    }
    let mut archive = match ZipArchive::new(Cursor::new(bytes)) {
        Ok(archive) => archive,
        Err(error) => {
            wrong.push(fault::no_zip(&error.to_string()));
            return (None, wrong);
        }
    };
    if archive.len() > MOST_ENTRIES {
        wrong.push(fault::too_many(archive.len(), MOST_ENTRIES));
        return (None, wrong);
    }
    let before = wrong.len();
    names(&archive, &mut wrong);
    if wrong.len() > before {
        return (None, wrong);
    }
    if let Err(error) = archive.validate_header_consistency() {
        wrong.push(fault::no_zip(&error.to_string()));
        return (None, wrong);
    }
    if archive.offset() != 0 {
        wrong.push(fault::no_zip("something stands before its first entry"));
    }
    let files = contents(&mut archive, bytes.len() as u64, &mut wrong);
    (Some(files), wrong)
}

/// What is sealed, and the seal: the comment, if it is one.
fn seal_of(bytes: &[u8]) -> Option<(&[u8], &[u8])> {
    let (sealed, seal) = bytes.split_at_checked(bytes.len().checked_sub(SEAL)?)?;
    let end = sealed.split_at_checked(sealed.len().checked_sub(END)?)?.1;
    let length = u16::from_le_bytes([end[END - 2], end[END - 1]]);
    (end.starts_with(END_SIGNATURE) && usize::from(length) == SEAL).then_some((sealed, seal))
}

/// What can be told of the entries before any of them is read.
fn names(archive: &ZipArchive<Cursor<&[u8]>>, wrong: &mut Vec<Diagnostic>) {
    if archive.has_duplicate_names() {
        wrong.push(fault::one_name());
    }
    // Some systems take names that differ in their case for one.
    let mut taken: BTreeMap<String, String> = BTreeMap::new();
    for n in 0..archive.len() {
        let Ok(entry) = archive.by_index_data(n) else { continue };
        let name = match entry.name() {
            Ok(name) => name.into_owned(),
            Err(error) => {
                wrong.push(fault::bad_name("?", &error.to_string()));
                continue;
            }
        };
        if let Some(why) = entry_name_fault(&name) {
            wrong.push(fault::bad_name(&name, &why));
        } else if taken.insert(name.to_lowercase(), name.clone()).is_some() {
            wrong.push(fault::duplicate(&name));
        }
        let plain =
            entry.unix_mode().is_none_or(|mode| mode & FILE_KIND == 0 || mode & FILE_KIND == FILE);
        if !plain || entry.is_symlink() {
            wrong.push(fault::no_file(&name));
        }
        let stored = entry.compression() == CompressionMethod::Stored;
        if !stored || entry.encrypted() || entry.size() != entry.compressed_size() {
            wrong.push(fault::packed(&name));
        }
    }
    // A file can't be a folder too.
    let keys: Vec<&String> = taken.keys().collect();
    for pair in keys.windows(2) {
        if pair[1].strip_prefix(pair[0].as_str()).is_some_and(|rest| rest.starts_with('/')) {
            wrong.push(fault::duplicate(&taken[pair[0]]));
        }
    }
}

/// The bits of a Unix mode that say what kind of file it is, and a plain file's (POSIX `S_IFMT`,
/// `S_IFREG`).
const FILE_KIND: u32 = 0o170_000;
const FILE: u32 = 0o100_000;

/// The bytes of every entry; all of them together are no more than the archive, for they are stored.
fn contents(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    size: u64,
    wrong: &mut Vec<Diagnostic>,
) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut left = size;
    for n in 0..archive.len() {
        let Ok(mut entry) = archive.by_index(n) else {
            wrong.push(fault::unreadable_entry("?", "its place in the file is wrong"));
            continue;
        };
        let Ok(name) = entry.name().map(Cow::into_owned) else { continue };
        let mut bytes = Vec::new();
        match (&mut entry).take(left + 1).read_to_end(&mut bytes) {
            Ok(read) if read as u64 > left => wrong.push(fault::packed(&name)),
            Ok(read) => {
                left -= read as u64;
                files.insert(name, bytes);
            }
            Err(error) => wrong.push(fault::unreadable_entry(&name, &error.to_string())),
        }
    }
    files
}
