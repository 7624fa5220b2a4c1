//! The ladder: its rungs, how they are tried, and what follows.

use super::super::{PrintOf, PrintSources, thread_of};
use super::lines::{head, list, wrapped};
use crate::print::specimen::Mated;

/// What each rung says.
pub(super) fn ladder(sources: &PrintSources, of: &PrintOf) -> String {
    let rungs: Vec<_> = sources.pieces.iter().filter_map(|piece| piece.rung.as_ref()).collect();
    let (mate, thread) = (of.ladder.mated.mate(), thread_of(of.ladder));
    let mut text = head("The ladder");
    text += &wrapped(
        "",
        "",
        &format!(
            "Rungs of the {thread}, each with as many grooves as its number. Between the flanks, \
             square to them, when centred, with the {mate}, if the printer does what its profile \
             says:"
        ),
    );
    for rung in &rungs {
        let marks = "v ".repeat(usize::from(rung.number));
        let clearance = rung.clearance.as_mm();
        text += &format!("  {:>2}  {:<19}{clearance:>6.3} mm\n", rung.number, marks.trim_end());
    }
    text += "\n";
    text += &wrapped(
        "",
        "",
        &format!(
            "Clean the threads first (burrs, resin that did not wash out). From the widest down, \
             turn the {mate} by two fingers, backwards until it clicks, then in. Never force it."
        ),
    );
    let meanings = [
        "It turns home freely: there is room between the flanks. Go on to the next narrower rung.",
        "It does not enter, or only by a click: the crest is swollen or the foot spread. Look at the \
         first turn; if it is clean, this rung binds.",
        "It binds in the first turn: the thread came out too narrow. This rung binds.",
        "It grows tighter from turn to turn: the pitch differs, of the unit's as you measured it or \
         of the printer's height. More clearance hides it; measure the pitch again.",
        "It stops dead at the same depth on every rung: it has bottomed, or sits on its seat. That \
         is no binding.",
    ];
    text += &list(&meanings);
    for pair in rungs.windows(2) {
        let (low, high) = (pair[0], pair[1]);
        let (from, to) = (low.clearance.as_mm(), high.clearance.as_mm());
        text += &format!(
            "  {} binds, {} turns:  flanks came out {from:.3} to {to:.3} mm narrower than said\n",
            low.number, high.number
        );
    }
    if let Some((low, high)) = rungs.first().zip(rungs.last()) {
        text += &format!(
            "  all turn:  by less than {:.3} mm; print one from lower on (--first)\n",
            low.clearance.as_mm()
        );
        text += &format!(
            "  all bind:  by more than {:.3} mm; print one from higher on (--first)\n\n",
            high.clearance.as_mm()
        );
    }
    let tried = match rungs.as_slice() {
        [a, b, ..] => format!("{}=bound,{}=free", a.number, b.number),
        _ => "2=bound,3=free".to_owned(),
    };
    let mate = match of.ladder.mated {
        Mated::Unit => "real, or printed for the stand-in",
        Mated::Tenon => "real, or printed for a printed barrel",
    };
    text += "Then, for example:\n";
    text += &format!(
        "  sectionwright print {} --printer {} --tried {tried} --mate real\n",
        of.design, sources.printer_as
    );
    text += &wrapped(
        "",
        "",
        &format!(
            "It puts what was lacking into the printer's profile (--change printer) or into the \
             design's thread (--change design), and says what changed. --mate is {mate}."
        ),
    );
    text + "\n"
}
