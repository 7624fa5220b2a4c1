//! From the section to the bytes of the files, all in memory.

use super::Wanted;
use crate::archive::Standing;
use crate::check::chord;
use crate::design::{Fault, Resolved};
use crate::diagnostic::Diagnostic;
use crate::drawing::part::{NoRoom, page, subject, tap_order};
use crate::export::{
    self, Drawn, File, Kind, MadePart, Meshed, Order, Sources, TAP_ORDER, lathe_sheet,
};
use crate::job::read::scene;
use crate::job::stopped::{Said, Stopped};
use crate::job::watch::{Watch, step};
use crate::scene::{Examination, Scene, allot};
use crate::section::{NamedPart, Part};
use crate::shop::{Plan, plan};
use crate::solid::{Body, BuildError, build};

/// What was made of a design.
pub struct Products {
    /// What was asked for, what still stands, and the report.
    pub files: Vec<File>,
    /// What the checks found.
    pub examination: Examination,
    /// The triangles' parts, where there are any.
    pub meshes: Vec<(String, Meshed)>,
    /// The work, where a sheet is made.
    pub plan: Option<Plan>,
}

/// Builds, checks and cuts what is asked for; no triangles where no STL is.
///
/// # Errors
/// Why nothing is made, with its place in the design.
pub fn produce(
    resolved: &Resolved,
    wanted: Wanted,
    chord: f64,
    standing: &Standing,
    watch: &dyn Watch,
) -> Result<Products, Stopped> {
    let Resolved { section, workshop, .. } = resolved;
    let order = &wanted.order();
    let told = |fault: Box<Diagnostic>| Stopped::wrong(vec![Said::one(*fault, &resolved.sources)]);
    let placed = |fault: Fault| told(Box::new(resolved.placed(fault)));
    step(watch, "building the solid")?;
    // A value that works for these has to work for what they meet, too.
    let (body, plain) = resolved
        .attempt(|section| -> Result<_, BuildError> {
            Scene::of(section)?;
            Ok((build(&section.part())?, build(&section.plain_part())?))
        })
        .map_err(told)?;
    step(watch, "checking walls and threads")?;
    let scene = scene(resolved).map_err(told)?;
    let examination = scene.examine().map_err(|error| placed(error.into()))?;
    // The sheet tells it, and the report if that is what is asked for.
    let tells_room = order.section_as(Kind::Sheet) || order.kinds.has(Kind::Report);
    let examination = if tells_room {
        step(watch, "finding how far each size may be off")?;
        Examination { room: scene.room().to_vec(), ..examination }
    } else {
        examination
    };
    step(watch, "cutting the surface into triangles")?;
    let part = section.part();
    let mesh = order.section_as(Kind::Stl).then(|| cut(&part, &body, chord));
    let mesh = mesh.transpose().map_err(placed)?;
    let drawings = drawings(resolved, &wanted, watch)?;
    let units = wanted.format.units;
    let mut made = Vec::new();
    for named in wanted.parts.into_iter().filter(|part| part.name != NamedPart::SECTION) {
        made.push(one_part(named, order, chord).map_err(placed)?);
    }
    let plan = order.section_as(Kind::Sheet).then(|| {
        step(watch, "planning the work at the lathe")?;
        plan(&scene, workshop).map_err(|error| placed(error.into()))
    });
    let plan = plan.transpose()?;
    let sheet = plan.as_ref().map(|plan| lathe_sheet::files(section, plan, units));
    let sheet = sheet.transpose().map_err(|error| placed(error.into()))?.unwrap_or_default();
    step(watch, "writing the formats")?;
    let sources = Sources {
        section,
        body: &body,
        plain: &plain,
        mesh: mesh.as_ref(),
        parts: &made,
        drawings: &drawings,
        sheet: &sheet,
        workshop,
        examination: &examination,
    };
    let files = export::files(&sources, order, standing.report.as_ref(), standing.files.clone())
        .map_err(|error| placed(error.into()))?;
    let of_section = mesh.map(|mesh| (NamedPart::SECTION.to_owned(), mesh));
    let of_parts = made.into_iter().filter_map(|part| Some((part.name, part.mesh?)));
    let meshes = of_section.into_iter().chain(of_parts).collect();
    Ok(Products { files, examination, meshes, plan })
}

/// The drawings that are asked for.
fn drawings(
    resolved: &Resolved,
    wanted: &Wanted,
    watch: &dyn Watch,
) -> Result<Vec<Drawn>, Stopped> {
    let section = &resolved.section;
    let told = |fault: Diagnostic| Stopped::wrong(vec![Said::one(fault, &resolved.sources)]);
    let placed = |error: NoRoom| told(resolved.placed(error.into()));
    if !wanted.kinds.have_drawing() {
        return Ok(Vec::new());
    }
    step(watch, "allotting limits to the drawing's sizes")?;
    let allotment = resolved.attempt(allot).map_err(|fault| told(*fault))?;
    step(watch, "drawing")?;
    let units = wanted.format.units;
    let mut drawn = Vec::new();
    for named in &wanted.parts {
        let subject = subject(section, named, &allotment, units);
        let sheet = page(&subject, &wanted.format).map_err(placed)?;
        drawn.push(Drawn { part: named.name.clone(), sheet });
    }
    if wanted.tap_order {
        let sheet = tap_order(section, &wanted.format).map_err(placed)?;
        drawn.push(Drawn { part: TAP_ORDER.to_owned(), sheet });
    }
    Ok(drawn)
}

fn one_part(named: NamedPart, order: &Order, chord: f64) -> Result<MadePart, Fault> {
    let NamedPart { name, what, part, .. } = named;
    let body = build(&part).map_err(|error| Fault::from(error).of(&what))?;
    let mesh = order.kinds.has(Kind::Stl).then(|| cut(&part, &body, chord)).transpose()?;
    Ok(MadePart { name, what, body, mesh })
}

/// The triangles of a part.
fn cut(part: &Part, body: &Body, asked: f64) -> Result<Meshed, Fault> {
    let chord = chord(part, body, asked);
    Ok(Meshed::new(body, chord)?)
}
