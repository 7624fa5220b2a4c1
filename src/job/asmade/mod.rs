//! A section as it was really cut: what that breaks, what saves it and what is left.

mod cut;
mod json;
mod left;
mod remedy;

pub use remedy::in_words;

use super::read::{Reading, load, scene};
use super::stopped::{Said, Stopped};
use super::watch::{Watch, step};
use crate::design::{Asked, Library, MadeSize, Resolved};
use crate::diagnostic::{Diagnostic, Sources};
use crate::export::lathe_sheet::Row;
use crate::scene::{Room, Scene};
use crate::shop::as_made::{AsMade, Said as SaidOfCut, as_made, read, typed};
use crate::shop::{Plan, plan};
use crate::size::SizeId;
use crate::solid::BuildError;

/// What is asked of [`asmade`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Request {
    /// The design's file or name.
    pub design: String,
    /// Sizes that were cut otherwise, each as `bores.clearance.depth=4.3`; they go over the design's
    /// own.
    pub set: Vec<String>,
    /// The last step that is done, where more is done than what was cut otherwise.
    pub after: Option<String>,
    /// A rack in place of the design's.
    pub rack: Option<String>,
}

/// A section as it was cut.
pub struct AsCut {
    /// The design.
    pub resolved: Resolved,
    /// The work as the sheet has it; its section is what was to be cut, with the tools at hand.
    pub plan: Plan,
    /// What was cut, what it breaks and what saves it.
    pub made: AsMade,
    /// How far each size that was cut otherwise might have been off.
    pub rooms: Vec<Room>,
    /// The steps that are left; none where nothing can be done with it.
    pub left: Option<Vec<Row>>,
    /// What is said of the design.
    pub said: Vec<Said>,
}

impl AsCut {
    /// For other programs.
    pub fn json(&self) -> String {
        json::json(&self.plan.section, &self.made, &self.rooms)
    }
}

/// Measures a section as it was cut.
///
/// # Errors
/// Everything that is wrong with the design or with what is said of the cuts.
pub fn asmade(library: &Library, request: &Request, watch: &dyn Watch) -> Result<AsCut, Stopped> {
    step(watch, "reading the design")?;
    let mut said = Vec::new();
    let with = Asked { limits: &[], rack: request.rack.as_deref() };
    let resolved = load(library, &request.design, with, Reading::WithNotes, &mut said);
    let mut sources =
        resolved.as_ref().map_or(Sources::default(), |resolved| resolved.sources.clone());
    let (sizes, mut wrong) = typed(&request.set, &mut sources);
    step(watch, "planning the work at the lathe")?;
    let planned = resolved.map(|resolved| match planned(&resolved) {
        Ok(plan) => Ok((resolved, plan)),
        Err(fault) => Err(Said::one(*fault, &sources)),
    });
    let planned = match planned.transpose() {
        Ok(planned) => planned,
        Err(fault) => {
            said.push(fault);
            return Err(Stopped::wrong(said));
        }
    };
    let meant = planned.as_ref().and_then(|(resolved, plan)| {
        let meant = meant(resolved, plan, sizes, request.after.as_deref());
        meant.map_err(|more| wrong.extend(more)).ok()
    });
    let sound = wrong.is_empty();
    said.push(Said { diagnostics: wrong, sources });
    let (Some((resolved, plan)), Some(meant), true) = (planned, meant, sound) else {
        return Err(Stopped::wrong(said));
    };
    step(watch, "measuring, and looking for what can save it")?;
    match measured(&plan, &meant) {
        Ok((made, rooms)) => {
            let left = left::left(&plan, &made, &resolved.workshop);
            Ok(AsCut { resolved, plan, made, rooms, left, said })
        }
        Err(error) => {
            said.push(Said::one(resolved.placed(error.into()), &resolved.sources));
            Err(Stopped::wrong(said))
        }
    }
}

/// What was cut, by the design and by what is typed, which goes over it.
fn meant(
    resolved: &Resolved,
    plan: &Plan,
    typed: Vec<MadeSize>,
    after: Option<&str>,
) -> Result<SaidOfCut, Vec<Diagnostic>> {
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
fn measured(plan: &Plan, said: &SaidOfCut) -> Result<(AsMade, Vec<Room>), BuildError> {
    let scene = Scene::of(&plan.section)?;
    let sizes: Vec<_> = said.sizes.iter().map(|size| size.parameter).collect();
    Ok((as_made(&scene, said), scene.room_of(&sizes)))
}

/// The work as the sheet has it.
fn planned(resolved: &Resolved) -> Result<Plan, Box<Diagnostic>> {
    let planned = plan(&scene(resolved)?, &resolved.workshop);
    planned.map_err(|error| Box::new(resolved.placed(error.into())))
}

/// The section as it was cut, as JSON, to be kept; none where nothing was cut otherwise.
///
/// # Errors
/// Everything that is wrong with what is typed.
pub(super) fn to_keep(
    resolved: &Resolved,
    set: &[String],
    after: Option<&str>,
) -> Result<Option<String>, Said> {
    if set.is_empty() && after.is_none() && resolved.made.sizes.is_empty() {
        return Ok(None);
    }
    let mut sources = resolved.sources.clone();
    let (sizes, mut wrong) = typed(set, &mut sources);
    let plan = planned(resolved).map_err(|fault| Said::one(*fault, &sources))?;
    let said = meant(resolved, &plan, sizes, after).map_err(|more| wrong.extend(more));
    let (Ok(said), true) = (said, wrong.is_empty()) else {
        return Err(Said { diagnostics: wrong, sources });
    };
    let (made, rooms) = measured(&plan, &said)
        .map_err(|error| Said::one(resolved.placed(error.into()), &sources))?;
    Ok(Some(json::json(&plan.section, &made, &rooms)))
}
