//! The nib unit tried in its bores before they are tapped: how far it stands proud tells how deep
//! the clearance bore really is.

use super::error::PlanError;
use crate::check::{Spot, touch};
use crate::quantity::Length;
use crate::section::{Bore, Depth, Item, Mouth, Section, Workpiece};

/// By how much the clearance bore is made deeper to see what that changes, in millimetres: large
/// enough that rounding is nothing, small enough that the unit rests on the same edges.
const STEP: f64 = 0.01;

/// How near to its seat a unit counts as seated.
const SEATED: Length = Length::mm(1e-6);

/// What the unit does before its thread is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialFit {
    /// From the front face as it is to the collar's front, when all is as it is meant; less than
    /// none where it lies behind.
    pub stands: Length,
    /// The same when the collar is seated.
    pub seated: Length,
    /// Where it rests: on the unit, in its own z, and in the section.
    pub rests: [Spot; 2],
    /// By how much less it stands for a clearance bore so much deeper; 1 where it rests at the
    /// end of that bore, 0 where that says nothing of it.
    pub by_clearance: f64,
    /// Turns by hand from there to its seat, once the thread is cut; a unit that is seated already
    /// finds no thread.
    pub turns: f64,
}

impl TrialFit {
    /// The unit in a workpiece whose bores are cut and whose thread is not.
    ///
    /// # Errors
    /// [`PlanError`] where workpiece or unit can't be built.
    pub fn of(section: &Section, piece: &Workpiece) -> Result<Option<Self>, PlanError> {
        let unit = section.unit.part();
        let at = |piece: &Workpiece| touch(&unit, &piece.part(), Mouth::Front);
        let Some(first) = at(piece)? else { return Ok(None) };
        let stands = |advance: Length| piece.front() - (advance - section.unit.thickness.value);
        let (advance, seat) = (Length::mm(first.advance), section.seat());
        let deeper = deeper(section, piece);
        let second = deeper.as_ref().map(at).transpose()?.flatten();
        let by_clearance = second.map_or(0.0, |second| (second.advance - first.advance) / STEP);
        let proud = seat - advance;
        let lead = section.unit_thread.form.lead();
        Ok(Some(Self {
            stands: stands(advance),
            seated: stands(seat),
            rests: [first.inner, first.outer],
            by_clearance,
            turns: if proud > SEATED { proud / lead } else { 0.0 },
        }))
    }

    /// Whether its reading says how deep the clearance bore is: it rests at that bore's end.
    pub fn tells_of_clearance(&self) -> bool {
        /// By how much less it has to stand for each millimetre of that bore.
        const RESTS_THERE: f64 = 0.5;
        self.by_clearance > RESTS_THERE
    }

    /// Whether the collar seats before any thread is cut: the holes are too wide, or the thread is
    /// too short.
    pub fn seats_untapped(&self) -> bool {
        self.stands - self.seated <= SEATED
    }
}

/// The same workpiece with its clearance bore a step deeper.
fn deeper(section: &Section, piece: &Workpiece) -> Option<Workpiece> {
    let clearance = section.bore(Item::ClearanceBore)?;
    let Depth::To(depth) = clearance.depth else { return None };
    let depth = Depth::To(depth + Length::mm(STEP));
    Some(piece.with_bore(Bore { depth, ..clearance.clone() }))
}
