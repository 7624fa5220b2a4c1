//! What stands in the sheet's boxes, turned into the sizes that a design knows: a pin's reading, how
//! far the unit stands out, a length with something still to come off.

use super::{Plan, Work};
use crate::quantity::Length;
use crate::section::{Depth, Item, Mouth};
use crate::size::SizeId;

/// The box for how far the unit stands out before its thread is cut.
const UNIT_STANDS: &str = "unit.stands";

/// The box for the length behind the front face while it is still to be sanded.
const FACED: &str = "grip.faced";

impl Plan {
    /// The size that a box's reading means, by its key, and its value from the finished face; none for
    /// a key that is no box's.
    ///
    /// A pin rests where it rests on the solid: by what it reads over what it should, the hole is
    /// deeper than planned. A unit that stands out less says so of the clearance bore.
    pub fn of_box(&self, key: &str, reading: Length) -> Option<(String, Length)> {
        if key == UNIT_STANDS {
            return self.of_unit(reading);
        }
        if key == FACED {
            let face =
                self.operations.iter().find(|step| matches!(step.work, Work::Face { .. }))?;
            return Some((SizeId::GripLength.name(), reading - face.measured.to_come));
        }
        let hole = key.strip_suffix(".pin")?;
        let is_it = |item: Item| {
            // Sheets that were printed before name the hole as its surface is named.
            item.to_string() == hole
                || SizeId::BoreDepth(item).name().strip_suffix(".depth") == Some(hole)
        };
        let mut steps = self.operations.iter();
        let step = steps.find(|step| step.bore().is_some_and(|work| is_it(work.bore.item)))?;
        let work = step.bore()?;
        let (pin, Depth::To(depth)) = (work.pin?, work.bore.depth) else { return None };
        let front = work.bore.mouth == Mouth::Front;
        let to_come = if front { step.measured.to_come } else { Length::ZERO };
        let depth = depth - to_come + (reading - pin.reading);
        Some((SizeId::BoreDepth(work.bore.item).name(), depth))
    }

    fn of_unit(&self, reading: Length) -> Option<(String, Length)> {
        let fit = self.operations.iter().find_map(|step| match step.work {
            Work::TryUnit(fit) => Some(fit),
            _ => None,
        })?;
        let bore = self.section.bore(Item::ClearanceBore)?;
        let Depth::To(depth) = bore.depth else { return None };
        let deeper = (fit.stands - reading) / fit.by_clearance;
        let says = fit.tells_of_clearance();
        says.then(|| (SizeId::BoreDepth(Item::ClearanceBore).name(), depth + deeper))
    }
}
