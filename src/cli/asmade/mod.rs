//! `asmade`: a section as it was really cut.

mod said;
mod steps;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::design::Library;
use crate::job::asmade::{self, Request};

/// What is asked of [`asmade`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, or the name of a built-in one
    design: String,
    /// A size that was cut otherwise: `bores.clearance.depth=4.3`; as often as there are sizes. It
    /// goes over the design's `[made]`. Diameters are what a caliper reads, depths are from the
    /// finished front face, as in the design; an unknown key lists them all. Or what stands in a box
    /// of the sheet: `bores.clearance.pin=4.41`, `unit.stands=5.6`, `grip.faced=22.1`
    #[arg(long, value_name = "KEY=VALUE")]
    set: Vec<String>,
    /// The last step that is done, where more is done than what was cut otherwise: `tapped`,
    /// `outside-turned`, or the name of a hole (an unknown word lists them all)
    #[arg(long, value_name = "STEP")]
    after: Option<String>,
    /// The rack of tools that are at hand, in place of the design's
    #[arg(long, value_name = "RACK")]
    rack: Option<String>,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// Measures a section as it was cut, and prints what that breaks, what saves it and what is left.
///
/// What is drawn is the section as the sheet has it: with the tools at hand.
pub(super) fn asmade(library: &Library, typed: Typed, screen: Screen) -> Outcome {
    let Typed { design, set, after, rack, json } = typed;
    let progress = Progress::start(screen.quiet());
    let cut = asmade::asmade(library, &Request { design, set, after, rack }, &progress);
    drop(progress);
    let cut = match cut {
        Ok(cut) => cut,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&cut.said);
    if json {
        print(&cut.json());
    } else {
        screen.say(&said::said(&cut, screen.style()));
    }
    if cut.made.made.breaks() { Outcome::Breaks } else { Outcome::Fine }
}
