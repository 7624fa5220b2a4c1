//! The cap from the design.

use super::form::{self, ToolEnd};
use super::{Making, thread};
use crate::design::cap_file::{CapBoreFile, CapFile};
use crate::design::reader::Placed;
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::section::{
    Cap, CapBore, CapMouth, Counterbore, Grip, InnerCap, Item, Reading, Subject, Thread,
};
use crate::standard::ToleranceClass;

/// More bores have no names of their own, and no cap is bored so.
const MOST: usize = 100;

/// The cap; none where it is said in part only, which is noted.
pub(super) fn resolve(file: &CapFile, grip: &Grip, making: &mut Making) -> Option<Cap> {
    let own = grip.thread.as_ref().map(|cap| &cap.thread);
    let stops_at = file.stops_at.as_ref().map_or_else(
        || {
            let (z, why) = match own {
                Some(thread) => (thread.to, "where the run with its thread ends"),
                None => (grip.length(), "the shoulder: the barrel carries its thread"),
            };
            making.derive("cap.stops_at", &z, why);
            z
        },
        |written| written.value.0,
    );
    places(file, making);
    let inner_length = making.read("cap.length", &file.length);
    let counterbore = file
        .counterbore
        .as_ref()
        .map(|ring| Counterbore { diameter: ring.diameter.value.0, depth: ring.along.value.0 });
    let from = counterbore.map_or(Length::ZERO, |counterbore| counterbore.depth);
    let to = hole_end(file, own, stops_at, making);
    let mouth = match (&file.thread_minor, own) {
        (Some(minor), None) => {
            let diameter = making.read("cap.thread_minor", minor);
            to.map(|to| CapMouth::Minor { diameter, to })
        }
        (Some(minor), Some(thread)) => {
            let same = thread.designation.with_class(Some(ToleranceClass::MEDIUM_INTERNAL));
            let message = "the section carries the cap's thread: its minor diameter alone won't do";
            let mut fault = Diagnostic::error("cap.needs-thread", message).at(minor.at());
            if let Some(at) = making.places.get(Subject::Thread(Item::CapThread)) {
                fault = fault.also(at, "its thread");
            }
            making.log.push(fault.hint(format!("thread = \"{same}\"")));
            None
        }
        (None, _) => inside_thread(file, own, (from, to), making),
    };
    let bores = bores(&file.bores, inner_length.value, making);
    let seal = file.seal.as_ref().map(|seal| InnerCap {
        depth: making.read("cap.seal.depth", &seal.depth),
        diameter: making.read("cap.seal.diameter", &seal.diameter),
    });
    Some(Cap { stops_at, counterbore, mouth: mouth?, bores: bores?, inner_length, seal })
}

fn places(file: &CapFile, making: &mut Making) {
    let places = &mut making.places;
    places.set(Subject::CapStop, file.stops_at.as_ref().map_or(file.at, Placed::at));
    if let Some(ring) = &file.counterbore {
        places.set(Subject::CapCounterbore, ring.at);
    }
    let hole = file.full_thread_to.as_ref().map_or(file.length.at(), Placed::at);
    places.set(Subject::Depth(Item::CapInsideThread), hole);
    places.set(Subject::Depth(Item::CapHole), hole);
    for (n, bore) in (1..).zip(file.bores.iter().take(MOST)) {
        places.set(Subject::CapBore(n), bore.to.as_ref().map_or(bore.at, Placed::at));
        places.diameter(bore.diameter.value.value, bore.diameter.at());
    }
    if let Some(seal) = &file.seal {
        places.set(Subject::CapSeal, seal.at);
    }
}

/// Where the full thread, or the hole of the barrel's thread, ends.
fn hole_end(
    file: &CapFile,
    own: Option<&Thread>,
    stops_at: Length,
    making: &mut Making,
) -> Option<Length> {
    if let Some(to) = &file.full_thread_to {
        return Some(to.value.0);
    }
    let Some(thread) = own else {
        let message = "`cap` lacks `full_thread_to`: the barrel's thread is as long as that";
        let fault = Diagnostic::error("key.missing", message).at(file.at);
        making.log.push(fault.hint("write full_thread_to = 7 (`cap.full_thread_to`)"));
        return None;
    };
    let (front, turn) = (stops_at - thread.from, thread.form.lead());
    let to = front + turn;
    let why = format!("the section's thread begins {front} inside the closed cap, + a turn {turn}");
    making.derive("cap.full_thread_to", &to, why);
    Some(to)
}

/// The thread inside the cap: as it is written, or the section's.
fn inside_thread(
    file: &CapFile,
    own: Option<&Thread>,
    (from, to): (Length, Option<Length>),
    making: &mut Making,
) -> Option<CapMouth> {
    let (designation, at) = match (&file.thread, own) {
        (Some(written), _) => (written.value, written.at()),
        (None, Some(thread)) => {
            let same = thread.designation.with_class(Some(ToleranceClass::MEDIUM_INTERNAL));
            making.derive("cap.thread", &same, "the section's thread, class 6H");
            (same, making.places.get(Subject::Thread(Item::CapThread)).unwrap_or(file.at))
        }
        (None, None) => {
            let message = "`cap` lacks `thread_minor`: what the grip passes at its mouth";
            let fault = Diagnostic::error("key.missing", message).at(file.at);
            making.log.push(fault.hint("write thread_minor = 12.6 (`cap.thread_minor`)"));
            return None;
        }
    };
    making.places.set(Subject::Thread(Item::CapInsideThread), at);
    let thread = thread::internal(designation, at, Item::CapInsideThread, (from, to?), making)?;
    let thread = match own {
        Some(own) if file.thread.is_none() && file.cut.form.is_none() => {
            form::mating(thread, &own.form)?
        }
        _ => thread,
    };
    let thread = form::cut(thread, &file.cut, ToolEnd::To, making)?;
    Some(CapMouth::Thread(Box::new(thread)))
}

fn bores(file: &[CapBoreFile], end: Length, making: &mut Making) -> Option<Vec<CapBore>> {
    if let Some(bore) = file.get(MOST) {
        let message = format!("a cap of {} bores is more than can be bored", file.len());
        let fault = Diagnostic::error("cap.too-many-bores", message).at(bore.at);
        making.log.push(fault.hint(format!("{MOST} bores at most")));
        return None;
    }
    let mut all = Vec::new();
    for (n, bore) in file.iter().enumerate() {
        let key = format!("cap.bores.{}", n + 1);
        let diameter: Reading = making.read(&format!("{key}.diameter"), &bore.diameter);
        let to = match &bore.to {
            Some(to) => to.value.0,
            None if n + 1 == file.len() => {
                making.derive(&format!("{key}.to"), &end, "the closed end");
                end
            }
            None => {
                let message = format!("`{key}` lacks `to`: only the last bore may leave it out");
                let fault = Diagnostic::error("key.missing", message).at(bore.at);
                making.log.push(fault.hint("write to = 12"));
                return None;
            }
        };
        all.push(CapBore { diameter, to });
    }
    Some(all)
}
