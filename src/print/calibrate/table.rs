//! Residuals and changes, for people.

use super::calibration::Calibration;
use super::fit::{DiameterFit, Residual};
use super::profile::Change;
use crate::section::Measurand;

/// Every reading beside what the fit expects of it, a kind below the other, each with what was
/// found and how well. Lengths in mm.
pub fn residuals_table(calibration: &Calibration) -> String {
    let mut blocks: Vec<String> = calibration.diameters().map(diameters).collect();
    blocks.extend(calibration.face.as_ref().map(|fit| {
        rows("heights", &fit.residuals)
            + &format!(
                "  a face comes out {:+.3} beyond its place, +/- {:.3}; readings scatter by {:.3}\n",
                thousandths(fit.face.as_mm()),
                fit.standard_error.as_mm(),
                fit.scatter.as_mm()
            )
    }));
    blocks.join("\n")
}

fn diameters(fit: &DiameterFit) -> String {
    let title = if fit.kind == Measurand::Hole { "holes" } else { "pegs" };
    let mut text = rows(title, &fit.residuals);
    for added in &fit.added {
        text += &format!(
            "  at {:>4.1} in the file {:+.3}, +/- {:.3}\n",
            added.wanted.as_mm(),
            thousandths(added.added.as_mm()),
            added.standard_error.as_mm()
        );
    }
    text + &format!("  readings scatter by {:.3}\n", fit.scatter.as_mm())
}

fn rows(title: &str, residuals: &[Residual]) -> String {
    let mut text =
        format!("{title:<18}{:>8}{:>9}{:>10}{:>8}\n", "in file", "read", "expected", "off");
    for residual in residuals {
        text += &format!(
            "  {:<16}{:>8.2}{:>9.3}{:>10.3}{:>+8.3}\n",
            residual.reading.name(),
            residual.reading.of.in_file.as_mm(),
            residual.reading.value.as_mm(),
            residual.expected.as_mm(),
            thousandths(residual.off().as_mm())
        );
    }
    text
}

/// What changed, old beside new: mm, and shares of the diameter.
pub fn changes_table(changes: &[Change]) -> String {
    if changes.is_empty() {
        return "nothing changed\n".to_owned();
    }
    let mut text = format!("{:<18}{:>10}{:>10}\n", "", "was", "is");
    for Change { key, old, new } in changes {
        text += &format!("  {key:<16}{old:>10}{new:>10}\n");
    }
    text
}

/// Rounded as it is shown, so that nothing reads -0.000.
fn thousandths(mm: f64) -> f64 {
    (mm * 1e3).round() / 1e3 + 0.0
}
