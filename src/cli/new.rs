//! `new`: a design and a unit to fill in.

use std::path::Path;

use super::outcome::Outcome;
use super::screen::Screen;
use crate::job;

/// Writes NAME.toml and NAME-unit.toml into the current folder; never over a file.
pub(super) fn new(name: &str, screen: Screen) -> Outcome {
    if let Err(stopped) = job::new::new(Path::new("."), name) {
        return screen.stopped(&stopped);
    }
    screen.say(&format!(
        "Written: {name}.toml and {name}-unit.toml.\nMeasure your own nib unit and put the readings \
         into {name}-unit.toml, then\n  sectionwright make {name}.toml\n"
    ));
    Outcome::Fine
}
