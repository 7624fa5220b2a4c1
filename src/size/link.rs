//! What goes with what: ends that are one place, whichever of two sizes says where it is.
//!
//! A thread begins where the hole in front of it ends; a cap stops at the shoulder. Such ends are
//! found on the section as it is, by coincidence, and are one place still when one of them moves.

use super::{SizeId, coincide};
use crate::quantity::Length;
use crate::section::{CapMouth, Item, Section, Thread};

impl SizeId {
    /// Its value, in millimetres (of an angle in degrees); none where the section has no such thing.
    pub fn get(self, section: &Section) -> Option<f64> {
        super::owner_of(self).get(self, section)
    }

    /// The section with this size at another value, and with it what is cut by the same tool or is
    /// one place with it; nothing is derived anew.
    pub fn set(self, section: &Section, value: f64) -> Option<Section> {
        section.with(&[(self, value)])
    }
}

impl Section {
    /// The section with some sizes at other values, one after the other, and with them what is cut
    /// by the same tool or is one place with them; nothing is derived anew. None where it has no
    /// such size, or it can't have the value.
    pub fn with(&self, changes: &[(SizeId, f64)]) -> Option<Self> {
        let mut changed = self.clone();
        for (size, value) in changes {
            let links = Links::of(&changed);
            size.get(&changed)?;
            super::owner_of(*size).put(*size, &mut changed, *value)?;
            links.join(&mut changed, *size);
        }
        Some(changed)
    }
}

/// Which end of what is one place with which face.
#[derive(Clone, Copy, Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is a link by itself, there or not")]
struct Links {
    /// The unit's thread begins where the clearance bore ends.
    unit_thread: bool,
    /// Runs of the grip, by their number, whose ends lie at the shoulder.
    at_shoulder: Option<usize>,
    /// The run at whose end the thread for the cap begins, and the one at whose end it ends.
    cap_thread: [Option<usize>; 2],
    /// The run at whose end the cap stops.
    cap_stop: Option<usize>,
    /// The tenon's thread begins behind its relief.
    relief: bool,
    /// It ends where the plain end begins, or at the back face.
    tenon_end: bool,
    /// The barrel's thread begins where its counterbore ends.
    counterbore: bool,
    /// The cap's thread begins where its counterbore ends.
    cap_counterbore: bool,
}

impl Links {
    fn of(section: &Section) -> Self {
        let grip = &section.grip;
        let run_at = |z: Length| grip.runs.iter().position(|run| coincide(run.to.z, z));
        let cap = grip.thread.as_ref().map(|cap| &cap.thread);
        Self {
            unit_thread: ends_at(section, Item::ClearanceBore)
                .is_some_and(|end| coincide(section.unit_thread.from, end)),
            at_shoulder: run_at(grip.length()),
            cap_thread: [cap.and_then(|it| run_at(it.from)), cap.and_then(|it| run_at(it.to))],
            cap_stop: section.cap.as_ref().and_then(|cap| run_at(cap.stops_at)),
            relief: section.tenon.relief.is_some()
                && coincide(section.tenon.thread.from, thread_start(section)),
            tenon_end: coincide(section.tenon.thread.to, thread_end(section)),
            counterbore: section
                .barrel
                .counterbore
                .is_some_and(|ring| coincide(section.barrel.thread.from, ring.depth)),
            cap_counterbore: cap_thread(section)
                .zip(section.cap.as_ref().and_then(|cap| cap.counterbore))
                .is_some_and(|(thread, ring)| coincide(thread.from, ring.depth)),
        }
    }

    /// Makes them one place again after a size was put; what that size says itself stays.
    fn join(self, section: &mut Section, put: SizeId) {
        if let (Some(first), SizeId::GripLength) = (self.at_shoulder, put) {
            let shoulder = section.grip.length();
            for run in &mut section.grip.runs[first..] {
                run.to.z = shoulder;
            }
        }
        let end_of = |section: &Section, run: usize| section.grip.runs[run].to.z;
        let ends = self.cap_thread.map(|run| run.map(|run| end_of(section, run)));
        if let Some(cap) = &mut section.grip.thread {
            if let (Some(from), true) = (ends[0], put != SizeId::GripThreadStart) {
                cap.thread.from = from;
            }
            if let (Some(to), true) = (ends[1], put != SizeId::GripThreadEnd) {
                cap.thread.to = to;
            }
        }
        let stop = self.cap_stop.filter(|_| put != SizeId::CapStop).map(|run| end_of(section, run));
        if let (Some(cap), Some(stop)) = (&mut section.cap, stop) {
            cap.stops_at = stop;
        }
        let clearance = ends_at(section, Item::ClearanceBore);
        if let (true, Some(end)) = (self.unit_thread && put != SizeId::UnitThreadStart, clearance) {
            section.unit_thread.from = end;
        }
        if self.relief && put != SizeId::TenonThreadStart {
            section.tenon.thread.from = thread_start(section);
        }
        if self.tenon_end && put != SizeId::TenonThreadEnd {
            section.tenon.thread.to = thread_end(section);
        }
        if let (true, Some(ring)) = (self.counterbore, section.barrel.counterbore) {
            section.barrel.thread.from = ring.depth;
        }
        if let Some(cap) = &mut section.cap {
            if let (true, Some(ring), CapMouth::Thread(thread)) =
                (self.cap_counterbore, cap.counterbore, &mut cap.mouth)
            {
                thread.from = ring.depth;
            }
            if let (SizeId::CapLength, Some(last)) = (put, cap.bores.last_mut()) {
                last.to = cap.inner_length.value;
            }
        }
    }
}

fn ends_at(section: &Section, item: Item) -> Option<Length> {
    Some(section.bore(item)?.full_depth(section.length()))
}

fn cap_thread(section: &Section) -> Option<&Thread> {
    section.cap.as_ref()?.thread()
}

/// Where the tenon's thread can begin: behind its relief.
fn thread_start(section: &Section) -> Length {
    section.grip.length() + section.tenon.relief.map_or(Length::ZERO, |relief| relief.width)
}

/// Where it can end: before its plain end.
fn thread_end(section: &Section) -> Length {
    section.length() - section.tenon.pilot.map_or(Length::ZERO, |pilot| pilot.length)
}
