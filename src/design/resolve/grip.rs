//! The grip from the design.

use super::Making;
use super::form::{self, ToolEnd};
use super::thread;
use crate::design::grip_file::{CornerFile, GripFile, GripRingFile, RunFile};
use crate::design::reader::Placed;
use crate::design::thread_file::CutFile;
use crate::design::value::TangentTo;
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;
use crate::section::{
    CapThread, Corner, Curve, Grip, GripRun, Item, Ring, RingForm, SectionError, Station, Subject,
};
use crate::standard::ThreadDesignation;

/// More runs, beads or grooves have no names of their own, and no lathe work is described so.
const MOST: usize = 100;

/// The grip; without runs it is straight.
pub(super) fn resolve(file: &GripFile, making: &mut Making) -> Grip {
    let front = file.front.value.0;
    let length = file.length.value.0;
    making.places.set(Subject::GripLength, file.length.at());
    making.places.diameter(front, file.front.at());
    making.places.outside(Length::ZERO, file.front.at());
    let too_many = file.runs.get(MOST).map(|run| (file.runs.len(), "runs", run.to.at()));
    let beads = file.beads.get(MOST).map(|ring| (file.beads.len(), "beads", ring.header));
    let grooves = file.grooves.get(MOST).map(|ring| (file.grooves.len(), "grooves", ring.header));
    for (count, what, at) in [too_many, beads, grooves].into_iter().flatten() {
        let message = format!("a grip of {count} {what} is more than can be turned");
        let diagnostic = Diagnostic::error("grip.too-many-runs", message).at(at);
        making.log.push(diagnostic.hint(format!("{MOST} {what} at most")));
    }
    let rim = corner(&file.rim, 0, making);
    let mut grip = Grip { rim, ..Grip::plain(front, Vec::new()) };
    for (n, run) in file.runs.iter().take(MOST).enumerate() {
        let before = grip.back();
        let to = run_end(n, run, before, making);
        let (curve, corner) = (curve(run, n, making), corner(&run.corner, n + 1, making));
        let from = grip.length();
        grip.runs.push(GripRun { to, curve, corner });
        if let Some(written) = &run.thread {
            carry(&mut grip, n, (written, &run.cut), (from, to.z), making);
        } else if run.cut.is_asked() {
            let message = "`form`, `run_out` and `phase` shape a thread, and this run has none";
            making.log.push(
                Diagnostic::error("grip.no-thread", message)
                    .at(run.to.at())
                    .hint("thread = \"M13x0.8\", or take them out"),
            );
        }
    }
    shoulder(file, &mut grip, length, making);
    grip.rings.extend((1..).zip(file.beads.iter().take(MOST)).map(|(n, bead)| {
        let form = RingForm::Bead;
        ring(bead, Item::Bead(n), form, making)
    }));
    grip.rings.extend((1..).zip(file.grooves.iter().take(MOST)).map(|(n, groove)| {
        let form = groove.shape.as_ref().map_or(RingForm::RoundGroove, |shape| shape.value.0);
        ring(groove, Item::Groove(n), form, making)
    }));
    grip
}

/// Where a run ends: as wide as it says, as its thread, or as the run before it.
fn run_end(n: usize, run: &RunFile, before: Length, making: &mut Making) -> Station {
    let z = run.to.value.0;
    let thread = run.thread.as_ref().map(|thread| thread.value.diameter());
    let diameter = match (&run.diameter, thread) {
        (Some(diameter), _) => diameter.value.0,
        (None, Some(major)) => {
            let key = format!("grip.run.{}.diameter", n + 1);
            making.derive(&key, &major, "major diameter of its thread");
            major
        }
        (None, None) => before,
    };
    if let (Some(written), Some(thread)) = (&run.diameter, &run.thread)
        && written.value.0 != thread.value.diameter()
    {
        let major = thread.value.diameter();
        let message = format!("a run {diameter} wide can't carry a thread of {major}");
        making.log.push(
            Diagnostic::error("grip.thread-diameter", message)
                .at(written.at())
                .also(thread.at(), "its thread")
                .hint(format!("diameter = {}, or leave it out", major.as_mm())),
        );
    }
    let places = &mut making.places;
    places.set(Subject::GripRun(n), run.to.at());
    let width = run.diameter.as_ref().map(Placed::at).or(run.thread.as_ref().map(Placed::at));
    places.outside(z, run.curve_at().or(width).unwrap_or(run.to.at()));
    places.station(z, run.to.at());
    if let Some(at) = width {
        places.diameter(diameter, at);
    }
    Station::new(diameter, z)
}

fn curve(run: &RunFile, n: usize, making: &mut Making) -> Curve {
    let (curve, at) = if let Some(radius) = &run.concave {
        (Curve::Concave(radius.value.0), radius.at())
    } else if let Some(radius) = &run.convex {
        (Curve::Convex(radius.value.0), radius.at())
    } else if let Some(point) = &run.through {
        let station = Station::new(point.diameter.value.0, point.z.value.0);
        (Curve::Through(station), point.at)
    } else if let Some(tangent) = &run.tangent {
        let curve = match tangent.value {
            TangentTo::Before => Curve::TangentBefore,
            TangentTo::After => Curve::TangentAfter,
        };
        (curve, tangent.at())
    } else {
        return Curve::Straight;
    };
    making.places.set(Subject::GripCurve(n), at);
    curve
}

fn corner(file: &CornerFile, n: usize, making: &mut Making) -> Corner {
    let (corner, at): (Corner, Place) = match (&file.fillet, &file.chamfer) {
        (Some(radius), _) => (Corner::Fillet(radius.value.0), radius.at()),
        (None, Some(legs)) => {
            let (before, after) = (legs.value.before, legs.value.after);
            (Corner::Chamfer { before, after }, legs.at())
        }
        (None, None) => return Corner::Sharp,
    };
    making.places.set(Subject::GripCorner(n), at);
    corner
}

/// Lets a run carry the cap's thread; there is one at most.
fn carry(
    grip: &mut Grip,
    run: usize,
    (written, cut): (&Placed<ThreadDesignation>, &CutFile),
    extent: (Length, Length),
    making: &mut Making,
) {
    if let Some(first) = making.places.get(Subject::Thread(Item::CapThread)) {
        making.log.push(
            Diagnostic::error("grip.two-threads", "a grip carries one thread for its cap")
                .at(written.at())
                .also(first, "the other one")
                .hint("take one of them out; a longer thread is one longer run"),
        );
        return;
    }
    making.places.set(Subject::Thread(Item::CapThread), written.at());
    if written.value.class().is_none() {
        let key = format!("grip.run.{}.thread", run + 1);
        making.derive(&key, &"class 6g", "the usual class (ISO 965-1)");
    }
    let thread = thread::external(written, Item::CapThread, extent, making);
    let thread = thread.and_then(|thread| form::cut(thread, cut, ToolEnd::To, making));
    grip.thread = thread.map(|thread| CapThread { run, thread });
}

/// The last run ends at the shoulder; a grip without runs is one.
fn shoulder(file: &GripFile, grip: &mut Grip, length: Length, making: &mut Making) {
    match grip.runs.last() {
        None => {
            making.derive("grip.run", &length, "no runs: the grip is straight");
            making.places.set(Subject::GripRun(0), file.length.at());
            making.places.outside(length, file.front.at());
            grip.runs.push(GripRun::straight(Station::new(grip.front, length)));
        }
        Some(last) if last.to.z != length && file.runs.len() <= MOST => {
            let (run, to, shoulder) = (grip.runs.len() - 1, last.to.z, length);
            let error = SectionError::RunsMissShoulder { run, to, shoulder };
            let diagnostic = making.places.diagnostic(&error);
            making.log.push(diagnostic);
        }
        Some(_) => {}
    }
}

fn ring(file: &GripRingFile, item: Item, form: RingForm, making: &mut Making) -> Ring {
    let (at, width, height) = (file.at.value.0, file.width.value.0, file.height.value.0);
    making.places.set(Subject::Ring(item), file.at.at());
    making.places.set(Subject::RingHeight(item), file.height.at());
    let half = width / 2.0;
    making.places.ring(at - half, at + half, file.height.at());
    Ring { item, form, at, width, height }
}
