//! What of a folder's earlier set is still true.

use std::fs;
use std::path::Path;

use crate::export::{Earlier, File, MadeFrom, NAMES, REPORT, part_file_names};

/// A folder's earlier set, held against the section as it is now.
#[derive(Clone, Debug, Default)]
pub struct Standing {
    /// The earlier report, if any of its files still stand.
    pub report: Option<Earlier>,
    /// Files that the report vouches for: made of the same section by the same version, a sheet
    /// with the same tools.
    pub files: Vec<File>,
    /// Names of ours that nothing vouches for.
    pub gone: Vec<String>,
    /// Every name that is ours in this folder, for [`super::replace`].
    pub ours: Vec<String>,
}

/// Reads a folder's files of ours, except those that are made anew.
///
/// The section's names are always ours. A part's (`unit.step`) may be somebody else's file: where
/// there is one that the earlier report does not list, it is not ours.
pub fn standing(folder: &Path, from: MadeFrom, anew: &[String]) -> Standing {
    let text = fs::read_to_string(folder.join(REPORT)).unwrap_or_default();
    let report = Earlier::read(&text);
    let listed = |name: &str| report.as_ref().is_some_and(|report| report.lists(name));
    let of_parts = part_file_names().into_iter();
    let of_parts = of_parts.filter(|name| listed(name) || !folder.join(name).exists());
    let ours = NAMES.iter().map(|name| (*name).to_owned()).chain(of_parts);
    let mut standing = Standing { ours: ours.collect(), ..Standing::default() };
    for name in standing.ours.iter().filter(|name| !anew.contains(name)) {
        let Ok(bytes) = fs::read(folder.join(name)) else { continue };
        let vouched = report.as_ref().is_some_and(|r| r.vouches_for(from, name, &bytes));
        if vouched {
            standing.files.push(File::new(name, bytes));
        } else {
            standing.gone.push(name.clone());
        }
    }
    standing.report = report.filter(|_| !standing.files.is_empty());
    standing
}
