//! What the part is judged by: the material's limits, over them the design's, over them those of
//! the command line.

use crate::design::load::Document;
use crate::design::material_file::{FitsFile, MaterialFile, PercentFile};
use crate::design::reader::Placed;
use crate::design::value::{Amount, CutsOver, Distance, Sourced};
use crate::quantity::{Length, Limits};
use crate::section::{Criteria, FitLimits, Limit, Offsets, PercentLimits, WallLimits, Zone};

/// Turns of the unit's thread that may lie in front of the section's (common practice, no
/// source): more, and the unit is held by less than was paid for.
const LOST_TURNS: f64 = 2.0;

/// Pitches of a plug tap's lead (3 to 5; common practice, no source): fewer promise thread that
/// the tap leaves incomplete, more hide some.
const TAP_LEAD: f64 = 3.0;

/// The criteria; offsets are set by the design.
pub(super) fn resolve(material: &MaterialFile, written: &Origins) -> Criteria {
    let length = |file: &Placed<Sourced<Distance>>| limit(file, material, written, |d| d.0);
    let amount = |file: &Placed<Sourced<Amount>>| limit(file, material, written, |a| a.0);
    let amount_or = |file: &Option<Placed<Sourced<Amount>>>, start: f64| {
        file.as_ref().map_or_else(|| built_in(start), amount)
    };
    let percent =
        |file: &PercentFile| PercentLimits { low: amount(&file.low), high: amount(&file.high) };
    let spread = |file: &Placed<Sourced<CutsOver>>| limit(file, material, written, spread_of);
    Criteria {
        walls: WallLimits::new(|zone: Zone| length(&material.walls[zone as usize])),
        unit_thread: percent(&material.unit_thread),
        tenon_thread: percent(&material.tenon_thread),
        least_turns: amount(&material.least_turns),
        lost_turns: amount_or(&material.lost_turns, LOST_TURNS),
        tap_lead: amount_or(&material.tap_lead, TAP_LEAD),
        spring_back: material
            .spring_back
            .as_ref()
            .map_or_else(|| built_in(Limits::exactly(Length::ZERO)), spread),
        shear: material.shear.as_ref().map(amount),
        cap_thread: percent(material.cap_thread.as_ref().unwrap_or(&material.tenon_thread)),
        fits: fits(&material.fits, length, amount),
        least_clearance: length(&material.clearance),
        band: length(&material.band).value,
        offsets: Offsets { holding: Length::ZERO, long_hole: Length::ZERO },
    }
}

/// What is asked of the parts round the section: as a file has it, else its start.
fn fits(
    file: &FitsFile,
    length: impl Fn(&Placed<Sourced<Distance>>) -> Limit<Length>,
    amount: impl Fn(&Placed<Sourced<Amount>>) -> Limit<f64>,
) -> FitLimits {
    let start = FitLimits::built_in();
    let or = |file: &Option<Placed<Sourced<Distance>>>, start| file.as_ref().map_or(start, &length);
    FitLimits {
        joint_step: or(&file.joint_step, start.joint_step),
        nib_room: or(&file.nib_room, start.nib_room),
        cap_clearance: or(&file.cap_clearance, start.cap_clearance),
        converter_clearance: or(&file.converter_clearance, start.converter_clearance),
        cap_turns: file.cap_turns.as_ref().map_or(start.cap_turns, &amount),
        closing_turns: file.closing_turns.as_ref().map(amount),
    }
}

/// A limit that no file gives.
pub(super) fn built_in<T>(value: T) -> Limit<T> {
    Limit { value, source: FitLimits::BUILT_IN.to_owned() }
}

/// The files that limits may stand in, beside the material's.
pub(in crate::design) struct Origins<'a> {
    pub(in crate::design) design: &'a Document,
    pub(in crate::design) command_line: Option<&'a Document>,
}

/// A spread as limits.
pub(super) fn spread_of(spread: CutsOver) -> Limits {
    // Read in order.
    Limits::new(spread.least, spread.greatest).unwrap_or(Limits::exactly(spread.least))
}

/// A limit with where it comes from: the command line, the design, or the material and what its
/// file says.
pub(super) fn limit<T: Clone, U>(
    file: &Placed<Sourced<T>>,
    material: &MaterialFile,
    written: &Origins,
    value: impl FnOnce(T) -> U,
) -> Limit<U> {
    let Sourced { value: limit, source } = &file.value;
    let own = |place| written.design.holds(place);
    let typed = |place| written.command_line.is_some_and(|typed| typed.holds(place));
    let origin = |place| (typed(place), own(place));
    // A source that the material gives for its own value says nothing of the design's.
    let said = source.as_ref().filter(|source| origin(source.at()) == origin(limit.at()));
    let said = said.map(|source| source.value.as_str());
    let from = match origin(limit.at()) {
        (true, _) => "command line",
        (false, true) => "this design",
        (false, false) => &material.name.value,
    };
    let source = match said {
        Some(said) => format!("{from}: {said}"),
        None if from == material.name.value => format!("{from}: no source given"),
        None => from.to_owned(),
    };
    Limit { value: value(limit.value.clone()), source }
}
