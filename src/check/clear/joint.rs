//! `joint.*`: the section screwed into its barrel.

use crate::check::bodies::{Built, Model};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::Rest;
use crate::check::{Bound, CheckInfo, Finding, Place, thread};
use crate::section::{Facet, Feature, Item, Skin};
use crate::size::words;

/// The shoulder closes before the tenon bottoms or jams.
static SHOULDER: CheckInfo = CheckInfo {
    code: "joint.shoulder",
    title: "Room in the barrel when the shoulder closes on it",
    measures: "How much farther the tenon could go when the shoulder closes on the barrel, before \
        it bottoms or its thread's run-out jams.",
    limit: "Less than none: the shoulder stays open.",
};

/// Outside diameters at the joint.
static FLUSH: CheckInfo = CheckInfo {
    code: "joint.flush",
    title: "How much wider the section is than the barrel at the joint",
    measures: "The section's diameter at the shoulder less the barrel's at the joint.",
    limit: "The greatest step, to either side, that the joint may have.",
};

/// Its checks, in the order of their findings.
pub(super) static CHECKS: [&CheckInfo; 2] = [&SHOULDER, &FLUSH];

/// The shoulder's closing, and the step at the joint.
pub(in crate::check) fn check(model: &Model) -> Vec<Finding> {
    let mut findings = vec![shoulder(model)];
    findings.extend(flush(model));
    findings
}

/// What is left when the shoulder is closed: to the bottom, and to whatever else touches.
struct Room {
    rest: Rest,
    /// From the tenon's end to the bottom of the hole.
    bottom: f64,
    /// To the first other contact, if there is one.
    jam: Option<f64>,
}

impl Room {
    fn least(&self) -> f64 {
        self.jam.map_or(self.bottom, |jam| jam.min(self.bottom))
    }
}

fn room(model: &Model, part: &Built, barrel: &Built) -> Room {
    let rest = thread::tenon::rest(model, part, barrel);
    let end = part.end() + rest.advance();
    let bottom = barrel.end();
    match rest.seat {
        Some(_) => Room { bottom: bottom - end, jam: rest.room(), rest },
        // Nothing closes: whatever stops the tenon, it is not the shoulder.
        None => Room { bottom: -bottom, jam: None, rest },
    }
}

fn shoulder(model: &Model) -> Finding {
    let Model { part, barrel, .. } = model;
    let drawn = room(model, &part.drawn, &barrel.drawn);
    let worst = [room(model, &part.least, &barrel.least), room(model, &part.most, &barrel.most)]
        .iter()
        .map(Room::least)
        .fold(drawn.least(), f64::min);
    let band = model.section.criteria.band.as_mm();
    let measure = Measure { worst, error: ROUNDING, uncertainty: 0.0, band };
    let source = "geometry: the shoulder must close before anything else touches";
    let measured = drawn.least();
    let mut details = vec![detail("behind the tenon", drawn.bottom, "mm")];
    details.extend(drawn.jam.map(|jam| detail("before the threads jam", jam, "mm")));
    let to_section = drawn.rest.advance();
    let place = drawn.rest.other.map(|c| {
        let (inner, mut outer) = (c.inner, c.outer);
        outer.z -= to_section;
        Place { inner, outer }
    });
    let note = if drawn.rest.seat.is_none() {
        Some("the shoulder finds no face of the barrel to close on".to_owned())
    } else if worst >= -ROUNDING {
        None
    } else if let Some((c, jam)) =
        drawn.rest.other.zip(drawn.jam).filter(|(_, j)| *j < drawn.bottom)
    {
        let (inner, outer) = (words::surface(c.inner.feature), words::surface(c.outer.feature));
        Some(format!("{inner} meets {outer} {:.2} mm before the shoulder closes", -jam))
    } else {
        Some(format!("the tenon bottoms {:.2} mm before the shoulder closes", -drawn.bottom))
    };
    Finding {
        judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
        place,
        note,
        details,
        ..finding(&SHOULDER, measured, "mm", ROUNDING)
    }
}

/// Outside diameters at the joint: a pen with a step there on purpose says so in its limits.
fn flush(model: &Model) -> Option<Finding> {
    let widest = |body: &Built, of: &dyn Fn(Feature) -> bool| {
        let lines = body.lines.iter().filter(|l| of(l.feature) && l.skin == Skin::Outside);
        lines.flat_map(|l| [l.from[0], l.to[0]]).reduce(f64::max)
    };
    // A cut corner at the shoulder's rim is the joint's, not the diameter's.
    let last = u8::try_from(model.section.grip.runs.len()).unwrap_or(u8::MAX);
    let rim = |of: Feature| of.item == Item::Grip(last) && of.facet != Facet::Side;
    let joins = |of: Feature| of.item == Item::Shoulder || rim(of);
    let section = widest(&model.part.drawn, &joins)?;
    let barrel = widest(&model.barrel.drawn, &|of| of.item == Item::Barrel)?;
    let (step, criteria) = ((section - barrel) * 2.0, &model.section.criteria);
    let limit = &criteria.fits.joint_step;
    let band = criteria.band.as_mm();
    let measure = Measure { worst: step.abs(), error: ROUNDING, uncertainty: 0.0, band };
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtMost, limit.value.as_mm(), &limit.source)),
        details: vec![
            detail("section's diameter", section * 2.0, "mm"),
            detail("barrel's diameter", barrel * 2.0, "mm"),
        ],
        ..finding(&FLUSH, step, "mm", ROUNDING)
    })
}
