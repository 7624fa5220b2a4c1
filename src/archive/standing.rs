//! What of a folder's earlier set is still true.

use std::fs;
use std::path::Path;

use crate::export::{Earlier, File};
use crate::section::Section;

/// A folder's earlier set, held against the section as it is now.
#[derive(Clone, Debug, Default)]
pub struct Standing {
    /// The earlier report, if any of its files still stand.
    pub report: Option<Earlier>,
    /// Files that the report vouches for: made of the same section by the same version.
    pub files: Vec<File>,
    /// Names of ours that nothing vouches for.
    pub gone: Vec<String>,
}

/// Reads a folder's files of ours, except those that are made anew.
pub fn standing(folder: &Path, section: &Section, ours: &[&str], anew: &[&str]) -> Standing {
    let text = fs::read_to_string(folder.join(crate::export::REPORT)).unwrap_or_default();
    let report = Earlier::read(&text);
    let mut standing = Standing::default();
    for name in ours.iter().filter(|name| !anew.contains(name)) {
        let Ok(bytes) = fs::read(folder.join(name)) else { continue };
        let vouched = report.as_ref().is_some_and(|r| r.vouches_for(section, name, &bytes));
        if vouched {
            standing.files.push(File::new(*name, bytes));
        } else {
            standing.gone.push((*name).to_owned());
        }
    }
    standing.report = report.filter(|_| !standing.files.is_empty());
    standing
}
