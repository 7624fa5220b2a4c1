//! Grip and tenon from the design.

use super::Making;
use super::form::{self, ToolEnd};
use super::thread;
use crate::design::design_file::{GripFile, RingFile, TenonFile};
use crate::design::reader::Placed;
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::section::{
    Grip, GripRun, Item, Pilot, Relief, SectionError, Shape, Station, Subject, Tenon,
};
use crate::standard::iso68;

/// More runs have no names of their own, and no lathe work is described like that.
const MOST_RUNS: usize = 100;

/// The grip; without runs it is straight.
pub(super) fn grip(file: &GripFile, making: &mut Making) -> Grip {
    let front = file.front.value.0;
    let length = file.length.value.0;
    making.places.set(Subject::GripLength, file.length.at());
    making.places.diameter(front, file.front.at());
    making.places.outside(Length::ZERO, file.front.at());
    let mut runs: Vec<GripRun> = Vec::new();
    if let Some(run) = file.runs.get(MOST_RUNS) {
        making.log.push(
            Diagnostic::error(
                "grip.too-many-runs",
                format!("a grip of {} runs is more than can be turned", file.runs.len()),
            )
            .at(run.to.at())
            .hint(format!("{MOST_RUNS} runs at most")),
        );
    }
    for (n, run) in file.runs.iter().take(MOST_RUNS).enumerate() {
        making.places.set(Subject::GripRun(n), run.to.at());
        let before = runs.last().map_or(front, |run| run.to.diameter);
        let diameter = run.diameter.as_ref().map_or(before, |diameter| diameter.value.0);
        let to = Station::new(diameter, run.to.value.0);
        let written = run.diameter.as_ref().map_or(run.to.at(), Placed::at);
        making.places.outside(to.z, written);
        making.places.station(to.z, run.to.at());
        if let Some(written) = &run.diameter {
            making.places.diameter(diameter, written.at());
        }
        runs.push(GripRun { to, shape: Shape::Straight });
    }
    match runs.last() {
        None => {
            making.derive("grip.run", &length, "no runs: the grip is straight");
            let to = Station::new(front, length);
            making.places.set(Subject::GripRun(0), file.length.at());
            making.places.outside(length, file.front.at());
            runs.push(GripRun { to, shape: Shape::Straight });
        }
        Some(last) if last.to.z != length && file.runs.len() <= MOST_RUNS => {
            let (run, to, shoulder) = (runs.len() - 1, last.to.z, length);
            let error = SectionError::RunsMissShoulder { run, to, shoulder };
            let diagnostic = making.places.diagnostic(&error);
            making.log.push(diagnostic);
        }
        Some(_) => {}
    }
    Grip { front, runs }
}

/// The tenon behind a shoulder; none where its thread has no limits, which is noted.
pub(super) fn tenon(file: &TenonFile, shoulder: Length, making: &mut Making) -> Option<Tenon> {
    let length = file.length.value.0;
    let ring = |ring: &RingFile| (ring.along.value.0, ring.diameter.value.0);
    let relief = file.relief.as_ref().map(ring).map(|(width, diameter)| Relief { width, diameter });
    let pilot = file.pilot.as_ref().map(ring).map(|(length, diameter)| Pilot { length, diameter });
    let places = &mut making.places;
    places.outside(shoulder + length, file.thread.at());
    places.set(Subject::TenonLength, file.length.at());
    places.set(Subject::Thread(Item::TenonThread), file.thread.at());
    for (subject, ring) in [(Subject::Relief, &file.relief), (Subject::Pilot, &file.pilot)] {
        if let Some(ring) = ring {
            places.set(subject, ring.at);
            places.diameter(ring.diameter.value.0, ring.diameter.at());
        }
    }
    places.set(Subject::TenonChamfer, file.chamfer.as_ref().map_or(file.thread.at(), Placed::at));
    let pitch = file.thread.value.pitch();
    let chamfer = if let Some(chamfer) = &file.chamfer {
        chamfer.value.0
    } else {
        let depth = iso68::external_depth(pitch);
        making.derive("tenon.chamfer", &depth, "depth of the thread with its root rounded");
        depth
    };
    if file.thread.value.class().is_none() {
        making.derive("tenon.thread", &"class 6g", "the usual class (ISO 965-1)");
    }
    let from = shoulder + relief.map_or(Length::ZERO, |relief| relief.width);
    let to = shoulder + length - pilot.map_or(Length::ZERO, |pilot| pilot.length);
    let thread = thread::external(&file.thread, Item::TenonThread, (from, to), making)?;
    let thread = form::cut(thread, &file.cut, ToolEnd::From, making)?;
    Some(Tenon { thread, length, chamfer, relief, pilot })
}
