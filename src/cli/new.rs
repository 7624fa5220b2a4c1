//! `new`: a design and a unit to fill in.

use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};

use super::outcome::Outcome;
use super::screen::Screen;
use crate::design::{file_name_fault, template};

/// Writes NAME.toml and NAME-unit.toml into the current folder; never over a file.
pub(super) fn new(name: &str, screen: Screen) -> Outcome {
    if let Some(fault) = file_name_fault(name) {
        screen.complain("new.name", format!("a pen can't be called {name:?}: {fault}"));
        return Outcome::Wrong;
    }
    let (design, unit) = template(name);
    let files = [(format!("{name}.toml"), design), (format!("{name}-unit.toml"), unit)];
    if let Some((taken, _)) = files.iter().find(|(file, _)| std::path::Path::new(file).exists()) {
        screen.complain("new.exists", format!("{taken} is there already; it was left as it is"));
        return Outcome::Wrong;
    }
    for (file, text) in &files {
        let open = OpenOptions::new().write(true).create_new(true).open(file);
        if let Err(error) = open.and_then(|mut file| file.write_all(text.as_bytes())) {
            screen.complain("new.not-written", format!("could not write {file}: {error}"));
            let wrong = error.kind() == ErrorKind::AlreadyExists;
            return if wrong { Outcome::Wrong } else { Outcome::Failed };
        }
    }
    screen.say(&format!(
        "Written: {name}.toml and {name}-unit.toml.\nMeasure your own nib unit and put the readings \
         into {name}-unit.toml, then\n  sectionwright make {name}.toml\n"
    ));
    Outcome::Fine
}
