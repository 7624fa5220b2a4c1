//! `asmade`: a section as it was really cut.

mod cut;
mod json;
mod said;
mod steps;

use super::make::load;
use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::design::{Asked, Library, MadeSize, Resolved};
use crate::diagnostic::{Diagnostic, Sources};
use crate::scene::{Room, Scene};
use crate::shop::as_made::{AsMade, Said, as_made, read, typed};
use crate::shop::{Plan, PlanError, plan};
use crate::size::SizeId;
use crate::solid::BuildError;

/// What is asked of [`asmade`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, or the name of a built-in one
    design: String,
    /// A size that was cut otherwise: `bores.clearance.depth=4.3`; as often as there are sizes. It
    /// goes over the design's `[made]`. Diameters are what a caliper reads, depths are from the
    /// finished front face, as in the design; an unknown key lists them all. Or what stands in a box
    /// of the sheet: `bores.clearance.pin=4.41`, `unit.stands=5.6`, `grip.faced=22.1`
    #[arg(long, value_name = "KEY=VALUE")]
    set: Vec<String>,
    /// The last step that is done, where more is done than what was cut otherwise: `tapped`,
    /// `outside-turned`, or the name of a hole (an unknown word lists them all)
    #[arg(long, value_name = "STEP")]
    after: Option<String>,
    /// The rack of tools that are at hand, in place of the design's
    #[arg(long, value_name = "RACK")]
    rack: Option<String>,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// Measures a section as it was cut, and prints what that breaks, what saves it and what is left.
///
/// What is drawn is the section as the sheet has it: with the tools at hand.
pub(super) fn asmade(library: &Library, asked: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let with = Asked { limits: &[], rack: asked.rack.as_deref() };
    let resolved = load(library, &asked.design, with, screen);
    let mut sources =
        resolved.as_ref().map_or(Sources::default(), |resolved| resolved.sources.clone());
    let (sizes, mut wrong) = typed(&asked.set, &mut sources);
    progress.step("planning the work at the lathe");
    let planned = resolved.map(|resolved| {
        let planned = planned(&resolved);
        planned.map(|plan| (resolved, plan))
    });
    let planned = match planned.transpose() {
        Ok(planned) => planned,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    let said = planned.as_ref().and_then(|(resolved, plan)| {
        let said = meant(resolved, plan, sizes, asked.after.as_deref());
        said.map_err(|more| wrong.extend(more)).ok()
    });
    screen.diagnostics(&wrong, &sources);
    let (Some((resolved, plan)), Some(said), true) = (planned, said, wrong.is_empty()) else {
        return Outcome::Wrong;
    };
    progress.step("measuring, and looking for what can save it");
    let (made, rooms) = match measured(&plan, &said) {
        Ok(measured) => measured,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    let left = steps::left(&plan, &made, &resolved.workshop);
    drop(progress);
    if asked.json {
        print(&json::json(&plan.section, &made, &rooms));
    } else {
        screen.say(&said::said(&plan.section, &made, &rooms, left.as_deref(), screen.style()));
    }
    if made.made.breaks() { Outcome::Breaks } else { Outcome::Fine }
}

/// What was cut, by the design and by what is typed, which goes over it.
fn meant(
    resolved: &Resolved,
    plan: &Plan,
    typed: Vec<MadeSize>,
    after: Option<&str>,
) -> Result<Said, Vec<Diagnostic>> {
    // What stands in a box is the size that it means, an older name the one that it has now: then
    // one goes over the other.
    let named = |key: &str| SizeId::read(key, &plan.section).map(SizeId::name);
    let meant = |size: MadeSize| match plan.of_box(&size.key, size.value) {
        Some((key, value)) => MadeSize { key, value, ..size },
        None => MadeSize { key: named(&size.key).unwrap_or(size.key), ..size },
    };
    let typed: Vec<MadeSize> = typed.into_iter().map(meant).collect();
    let mut made = resolved.made.clone();
    made.sizes = made.sizes.into_iter().map(meant).collect();
    made.sizes.retain(|size| typed.iter().all(|over| over.key != size.key));
    made.sizes.extend(typed);
    made.after = after.map(|word| (word.to_owned(), None)).or(made.after);
    read(&plan.section, &made)
}

/// The section as it was cut, and how far each of these sizes might have been off.
fn measured(plan: &Plan, said: &Said) -> Result<(AsMade, Vec<Room>), BuildError> {
    let scene = Scene::of(&plan.section)?;
    let sizes: Vec<_> = said.sizes.iter().map(|size| size.parameter).collect();
    Ok((as_made(&scene, said), scene.room_of(&sizes)))
}

/// The work as the sheet has it.
fn planned(resolved: &Resolved) -> Result<Plan, PlanError> {
    plan(&Scene::of_design(resolved)?, &resolved.workshop)
}

/// The section as it was cut, as JSON, to be kept; none where nothing was cut otherwise.
///
/// # Errors
/// Everything that is wrong with what is typed, and the texts that it points into.
pub(super) fn to_keep(
    resolved: &Resolved,
    set: &[String],
    after: Option<&str>,
) -> Result<Option<String>, (Vec<Diagnostic>, Sources)> {
    if set.is_empty() && after.is_none() && resolved.made.sizes.is_empty() {
        return Ok(None);
    }
    let mut sources = resolved.sources.clone();
    let (sizes, mut wrong) = typed(set, &mut sources);
    let fault = |code, message: String| vec![Diagnostic::error(code, message)];
    let plan = planned(resolved)
        .map_err(|error| (fault(error.code(), error.to_string()), sources.clone()))?;
    let said = meant(resolved, &plan, sizes, after).map_err(|more| wrong.extend(more));
    let (Ok(said), true) = (said, wrong.is_empty()) else { return Err((wrong, sources)) };
    let (made, rooms) = measured(&plan, &said)
        .map_err(|error| (fault(error.code(), error.to_string()), sources.clone()))?;
    Ok(Some(json::json(&plan.section, &made, &rooms)))
}
