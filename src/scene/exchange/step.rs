//! What is set to what the other pen has: a size, or a whole thread.

use std::fmt;

use super::SAME;
use crate::quantity::Length;
use crate::section::{Cap, CapMouth, Section, Thread};
use crate::size::{Owner, SizeId};

/// One thing that is set to what the other has.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A size, in millimetres (an angle in degrees).
    Size {
        /// Which.
        parameter: SizeId,
        /// As it is.
        from: f64,
        /// As the other has it.
        to: f64,
    },
    /// A thread with its class, in the place where it is.
    Thread {
        /// Whose.
        of: ThreadOf,
        /// As it is written.
        from: String,
        /// As the other's is.
        to: String,
        /// The other's.
        thread: Box<Thread>,
    },
}

/// Whose thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThreadOf {
    /// The tenon's.
    Tenon,
    /// The barrel's.
    Barrel,
    /// The cap's.
    Cap,
}

impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Size { parameter, from, to } => {
                let unit = if parameter.is_angle() { "degrees" } else { "mm" };
                write!(f, "{parameter}: {to:.2} {unit} instead of {from:.2} {unit}")
            }
            Self::Thread { of, from, to, .. } => {
                let name = match of {
                    ThreadOf::Tenon => "thread of the tenon",
                    ThreadOf::Barrel => "thread in the barrel",
                    ThreadOf::Cap => "thread in the cap",
                };
                write!(f, "{name}: {to} instead of {from}")
            }
        }
    }
}

impl Step {
    /// Everything of a section's outside that barrel and cap meet, and that the other has
    /// otherwise; threads first, since their sizes go with them.
    pub fn of_section(section: &Section, other: &Section) -> Vec<Self> {
        let mut steps = Vec::new();
        let (own, theirs) = (&section.tenon.thread, &other.tenon.thread);
        steps.extend(thread(ThreadOf::Tenon, own, theirs));
        let mut sizes = SizeId::cut(section);
        // Where a grip is longer, its runs end where there was none: its length goes first.
        sizes.sort_by_key(|size| *size != SizeId::GripLength);
        sizes.retain(|size| is_grips(*size) || is_tenons(*size));
        steps.extend(sizes.into_iter().filter_map(|it| size(it, section, other)));
        steps
    }

    /// Everything of barrel and cap that the other has otherwise.
    pub fn of_mates(section: &Section, other: &Section) -> Vec<Self> {
        let mut steps = Vec::new();
        let threads = (&section.barrel.thread, &other.barrel.thread);
        steps.extend(thread(ThreadOf::Barrel, threads.0, threads.1));
        let inside = |section: &Section| section.cap.as_ref().and_then(Cap::thread).cloned();
        let caps = inside(section).zip(inside(other));
        steps.extend(caps.and_then(|(own, theirs)| thread(ThreadOf::Cap, &own, &theirs)));
        let sizes = SizeId::of(section).into_iter();
        let mates = sizes.filter(|it| it.owner() == Owner::Barrel || it.owner() == Owner::Cap);
        // The place where a cap stops is a place of the section.
        let mates = mates.filter(|it| *it != SizeId::CapStop);
        steps.extend(mates.filter_map(|it| size(it, section, other)));
        steps
    }

    /// Whether it is seen from outside, from front face to shoulder.
    pub fn is_outside(&self) -> bool {
        matches!(self, Self::Size { parameter, .. } if is_grips(*parameter))
    }

    /// The section with it; none where it can't have it.
    pub fn on(&self, section: &Section) -> Option<Section> {
        match self {
            Self::Size { parameter, to, .. } => parameter.set(section, *to),
            Self::Thread { of, thread, .. } => {
                let mut changed = section.clone();
                let own = match of {
                    ThreadOf::Tenon => &mut changed.tenon.thread,
                    ThreadOf::Barrel => &mut changed.barrel.thread,
                    ThreadOf::Cap => match &mut changed.cap.as_mut()?.mouth {
                        CapMouth::Thread(thread) => thread,
                        CapMouth::Minor { .. } => return None,
                    },
                };
                let place: [Length; 2] = [own.from, own.to];
                *own = thread.as_ref().clone();
                [own.from, own.to] = place;
                Some(changed)
            }
        }
    }
}

/// Whether a size shapes the outside from front face to shoulder.
fn is_grips(size: SizeId) -> bool {
    matches!(
        size,
        SizeId::FrontDiameter
            | SizeId::GripDiameter(_)
            | SizeId::RunEnd(_)
            | SizeId::GripLength
            | SizeId::ArcRadius(_)
            | SizeId::CornerRadius(_)
            | SizeId::CornerChamfer(_)
            | SizeId::RingStart(_)
            | SizeId::RingEnd(_)
            | SizeId::RingRadius(_)
            | SizeId::GrooveDepth(_)
    )
}

/// Whether a size shapes what screws into the barrel.
fn is_tenons(size: SizeId) -> bool {
    matches!(
        size,
        SizeId::TenonLength
            | SizeId::TenonDiameter
            | SizeId::TenonChamfer
            | SizeId::TenonThreadStart
            | SizeId::TenonThreadSize
            | SizeId::ReliefDiameter
            | SizeId::ReliefWidth
            | SizeId::PilotDiameter
            | SizeId::PilotLength
    )
}

fn thread(of: ThreadOf, own: &Thread, theirs: &Thread) -> Option<Step> {
    let [from, to] = [own, theirs].map(|thread| thread.designation.to_string());
    (from != to).then(|| Step::Thread { of, from, to, thread: Box::new(theirs.clone()) })
}

fn size(parameter: SizeId, section: &Section, other: &Section) -> Option<Step> {
    let (from, to) = (parameter.get(section)?, parameter.get(other)?);
    ((from - to).abs() > SAME).then_some(Step::Size { parameter, from, to })
}
