//! How many sections a rod gives, and where it is parted.

use std::path::PathBuf;

use super::read::{Reading, load};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::archive;
use crate::design::{Asked, Fault, Library, Resolved};
use crate::diagnostic::{Diagnostic, Sources};
use crate::drawing::part::Units;
use crate::drawing::rod_plan::{self, ROD_NAMES};
use crate::export::{ExportError, File, pdf, svg};
use crate::quantity::{Length, parse_length};
use crate::section::Section;
use crate::shop::rod::{RodError, RodPlan, RodRequest, Shown, Wanted, plan};
use crate::size::SizeId;

/// The plan's folder in the one that is written to.
const FOLDER: &str = "rod";

/// What is asked of a rod; lengths in mm, or as `9 in`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// Designs' files or names: all of them are a set, as a matched pair.
    pub designs: Vec<String>,
    /// The rod's length.
    pub length: String,
    /// Its diameter; without it the plan says how thick it must be.
    pub diameter: Option<String>,
    /// What a cut takes.
    pub kerf: String,
    /// What comes off each end of a piece until it is square.
    pub squaring: String,
    /// What the chuck keeps hold of; 0 where pieces are sawn by hand.
    pub holding: String,
    /// How many spares are wanted.
    pub spares: u32,
    /// How many sets and no more; without it as many as the rod gives.
    pub sets: Option<u32>,
    /// mm, or inch for inches beside millimetres.
    pub units: String,
    /// Where the plan's folder goes.
    pub out: PathBuf,
}

/// A plan that was drawn.
pub struct Planned {
    /// The plan.
    pub plan: RodPlan,
    /// In which units it is shown.
    pub shown: Shown,
    /// The files.
    pub files: Vec<PathBuf>,
}

/// Plans a rod and draws it.
///
/// # Errors
/// Everything that is wrong with the request or the designs, or what the rod lacks; then, and when it
/// is cancelled, nothing is written.
pub fn rod(library: &Library, request: &Request, watch: &dyn Watch) -> Result<Planned, Stopped> {
    step(watch, "reading the designs")?;
    let mut said = Vec::new();
    let designs: Vec<Option<Resolved>> = request
        .designs
        .iter()
        .map(|name| load(library, name, Asked::default(), Reading::ErrorsAlone, &mut said))
        .collect();
    let designs: Option<Vec<Resolved>> = designs.into_iter().collect();
    let mut wrong = Vec::new();
    let shown = shown(&request.units, &mut wrong);
    let lengths = lengths(request, &mut wrong);
    said.push(Said::of_request(wrong));
    let (Some(designs), Some(shown), Some(lengths)) = (designs, shown, lengths) else {
        return Err(Stopped::wrong(said));
    };
    let [length, kerf, squaring, holding] = lengths.0;
    let sections: Vec<Section> = designs.iter().map(|one| one.section.clone()).collect();
    let asked = RodRequest {
        diameter: lengths.1,
        squaring,
        holding,
        sets: request.sets,
        spares: request.spares,
        ..RodRequest::new(Wanted::set(&sections), length, kerf)
    };
    step(watch, "laying the pieces into the rod")?;
    let plan = plan(&asked).map_err(|errors| {
        Stopped::wrong(errors.iter().map(|error| told(error, &designs)).collect())
    })?;
    let files = files(&plan, shown)?;
    step(watch, "writing the files")?;
    let folder = request.out.join(FOLDER);
    archive::replace(&folder, &files, &ROD_NAMES).map_err(|error| {
        let told = Diagnostic::error(error.code(), error.to_string());
        Stopped::by(Why::Failed, Vec::new(), told)
    })?;
    let files = ROD_NAMES.iter().map(|name| folder.join(name)).collect();
    Ok(Planned { plan, shown, files })
}

/// A fault of the rod, with the place of the size that asks for more than it has.
fn told(error: &RodError, designs: &[Resolved]) -> Said {
    let told = Diagnostic::error(error.code(), error.to_string()).hint(error.hint());
    let size = match error {
        RodError::TooThin { .. } => SizeId::BlankDiameter,
        _ => SizeId::BlankLength,
    };
    let of = error.design();
    match of.and_then(|name| designs.iter().find(|design| design.section.name == name)) {
        Some(design) => {
            Said::one(told.at(design.values.place(&design.section, size)), &design.sources)
        }
        None => Said::one(told, &Sources::default()),
    }
}

fn shown(units: &str, wrong: &mut Vec<Diagnostic>) -> Option<Shown> {
    let known = Units::ALL.into_iter().find(|known| known.name() == units);
    if known.is_none() {
        let message = format!("`{units}` is no unit of a plan; there are mm, inch");
        wrong.push(Diagnostic::error("rod.units", message).hint("--units inch"));
    }
    known.map(|known| Shown { inches: known == Units::Inches })
}

/// Length, kerf, squaring and holding, and the diameter if it is given; notes all that are none.
fn lengths(
    request: &Request,
    wrong: &mut Vec<Diagnostic>,
) -> Option<([Length; 4], Option<Length>)> {
    let mut read = |code: &'static str, text: &str| {
        let name = code.trim_start_matches("rod.");
        let told = |error: crate::quantity::LengthError| {
            Diagnostic::error(code, format!("--{name}: {error}")).hint(error.hint())
        };
        parse_length(text).map_err(|error| wrong.push(told(error))).ok()
    };
    let lengths = [
        read("rod.length", &request.length),
        read("rod.kerf", &request.kerf),
        read("rod.squaring", &request.squaring),
        read("rod.holding", &request.holding),
    ];
    let diameter = request.diameter.as_ref().map(|text| read("rod.diameter", text));
    let [Some(length), Some(kerf), Some(squaring), Some(holding)] = lengths else { return None };
    let diameter = match diameter {
        Some(None) => return None,
        Some(Some(diameter)) => Some(diameter),
        None => None,
    };
    Some(([length, kerf, squaring, holding], diameter))
}

/// The plan's files, in memory.
fn files(plan: &RodPlan, shown: Shown) -> Result<Vec<File>, Stopped> {
    let refused = |told: Diagnostic| Stopped::by(Why::Wrong, Vec::new(), told);
    let sheet = rod_plan::sheet(plan, shown).map_err(|error| {
        let fewer = format!("--sets {}", (error.pieces / 2).max(1));
        refused(Diagnostic::error(error.code(), error.to_string()).hint(fewer))
    })?;
    let unwritten = |error: ExportError| {
        let Fault { code, message, hint, .. } = error.into();
        refused(Diagnostic::error(code, message).hint(hint))
    };
    let bytes = [svg::write(&sheet).into_bytes(), pdf::write(&sheet).map_err(unwritten)?];
    Ok(ROD_NAMES.iter().zip(bytes).map(|(name, bytes)| File::new(*name, bytes)).collect())
}
