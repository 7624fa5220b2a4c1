//! The profile of a printer that was calibrated.

use super::calibration::Calibration;
use super::fit::DiameterFit;
use super::form::quoted;
use crate::quantity::Length;
use crate::section::{Compensation, Printer};

/// The text of a profile called `name`, `like` the one that was calibrated (its name, or its path
/// from the new file's folder): only what was measured, and how well.
///
/// A profile that is called as the one that it is like may stand in a folder of profiles before the
/// built-in one; a file must not be like itself.
pub fn profile(calibration: &Calibration, printer: &Printer, like: &str, name: &str) -> String {
    let new = calibration.applied(printer);
    let mut text = String::from(
        "# Made from the readings of a calibration plate. What is not here is as it was.\n\
         format = 1\n",
    );
    text += &format!("like = {}\nname = {}\n", quoted(like), quoted(name));
    let fits = [("hole", &calibration.hole, new.hole), ("boss", &calibration.boss, new.boss)];
    for (key, fit, compensation) in fits {
        if let Some(fit) = fit {
            let Compensation { constant, share } = compensation;
            text += &format!("\n{}", how_well(fit));
            let constant = decimal(constant.as_mm());
            text += &format!("{key} = {{ constant = {constant}, share = {} }}\n", decimal(share));
        }
    }
    if let Some(fit) = &calibration.face {
        let (count, error) = (fit.residuals.len(), fit.standard_error.as_mm());
        text += &format!("\n# From {count} heights, +/- {error:.3} (one standard error).\n");
        text += &format!("face = {}\n", decimal(new.face.as_mm()));
    }
    if new.scatter > printer.scatter {
        text += "\n# Within this 95 of 100 readings lie, printer and caliper together; another day's\n\
                 # print may be off by more.\n";
        text += &format!("scatter = {}\n", decimal(new.scatter.as_mm()));
    }
    text
}

/// From how many readings, and what it adds, with its standard error.
fn how_well(fit: &DiameterFit) -> String {
    let count = fit.residuals.len();
    let mut text = format!(
        "# From {count} readings, which scatter by {:.3}. Added, with one standard error:\n",
        fit.scatter.as_mm()
    );
    for added in &fit.added {
        text += &format!(
            "#   {:+.3} +/- {:.3} at {:.1}\n",
            added.added.as_mm(),
            added.standard_error.as_mm(),
            added.wanted.as_mm()
        );
    }
    text
}

/// A number as TOML reads it back to the same bits: with a point, without an exponent.
fn decimal(number: f64) -> String {
    let text = number.to_string();
    if text.contains('.') { text } else { format!("{text}.0") }
}

/// A number of a printer that is another one in another.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Its key: `hole.constant`.
    pub key: &'static str,
    /// What it was.
    pub old: f64,
    /// What it is: mm, or a share of the diameter.
    pub new: f64,
}

/// The numbers that calibration sets and that differ between two printers, in the order of the
/// profile.
pub fn changes(old: &Printer, new: &Printer) -> Vec<Change> {
    let numbers = |printer: &Printer| {
        let mm = Length::as_mm;
        [
            ("hole.constant", mm(printer.hole.constant)),
            ("hole.share", printer.hole.share),
            ("boss.constant", mm(printer.boss.constant)),
            ("boss.share", printer.boss.share),
            ("thread.internal", mm(printer.internal_flank)),
            ("thread.external", mm(printer.external_flank)),
            ("face", mm(printer.face)),
            ("scatter", mm(printer.scatter)),
        ]
    };
    let pairs = numbers(old).into_iter().zip(numbers(new));
    let change = |((key, old), (_, new))| (old != new).then_some(Change { key, old, new });
    pairs.filter_map(change).collect()
}
