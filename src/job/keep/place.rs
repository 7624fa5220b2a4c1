//! Where archives are kept.

use std::env;
use std::path::{Path, PathBuf};

use crate::diagnostic::Diagnostic;
use crate::export::REPORT;

/// The variable that names the shelf where nobody types one.
const VARIABLE: &str = "SECTIONWRIGHT_SHELF";

/// The shelf's place in a data folder.
const PLACE: &str = "sectionwright/kept";

/// The shelf: as it is typed, else by the environment, else in the data folder of whoever runs this
/// (the XDG Base Directory Specification's: `$XDG_DATA_HOME`, else `.local/share` at home).
///
/// # Errors
/// Nothing says where, and there is no home.
pub fn shelf_folder(typed: Option<&Path>) -> Result<PathBuf, Box<Diagnostic>> {
    let of = |name: &str| env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    if let Some(folder) = typed.map(Path::to_owned).or_else(|| of(VARIABLE)) {
        return Ok(folder);
    }
    // The specification has relative paths ignored.
    let data = of("XDG_DATA_HOME").filter(|folder| folder.is_absolute());
    let data = data.or_else(|| Some(env::home_dir()?.join(".local/share")));
    data.map(|data| data.join(PLACE)).ok_or_else(|| {
        let message = "nothing says where your archives are kept, and you have no home folder";
        Box::new(Diagnostic::error("keep.no-shelf", message).hint("--shelf FOLDER"))
    })
}

/// A shelf, unless it is a folder that `make` writes: an archive there would be among what comes
/// and goes.
pub(super) fn no_output(folder: PathBuf) -> Result<PathBuf, Box<Diagnostic>> {
    if folder.join(REPORT).is_file() {
        let message = format!("{} is a folder that `make` writes, and no shelf", folder.display());
        return Err(Box::new(Diagnostic::error("keep.output", message).hint("--shelf kept")));
    }
    Ok(folder)
}
