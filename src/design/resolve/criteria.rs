//! What the part is judged by, from the material and the design's own limits.

use crate::design::load::Document;
use crate::design::material_file::{MaterialFile, PercentFile};
use crate::design::reader::Placed;
use crate::design::value::{Amount, Distance, Sourced};
use crate::quantity::Length;
use crate::section::{Criteria, Limit, Offsets, PercentLimits, WallLimits, Zone};

/// The criteria; offsets are set by the design.
pub(super) fn resolve(material: &MaterialFile, design: &Document) -> Criteria {
    let length = |written: &Placed<Sourced<Distance>>| limit(written, material, design, |d| d.0);
    let amount = |written: &Placed<Sourced<Amount>>| limit(written, material, design, |a| a.0);
    let percent =
        |file: &PercentFile| PercentLimits { low: amount(&file.low), high: amount(&file.high) };
    let offsets = Offsets { holding: Length::ZERO, long_hole: Length::ZERO };
    Criteria {
        walls: WallLimits::new(|zone: Zone| length(&material.walls[zone as usize])),
        unit_thread: percent(&material.unit_thread),
        tenon_thread: percent(&material.tenon_thread),
        least_turns: amount(&material.least_turns),
        least_clearance: length(&material.clearance),
        band: length(&material.band).value,
        offsets,
    }
}

/// The material's shear strength, where its file has it.
pub(super) fn shear(material: &MaterialFile, design: &Document) -> Option<Limit<f64>> {
    material.shear.as_ref().map(|shear| limit(shear, material, design, |a| a.0))
}

/// A limit with where it comes from: the design, or the material and what its file says.
fn limit<T: Copy, U>(
    written: &Placed<Sourced<T>>,
    material: &MaterialFile,
    design: &Document,
    value: impl FnOnce(T) -> U,
) -> Limit<U> {
    let Sourced { value: limit, source } = &written.value;
    let own = design.holds(limit.at());
    // A source that the material gives for its own value says nothing of the design's.
    let said = source.as_ref().filter(|source| design.holds(source.at()) == own);
    let said = said.map(|source| source.value.as_str());
    let source = match (own, said) {
        (true, None) => "this design".to_owned(),
        (true, Some(said)) => format!("this design: {said}"),
        (false, said) => {
            format!("{}: {}", material.name.value, said.unwrap_or("no source given"))
        }
    };
    Limit { value: value(limit.value), source }
}
