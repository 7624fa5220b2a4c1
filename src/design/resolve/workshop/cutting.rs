//! How the material is cut: as its file has it, else its start.

use crate::design::material_file::MaterialFile;
use crate::design::reader::Placed;
use crate::design::resolve::criteria::{Origins, built_in, limit};
use crate::design::value::Sourced;
use crate::section::{Cutting, Limit};

/// m/min of a drill's lips where nobody says (common practice, no source): slow enough for a resin
/// that softens; more, and a deep hole melts, less, and a drill rubs.
const DRILLING: f64 = 12.0;

/// m/min of turning where nobody says (common practice, no source): more, and a thin piece warms,
/// less, and the skin tears.
const TURNING: f64 = 40.0;

/// Diameters between clearings of a drill where nobody says (common practice, no source): more,
/// and chips jam, less, and the drill is out more than in.
const PECK: f64 = 1.0;

/// The material's cutting.
pub(super) fn resolve(material: &MaterialFile, written: &Origins) -> Cutting {
    let file = &material.cutting;
    let words = |text: &Placed<Sourced<String>>| limit(text, material, written, |words| words);
    Cutting {
        drilling: or(file.drilling.as_ref(), DRILLING, |v| {
            limit(v, material, written, |speed| speed.0)
        }),
        turning: or(file.turning.as_ref(), TURNING, |v| {
            limit(v, material, written, |speed| speed.0)
        }),
        peck: or(file.peck.as_ref(), PECK, |v| limit(v, material, written, |peck| peck.0)),
        coolant: file.coolant.as_ref().map(words),
        notes: file.notes.iter().map(words).collect(),
    }
}

fn or<T>(
    file: Option<&Placed<Sourced<T>>>,
    start: f64,
    value: impl FnOnce(&Placed<Sourced<T>>) -> Limit<f64>,
) -> Limit<f64> {
    file.map_or_else(|| built_in(start), value)
}
