//! What a print is, what came back from it and what that changes, as a maker reads it.

use std::path::Path;

use crate::drawing::CAUTION;
use crate::export::File;
use crate::export::print_set::{LOOK_FOR, PLATE_3MF, PLATE_SVG};
use crate::job::print::{Learned, NewSize, Printed, Tried};
use crate::print::Tells;
use crate::print::calibrate::{changes, changes_table, residuals_table};
use crate::section::Printer;

/// The pieces, what is lost of them, and what the print can tell, in a few lines.
pub(super) fn pieces(printed: &Printed) -> String {
    let Printed { title, pieces, proofs, .. } = printed;
    let mut text = format!("{title}\n\n");
    for piece in pieces {
        let height = piece.height().as_mm();
        let wide = piece.radius() * 2.0;
        text += &format!("  {:<14}{:<46}{wide:>6.1} x {height:.1} mm\n", piece.name, piece.what);
        for thread in &piece.smooth {
            text += &format!("    {thread} is left smooth: too fine for this printer\n");
        }
        for loss in &piece.losses {
            text += &format!("    {loss}\n");
        }
    }
    let count = |want: fn(&Tells) -> bool| proofs.iter().filter(|p| want(&p.tells)).count();
    let shows = count(|tells| *tells == Tells::Shows);
    let near = count(|tells| *tells == Tells::TooNear);
    let nothing = count(|tells| matches!(tells, Tells::Nothing(_)));
    text + &format!(
        "\nOf {} checks a print shows {shows}; {near} lie too near for this printer; of {nothing} it \
         tells nothing.\n",
        proofs.len()
    )
}

/// Which files were written, and what to do with them.
pub(super) fn written(folder: &Path, files: &[File]) -> String {
    let names = files.iter().map(|file| format!("  {}\n", folder.join(&file.name).display()));
    let names: String = names.collect();
    format!(
        "\nWritten:\n{names}\nLook at {PLATE_SVG}, send {PLATE_3MF} to the printer, keep {LOOK_FOR} \
         beside it.\n{CAUTION}\n"
    )
}

/// What the ladder says.
pub(super) fn rungs(tried: &Tried) -> String {
    let Tried { rungs, found, .. } = tried;
    let [bound, free] = found.between;
    let of = |number: u8| {
        let rung = rungs.iter().find(|rung| rung.number == number);
        rung.map_or(0.0, |rung| rung.clearance.as_mm())
    };
    format!(
        "Rung {bound} ({:.3} mm) bound, rung {free} ({:.3} mm) turned: the flanks came out {:.3} +/- \
         {:.3} mm narrower than said, square to them\n\n",
        of(bound),
        of(free),
        found.lacking.as_mm(),
        found.uncertainty.as_mm()
    )
}

/// How well the readings agree, and what they change.
pub(super) fn learned(learned: &Learned) -> String {
    let Learned { calibration, before, target, .. } = learned;
    let new = calibration.applied(before);
    let mut text = format!("{}\n", residuals_table(calibration));
    text += &changes_table(&changes(before, &new));
    for kept in calibration.kept() {
        text += &format!("{kept}\n");
    }
    let target = target.display();
    text + &format!("\nWritten:\n  {target}\nUse it with --printer {target}\n{CAUTION}\n")
}

/// What changes of a printer.
pub(super) fn printer(before: &Printer, now: &Printer, target: &Path) -> String {
    changes_table(&changes(before, now)) + &ended(target)
}

/// What changes of a design.
pub(super) fn design(sizes: &[NewSize], target: &Path) -> String {
    let line =
        |NewSize { key, was, is }: &NewSize| format!("  {key:<34}{was:>9.4} -> {is:.4} mm\n");
    let lines: String = sizes.iter().map(line).collect();
    let cut = "Cut it so much larger too: the tap, or the tool's depth, decides, not the file.\n";
    format!("{lines}{cut}{}", ended(target))
}

fn ended(target: &Path) -> String {
    format!("\nWritten:\n  {}\n{CAUTION}\n", target.display())
}
