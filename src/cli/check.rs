//! `check`: the same verdicts as `make`, and nothing written but the picture that is asked for.

use std::path::Path;

use super::make::load;
use super::outcome::Outcome;
use super::screen::{Screen, print};
use super::table;
use crate::archive;
use crate::check::{Examination, examine};
use crate::design::Library;
use crate::export;
use crate::section::Section;

/// Checks a design, and prints the verdicts as a table or as JSON.
/// With a picture, the walls are drawn into that file.
pub(super) fn check(
    library: &Library,
    design: &str,
    json: bool,
    picture: Option<&Path>,
    screen: Screen,
) -> Outcome {
    let Some(resolved) = load(library, design, screen) else { return Outcome::Wrong };
    let examination = match examine(&resolved.section) {
        Ok(examination) => examination,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    if let Some(path) = picture
        && let Some(outcome) = draw(path, &resolved.section, &examination, screen)
    {
        return outcome;
    }
    if json {
        print(&export::checks_json(&examination));
    } else {
        screen.say(&table::table(&resolved, &examination, screen.style()));
    }
    table::outcome(&examination)
}

/// Draws the walls into a file; says what went wrong, if anything did.
fn draw(
    path: &Path,
    section: &Section,
    examination: &Examination,
    screen: Screen,
) -> Option<Outcome> {
    let svg = match export::walls_svg(section, examination) {
        Ok(svg) => svg,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Some(Outcome::Wrong);
        }
    };
    let other = std::fs::read(path).is_ok_and(|bytes| !bytes.starts_with(b"<svg"));
    if other {
        let path = path.display();
        screen.complain("picture.exists", format!("{path} is there already and is no picture"));
        return Some(Outcome::Wrong);
    }
    if let Err(error) = archive::replace_file(path, svg.as_bytes()) {
        screen.complain(error.code(), error.to_string());
        return Some(Outcome::Failed);
    }
    None
}
