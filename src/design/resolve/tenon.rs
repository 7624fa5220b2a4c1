//! The tenon from the design.

use super::Making;
use super::form::{self, ToolEnd};
use super::thread;
use crate::design::design_file::{RingFile, TenonFile};
use crate::design::reader::Placed;
use crate::quantity::Length;
use crate::section::{Item, LeadChamfer, Pilot, Relief, Subject, Tenon};
use crate::standard::iso68;

/// The tenon behind a shoulder; none where its thread has no limits, which is noted.
pub(super) fn resolve(file: &TenonFile, shoulder: Length, making: &mut Making) -> Option<Tenon> {
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
        LeadChamfer::at_45(depth)
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
