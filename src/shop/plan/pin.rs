//! A flat pin that proves a hole's depth: a caliper's rod can't rest on a ledge of some tenths.

use super::body;
use crate::check::touch;
use crate::quantity::Length;
use crate::section::{Bore, Depth, Facet, Feature, Item, Mouth, Part, Run, Workpiece};
use crate::solid::BuildError;

/// Room that the pin keeps in the hole, and over what lies behind it, on the diameter. Less, and a
/// pin a little oval, or a drill that cut under its size, makes it stick or drop through.
const ROOM: Length = Length::mm(0.1);

/// The same where the ledge is narrow. Less than that is no ledge to rest on.
const LEAST_ROOM: Length = Length::mm(0.04);

/// A pin thinner than this bends.
const THINNEST: Length = Length::mm(1.0);

/// What a pin reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PinReading {
    /// Diameter of the pin, flat at its end.
    pub diameter: Length,
    /// From the face as it is to the pin's end, when the hole is as it is meant.
    pub reading: Length,
    /// Whether it rests on a drill's cone: then it reads deeper than the full diameter goes.
    pub on_cone: bool,
}

impl PinReading {
    /// The pin for a hole that has just been cut; none where the ledge is too narrow for any, or
    /// the hole goes through, or is no hole from a face (a relief, a countersink).
    ///
    /// # Errors
    /// [`BuildError`] where the workpiece can't be built.
    pub fn of(bore: &Bore, piece: &Workpiece) -> Result<Option<Self>, BuildError> {
        let Depth::To(depth) = bore.depth else { return Ok(None) };
        if depth == Length::ZERO {
            return Ok(None);
        }
        let narrowest = bore.limits.min().min(bore.diameter);
        let part = piece.part();
        let Some(behind) = ledge(&part, bore.item) else { return Ok(None) };
        let Some(diameter) = between(piece.greatest(behind), narrowest) else { return Ok(None) };
        let Some(rests) = touch(&body::pin(diameter), &part, bore.mouth)? else { return Ok(None) };
        let reading = match bore.mouth {
            Mouth::Front => Length::mm(rests.advance) - piece.front(),
            Mouth::Back => Length::mm(rests.advance) + (piece.front() + piece.length()),
        };
        Ok(Some(Self { diameter, reading, on_cone: (reading - depth).abs() > Length::mm(1e-6) }))
    }
}

/// To which diameter a hole narrows at its end; none where another hole has taken its end away.
fn ledge(part: &Part, hole: Item) -> Option<Length> {
    let end = |run: &&Run| {
        let Feature { item, facet } = run.feature;
        item == hole && matches!(facet, Facet::Cone | Facet::Floor)
    };
    let narrow = part.runs.iter().filter(end).map(|run| run.from.diameter.min(run.to.diameter));
    narrow.reduce(Length::min)
}

/// A pin's diameter between that of the hole behind and that of the hole: in tenths where they
/// leave room, else in hundredths.
fn between(behind: Length, hole: Length) -> Option<Length> {
    for (per_mm, room) in [(10.0, ROOM), (20.0, LEAST_ROOM * 1.5), (100.0, LEAST_ROOM)] {
        let most = ((hole - room).as_mm() * per_mm + 1e-6).floor() / per_mm;
        let least = (behind + room).max(THINNEST).as_mm();
        // Nearer to the hole's own size it rests nearer to the full diameter.
        if most >= least - 1e-9 {
            return Some(Length::mm(most));
        }
    }
    None
}
