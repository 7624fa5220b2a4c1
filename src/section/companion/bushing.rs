//! A bushing, bored and threaded for the tenon, to hold the section by it.
//!
//! ```text
//!   r ^  ______________________________
//!     | |                              |   held in a collet or chuck, behind the thread
//!     | |__                 ___________|
//!     |    |/\/\/\/\/\/\/\/|               counterbore, thread, bore for a drill or push rod
//!     +----------------------------------> z
//! ```
//! Its own axis: z = 0 is the front face, the seat of the section's shoulder.

use super::check_thread::{check_fit, counterpart};
use super::{BODY, GRASP, HALVES, HUNDREDTHS, PAST_ROOT, TENTHS, down, up};
use crate::quantity::{Length, Limits};
use crate::section::outside::Pen;
use crate::section::{
    Counterbore, Facet, Feature, Item, Part, Section, Skin, Station, Thread, ThreadForm,
    ThreadLimits,
};
use crate::standard::iso965::{self, Position};
use crate::standard::{System, ToleranceClass};

/// The least difference between the shoulder's edge and the root of the bushing's thread, on the
/// diameter: less, and the seat is a line that the chuck's pull marks the shoulder with.
const LEAST_SEAT: Length = Length::mm(0.2);

/// The least length of the counterbore, in pitches (common practice, no source): less, and the
/// thread's first burr stands out of the seat.
const COUNTERBORE: f64 = 1.0;

/// Pitches of full thread beyond the tenon's own (common practice, no source): less, and a tenon
/// at the long end of its tolerance bottoms in the thread before its shoulder is seated.
const BEYOND: f64 = 1.0;

/// A bushing.
#[derive(Clone, Debug, PartialEq)]
pub struct Bushing {
    /// Outside diameter, whole millimetres: the thread's root with 3 mm of wall, and no less than
    /// the shoulder.
    pub diameter: Length,
    /// From end to end.
    pub length: Length,
    /// Takes the tenon's incomplete thread or relief, and the burr of its own.
    pub counterbore: Counterbore,
    /// The thread for the tenon; `from` is the counterbore's end.
    pub thread: Thread,
    /// Diameter of the bore from the thread's end to the back.
    pub bore: Length,
}

impl Section {
    /// The bushing for its tenon; none where the shoulder has no face to seat on it (it stands
    /// less than 0.1 mm beyond the thread), or where the thread's pitch has no fit.
    pub fn bushing(&self) -> Option<Bushing> {
        let tenon = &self.tenon;
        let mut thread = self.bushing_thread()?;
        let edge = self.face_diameter(Item::Shoulder)?;
        let (root, pitch) = (thread.form.root, thread.form.pitch);
        if edge - root < LEAST_SEAT {
            return None;
        }
        let shoulder = self.grip.length();
        let relief = tenon.relief.map_or(Length::ZERO, |relief| relief.width);
        let [full_from, _] = tenon.thread.full();
        let incomplete = (full_from - shoulder).max(relief).max(pitch * COUNTERBORE);
        // Half the seat is left where the shoulder is narrow.
        let widest = down(root + (edge - root) / 2.0, HUNDREDTHS);
        let counterbore = Counterbore {
            diameter: up(root + PAST_ROOT * 2.0, TENTHS).min(widest),
            depth: up(incomplete, TENTHS),
        };
        let pilot = tenon.pilot.map_or(Length::ZERO, |pilot| pilot.length);
        thread.from = counterbore.depth;
        thread.to = up((tenon.length - pilot).max(counterbore.depth) + pitch * BEYOND, HALVES);
        let bore = up(root + PAST_ROOT * 2.0, TENTHS);
        let wall = (root + BODY * 2.0).max(edge);
        Some(Bushing {
            diameter: up(wall, 1.0),
            length: up(thread.to.max(tenon.length) + GRASP, 1.0),
            counterbore,
            thread,
            bore,
        })
    }

    /// The tenon's thread, inside: of the barrel's class where it has one, else 6H, in the middle
    /// of its limits; and no closer to the tenon, at its most material and as it is modelled, than
    /// a check ring is ([`check_fit`]).
    fn bushing_thread(&self) -> Option<Thread> {
        let tenon = &self.tenon.thread;
        let fit = check_fit(tenon)?;
        let free = counterpart(&at_most_material(tenon), Item::BushingThread, fit);
        let (d, p) = (tenon.designation.diameter(), tenon.form.pitch);
        let inside = |class: &ToleranceClass| {
            matches!(class.position(), Position::InternalG | Position::InternalH)
        };
        let class = self.barrel.thread.designation.class().filter(inside);
        let class = class.unwrap_or(ToleranceClass::MEDIUM_INTERNAL);
        let metric = tenon.designation.system() == System::Metric;
        let limits = iso965::internal(d, p, class).ok().filter(|_| metric);
        let Some(limits) = limits else { return Some(free) };
        let form = ThreadForm {
            crest: free.form.crest.max(limits.minor.mid()),
            pitch_diameter: free.form.pitch_diameter.max(limits.pitch.mid()),
            root: free.form.root.max(limits.major_min + limits.pitch.width() / 2.0),
            ..free.form.clone()
        };
        // A form that is none of the class's (its angle, its flats) stays the counterpart.
        if form.flank_runs().is_empty() || !limits.pitch.contains(form.pitch_diameter) {
            return Some(free);
        }
        let limits = ThreadLimits {
            major: Limits::new(limits.major_min, limits.major_max)?,
            pitch: limits.pitch,
            minor: limits.minor,
        };
        let designation = tenon.designation.with_class(Some(class));
        Some(Thread { designation, form, limits, ..free })
    }

    /// The outer edge of a plane face of the finished part.
    pub(super) fn face_diameter(&self, face: Item) -> Option<Length> {
        let runs = self.part().runs;
        let plane = Feature::new(face, Facet::Side);
        let of_it = runs.iter().filter(|run| run.feature == plane && run.from.z == run.to.z);
        of_it.map(|run| run.from.diameter.max(run.to.diameter)).reduce(Length::max)
    }
}

/// An external thread whose greatest sizes are those of its limits and of its model.
fn at_most_material(thread: &Thread) -> Thread {
    let (limits, form) = (&thread.limits, &thread.form);
    let greatest = |limits: Limits, own| Limits::exactly(limits.max().max(own));
    let limits = ThreadLimits {
        major: greatest(limits.major, form.crest),
        pitch: greatest(limits.pitch, form.pitch_diameter),
        minor: greatest(limits.minor, form.root),
    };
    Thread { limits, ..thread.clone() }
}

impl Bushing {
    /// Its solid.
    pub fn part(&self) -> Part {
        let zero = Length::ZERO;
        let name = Feature::new;
        let (thread, minor) = (&self.thread, self.thread.form.crest);
        let mut pen = Pen::start(Station::new(self.counterbore.diameter, zero));
        pen.to(name(Item::Bushing, Facet::Floor), Skin::End, self.diameter, zero);
        pen.to(name(Item::Bushing, Facet::Side), Skin::Outside, self.diameter, self.length);
        pen.to(name(Item::Bushing, Facet::Floor), Skin::End, self.bore, self.length);
        pen.to(name(Item::BushingBore, Facet::Side), Skin::Bore, self.bore, thread.to);
        pen.to(name(Item::BushingBore, Facet::Floor), Skin::Bore, minor, thread.to);
        pen.to(name(Item::BushingThread, Facet::Side), Skin::Bore, minor, thread.from);
        let floor = name(Item::BushingCounterbore, Facet::Floor);
        pen.to(floor, Skin::Bore, self.counterbore.diameter, thread.from);
        let side = name(Item::BushingCounterbore, Facet::Side);
        pen.to(side, Skin::Bore, self.counterbore.diameter, zero);
        Part { runs: pen.finish(), threads: vec![thread.clone()] }.snapped()
    }
}
