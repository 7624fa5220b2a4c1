//! The same verdicts as [`super::make`]'s, and nothing written but the picture that is asked for.

use std::path::PathBuf;

use super::picture;
use super::read::{Reading, load, scene};
use super::stopped::{Said, Stopped};
use super::watch::{Watch, step};
use crate::design::{Asked, Library, Resolved};
use crate::export;
use crate::scene::Examination;

/// What is asked of [`check`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Request {
    /// The design's file or name.
    pub design: String,
    /// Limits that go over the material's and the design's, each as `walls.lip=0.4`.
    pub limits: Vec<String>,
    /// Whether it is measured how far each size may be off.
    pub room: bool,
    /// Where the walls are drawn.
    pub picture: Option<PathBuf>,
}

/// What was found of a design.
pub struct Checked {
    /// The design.
    pub resolved: Resolved,
    /// What the checks found.
    pub examination: Examination,
    /// What is said of the design.
    pub said: Vec<Said>,
}

/// Checks a design.
///
/// # Errors
/// Everything that is wrong with the design, or with the picture's place.
pub fn check(library: &Library, request: &Request, watch: &dyn Watch) -> Result<Checked, Stopped> {
    step(watch, "reading the design")?;
    let mut said = Vec::new();
    let asked = Asked { limits: &request.limits, rack: None };
    let design = load(library, &request.design, asked, Reading::WithNotes, &mut said);
    let Some(resolved) = design else { return Err(Stopped::wrong(said)) };
    step(watch, "checking walls and threads")?;
    let measured = scene(&resolved).and_then(|scene| {
        let room = if request.room { scene.room().to_vec() } else { Vec::new() };
        let examined = scene.examine().map_err(|error| resolved.placed(error.into()))?;
        Ok(Examination { room, ..examined })
    });
    let examination = match measured {
        Ok(examination) => examination,
        Err(fault) => {
            said.push(Said::one(*fault, &resolved.sources));
            return Err(Stopped::wrong(said));
        }
    };
    if let Some(path) = &request.picture {
        step(watch, "drawing")?;
        let drawn = export::walls_svg(&resolved.section, &examination);
        let svg = drawn.map_err(|error| {
            let fault = resolved.placed(error.into());
            Stopped::wrong(vec![Said::one(fault, &resolved.sources)]).after(&said)
        })?;
        picture::put(path, svg.as_bytes()).map_err(|stopped| stopped.after(&said))?;
    }
    Ok(Checked { resolved, examination, said })
}
