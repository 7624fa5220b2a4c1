//! Whether the part is good enough: measured on the solid, judged against the section's criteria.
//!
//! ```text
//!   wall    zones of the wall, the floor             clear    the unit in its bore, the tenon
//!   thread  two threads screwed together                      in the barrel
//!   made    threads as their tools leave them        opening  by which tool a thread is opened
//!
//!   distance    nearest points of two curves         judge    the one rule for verdicts
//!   bodies      as modelled, least, most             advice   a change that works
//!   trial       one size changed, measured anew      room     how far a size may be off
//!   enclosing   cap, converter, barrel, nib            allot    tolerances for the drawing
//!   slide       first contact, gaps along a bore     chord    how coarse triangles may be
//!   touch       one body slid into another      saving   a change that saves what came out wrong
//!   fact        all that two sections may differ in      exchange   two pens, one barrel and cap
//! ```
//! Every number is measured on bodies that [`crate::solid`] built, in the (r, z) half-plane and
//! in closed form, never on the mesh and never from the design's own formulas. Bodies are
//! measured as modelled, with the least and with the most material that the section's tolerances
//! allow, and with the unit at its readings and at their limits.

mod advice;
mod allot;
mod bodies;
mod catalogue;
mod chord;
mod clear;
mod distance;
mod enclosing;
mod exchange;
mod fact;
mod finding;
mod judge;
mod made;
mod opening;
mod parallel;
mod room;
mod saving;
mod slide;
mod stretch;
mod thread;
mod touch;
mod trial;
mod wall;

pub use allot::{Allotment, AllottedAngle, AllottedSize, allot, corner};
pub use catalogue::{CheckInfo, info, list};
pub use chord::{Chord, Thinnest, chord};
pub use exchange::{
    Adjusted, Fit, Step, Unfit, adjust_mates, adjust_outside, adjust_section, fit, same_outside,
};
pub use fact::{Choice, Fact, FactValue, facts};
pub use finding::{
    Advice, Bound, Change, Detail, Finding, Judgement, Place, Series, Spot, Verdict,
};
pub use room::{Room, SideRoom, Worse, room, room_of};
pub use saving::savings;
pub use thread::flank_gap;
pub use touch::{Touch, touch};
pub use wall::{WallAt, WallCurve};

use crate::section::{Feature, Section};
use crate::size::{Owner, SizeId};
use crate::solid::{Body, BuildError, build};
use bodies::{Extremes, Mates, Model};
use trial::Trial;

/// All findings on a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Examination {
    /// In the order of [`list`]; zones that the section does not have are left out.
    pub findings: Vec<Finding>,
    /// How far each size that is made may be off, where that was asked for ([`examine_whole`]).
    pub room: Vec<Room>,
}

impl Examination {
    /// The finding of a code.
    pub fn finding(&self, code: &str) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.code == code)
    }

    /// The worst verdict of all.
    pub fn verdict(&self) -> Verdict {
        self.findings.iter().filter_map(Finding::verdict).max().unwrap_or(Verdict::Holds)
    }
}

/// Measures a section with all it meets, judges each measure, and finds for each that does not
/// hold a change that makes it hold.
///
/// Expects a section without [`crate::section::faults`].
///
/// # Errors
/// [`BuildError`]: section, unit or barrel can't be built, as modelled or at an end of its
/// tolerances.
pub fn examine(section: &Section) -> Result<Examination, BuildError> {
    // Lines are measured; that they are those of a closed solid is seen once.
    build(&section.part())?;
    let mates = Mates::new(section)?;
    let part = Extremes::of_section(section)?;
    let model = Model::new(section, &part, &mates);
    let mut findings = measure(&model);
    advice::advise(&Trial::new(section, &part, &mates), &mut findings);
    opening::name(section, &mut findings);
    findings.extend(thread::tell(&model));
    wall::add_curves(section, &part, &mut findings);
    let order = list();
    findings.sort_by_key(|finding| order.iter().position(|check| check.code == finding.code));
    Ok(Examination { findings, room: Vec::new() })
}

/// As [`examine`], with the room of every size.
///
/// # Errors
/// As [`examine`].
pub fn examine_whole(section: &Section) -> Result<Examination, BuildError> {
    Ok(Examination { room: room(section)?, ..examine(section)? })
}

/// As [`examine`], without looking for advice: for those who only need the verdicts.
///
/// The curves of the wall along z are left out too.
///
/// # Errors
/// As [`examine`].
pub fn verdicts(section: &Section) -> Result<Examination, BuildError> {
    let (part, mates) = (Extremes::of_section(section)?, Mates::new(section)?);
    let model = Model::new(section, &part, &mates);
    Ok(Examination { findings: measure(&model), room: Vec::new() })
}

/// The least wall of a body as it is, from its bores to its outside, in millimetres, with the features
/// on both sides; none where it has no bore.
pub fn least_wall(body: &Body) -> Option<(f64, Feature, Feature)> {
    wall::least_wall(&body.swept())
}

/// Every verdict, in the order of [`list`].
fn measure(model: &Model) -> Vec<Finding> {
    let checks = [wall::check, thread::check, made::check, clear::check];
    checks.into_iter().flat_map(|check| check(model)).collect()
}

/// The verdicts that may change with a size, in the order of [`list`]: walls do not know the
/// barrel, nothing but the cap's own checks knows the cap, and only walls know what lies off the
/// axis.
fn measure_changed(model: &Model, by: SizeId) -> Vec<Finding> {
    let checks: &[fn(&Model) -> Vec<Finding>] = if by.owner() == Owner::Cap {
        &[thread::of_cap, clear::of_cap]
    } else if by.owner() == Owner::Barrel {
        &[thread::check, made::check, clear::check]
    } else if by.is_offset() {
        &[wall::check]
    } else {
        return measure(model);
    };
    checks.iter().flat_map(|check| check(model)).collect()
}
