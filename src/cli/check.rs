//! `check`: the same verdicts as `make`, and nothing written but the picture that is asked for;
//! what a check means.

use std::path::PathBuf;

use super::explain;
use super::outcome::Outcome;
use super::screen::{Screen, print};
use super::{table, tight};
use crate::check::{self, CheckInfo};
use crate::design::Library;
use crate::export;
use crate::job;
use crate::scene::Examination;

/// What is asked of [`check`].
pub(super) struct Request {
    /// JSON instead of a table.
    pub json: bool,
    /// The codes that are shown; all, if none is named.
    pub only: Vec<String>,
    /// The check that is to be explained.
    pub explain: Option<String>,
    /// Whether all checks are to be listed.
    pub list: bool,
    /// Whether the room of all sizes is to be shown.
    pub room: bool,
    /// Where the walls are to be drawn.
    pub picture: Option<PathBuf>,
    /// Limits that go over the material's and the design's.
    pub limits: Vec<String>,
}

/// Checks a design, and prints the verdicts as a table or as JSON; or says what is checked.
pub(super) fn check(
    library: &Library,
    design: Option<&str>,
    request: &Request,
    screen: Screen,
) -> Outcome {
    let (Some(only), Some(explained)) = (codes(&request.only, screen), explained(request, screen))
    else {
        return Outcome::Wrong;
    };
    if request.list {
        print(&explain::list(screen.style()));
    }
    let Some(design) = design else {
        let texts = explained.iter().map(|check| explain::meaning(check, screen.style()));
        print(&texts.collect::<Vec<_>>().join("\n"));
        return Outcome::Fine;
    };
    let whole = explained.is_empty() && (only.is_empty() || request.room);
    let job = job::check::Request {
        design: design.to_owned(),
        limits: request.limits.clone(),
        room: whole,
        picture: request.picture.clone(),
    };
    let checked = match job::check::check(library, &job, &()) {
        Ok(checked) => checked,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&checked.said);
    let (resolved, examination) = (checked.resolved, checked.examination);
    if !explained.is_empty() {
        for check in &explained {
            print(&explain::meaning(check, screen.style()));
            print(&explain::found(&examination, check, screen.style()));
        }
        return table::outcome(&of(examination, &explained));
    }
    let shown = if only.is_empty() { examination } else { of(examination, &only) };
    if request.json {
        print(&export::checks_json(&shown));
    } else if only.is_empty() {
        screen.say(&table::table(&resolved, &shown, screen.style()));
    } else {
        screen.say(&table::findings(&shown, screen.style()));
    }
    if request.room && !request.json {
        screen.say(&tight::all(&shown.room, screen.style()));
    }
    table::outcome(&shown)
}

/// The checks of some codes; `wall.*` stands for all that begin so. None, and a complaint, for a
/// code that there is not.
fn codes(asked: &[String], screen: Screen) -> Option<Vec<&'static CheckInfo>> {
    let all = check::list();
    let mut found = Vec::new();
    let mut known = true;
    for code in asked {
        let matches = |check: &&&CheckInfo| match code.strip_suffix('*') {
            Some(start) => check.code.starts_with(start),
            None => check.code == *code,
        };
        let before = found.len();
        found.extend(all.iter().filter(matches).copied());
        if found.len() == before {
            known = false;
            screen.complain("check.unknown", explain::unknown(code));
        }
    }
    known.then_some(found)
}

fn explained(request: &Request, screen: Screen) -> Option<Vec<&'static CheckInfo>> {
    codes(request.explain.as_slice(), screen)
}

/// The findings of some checks.
fn of(mut examination: Examination, checks: &[&CheckInfo]) -> Examination {
    examination.findings.retain(|finding| checks.iter().any(|check| check.code == finding.code));
    examination
}
