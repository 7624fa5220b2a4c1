//! The lathe and what holds the work; what the rack leaves out has a start.

use crate::design::rack_file::{HoldingsFile, LatheFile, QuillFile};
use crate::design::reader::Placed;
use crate::design::resolve::Making;
use crate::design::resolve::criteria::built_in;
use crate::design::value::{Sourced, Speed};
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::section::{Holdings, Lathe, Limit, Quill};

/// How far a collet closes where nobody says (common practice, no source): more, and work that
/// none grips would be put in one, less, and those at hand would not be offered.
const CLOSES: Length = Length::mm(0.5);

/// The chuck that nobody described.
const CHUCK: &str = "chuck";

/// The lathe of the rack of this name.
pub(super) fn lathe(file: &LatheFile, rack: &str) -> Lathe {
    let speed = |written: &Option<Placed<Sourced<Speed>>>, start: f64| {
        written.as_ref().map_or_else(
            || built_in(start),
            |written| {
                let Sourced { value, source } = &written.value;
                let said = source.as_ref().map_or("no source given", |source| &source.value);
                Limit { value: value.value.0, source: format!("{rack}: {said}") }
            },
        )
    };
    let quill = |quill: &QuillFile| Quill {
        per_turn: quill.per_turn.value.0,
        divisions: quill.divisions.as_ref().map(|count| count.value.0),
    };
    let speeds = file.speeds.as_ref().map(|speeds| &speeds.value.0);
    Lathe {
        speeds: speeds.into_iter().flatten().map(|speed| speed.0).collect(),
        quill: file.quill.as_ref().map(quill),
        tailstock_drill: speed(&file.tailstock_drill, Lathe::TAILSTOCK_DRILL),
        turning: speed(&file.turning, Lathe::TURNING),
    }
}

/// What holds the work.
pub(super) fn holdings(file: &HoldingsFile, making: &mut Making) -> Holdings {
    let collets = file.collets.as_ref().map(|collets| collets.value.0.clone()).unwrap_or_default();
    if let (Some(closes), Some(thinnest)) = (&file.closes, collets.first())
        && closes.value.0 >= *thinnest
    {
        let (by, half) = (closes.value.0, *thinnest / 2.0);
        let message = format!("a collet of {thinnest} can't close by {by}");
        making.log.push(
            Diagnostic::error("rack.closes", message)
                .at(closes.at())
                .hint(format!("less than the thinnest collet, such as {}", CLOSES.min(half))),
        );
    }
    Holdings {
        collets,
        closes: file.closes.as_ref().map_or(CLOSES, |closes| closes.value.0),
        chuck: file.chuck.as_ref().map_or_else(|| CHUCK.to_owned(), |chuck| chuck.value.clone()),
    }
}
