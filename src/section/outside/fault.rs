//! What prevents a grip from being turned as it was asked for.

use std::fmt;

use super::Corner;
use crate::quantity::Length;
use crate::section::{Item, Station, Subject};

/// What is wrong with a step, a run that ends at the z where it begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepFault {
    /// Nothing.
    None,
    /// It is the first run.
    InFrontFace,
    /// It is the last run.
    InShoulder,
    /// The run before it is a step too.
    BehindStep,
    /// It is to be an arc.
    Curved,
}

/// A reason why a grip can't be turned. Runs count from 0; corner `n` lies behind `n` runs.
#[derive(Clone, Debug, PartialEq)]
pub enum OutsideError {
    /// A run ends before or where it begins.
    RunsOverlap {
        /// The run.
        run: usize,
        /// Where the one before ends.
        from: Length,
        /// Where it is to end.
        to: Length,
    },
    /// A step that does not stand between two runs.
    StepAlone {
        /// The run.
        run: usize,
        /// What is wrong with it.
        fault: StepFault,
        /// Where it ends.
        to: Station,
    },
    /// A run begins in the direction from which the one before comes.
    RunsFoldBack {
        /// The second of them.
        run: usize,
    },
    /// An arc's radius does not reach over its run, or its end would turn back along the axis.
    ArcTooTight {
        /// The run.
        run: usize,
        /// As asked for.
        radius: Length,
        /// The least that reaches and can be turned.
        least: Length,
    },
    /// The point that an arc has to pass does not lie between its ends.
    PointOffRun {
        /// The run.
        run: usize,
        /// z of the point.
        z: Length,
        /// Where the run begins.
        from: Length,
        /// Where it ends.
        to: Length,
    },
    /// An arc that would turn back along the axis.
    ArcTurnsBack {
        /// The run.
        run: usize,
        /// Which of its diameters could be changed: at its "point", "end" or "beginning".
        what: &'static str,
        /// The diameter there with which it just does not turn back.
        bound: Length,
        /// Whether that is the greatest.
        at_most: bool,
    },
    /// An arc that is as good as straight.
    ArcTooFlat {
        /// The run.
        run: usize,
        /// How far it would stand off its chord.
        bow: Length,
    },
    /// Each of two neighbours is to be tangent to the other.
    TangentBothWays {
        /// The first of them.
        run: usize,
    },
    /// Two runs that go on into each other leave no corner to cut.
    NoCorner {
        /// The corner.
        corner: usize,
    },
    /// A fillet or chamfer that does not fit between its neighbours.
    CornerTooLarge {
        /// The corner.
        corner: usize,
        /// As asked for.
        asked: Corner,
        /// The share of it that fits.
        factor: f64,
        /// It fits its runs, but not beside the corner before.
        overlaps: bool,
    },
    /// A bead or groove does not lie on one straight run.
    RingOffRun {
        /// The bead or groove.
        ring: Item,
        /// Its middle.
        at: Length,
        /// A middle at which it would, if there is one.
        works: Option<Length>,
    },
    /// A rounded bead or groove that is higher than an arc over its width can be.
    RingTooHigh {
        /// The bead or groove.
        ring: Item,
        /// As asked for.
        height: Length,
        /// The most that its width allows.
        most: Length,
    },
    /// A bead or groove that leaves nothing to be cut on its run.
    RingTooShallow {
        /// The bead or groove.
        ring: Item,
        /// As asked for.
        height: Length,
        /// The least that works.
        least: Length,
    },
    /// The run that carries a thread is no cylinder.
    ThreadNeedsCylinder {
        /// The run.
        run: usize,
        /// Whether it is to be an arc.
        curved: bool,
        /// The thread's diameter.
        diameter: Length,
        /// The diameter where the run begins.
        before: Length,
        /// Where it begins.
        z: Length,
    },
    /// A corner at a thread's end in which a threading tool would be caught.
    ThreadCorner {
        /// The corner.
        corner: usize,
        /// Whether the run beside it is the wider one.
        inner: bool,
        /// A chamfer that would do where it is not.
        leg: Length,
    },
}

impl OutsideError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::RunsOverlap { .. } => "section.runs-overlap",
            Self::StepAlone { .. } => "section.step-alone",
            Self::RunsFoldBack { .. } => "section.runs-fold-back",
            Self::ArcTooTight { .. } => "section.arc-too-tight",
            Self::PointOffRun { .. } => "section.point-off-run",
            Self::ArcTurnsBack { .. } => "section.arc-turns-back",
            Self::ArcTooFlat { .. } => "section.arc-too-flat",
            Self::TangentBothWays { .. } => "section.tangent-both-ways",
            Self::NoCorner { .. } => "section.no-corner",
            Self::CornerTooLarge { overlaps: false, .. } => "section.corner-too-large",
            Self::CornerTooLarge { .. } => "section.corners-overlap",
            Self::RingOffRun { .. } => "section.ring-off-run",
            Self::RingTooHigh { .. } => "section.ring-too-high",
            Self::RingTooShallow { .. } => "section.ring-too-shallow",
            Self::ThreadNeedsCylinder { .. } => "section.thread-needs-cylinder",
            Self::ThreadCorner { .. } => "section.thread-corner",
        }
    }

    /// What it is about, the thing to change first.
    pub fn subjects(&self) -> Vec<Subject> {
        match *self {
            Self::RunsOverlap { run, .. }
            | Self::StepAlone { run, .. }
            | Self::RunsFoldBack { run } => vec![Subject::GripRun(run)],
            Self::ArcTooTight { run, .. }
            | Self::PointOffRun { run, .. }
            | Self::ArcTurnsBack { run, .. }
            | Self::ArcTooFlat { run, .. } => vec![Subject::GripCurve(run)],
            Self::TangentBothWays { run } => {
                vec![Subject::GripCurve(run), Subject::GripCurve(run + 1)]
            }
            Self::NoCorner { corner }
            | Self::CornerTooLarge { corner, overlaps: false, .. }
            | Self::ThreadCorner { corner, .. } => vec![Subject::GripCorner(corner)],
            Self::CornerTooLarge { corner, .. } => {
                vec![Subject::GripCorner(corner), Subject::GripCorner(corner.saturating_sub(1))]
            }
            Self::RingOffRun { ring, .. } => vec![Subject::Ring(ring)],
            Self::RingTooHigh { ring, .. } | Self::RingTooShallow { ring, .. } => {
                vec![Subject::RingHeight(ring)]
            }
            Self::ThreadNeedsCylinder { run, .. } => {
                vec![Subject::Thread(Item::CapThread), Subject::GripRun(run)]
            }
        }
    }

    /// A change that works, with a value.
    pub fn hint(&self) -> String {
        match *self {
            Self::RunsOverlap { from, .. } => {
                format!("runs go from the front to the back: a `to` over {from}")
            }
            Self::StepAlone { fault, to, .. } => {
                let diameter = to.diameter.as_mm();
                match fault {
                    StepFault::InFrontFace => format!("front = {diameter}, without this run"),
                    StepFault::InShoulder => {
                        format!("diameter = {diameter} for the run before, without this one")
                    }
                    StepFault::BehindStep => format!("one step to diameter = {diameter}"),
                    _ => format!("to = {} gives the arc room", to.z.as_mm() + 1.0),
                }
            }
            Self::RunsFoldBack { .. } => "put a run of 0.2 mm between them".to_owned(),
            Self::ArcTooTight { least, .. } => format!("a radius of {} or more", up(least)),
            Self::PointOffRun { from, to, .. } => {
                format!("a point half-way: z = {}", ((from + to) / 2.0).as_mm())
            }
            Self::ArcTurnsBack { what, bound, at_most, .. } => {
                let (word, bound) =
                    if at_most { ("most", down(bound)) } else { ("least", up(bound)) };
                format!("a diameter of at {word} {bound} at its {what}")
            }
            Self::ArcTooFlat { .. } => "leave the run straight".to_owned(),
            Self::TangentBothWays { .. } => {
                "give one of the two another curve, such as concave = 40".to_owned()
            }
            Self::NoCorner { .. } => "leave it out: they are tangent already".to_owned(),
            Self::CornerTooLarge { asked, factor, overlaps, .. } => {
                let size = |length: Length| down(length * factor);
                match asked {
                    _ if size(least_of(asked)) <= Length::ZERO => {
                        let less = ", or a smaller corner before it";
                        format!("longer runs beside it{}", if overlaps { less } else { "" })
                    }
                    Corner::Chamfer { before, after } if before != after => {
                        format!("legs of at most {} and {}", size(before), size(after))
                    }
                    _ => format!("at most {}", size(least_of(asked))),
                }
            }
            Self::RingOffRun { works: Some(works), .. } => format!("at = {}", works.as_mm()),
            Self::RingOffRun { works: None, .. } => {
                "a narrower one, or a longer straight run for it".to_owned()
            }
            Self::RingTooHigh { most, .. } => format!("at most {}", down(most)),
            Self::RingTooShallow { least, .. } => format!("at least {}", up(least)),
            Self::ThreadNeedsCylinder { curved: true, .. } => {
                "leave out the arc of this run".to_owned()
            }
            Self::ThreadNeedsCylinder { run: 0, diameter, .. } => {
                format!("front = {}, or a run and a step before it", diameter.as_mm())
            }
            Self::ThreadNeedsCylinder { diameter, z, .. } => format!(
                "put a step before it, a run of its own: to = {}, diameter = {}",
                z.as_mm(),
                diameter.as_mm()
            ),
            Self::ThreadCorner { inner: true, .. } => {
                "leave it out: a groove before the wall frees the tool".to_owned()
            }
            Self::ThreadCorner { leg, .. } => {
                format!("chamfer = {} in its place", down(leg).as_mm())
            }
        }
    }
}

/// The lesser leg of a chamfer; the radius of a fillet.
fn least_of(corner: Corner) -> Length {
    match corner {
        Corner::Sharp => Length::ZERO,
        Corner::Fillet(radius) => radius,
        Corner::Chamfer { before, after } => before.min(after),
    }
}

/// Values in hints are whole hundredths, which can be measured; on the side that works.
const PER_MM: f64 = 100.0;

/// Above this many hundredths' share a value lies on the next one: rounding, not a size.
const ON_GRID: f64 = 1e-6;

fn down(length: Length) -> Length {
    Length::mm((length.as_mm() * PER_MM + ON_GRID).floor() / PER_MM)
}

fn up(length: Length) -> Length {
    Length::mm((length.as_mm() * PER_MM - ON_GRID).ceil() / PER_MM)
}

/// Where a corner lies, in words.
fn place(corner: usize) -> String {
    if corner == 0 { "at the front face".to_owned() } else { format!("at the end of run {corner}") }
}

impl fmt::Display for OutsideError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::RunsOverlap { run, from, to } => write!(
                f,
                "run {} of the outside ends at {to}, before it begins at {from}: runs overlap",
                run + 1
            ),
            Self::StepAlone { run, fault, .. } => {
                let why = match fault {
                    StepFault::InFrontFace => "in the front face: the front has its own diameter",
                    StepFault::InShoulder => "in the shoulder",
                    StepFault::BehindStep => "behind a step",
                    _ => "with an arc, which has no room",
                };
                write!(f, "run {} of the outside is a step {why}", run + 1)
            }
            Self::RunsFoldBack { run } => {
                write!(f, "run {} of the outside goes back the way the one before comes", run + 1)
            }
            Self::ArcTooTight { run, radius, least } => write!(
                f,
                "an arc of radius {radius} is too tight for run {}: under {least:.3} its end \
                 would turn back",
                run + 1
            ),
            Self::PointOffRun { run, z, from, to } => {
                let run = run + 1;
                write!(f, "the point at {z} is not on run {run}, which goes from {from} to {to}")
            }
            Self::ArcTurnsBack { run, .. } => {
                write!(f, "the arc of run {} would turn back along the axis", run + 1)
            }
            Self::ArcTooFlat { run, bow } => write!(
                f,
                "the arc of run {} is straight: it stands {:.1e} mm off its chord",
                run + 1,
                bow.as_mm()
            ),
            Self::TangentBothWays { run } => {
                let (one, other) = (run + 1, run + 2);
                write!(f, "runs {one} and {other} are each to be tangent to the other")
            }
            Self::NoCorner { corner } => {
                write!(f, "there is no corner {}: what meets there is tangent", place(corner))
            }
            Self::CornerTooLarge { corner, asked, overlaps, .. } => {
                match asked {
                    Corner::Chamfer { before, after } if before != after => {
                        write!(f, "a chamfer of {before} and {after}")?;
                    }
                    Corner::Chamfer { before, .. } => write!(f, "a chamfer of {before}")?,
                    Corner::Fillet(_) | Corner::Sharp => {
                        write!(f, "a fillet of {}", least_of(asked))?;
                    }
                }
                let why = if overlaps { "the corner before it" } else { "what it joins" };
                write!(f, " {} does not fit beside {why}", place(corner))
            }
            Self::RingOffRun { ring, at, .. } => {
                write!(f, "the {ring} at {at} does not lie on one straight run that is free")
            }
            Self::RingTooHigh { ring, height, .. } => {
                write!(f, "the {ring} of {height} is more than an arc over its width can be")
            }
            Self::RingTooShallow { ring, height, .. } => {
                write!(f, "the {ring} of {height} leaves nothing to cut")
            }
            Self::ThreadNeedsCylinder { run, curved: true, .. } => {
                write!(f, "run {} carries a thread and can't be an arc", run + 1)
            }
            Self::ThreadNeedsCylinder { run, diameter, before, .. } => write!(
                f,
                "the thread on run {} needs a cylinder of {diameter}, but the run begins \
                 {before} wide",
                run + 1
            ),
            Self::ThreadCorner { corner, inner, .. } => {
                let wall = if inner { ", against a wall" } else { "" };
                write!(f, "the thread ends in a corner that is not sharp {}{wall}", place(corner))
            }
        }
    }
}
