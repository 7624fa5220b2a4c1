//! A part with every surface moved along its normal, by an amount of its kind.
//!
//! Never by scaling: a bore grows while the outside shrinks, and a thread keeps its pitch. It is
//! done on what the solid is built from, so what comes out is as exact as what goes in:
//!
//! ```text
//!   amounts   how far each kind of surface goes into the material
//!   stretch   the runs as lines, each with its amount; smooth neighbours share one
//!   thread    form, ends and phase of a thread; a crest that is eaten
//!   joint     where two moved lines meet: a mitre, or a step where they run alike
//!   chain     all joints together, and the lines that vanish
//! ```
//!
//! # Accuracy
//! Lines, arcs, crests and roots lie at their amounts up to rounding. A moved flank is no longer
//! ruled; the straight one that is made in its place is right at its middle and off by less than
//! 0.0001 mm at its ends for sections' threads (the worst tried: six starts of 1 mm). A thread's
//! rounded corner is rounded anew, within 0.005 mm where crest, flank and root go alike, between
//! their amounts where they don't. An arc with neighbours of its own direction takes one amount with
//! them, that at the middle of their diameters. A tool's run-out that would pass the wall it ends at
//! stays before it; one that was drawn out between ridges that have become edges ends at a wall.

mod amounts;
mod chain;
mod crossing;
mod error;
mod form;
mod joint;
mod loss;
mod stretch;
mod thread;

pub use amounts::Amounts;
pub use error::OffsetError;
pub use loss::Loss;

use crate::section::Part;

/// A part that was offset.
#[derive(Clone, Debug, PartialEq)]
pub struct Offset {
    /// Its half-section and threads.
    pub part: Part,
    /// What of it is lost.
    pub losses: Vec<Loss>,
}

/// Moves every surface of a part along its normal.
///
/// Expects coincident values to be equal ([`Part::snapped`]), as [`crate::solid::build`] does; so
/// are the new part's.
///
/// # Errors
/// [`OffsetError`]: an amount takes all of the part, or makes two of its surfaces cross.
pub fn offset(part: &Part, amounts: &Amounts) -> Result<Offset, OffsetError> {
    let mut losses = Vec::new();
    let mut lines = stretch::lines(part, amounts);
    let mut threads = Vec::new();
    for thread in &part.threads {
        threads.extend(thread::moved(thread, amounts, &mut lines, &mut losses));
    }
    let runs = chain::joined(lines, &mut losses)?;
    crossing::check(&runs)?;
    Ok(Offset { part: Part { runs, threads }.snapped(), losses })
}
