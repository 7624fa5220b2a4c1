//! `new`: a design and a unit to fill in.

use std::fs;
use std::path::Path;

use super::outcome::Outcome;
use super::screen::Screen;
use crate::archive::{PlaceError, Placed, place};
use crate::design::{file_name_fault, template};
use crate::diagnostic::{Diagnostic, Sources};
use crate::export::File;

/// Writes NAME-unit.toml and NAME.toml into the current folder, both or none; never over a file.
///
/// The design comes last: where it is, the unit is there too. A unit of the same text, which a run
/// that was killed between the two has left, stays.
pub(super) fn new(name: &str, screen: Screen) -> Outcome {
    let say = |code, message: String, hint: &str| {
        let told = Diagnostic::error(code, message).hint(hint);
        screen.diagnostics(&[told], &Sources::default());
    };
    if let Some(fault) = file_name_fault(name) {
        let message = format!("a pen can't be called {name:?}: {fault}");
        say("new.name", message, "sectionwright new \"Pen 7\"");
        return Outcome::Wrong;
    }
    let (design, unit) = template(name);
    let unit = File::new(format!("{name}-unit.toml"), unit);
    let design = File::new(format!("{name}.toml"), design);
    let here = Path::new(".");
    let taken = |file: &str| {
        say(
            "new.exists",
            format!("{file} is there already; it was left as it is"),
            "take another name, or another folder",
        );
        Outcome::Wrong
    };
    if fs::symlink_metadata(here.join(&design.name)).is_ok() {
        return taken(&design.name);
    }
    let refused = |error: &PlaceError, file: &File| match error {
        PlaceError::Taken(_) => taken(&file.name),
        PlaceError::NotWritten(cause) => {
            say("new.not-written", cause.to_string(), "change to a folder that you can write to");
            Outcome::Failed
        }
    };
    let placed = match place(here, &unit) {
        Ok(placed) => placed,
        Err(error) => return refused(&error, &unit),
    };
    if let Err(error) = place(here, &design) {
        if let Placed::New(path) = placed {
            // Both or none.
            let _ = fs::remove_file(path);
        }
        return refused(&error, &design);
    }
    screen.say(&format!(
        "Written: {name}.toml and {name}-unit.toml.\nMeasure your own nib unit and put the readings \
         into {name}-unit.toml, then\n  sectionwright make {name}.toml\n"
    ));
    Outcome::Fine
}
