//! An archive as a file.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::Path;

use super::zipped::LARGEST;
use super::{Kept, fault};
use crate::diagnostic::Diagnostic;

impl Kept {
    /// Opens an archive's file.
    ///
    /// # Errors
    /// As [`Kept::open`]; `archive.unreadable` where there is no such file, or the system does not
    /// give it.
    pub fn open_file(path: &Path) -> Result<Self, Vec<Diagnostic>> {
        Self::open(&read(path).map_err(|fault| vec![*fault])?)
    }
}

fn read(path: &Path) -> Result<Vec<u8>, Box<Diagnostic>> {
    let unreadable = |error: std::io::Error| {
        let why = match error.kind() {
            ErrorKind::NotFound | ErrorKind::NotADirectory => "there is no such file".to_owned(),
            ErrorKind::PermissionDenied => "its permissions forbid it".to_owned(),
            ErrorKind::IsADirectory => "it is a folder".to_owned(),
            _ => error.to_string(),
        };
        Box::new(fault::unreadable(&path.display().to_string(), &why))
    };
    // A pipe or a device would never end.
    let data = fs::metadata(path).map_err(unreadable)?;
    if !data.is_file() {
        return Err(unreadable(if data.is_dir() {
            ErrorKind::IsADirectory.into()
        } else {
            std::io::Error::other("it is no plain file")
        }));
    }
    let mut bytes = Vec::new();
    let open = File::open(path).map_err(unreadable)?;
    let size = open.take(LARGEST + 1).read_to_end(&mut bytes).map_err(unreadable)? as u64;
    if size > LARGEST {
        return Err(Box::new(fault::too_large(data.len().max(size), LARGEST)));
    }
    Ok(bytes)
}
