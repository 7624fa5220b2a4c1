//! A section built and checked, and its files written, and whatever else of its parts is asked for.

mod order;
mod produce;

pub use order::chord_fault;
pub use produce::{Products, produce};

use std::path::PathBuf;

use super::read::{Reading, load};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::archive::{self, Standing};
use crate::design::{Asked, Library, Resolved};
use crate::diagnostic::Diagnostic;
use crate::drawing::part::Format;
use crate::export::{File, Kinds, MadeFrom, Order, TAP_ORDER, UnknownKinds};
use crate::mesh::DEFAULT_CHORD;
use crate::section::NamedPart;

/// What is asked of [`make`].
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// The design's file or name.
    pub design: String,
    /// Where its folder goes.
    pub out: PathBuf,
    /// How far triangles may stray, in mm.
    pub chord: f64,
    /// A list of kinds, if not all are asked for: `stl,step`.
    pub only: Option<String>,
    /// How the drawing is asked for.
    pub drawing: Drawing,
    /// The parts' names.
    pub parts: Vec<String>,
    /// Limits that go over the material's and the design's, each as `walls.lip=0.4`.
    pub limits: Vec<String>,
    /// A rack in place of the design's.
    pub rack: Option<String>,
}

/// How a drawing is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// Its paper size, A4 or A3 (A2, A1); if none, A3 or what the part needs.
    pub sheet: Option<String>,
    /// Its scale, such as 5:1; if none, the largest that fits.
    pub scale: Option<String>,
    /// Its unit, mm or inch.
    pub units: String,
}

impl Default for Drawing {
    fn default() -> Self {
        Self { sheet: None, scale: None, units: "mm".to_owned() }
    }
}

impl Request {
    /// All files of a design's section, as usual, to `out`.
    pub fn of(design: impl Into<String>, out: impl Into<PathBuf>) -> Self {
        Self {
            design: design.into(),
            out: out.into(),
            chord: DEFAULT_CHORD,
            only: None,
            drawing: Drawing::default(),
            parts: vec![NamedPart::SECTION.to_owned()],
            limits: Vec::new(),
            rack: None,
        }
    }
}

/// What was made and written.
pub struct Made {
    /// The design.
    pub resolved: Resolved,
    /// What was asked for, by names.
    pub order: Order,
    /// Where it was written.
    pub folder: PathBuf,
    /// The files, with what was found.
    pub products: Products,
    /// What of the folder's earlier files still stands.
    pub standing: Standing,
    /// What is said of the design.
    pub said: Vec<Said>,
}

/// Makes a design's files in a folder of its name in `out`.
///
/// Files of other parts and kinds stay where the folder's report proves that they are of the same
/// section; what it does not vouch for goes, so that a folder never mixes two designs.
///
/// # Errors
/// Everything that is wrong with the request or the design; then, and when it is cancelled, nothing
/// is written.
pub fn make(library: &Library, request: &Request, watch: &dyn Watch) -> Result<Made, Stopped> {
    step(watch, "reading the design")?;
    let mut said = Vec::new();
    let Some((resolved, wanted)) = prepared(library, request, &mut said) else {
        return Err(Stopped::wrong(said));
    };
    let section = &resolved.section;
    let order = wanted.order();
    let folder = request.out.join(&section.name);
    let from = MadeFrom { section, workshop: &resolved.workshop };
    let standing = archive::standing(&folder, from, &order.names());
    let products = produce(&resolved, wanted, request.chord, &standing, watch);
    let products = products.map_err(|stopped| stopped.after(&said))?;
    step(watch, "writing the files")?;
    let files = products.files.iter().cloned();
    let set: Vec<File> = files.chain(archive::made_by(&products.files)).collect();
    if let Err(error) = archive::replace(&folder, &set, &standing.ours) {
        let error = Diagnostic::error(error.code(), error.to_string());
        return Err(Stopped::by(Why::Failed, said, error));
    }
    Ok(Made { resolved, order, folder, products, standing, said })
}

/// Reads the design and holds the request against it; none where either is wrong, which is said.
pub fn prepared(
    library: &Library,
    request: &Request,
    said: &mut Vec<Said>,
) -> Option<(Resolved, Wanted)> {
    let asked = Asked { limits: &request.limits, rack: request.rack.as_deref() };
    let resolved = load(library, &request.design, asked, Reading::WithNotes, said);
    understood(request, resolved, said)
}

/// What is asked for, held against what there is.
pub struct Wanted {
    /// The kinds of files.
    kinds: Kinds,
    /// The parts, the section among them if it is asked for.
    parts: Vec<NamedPart>,
    /// Whether the sheet to order a tap by is asked for.
    tap_order: bool,
    /// How drawings are asked for.
    format: Format,
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
    said: &mut Vec<Said>,
) -> Option<(Resolved, Wanted)> {
    let mut wrong: Vec<Diagnostic> = chord_fault(request.chord).into_iter().collect();
    let unknown = |error: UnknownKinds| Diagnostic::error(error.code(), error.to_string());
    let kinds = order::kinds(request.only.as_deref());
    let kinds = kinds.map_err(|error| wrong.push(unknown(error))).ok();
    let parts = resolved.as_ref().and_then(|resolved| {
        let parts = order::parts(&resolved.section, &request.parts, kinds.as_ref());
        parts.map_err(|faults| wrong.extend(faults)).ok()
    });
    let format = order::format(&request.drawing).map_err(|faults| wrong.extend(faults)).ok();
    if !wrong.is_empty() {
        said.push(Said::of_request(wrong));
        return None;
    }
    let (resolved, (parts, tap_order)) = (resolved?, parts?);
    let format = Format { credits: resolved.credits.clone(), ..format? };
    Some((resolved, Wanted { kinds: kinds?, parts, tap_order, format }))
}
