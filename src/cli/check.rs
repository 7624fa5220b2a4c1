//! `check`: the same verdicts as `make`, and nothing written.

use super::make::load;
use super::outcome::Outcome;
use super::screen::{Screen, print};
use super::table;
use crate::check::examine;
use crate::design::Library;
use crate::export;

/// Checks a design, and prints the verdicts as a table or as JSON.
pub(super) fn check(library: &Library, design: &str, json: bool, screen: Screen) -> Outcome {
    let Some(resolved) = load(library, design, screen) else { return Outcome::Wrong };
    let examination = match examine(&resolved.section) {
        Ok(examination) => examination,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    if json {
        print(&export::checks_json(&examination));
    } else {
        screen.say(&table::table(&resolved, &examination, screen.style()));
    }
    table::outcome(&examination)
}
