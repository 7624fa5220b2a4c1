//! `make`: build, check, write: the section, and whatever else of its parts is asked for.

mod order;
pub(super) mod produce;
mod said;
mod tools;

pub(in crate::cli) use order::chord_fault;

use std::path::Path;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::table;
use crate::archive;
use crate::design::{self, Asked, Library, Resolved};
use crate::diagnostic::{Diagnostic, Severity, Sources};
use crate::drawing::part::Format;
use crate::export::{File, Kinds, MadeFrom, Order, TAP_ORDER, UnknownKinds};
use crate::section::NamedPart;

/// What is asked of [`make`].
pub(super) struct Request<'a> {
    /// The design's file or name.
    pub design: &'a str,
    /// Where its folder goes.
    pub out: &'a Path,
    /// How far triangles may stray.
    pub chord: f64,
    /// A list of kinds, if not all are asked for.
    pub only: Option<&'a str>,
    /// How the drawing is asked for.
    pub drawing: &'a Drawing,
    /// The parts' names.
    pub parts: &'a [String],
    /// Limits that go over the material's and the design's, and a rack in place of the design's.
    pub asked: Asked<'a>,
    /// Whether the tools that were chosen are said.
    pub tools: bool,
}

/// How a drawing is asked for, as typed.
#[derive(Clone, Debug, Default, clap::Args)]
pub(super) struct Drawing {
    /// The drawing's sheet, A4 or A3 (A2, A1); left out, A3 or what the part needs
    #[arg(long, value_name = "SIZE")]
    pub sheet: Option<String>,
    /// The drawing's scale, such as 5:1; left out, the largest that fits
    #[arg(long, value_name = "SCALE")]
    pub scale: Option<String>,
    /// The drawing's unit, mm or inch
    #[arg(long, value_name = "UNIT", default_value = "mm")]
    pub units: String,
}

/// Makes a design's files in a folder of its name in `out`.
///
/// Files of other parts and kinds stay where the folder's report proves that they are of the same
/// section; what it does not vouch for goes, so that a folder never mixes two designs.
pub(super) fn make(library: &Library, request: &Request, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let Some((resolved, wanted)) = prepared(library, request, screen) else {
        return Outcome::Wrong;
    };
    let section = &resolved.section;
    let order = wanted.order();
    let folder = request.out.join(&section.name);
    let from = MadeFrom { section, workshop: &resolved.workshop };
    let standing = archive::standing(&folder, from, &order.names());
    let made = match produce::produce(&resolved, wanted, request.chord, &standing, &progress) {
        Ok(made) => made,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    progress.step("writing the files");
    let set: Vec<File> = made.files.iter().cloned().chain(archive::made_by(&made.files)).collect();
    if let Err(error) = archive::replace(&folder, &set, &standing.ours) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    drop(progress);
    screen.say(&table::table(&resolved, &made.examination, screen.style()));
    if let Some(plan) = made.plan.as_ref().filter(|_| request.tools) {
        screen.say(&tools::tools(plan, screen.style()));
    }
    screen.say(&said::said(&folder, &order, &made, &standing));
    table::outcome(&made.examination)
}

/// Reads the design and holds the request against it; says all that is wrong with either.
pub(super) fn prepared(
    library: &Library,
    request: &Request,
    screen: Screen,
) -> Option<(Resolved, Wanted)> {
    let resolved = load(library, request.design, request.asked, screen);
    understood(request, resolved, screen)
}

/// What is asked for, held against what there is.
pub(super) struct Wanted {
    /// The kinds of files.
    pub kinds: Kinds,
    /// The parts, the section among them if it is asked for.
    pub parts: Vec<NamedPart>,
    /// Whether the sheet to order a tap by is asked for.
    pub tap_order: bool,
    /// How drawings are asked for.
    pub format: Format,
}

impl Wanted {
    /// The same, by names.
    fn order(&self) -> Order {
        let names = self.parts.iter().map(|part| part.name.clone());
        let sheet = self.tap_order.then(|| TAP_ORDER.to_owned());
        Order { kinds: self.kinds.clone(), parts: names.chain(sheet).collect() }
    }
}

/// Holds the request against the design; says all that is wrong with it.
fn understood(
    request: &Request,
    resolved: Option<Resolved>,
    screen: Screen,
) -> Option<(Resolved, Wanted)> {
    let mut wrong: Vec<Diagnostic> = order::chord_fault(request.chord).into_iter().collect();
    let unknown = |error: UnknownKinds| Diagnostic::error(error.code(), error.to_string());
    let kinds = order::kinds(request.only).map_err(|error| wrong.push(unknown(error))).ok();
    let parts = resolved.as_ref().and_then(|resolved| {
        let parts = order::parts(&resolved.section, request.parts, kinds.as_ref());
        parts.map_err(|faults| wrong.extend(faults)).ok()
    });
    let format = order::format(request.drawing).map_err(|faults| wrong.extend(faults)).ok();
    screen.diagnostics(&wrong, &Sources::default());
    if !wrong.is_empty() {
        return None;
    }
    let (resolved, (parts, tap_order)) = (resolved?, parts?);
    let format = Format { credits: resolved.credits.clone(), ..format? };
    Some((resolved, Wanted { kinds: kinds?, parts, tap_order, format }))
}

/// Reads a design; says what is wrong with it, and what is worth knowing.
pub(super) fn load(
    library: &Library,
    design: &str,
    asked: Asked<'_>,
    screen: Screen,
) -> Option<Resolved> {
    match design::load_asked(library, design, asked) {
        Ok(resolved) => {
            if !screen.quiet() {
                screen.diagnostics(&resolved.notes, &resolved.sources);
            }
            Some(resolved)
        }
        Err(failure) => {
            let only = |d: &&Diagnostic| !screen.quiet() || d.severity == Severity::Error;
            let shown: Vec<_> = failure.diagnostics.iter().filter(only).cloned().collect();
            screen.diagnostics(&shown, &failure.sources);
            None
        }
    }
}
