//! How deep a tool goes, in the ways in which it is set.

use super::body;
use crate::check::touch;
use crate::quantity::Length;
use crate::section::{Bore, Depth, Mouth, Quill, Workpiece};
use crate::solid::BuildError;

/// A way of the quill in turns of its handwheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handwheel {
    /// Whole turns.
    pub turns: u32,
    /// Divisions beyond them; none where the wheel has no scale, and then `turns` is rounded.
    pub divisions: Option<f64>,
}

impl Handwheel {
    /// So far by this quill.
    pub fn of(way: Length, quill: Quill) -> Self {
        let turns = (way / quill.per_turn).max(0.0);
        let Some(count) = quill.divisions else {
            return Self { turns: turns.round() as u32, divisions: None };
        };
        let count = f64::from(count);
        // Rounded to half a division, which an eye can set; a whole turn is carried over.
        let halves = (turns * count * 2.0).round();
        let whole = (halves / (count * 2.0)).floor();
        Self { turns: whole as u32, divisions: Some(halves / 2.0 - whole * count) }
    }
}

/// A tool's depth, all ways from the face as it is then.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Depths {
    /// To the end of its full diameter; of a hole that goes through, to where the full diameter is
    /// out at the other face.
    pub full: Length,
    /// From the tool's tip to the mark that comes to the face.
    pub mark: Length,
    /// How far it goes on from where it first touches; for a tool that is turned in from inside (a
    /// relief), none.
    pub travel: Option<Length>,
    /// The diameter of the hole whose edge it touches; zero where it touches the face.
    pub touches_at: Length,
    /// How deep behind the face what it touches lies.
    pub touches_deep: Length,
    /// The same way by the handwheel.
    pub handwheel: Option<Handwheel>,
}

impl Depths {
    /// A hole about to be cut in a workpiece; its depths are from the face as it is.
    ///
    /// # Errors
    /// [`BuildError`] where the workpiece can't be built.
    pub fn of(bore: &Bore, piece: &Workpiece, quill: Option<Quill>) -> Result<Self, BuildError> {
        let point = body::point_length(bore);
        let full = match bore.depth {
            Depth::To(depth) | Depth::Between(_, depth) => depth,
            Depth::Through => piece.length(),
        };
        let first = touch(&body::tool(bore), &piece.part(), bore.mouth)?;
        // Where its full diameter stands then, from the face.
        let stands = first.map(|touch| match bore.mouth {
            Mouth::Front => Length::mm(touch.advance) - piece.front(),
            Mouth::Back => Length::mm(touch.advance) + (piece.front() + piece.length()),
        });
        let inside = matches!(bore.depth, Depth::Between(..));
        let travel = stands.filter(|_| !inside).map(|stands| full - stands);
        // A flat end meets the face, whatever hole is there.
        let edge = first.filter(|_| bore.point.cone().is_some());
        let touches_at = edge.map_or(Length::ZERO, |touch| Length::mm(2.0 * touch.outer.r));
        let touches_deep = first.map_or(Length::ZERO, |touch| match bore.mouth {
            Mouth::Front => Length::mm(touch.outer.z) - piece.front(),
            Mouth::Back => piece.front() + piece.length() - Length::mm(touch.outer.z),
        });
        Ok(Self {
            touches_deep,
            full,
            mark: full + point,
            travel,
            touches_at,
            handwheel: travel.zip(quill).map(|(travel, quill)| Handwheel::of(travel, quill)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 13 mm at 2 mm a turn of 40 divisions is six turns and a half, 20 divisions.
    #[test]
    fn a_way_in_turns() {
        let quill = |divisions| Quill { per_turn: Length::mm(2.0), divisions };
        let of = |mm: f64, divisions| Handwheel::of(Length::mm(mm), quill(divisions));
        assert_eq!(of(13.0, Some(40)), Handwheel { turns: 6, divisions: Some(20.0) });
        // 39.8 divisions are set as 40, which is a turn.
        assert_eq!(of(1.99, Some(40)), Handwheel { turns: 1, divisions: Some(0.0) });
        assert_eq!(of(1.98, Some(40)), Handwheel { turns: 0, divisions: Some(39.5) });
        assert_eq!(of(13.0, None), Handwheel { turns: 7, divisions: None });
    }
}
