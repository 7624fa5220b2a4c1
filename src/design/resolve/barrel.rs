//! The barrel's mouth from the design.

use super::Making;
use super::{form, form::ToolEnd, thread};
use crate::design::design_file::{BarrelFile, TenonFile};
use crate::design::reader::Placed;
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::section::{Barrel, BarrelBore, Counterbore, Item, LEAST_STEP, Subject};
use crate::standard::ToleranceClass;

/// Pitches of hole beyond the lead, for chips (common practice, no source): less, and the tap
/// packs them and stops early.
pub(super) const CHIPS: f64 = 1.0;

/// The barrel; `tap_lead` is that of a usual tap, in pitches. None where its thread has no limits or no length, which is noted.
pub(super) fn resolve(
    file: &BarrelFile,
    tenon: &TenonFile,
    grip_back: Length,
    tap_lead: f64,
    making: &mut Making,
) -> Option<Barrel> {
    let designation = file.thread.as_ref().unwrap_or(&tenon.thread);
    let at = designation.at();
    let designation = if file.thread.is_some() {
        designation.value
    } else {
        let same = designation.value.with_class(Some(ToleranceClass::MEDIUM_INTERNAL));
        making.derive("barrel.thread", &same, "the tenon's thread, class 6H");
        same
    };
    let depth = file.depth.value.0;
    let counterbore = file.counterbore.as_ref().map(|ring| {
        making.places.set(Subject::Counterbore, ring.at);
        Counterbore { diameter: ring.diameter.value.0, depth: ring.along.value.0 }
    });
    making.places.set(Subject::BarrelDepth, file.depth.at());
    making.places.set(Subject::Thread(Item::BarrelThread), at);
    let outside = file.outside.as_ref().map_or_else(
        || {
            making.derive("barrel.outside", &grip_back, "the grip's diameter at the shoulder");
            grip_back
        },
        |outside| outside.value.0,
    );
    let lead = tap_lead.max(file.cut.lead());
    let from = counterbore.map_or(Length::ZERO, |counterbore| counterbore.depth);
    let to = file.full_thread_to.as_ref().map_or_else(
        || {
            let to = depth - designation.pitch() * (lead + CHIPS);
            let why =
                format!("depth {depth} - {lead} pitches of the tap's lead and {CHIPS} for chips");
            making.derive("barrel.full_thread_to", &to, why);
            to
        },
        |to| to.value.0,
    );
    let to_at = file.full_thread_to.as_ref().map_or(file.depth.at(), Placed::at);
    if to - from < LEAST_STEP || to > depth {
        let needed = from + designation.pitch() * (lead + CHIPS + 1.0);
        making.log.push(
            Diagnostic::error(
                "barrel.no-thread",
                format!(
                    "the barrel's full thread can't go from {from} to {to} in a hole of {depth}"
                ),
            )
            .at(to_at)
            .hint(format!("a hole of {} gives room for one turn", needed.max(depth))),
        );
        return None;
    }
    let thread = thread::internal(designation, at, Item::BarrelThread, (from, to), making)?;
    let thread = form::cut(thread, &file.cut, ToolEnd::To, making)?;
    let mouth = counterbore.map_or(thread.form.root, |counterbore| counterbore.diameter);
    // A grip without shoulder is what is wrong, not the barrel as wide as it.
    let no_shoulder = grip_back <= tenon.thread.value.diameter() && file.outside.is_none();
    if mouth.max(thread.form.root) >= outside && !no_shoulder {
        let hole_at = file.counterbore.as_ref().map_or(at, |ring| ring.diameter.at());
        let place = file.outside.as_ref().map_or(hole_at, Placed::at);
        let widest = mouth.max(thread.form.root);
        let needed = widest + Length::mm(1.0);
        making.log.push(
            Diagnostic::error(
                "barrel.no-wall",
                format!("a barrel of {outside} has no wall round a hole of {widest}"),
            )
            .at(place)
            .hint(format!("an outside of {needed} leaves a wall of 0.5 mm")),
        );
        return None;
    }
    let bore = file.bore.as_ref().map(|ring| {
        making.places.set(Subject::BarrelBore, ring.at);
        BarrelBore { diameter: ring.diameter.value.0, depth: ring.along.value.0 }
    });
    Some(Barrel { thread, depth, counterbore, bore, outside })
}
