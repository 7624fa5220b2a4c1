//! Pieces made right for a printer and laid on its plate, and the bytes of its files.

use rayon::prelude::*;

use super::Request;
use crate::check::chord;
use crate::design::{Fault, LoadedPrinter, Resolved};
use crate::diagnostic::Diagnostic;
use crate::export::print_set::{PrintOf, PrintSources, print_files};
use crate::export::{File, Meshed};
use crate::job::watch::{Cancelled, Watch, step};
use crate::print::specimen::{Ladder, SpecimenKind};
use crate::print::{Layout, LayoutError, Piece, layout, pieces};
use crate::quantity::Length;
use crate::section::{Printer, Section};
use crate::solid::build;

/// How much finer than asked for a piece is cut at most, where a step that the printer's amounts have
/// made is small: more, and a micron of a lost crest asks for a million triangles. What it is cut to
/// is audited all the same.
const FINEST: f64 = 4.0;

/// All pieces, made right for the printer; what is wrong with that, kind by kind.
pub(super) fn moved(
    resolved: &Resolved,
    kinds: &[SpecimenKind],
    printer: &Printer,
    ladder: &Ladder,
    chord: Length,
) -> Result<Vec<Piece>, Vec<Diagnostic>> {
    let (mut made, mut wrong) = (Vec::new(), Vec::new());
    for kind in kinds {
        let of = |section: &Section| pieces(section, &[*kind], printer, ladder, chord);
        match of(&resolved.section) {
            Ok(found) => made.extend(found),
            Err(errors) => wrong.extend(
                errors
                    .into_iter()
                    .map(|error| resolved.told(error.into(), &|section| of(section).is_ok())),
            ),
        }
    }
    if wrong.is_empty() { Ok(made) } else { Err(wrong) }
}

/// Pieces on the plate; what is wrong with that.
pub(super) fn laid_out(made: &[Piece], loaded: &LoadedPrinter) -> Result<Layout, Vec<Diagnostic>> {
    let told = |error: &LayoutError| {
        let told = Diagnostic::error(error.code(), error.to_string()).at(loaded.build);
        told.hint(error.hint())
    };
    layout(made, &loaded.printer).map_err(|errors| errors.iter().map(told).collect())
}

/// All files of a plate, in memory.
pub(super) fn files(
    title: &str,
    request: &Request,
    loaded: &LoadedPrinter,
    (made, layout): (&[Piece], &Layout),
    of: Option<PrintOf>,
    watch: &dyn Watch,
) -> Result<Result<Vec<File>, Fault>, Cancelled> {
    step(watch, "cutting the surfaces into triangles")?;
    let meshes = match meshes(made, request.chord) {
        Ok(meshes) => meshes,
        Err(fault) => return Ok(Err(fault)),
    };
    step(watch, "writing the formats")?;
    let sources = PrintSources {
        title,
        printer: &loaded.printer,
        printer_as: &request.printer,
        pieces: made,
        layout,
        meshes: &meshes,
        of,
    };
    Ok(print_files(&sources).map_err(Fault::from))
}

/// The triangles of every piece, in their order; of several faults the first piece's.
fn meshes(made: &[Piece], asked: f64) -> Result<Vec<Meshed>, Fault> {
    let cut = |piece: &Piece| -> Result<Meshed, Fault> {
        let body = build(&piece.part).map_err(|error| Fault::from(error).of(&piece.name))?;
        let mut chord = chord(&piece.part, &body, asked);
        chord.in_force = chord.in_force.max(asked / FINEST);
        Meshed::new(&body, chord).map_err(|error| Fault::from(error).of(&piece.name))
    };
    let all: Vec<_> = made.par_iter().map(cut).collect();
    all.into_iter().collect()
}
