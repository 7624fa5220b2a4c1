//! What of a folder's earlier set is still true.
//!
//! The report says of which section its files are, by which version. Two builds of one version may
//! differ, and the report's bytes must not, so that which build wrote it stands in a hidden file
//! beside it.

use std::fs;
use std::path::Path;

use crate::export::{Earlier, File, MadeFrom, NAMES, REPORT, digest, part_file_names};

/// The file that says which build wrote the report.
pub const MADE_BY: &str = ".made-by";

/// What this build is (`src/build.rs`).
const BUILD: &str = env!("SECTIONWRIGHT_BUILD");

/// A folder's earlier set, held against the section as it is now.
#[derive(Clone, Debug, Default)]
pub struct Standing {
    /// The earlier report, if any of its files still stand.
    pub report: Option<Earlier>,
    /// Files that the report vouches for: made of the same section by the same build, a sheet with
    /// the same tools.
    pub files: Vec<File>,
    /// Names of ours that nothing vouches for.
    pub gone: Vec<String>,
    /// Every name that is ours in this folder, for [`super::replace`].
    pub ours: Vec<String>,
}

/// That this build wrote a set's report, as the file that says so; none where there is no report.
pub fn made_by(set: &[File]) -> Option<File> {
    let report = set.iter().find(|file| file.name == REPORT)?;
    Some(File::new(MADE_BY, mark(BUILD, &report.bytes)))
}

/// What a build leaves beside its report.
fn mark(build: &str, report: &[u8]) -> String {
    digest(format!("{build} {}", digest(report)).as_bytes()) + "\n"
}

/// Reads a folder's files of ours, except those that are made anew.
///
/// The section's names are always ours. A part's (`unit.step`) may be somebody else's file: where
/// there is one that the earlier report does not list, it is not ours.
pub fn standing(folder: &Path, from: MadeFrom, anew: &[String]) -> Standing {
    let text = fs::read_to_string(folder.join(REPORT)).unwrap_or_default();
    let mark_there = fs::read_to_string(folder.join(MADE_BY)).unwrap_or_default();
    let by_this_build = mark_there == mark(BUILD, text.as_bytes());
    let report = Earlier::read(&text);
    let listed = |name: &str| report.as_ref().is_some_and(|report| report.lists(name));
    let of_parts = part_file_names().into_iter();
    let of_parts = of_parts.filter(|name| listed(name) || !folder.join(name).exists());
    let ours = NAMES.iter().map(|name| (*name).to_owned()).chain(of_parts);
    let mut standing = Standing { ours: ours.collect(), ..Standing::default() };
    for name in standing.ours.iter().filter(|name| !anew.contains(name)) {
        let Ok(bytes) = fs::read(folder.join(name)) else { continue };
        let vouched = by_this_build
            && report.as_ref().is_some_and(|report| report.vouches_for(from, name, &bytes));
        if vouched {
            standing.files.push(File::new(name, bytes));
        } else {
            standing.gone.push(name.clone());
        }
    }
    standing.report = report.filter(|_| !standing.files.is_empty());
    standing.ours.push(MADE_BY.to_owned());
    standing
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_builds_leave_two_marks() {
        let report = File::new(REPORT, "{}\n");
        let own = made_by(std::slice::from_ref(&report)).unwrap();
        assert_eq!(own.name, MADE_BY);
        assert_eq!(own.bytes, mark(BUILD, &report.bytes).into_bytes());
        assert_ne!(own.bytes, mark("another", &report.bytes).into_bytes());
        assert_ne!(own.bytes, mark(BUILD, b"another").into_bytes());
        assert_eq!(made_by(&[]), None);
    }
}
