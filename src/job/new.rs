//! A design and a unit to fill in.

use std::fs;
use std::path::Path;

use super::stopped::{Stopped, Why};
use crate::archive::{PlaceError, Placed, place};
use crate::design::{file_name_fault, template};
use crate::diagnostic::Diagnostic;
use crate::export::File;

/// Writes NAME-unit.toml and NAME.toml into a folder, both or none; never over a file.
///
/// The design comes last: where it is, the unit is there too. A unit of the same text, which a run
/// that was killed between the two has left, stays.
///
/// # Errors
/// The name can't be a file's, a file is there already, or the folder can't be written to.
pub fn new(folder: &Path, name: &str) -> Result<(), Stopped> {
    let stopped = |why, code, message: String, hint: &str| {
        Stopped::by(why, Vec::new(), Diagnostic::error(code, message).hint(hint))
    };
    if let Some(fault) = file_name_fault(name) {
        let message = format!("a pen can't be called {name:?}: {fault}");
        return Err(stopped(Why::Wrong, "new.name", message, "sectionwright new \"Pen 7\""));
    }
    let (design, unit) = template(name);
    let unit = File::new(format!("{name}-unit.toml"), unit);
    let design = File::new(format!("{name}.toml"), design);
    let taken = |file: &File| {
        let message = format!("{} is there already; it was left as it is", file.name);
        stopped(Why::Wrong, "new.exists", message, "take another name, or another folder")
    };
    let refused = |error: &PlaceError, file: &File| match error {
        PlaceError::Taken(_) => taken(file),
        PlaceError::NotWritten(cause) => {
            let hint = "change to a folder that you can write to";
            stopped(Why::Failed, "new.not-written", cause.to_string(), hint)
        }
    };
    if fs::symlink_metadata(folder.join(&design.name)).is_ok() {
        return Err(taken(&design));
    }
    let placed = place(folder, &unit).map_err(|error| refused(&error, &unit))?;
    if let Err(error) = place(folder, &design) {
        if let Placed::New(path) = placed {
            // Both or none.
            let _ = fs::remove_file(path);
        }
        return Err(refused(&error, &design));
    }
    Ok(())
}
