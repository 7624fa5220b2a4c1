//! `made.tap-lead`, `made.barrel-lead`: is there room behind the full thread for the tap's lead?
//!
//! ```text
//!    full thread      lead     room, behind the full thread
//!   /\/\/\/\/\/\/\/\/~~--__
//!   |                |<------------>|\
//!                                     \  hole narrower than the thread's crest: the tap stops
//! ```

use crate::check::bodies::{Built, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::narrows_behind;
use crate::check::{Bound, CheckInfo, Finding, Place};
use crate::section::{RunOut, Section, Thread};

const MEASURES: &str = "From the end of the full thread to where the hole gets narrower than the \
    thread's crest, or ends, so that a tap could go no farther.";
const LIMIT: &str = "The length of the tap's lead, which leaves the thread incomplete; less, and \
    the thread is not full where it is drawn so.";

/// The section's thread.
pub(super) static UNIT: CheckInfo = CheckInfo {
    code: "made.tap-lead",
    title: "Room for the tap's lead behind the section's thread",
    measures: MEASURES,
    limit: LIMIT,
};

/// The barrel's thread.
pub(super) static BARREL: CheckInfo = CheckInfo {
    code: "made.barrel-lead",
    title: "Room for the tap's lead behind the barrel's thread",
    measures: MEASURES,
    limit: LIMIT,
};

/// The section's thread.
pub(super) fn unit(model: &Model) -> Option<Finding> {
    let bodies = [&model.part.drawn, &model.part.least, &model.part.most];
    check(model.section, &UNIT, bodies, &model.section.unit_thread, 0.0)
}

/// The barrel's thread.
pub(super) fn barrel(model: &Model) -> Option<Finding> {
    let bodies = [&model.barrel.drawn, &model.barrel.least, &model.barrel.most];
    let origin = model.section.grip.length().as_mm();
    check(model.section, &BARREL, bodies, &model.section.barrel.thread, origin)
}

/// What the tool leaves incomplete beside what is cut on the body: a tap's lead that the thread
/// as drawn does not show.
fn lead(section: &Section, thread: &Thread, body: &Built) -> Option<(f64, String)> {
    let cut = body.thread(thread.item)?;
    Some(match thread.run_outs[1] {
        RunOut::Wall => {
            let limit = &section.criteria.tap_lead;
            (
                limit.value * cut.pitch,
                format!("{} pitches of a tap's lead, {}", limit.value, limit.source),
            )
        }
        RunOut::Lead(_) => {
            (cut.extent[1] - cut.full[1], "the lead of this design's tap".to_owned())
        }
        RunOut::Withdrawal { .. } => {
            (cut.extent[1] - cut.full[1], "the tool is drawn out on the way".to_owned())
        }
    })
}

fn check(
    section: &Section,
    info: &'static CheckInfo,
    [drawn, least, most]: [&Built; 3],
    thread: &Thread,
    origin: f64,
) -> Option<Finding> {
    let room = |body: &Built| {
        let cut = body.thread(thread.item)?;
        let stop = narrows_behind(body, cut.full[1], cut.crest);
        Some((stop.map_or(body.end(), |spot| spot.z) - cut.full[1], stop))
    };
    let (measured, stop) = room(drawn)?;
    let worst = [least, most].into_iter().filter_map(room).map(|(room, _)| room);
    let worst = worst.fold(measured, f64::min);
    let (limit, source) = lead(section, thread, drawn)?;
    let band = section.criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: 0.0, band };
    let pitch = thread.form.pitch.as_mm();
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtLeast, limit, &source)),
        place: stop.map(|mut spot| {
            spot.z += origin;
            Place { inner: spot, outer: spot }
        }),
        details: vec![
            detail("the same", measured / pitch, "pitches"),
            detail("the lead needs", limit, "mm"),
        ],
        ..finding(info, measured, "mm", ROUNDING)
    })
}
