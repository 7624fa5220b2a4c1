//! What the printer can't show of the pieces.

use crate::check::least_wall;
use crate::print::Piece;
use crate::print::specimen::least_pitch;
use crate::section::Printer;
use crate::solid::build;

/// Threads left smooth, surfaces that vanish, walls that are too thin for the printer.
pub(super) fn left_out(pieces: &[Piece], printer: &Printer) -> Vec<String> {
    let mut all = Vec::new();
    let least = least_pitch(printer).as_mm();
    for piece in pieces {
        for thread in &piece.smooth {
            all.push(format!(
                "{}: the {thread} is left smooth, as it is before it is cut: its pitch is under \
                 {least:.2} mm, the finest that this printer shows. An inside one is of the tap \
                 drill's size and can be tapped; an outside one is of the major diameter, and does \
                 not enter until a die has cut it.",
                piece.name
            ));
        }
        for loss in &piece.losses {
            all.push(format!("{}: {loss}.", piece.name));
        }
        let wall = build(&piece.part).ok().and_then(|body| least_wall(&body));
        let limit = &printer.least_wall;
        if let Some((wall, inner, outer)) = wall
            && wall < limit.value.as_mm()
        {
            all.push(format!(
                "{}: the wall between {inner} and {outer} is {wall:.2} mm in the file, under the \
                 printer's {} mm ({}): it may come out holed or not at all.",
                piece.name,
                limit.value.as_mm(),
                limit.source
            ));
        }
    }
    all
}
