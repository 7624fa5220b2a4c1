//! From the section to the bytes of the files, all in memory.

use super::Wanted;
use crate::archive::Standing;
use crate::check::chord;
use crate::cli::progress::Progress;
use crate::design::Resolved;
use crate::drawing::part::{page, subject, tap_order};
use crate::export::{
    self, Drawn, File, Kind, MadePart, Meshed, Order, Sources, TAP_ORDER, lathe_sheet,
};
use crate::scene::{Examination, Scene, allot};
use crate::section::{NamedPart, Part, Section};
use crate::shop::{Plan, plan};
use crate::solid::{Body, build};

/// What was made of a design.
pub(in crate::cli) struct Made {
    /// What was asked for, what still stands, and the report.
    pub files: Vec<File>,
    /// What the checks found.
    pub examination: Examination,
    /// The triangles' parts, where there are any.
    pub meshes: Vec<(String, Meshed)>,
    /// The work, where a sheet is made.
    pub plan: Option<Plan>,
}

/// Why nothing is made: a code and a message.
pub(in crate::cli) type Fault = (&'static str, String);

/// Builds, checks and cuts what is asked for; no triangles where no STL is.
pub(in crate::cli) fn produce(
    resolved: &Resolved,
    wanted: Wanted,
    chord: f64,
    standing: &Standing,
    progress: &Progress,
) -> Result<Made, Fault> {
    let Resolved { section, workshop, .. } = resolved;
    let order = &wanted.order();
    progress.step("building the solid");
    let part = section.part();
    let body = build(&part).map_err(|e| (e.code(), e.to_string()))?;
    let plain = build(&section.plain_part()).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("checking walls and threads");
    let scene = Scene::of_design(resolved).map_err(|e| (e.code(), e.to_string()))?;
    let examination = scene.examine().map_err(|e| (e.code(), e.to_string()))?;
    // Only the sheet tells it, and who asks for everything.
    let examination = if order.section_as(Kind::Sheet) {
        progress.step("finding how far each size may be off");
        Examination { room: scene.room().to_vec(), ..examination }
    } else {
        examination
    };
    progress.step("cutting the surface into triangles");
    let mesh = order.section_as(Kind::Stl).then(|| cut(&part, &body, chord)).transpose()?;
    let drawings = drawings(section, &wanted, progress)?;
    let units = wanted.format.units;
    let mut made = Vec::new();
    for named in wanted.parts.into_iter().filter(|part| part.name != NamedPart::SECTION) {
        made.push(one_part(named, order, chord)?);
    }
    let plan = order.section_as(Kind::Sheet).then(|| {
        progress.step("planning the work at the lathe");
        plan(&scene, workshop).map_err(|e| (e.code(), e.to_string()))
    });
    let plan = plan.transpose()?;
    let sheet = plan.as_ref().map(|plan| lathe_sheet::files(section, plan, units));
    let sheet = sheet.transpose().map_err(|e| (e.code(), e.to_string()))?.unwrap_or_default();
    progress.step("writing the formats");
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
        .map_err(|e| (e.code(), e.to_string()))?;
    let of_section = mesh.map(|mesh| (NamedPart::SECTION.to_owned(), mesh));
    let of_parts = made.into_iter().filter_map(|part| Some((part.name, part.mesh?)));
    let meshes = of_section.into_iter().chain(of_parts).collect();
    Ok(Made { files, examination, meshes, plan })
}

/// The drawings that are asked for.
fn drawings(section: &Section, wanted: &Wanted, progress: &Progress) -> Result<Vec<Drawn>, Fault> {
    if !wanted.kinds.have_drawing() {
        return Ok(Vec::new());
    }
    progress.step("allotting limits to the drawing's sizes");
    let allotment = allot(section).map_err(|e| (e.code(), e.to_string()))?;
    progress.step("drawing");
    let units = wanted.format.units;
    let mut drawn = Vec::new();
    for named in &wanted.parts {
        let subject = subject(section, named, &allotment, units);
        let sheet = page(&subject, &wanted.format).map_err(|e| (e.code(), e.to_string()))?;
        drawn.push(Drawn { part: named.name.clone(), sheet });
    }
    if wanted.tap_order {
        let sheet = tap_order(section, &wanted.format).map_err(|e| (e.code(), e.to_string()))?;
        drawn.push(Drawn { part: TAP_ORDER.to_owned(), sheet });
    }
    Ok(drawn)
}

fn one_part(named: NamedPart, order: &Order, chord: f64) -> Result<MadePart, Fault> {
    let NamedPart { name, what, part, .. } = named;
    let body = build(&part).map_err(|e| (e.code(), format!("{what}: {e}")))?;
    let mesh = order.kinds.has(Kind::Stl).then(|| cut(&part, &body, chord)).transpose()?;
    Ok(MadePart { name, what, body, mesh })
}

fn cut(part: &Part, body: &Body, asked: f64) -> Result<Meshed, Fault> {
    let chord = chord(part, body, asked);
    Meshed::new(body, chord).map_err(|e| (e.code(), e.to_string()))
}
