//! Reasons why a section can't be made: code, words, a change that works, and what they are about.

mod hint;
mod message;
mod subject;

use super::{Item, OutsideError};
use crate::quantity::Length;

pub use subject::Subject;

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
    /// A converter, and nothing that it could be pushed onto.
    NoNipple,
    /// A converter in a section that no hole goes through.
    BlindToConverter {
        /// Where the hole from the front ends, or the first of what closes it.
        z: Length,
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
            Self::NoNipple => "section.no-nipple",
            Self::BlindToConverter { .. } => "section.blind-to-converter",
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
            Self::BlindToConverter { .. } => vec![Subject::Converter],
            Self::NoNipple => vec![Subject::Converter, Subject::Unit],
        }
    }
}
