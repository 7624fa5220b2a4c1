//! Reasons why a section can't be made: code, words, a change that works, and what they are about.

use std::fmt;

use super::{Item, OutsideError};
use crate::quantity::Length;

/// What a fault is about; [`crate::design`] knows where each was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A hole's diameter.
    Diameter(Item),
    /// A hole's depth.
    Depth(Item),
    /// The length of the grip.
    GripLength,
    /// Run `n` of the outside, counted from 0.
    GripRun(usize),
    /// The curve of run `n`, counted from 0.
    GripCurve(usize),
    /// The corner behind `n` runs: 0 is the front face's rim.
    GripCorner(usize),
    /// A bead or groove.
    Ring(Item),
    /// How high a bead or deep a groove is.
    RingHeight(Item),
    /// A thread's designation.
    Thread(Item),
    /// The tenon's length.
    TenonLength,
    /// The tenon's lead chamfer.
    TenonChamfer,
    /// The relief groove.
    Relief,
    /// The pilot.
    Pilot,
    /// The barrel's depth.
    BarrelDepth,
    /// The barrel's counterbore.
    Counterbore,
    /// The nib unit.
    Unit,
    /// The unit's lead chamfer.
    UnitChamfer,
    /// A step of the unit.
    UnitStep(Item),
    /// The rod's diameter.
    BlankDiameter,
    /// The rod's length.
    BlankLength,
}

/// A reason why a section can't be made, with the values that disagree.
#[derive(Clone, Debug, PartialEq)]
pub enum SectionError {
    /// A hole breaks through the outside.
    BoreWiderThanBody {
        /// The hole.
        bore: Item,
        /// Where.
        z: Length,
        /// The hole there.
        hole: Length,
        /// The outside there, at a thread's root.
        body: Length,
    },
    /// A thread's root reaches into the hole behind it.
    RootCutsBore {
        /// The thread.
        thread: Item,
        /// The hole.
        bore: Item,
        /// Diameter of the root.
        root: Length,
        /// Diameter of the hole.
        hole: Length,
    },
    /// A thread's hole or rod leaves no flat crest or root: there is no thread to cut.
    NoThread {
        /// The thread.
        thread: Item,
        /// Its crest as it would be.
        crest: Length,
        /// A crest diameter that works.
        works: Length,
    },
    /// The unit can't pass a hole.
    UnitCannotPass {
        /// The step of the unit that is too wide.
        step: Item,
        /// Its measured diameter.
        diameter: Length,
        /// The hole.
        bore: Item,
        /// The hole's diameter.
        hole: Length,
    },
    /// The collar falls through the hole behind its recess.
    NoSeat {
        /// The collar's measured diameter.
        collar: Length,
        /// The widest other hole where the collar is to rest.
        bore: Item,
        /// Its diameter there.
        hole: Length,
    },
    /// A hole is wider than the one in front of it and swallows it.
    SwallowsHole {
        /// The deeper hole.
        bore: Item,
        /// Its diameter.
        diameter: Length,
        /// The hole in front of it.
        than: Item,
        /// The diameter of that.
        other: Length,
    },
    /// The tenon is longer than the barrel's hole is deep.
    TenonLongerThanBarrel {
        /// From shoulder to back face.
        tenon: Length,
        /// From joint face to the bottom.
        barrel: Length,
    },
    /// The unit's end comes out of the back of the section's own length.
    UnitLongerThanSection {
        /// Front face to the unit's end.
        unit: Length,
        /// Front face to back face.
        section: Length,
    },
    /// The grip can't be turned.
    Outside(OutsideError),
    /// The last run ends elsewhere than at the shoulder.
    RunsMissShoulder {
        /// The last run, counted from 0.
        run: usize,
        /// Where it ends.
        to: Length,
        /// Where the shoulder is.
        shoulder: Length,
    },
    /// The grip ends no wider than the tenon: nothing closes against the barrel.
    NoShoulder {
        /// The last run, counted from 0.
        run: usize,
        /// Diameter of the grip where it ends.
        grip: Length,
        /// Diameter of the tenon.
        tenon: Length,
    },
    /// A chamfer takes away the whole length of a thread.
    ChamferWiderThanThread {
        /// The thread.
        thread: Item,
        /// The chamfer, along the axis.
        chamfer: Length,
        /// The thread's length without it.
        length: Length,
    },
    /// A hole ends before the one in front of it, or a thread beyond its hole.
    DepthsOutOfOrder {
        /// What should go deeper.
        deeper: Item,
        /// How deep it goes.
        depth: Length,
        /// What it should pass.
        than: Item,
        /// How deep that goes.
        other: Length,
    },
    /// A relief, pilot or counterbore that does not fit its thread.
    DoesNotFit {
        /// Which.
        subject: Subject,
        /// Which measure of it.
        measure: &'static str,
        /// As given.
        value: Length,
        /// What it must stay under (or over).
        bound: Length,
        /// Whether the bound is the greatest value.
        at_most: bool,
    },
    /// Two sizes differ by less than can be cut or shown.
    StepTooSmall {
        /// The lesser.
        a: Length,
        /// The greater.
        b: Length,
    },
    /// A tool that leaves no surface of its own: another one is as wide wherever it goes.
    LeavesNothing {
        /// The tool.
        bore: Item,
        /// What swallows it.
        by: Item,
        /// Diameter of what swallows it.
        diameter: Length,
        /// How deep the swallowed tool goes, from its own face.
        depth: Length,
        /// Whether the swallowed tool belongs to the unit's stack: the other one has to give way.
        stays: bool,
    },
    /// A tool that takes away some of the unit thread's length.
    CutsUnitThread {
        /// The tool.
        bore: Item,
        /// Its diameter.
        diameter: Length,
        /// Where the loss begins.
        from: Length,
        /// Where it ends.
        to: Length,
        /// The depth from its own face at which it would leave the thread alone.
        works: Length,
    },
    /// Holes from both sides, or a hole and the face behind it, that touch in a point.
    HolesTouch {
        /// The hole that has to give way.
        bore: Item,
        /// What it touches.
        other: Item,
        /// Where.
        z: Length,
        /// The depth of the hole, from its own face.
        depth: Length,
    },
    /// A relief where there is no hole that its tool could go through.
    ReliefInSolid {
        /// The relief.
        bore: Item,
        /// Where the hole ends.
        z: Length,
        /// Where the relief would go.
        to: Length,
    },
}

impl SectionError {
    /// A stable code for the report, tests and `--explain`.
    pub fn code(&self) -> &'static str {
        match self {
            Self::BoreWiderThanBody { .. } => "section.bore-wider-than-body",
            Self::RootCutsBore { .. } => "section.root-cuts-bore",
            Self::NoThread { .. } => "section.no-thread",
            Self::UnitCannotPass { .. } => "section.unit-cannot-pass",
            Self::NoSeat { .. } => "section.no-seat",
            Self::SwallowsHole { .. } => "section.swallows-hole",
            Self::TenonLongerThanBarrel { .. } => "section.tenon-longer-than-barrel",
            Self::UnitLongerThanSection { .. } => "section.unit-longer-than-section",
            Self::Outside(error) => error.code(),
            Self::RunsMissShoulder { to, shoulder, .. } if to < shoulder => "section.gap-in-runs",
            Self::RunsMissShoulder { .. } => "section.runs-pass-shoulder",
            Self::NoShoulder { .. } => "section.no-shoulder",
            Self::ChamferWiderThanThread { .. } => "section.chamfer-wider-than-thread",
            Self::DepthsOutOfOrder { .. } => "section.depths-out-of-order",
            Self::DoesNotFit { .. } => "section.does-not-fit",
            Self::StepTooSmall { .. } => "section.step-too-small",
            Self::LeavesNothing { .. } => "section.leaves-nothing",
            Self::CutsUnitThread { .. } => "section.cuts-unit-thread",
            Self::HolesTouch { .. } => "section.holes-touch",
            Self::ReliefInSolid { .. } => "section.relief-in-solid",
        }
    }

    /// What it is about, the thing to change first.
    pub fn subjects(&self) -> Vec<Subject> {
        match *self {
            Self::BoreWiderThanBody { bore, .. } => vec![Subject::Diameter(bore)],
            Self::RootCutsBore { thread, bore, .. } => {
                vec![Subject::Diameter(bore), Subject::Thread(thread)]
            }
            Self::NoThread { thread: Item::UnitThread, .. } => {
                vec![Subject::Diameter(Item::TapDrill), Subject::Thread(Item::UnitThread)]
            }
            Self::NoThread { thread, .. } => vec![Subject::Thread(thread)],
            Self::UnitCannotPass { step, bore, .. } => {
                vec![Subject::Diameter(bore), Subject::UnitStep(step)]
            }
            Self::NoSeat { bore, .. } => {
                vec![Subject::Diameter(bore), Subject::UnitStep(Item::Collar)]
            }
            Self::SwallowsHole { bore, than, .. } => {
                vec![Subject::Diameter(bore), Subject::Diameter(than)]
            }
            Self::TenonLongerThanBarrel { .. } => {
                vec![Subject::TenonLength, Subject::BarrelDepth]
            }
            Self::UnitLongerThanSection { .. } => vec![Subject::GripLength, Subject::Unit],
            Self::Outside(ref error) => error.subjects(),
            Self::RunsMissShoulder { run, .. } => {
                vec![Subject::GripRun(run), Subject::GripLength]
            }
            Self::NoShoulder { run, .. } => {
                vec![Subject::GripRun(run), Subject::Thread(Item::TenonThread)]
            }
            Self::ChamferWiderThanThread { thread: Item::UnitBody, .. } => {
                vec![Subject::UnitChamfer]
            }
            Self::ChamferWiderThanThread { thread: Item::CapThread, .. } => {
                vec![Subject::Thread(Item::CapThread)]
            }
            Self::ChamferWiderThanThread { .. } => vec![Subject::TenonChamfer],
            Self::DepthsOutOfOrder { deeper: Item::BackFace, than, .. } => {
                vec![Subject::Depth(than)]
            }
            Self::DepthsOutOfOrder { deeper, than, .. } => {
                vec![Subject::Depth(deeper), Subject::Depth(than)]
            }
            Self::DoesNotFit { subject, .. } => vec![subject],
            Self::StepTooSmall { .. } => vec![Subject::GripLength],
            Self::LeavesNothing { bore, by, stays: false, .. } => {
                vec![Subject::Diameter(bore), Subject::Diameter(by)]
            }
            Self::LeavesNothing { bore, by, .. } => {
                vec![Subject::Depth(by), Subject::Depth(bore)]
            }
            Self::CutsUnitThread { bore, .. } => {
                vec![Subject::Depth(bore), Subject::Depth(Item::UnitThread)]
            }
            Self::HolesTouch { bore, other, .. } => {
                vec![Subject::Depth(bore), Subject::Depth(other)]
            }
            Self::ReliefInSolid { bore, .. } => vec![Subject::Depth(bore)],
        }
    }

    /// A change that works, with a value.
    pub fn hint(&self) -> String {
        /// Enough to be measured with a caliper, so that the value in a hint clearly works.
        const CLEARLY: f64 = 0.1;
        let clearly = Length::mm(CLEARLY);
        match self {
            Self::BoreWiderThanBody { body, .. } => {
                format!("a hole under {}, or a thicker outside there", *body - clearly * 2.0)
            }
            Self::RootCutsBore { root, .. } => {
                format!("a hole of at most {}, or a larger thread", *root - clearly * 2.0)
            }
            Self::NoThread { works, .. } => format!("{works} leaves a whole thread (ISO 68-1)"),
            Self::UnitCannotPass { diameter, .. } => {
                format!("{} lets it pass", *diameter + clearly * 2.0)
            }
            Self::NoSeat { collar, .. } => {
                format!("a hole of at most {} leaves a ledge", *collar - clearly * 2.0)
            }
            Self::SwallowsHole { other, .. } => {
                format!("a hole of at most {}", *other - clearly * 2.0)
            }
            Self::TenonLongerThanBarrel { barrel, .. } => {
                format!("a tenon of {}, or a deeper hole in the barrel", *barrel - clearly * 5.0)
            }
            Self::UnitLongerThanSection { unit, section } => {
                let more = *unit - *section + clearly;
                format!("{more} more length, or a shallower recess")
            }
            Self::Outside(error) => error.hint(),
            Self::RunsMissShoulder { shoulder, .. } => format!("to = {}", shoulder.as_mm()),
            Self::NoShoulder { tenon, .. } => {
                format!("a grip that ends {} wide, or a thinner tenon", *tenon + clearly * 10.0)
            }
            Self::ChamferWiderThanThread { length, .. } => {
                format!("a chamfer of {}", (*length / 4.0).min(clearly * 5.0))
            }
            Self::DepthsOutOfOrder { deeper: Item::BackFace, depth, .. } => {
                format!("a depth under {depth}")
            }
            Self::DepthsOutOfOrder { other, .. } => {
                format!("a depth of {} or more", *other + clearly)
            }
            Self::DoesNotFit { bound, at_most, .. } => {
                format!("at {} {bound}", if *at_most { "most" } else { "least" })
            }
            Self::StepTooSmall { a, .. } => format!("make both {a}, or part them by 0.01 mm"),
            Self::LeavesNothing { diameter, stays: false, .. } => {
                format!("a diameter of {} or more, or leave it out", *diameter + clearly * 2.0)
            }
            Self::LeavesNothing { bore, depth, .. } => {
                format!("a depth of at most {} leaves the {bore} standing", *depth - clearly)
            }
            Self::CutsUnitThread { bore: Item::BoreRelief(_), from, to, .. } => {
                format!("a relief in front of {from} or behind {to}")
            }
            Self::CutsUnitThread { works, .. } if *works > Length::ZERO => {
                format!("a depth of at most {works}, or a hole no wider than the tap drill's")
            }
            Self::CutsUnitThread { .. } => "a hole no wider than the tap drill's".to_owned(),
            Self::HolesTouch { depth, .. } => {
                format!("a depth of {} leaves material between them", *depth - clearly * 5.0)
            }
            Self::ReliefInSolid { z, .. } => {
                format!("drill that far first, or end the relief before {z}")
            }
        }
    }
}

impl fmt::Display for SectionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BoreWiderThanBody { bore, z, hole, body } => write!(
                f,
                "the {bore} of {hole} is wider than the body, which is {body} at {z} from the front"
            ),
            Self::RootCutsBore { thread, bore, root, hole } => {
                write!(f, "the root of the {thread}, {root}, cuts into the {bore} of {hole}")
            }
            Self::NoThread { thread, crest, .. } => {
                write!(f, "a crest of {crest} leaves nothing of the {thread}")
            }
            Self::UnitCannotPass { step: Item::UnitBody, diameter, bore, hole } => {
                write!(f, "the unit's thread of {diameter} can't pass the {bore} of {hole}")
            }
            Self::UnitCannotPass { step, diameter, bore, hole } => {
                write!(f, "the unit's {step} of {diameter} can't pass the {bore} of {hole}")
            }
            Self::NoSeat { collar, hole, .. } => {
                write!(f, "the collar of {collar} has no seat: the hole behind it is {hole}")
            }
            Self::SwallowsHole { bore, diameter, than, other } => {
                write!(
                    f,
                    "the {bore} of {diameter} is wider than the {than} of {other} in front of it"
                )
            }
            Self::TenonLongerThanBarrel { tenon, barrel } => {
                write!(f, "the tenon of {tenon} is longer than the barrel's hole, {barrel}")
            }
            Self::UnitLongerThanSection { unit, section } => write!(
                f,
                "the unit ends {unit} behind the front face, but the section is {section} long"
            ),
            Self::Outside(error) => error.fmt(f),
            Self::RunsMissShoulder { to, shoulder, .. } if to < shoulder => {
                write!(
                    f,
                    "the last run ends at {to} and leaves a gap up to the shoulder at {shoulder}"
                )
            }
            Self::RunsMissShoulder { to, shoulder, .. } => {
                write!(f, "the last run ends at {to}, beyond the shoulder at {shoulder}")
            }
            Self::NoShoulder { grip, tenon, .. } => {
                write!(
                    f,
                    "the grip ends {grip} wide, no wider than the tenon of {tenon}: no shoulder"
                )
            }
            Self::ChamferWiderThanThread { chamfer, length, .. } => {
                write!(f, "a lead chamfer of {chamfer} takes the whole thread of {length}")
            }
            Self::DepthsOutOfOrder { deeper: Item::BackFace, depth, than, other } => {
                write!(f, "the {than} goes to {other}, but the section is {depth} long")
            }
            Self::DepthsOutOfOrder { deeper, depth, than, other } => write!(
                f,
                "the {deeper} ends at {depth}, but has to go past the {than}, which ends at {other}"
            ),
            Self::DoesNotFit { subject, measure, value, bound, at_most } => {
                let name = match subject {
                    Subject::Relief => "relief",
                    Subject::Pilot => "pilot",
                    Subject::Counterbore => "counterbore",
                    Subject::BlankDiameter | Subject::BlankLength => "rod",
                    Subject::Diameter(Item::CentrePilot) => "centre drill's pilot",
                    _ => "part",
                };
                let than = if *at_most { "more than" } else { "less than" };
                write!(f, "a {measure} of {value} is {than} the {name} can have here, {bound}")
            }
            Self::StepTooSmall { a, b } => write!(
                f,
                "{a} and {b} differ by {:.1e} mm: too small a step to be cut or shown",
                (*b - *a).as_mm()
            ),
            Self::LeavesNothing { bore, by, diameter, .. } => write!(
                f,
                "the {bore} leaves nothing: the {by} of {diameter} is as wide wherever it goes"
            ),
            Self::CutsUnitThread { bore, diameter, from, to, .. } => {
                write!(f, "the {bore} of {diameter} cuts the unit thread away from {from} to {to}")
            }
            Self::HolesTouch { bore, other, z, .. } => {
                write!(f, "the {bore} just touches the {other} on the axis, at {z} from the front")
            }
            Self::ReliefInSolid { bore, z, to } => write!(
                f,
                "the {bore} goes to {to}, but the hole that its tool comes through ends at {z}"
            ),
        }
    }
}
