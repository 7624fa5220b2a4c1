//! What goes with a plate to the printer: the bodies, the plate as one file, its picture, what to
//! look for when it comes out, and a record of it all for whoever comes back from the print.

mod look_for;
mod record;

pub use record::{PieceRecord, PrintRecord, ProofRecord, RungRecord};

use super::three_mf::{PlatePart, three_mf};
use super::{ExportError, File, Meshed, proven_stl, svg};
use crate::drawing::plate_picture;
use crate::print::specimen::{Ladder, Mated};
use crate::print::{Layout, Piece, Proof};
use crate::section::{Printer, Section};

/// The plate, for the printer's program.
pub const PLATE_3MF: &str = "plate.3mf";
/// The plate, to look at.
pub const PLATE_SVG: &str = "plate.svg";
/// What to look for.
pub const LOOK_FOR: &str = "what-to-look-for.txt";
/// The record.
pub const PRINT_RECORD: &str = "print.json";

/// What the files of a plate are made from.
#[derive(Clone, Copy, Debug)]
pub struct PrintSources<'a> {
    /// What stands above them.
    pub title: &'a str,
    /// The printer.
    pub printer: &'a Printer,
    /// As its profile is named: a built-in one's name, or a path.
    pub printer_as: &'a str,
    /// What is printed.
    pub pieces: &'a [Piece],
    /// Where it stands.
    pub layout: &'a Layout,
    /// Its triangles, in the same order.
    pub meshes: &'a [Meshed],
    /// What they are of; none of a plate that calibrates.
    pub of: Option<PrintOf<'a>>,
}

/// What a plate tries.
#[derive(Clone, Copy, Debug)]
pub struct PrintOf<'a> {
    /// The section.
    pub section: &'a Section,
    /// How the design was asked for, to be typed again.
    pub design: &'a str,
    /// Its ladder, as it would be printed.
    pub ladder: &'a Ladder,
    /// What the print can tell.
    pub proofs: &'a [Proof],
}

/// The files of a plate.
///
/// # Errors
/// [`ExportError`] where one can't be written.
pub fn print_files(sources: &PrintSources) -> Result<Vec<File>, ExportError> {
    let PrintSources { title, printer, pieces, layout, meshes, .. } = *sources;
    let both = || pieces.iter().zip(meshes);
    let mut files = Vec::new();
    for (piece, meshed) in both() {
        files.push(File::new(stl_of(piece), proven_stl(&meshed.mesh)?));
    }
    let parts: Vec<PlatePart> = both()
        .zip(&layout.places)
        .map(|((piece, meshed), place)| PlatePart {
            name: &piece.name,
            mesh: &meshed.mesh,
            at: place.at,
        })
        .collect();
    files.push(File::new(PLATE_3MF, three_mf(title, &parts)?));
    let picture = plate_picture::sheet(title, printer, pieces, layout)?;
    files.push(File::new(PLATE_SVG, svg::write(&picture)));
    files.push(File::new(LOOK_FOR, look_for::text(sources)));
    let record = record::record(sources, &files);
    files.push(File::new(PRINT_RECORD, record));
    Ok(files)
}

/// Every name that a file of a plate may have, for whoever clears an earlier one.
pub fn print_file_names() -> Vec<String> {
    let pieces =
        ["section", "coupon-front", "coupon-back", "stand-in", "ring", "plug", "cap-probe"];
    let rungs = (1..=crate::print::specimen::MOST_RUNGS).map(|n| format!("ladder-{n}"));
    let plate = [PLATE_3MF, PLATE_SVG, LOOK_FOR, PRINT_RECORD].map(str::to_owned);
    let names = pieces.into_iter().map(str::to_owned).chain(rungs);
    names.map(|name| format!("{name}.stl")).chain(plate).collect()
}

fn stl_of(piece: &Piece) -> String {
    format!("{}.stl", piece.name)
}

/// The thread of a ladder, in words.
fn thread_of(ladder: &Ladder) -> &'static str {
    match ladder.mated {
        Mated::Unit => "unit's thread",
        Mated::Tenon => "tenon's thread",
    }
}
