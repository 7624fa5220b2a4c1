//! A ladder: coupons that are alike but for one thread, whose flanks open step by step.
//!
//! ```text
//!      ____________________
//!     |////////////////////|   rung 2 of the unit's thread: the section's bores in a sleeve,
//!     |/\/\/\/\/\/\/\      |   its thread opened by two steps, two grooves turned outside
//!     |              |     |
//!   --|--------------|-----|--
//!               v  v
//! ```
//! Rung n has n grooves. The flank clearance of a rung is the least distance between its flanks and
//! the mate's, square to them, when it is centred: what a print of both would have if the printer
//! did just what its profile says.

use std::fmt;

use super::{between, least_pitch};
use crate::check::flank_gap;
use crate::quantity::Length;
use crate::section::{
    Facet, Feature, Item, Part, Pen, Printer, Run, Section, Side, Skin, Station, Thread,
};
use crate::solid::{BuildError, build};

/// Rungs that a ladder has at most: more grooves than these can't be told at a glance.
pub const MOST_RUNGS: u8 = 9;

/// How far behind the thread a rung goes on, at least; and what stays plain before its first groove.
const BEHIND: Length = Length::mm(2.0);

/// Depth of a groove, and wall under it, at least (common practice, no source): less, and it is not
/// seen or the sleeve bursts.
const GROOVE: Length = Length::mm(0.5);
const WALL: Length = Length::mm(1.2);

/// Of a groove: its width to its depth (90 degrees between its walls, so that nothing overhangs by
/// more than 45 degrees), and the distance of neighbours to its width.
const WIDE: f64 = 2.0;
const APART: f64 = 2.0;

/// The thread that a ladder tries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mated {
    /// The section's unit thread, with the nib unit or its stand-in.
    Unit,
    /// The tenon's thread, with the barrel.
    Tenon,
}

impl Mated {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Unit, Self::Tenon];

    /// As it is typed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Tenon => "tenon",
        }
    }

    /// The section's thread.
    pub fn thread(self, section: &Section) -> &Thread {
        match self {
            Self::Unit => &section.unit_thread,
            Self::Tenon => &section.tenon.thread,
        }
    }

    /// What is turned into, or onto, a rung.
    pub fn mate(self) -> &'static str {
        match self {
            Self::Unit => "nib unit or its stand-in",
            Self::Tenon => "barrel",
        }
    }
}

/// A ladder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ladder {
    /// Which thread it tries.
    pub mated: Mated,
    /// How many rungs.
    pub rungs: u8,
    /// Flank clearance of the first rung.
    pub first: Length,
    /// By how much it grows from rung to rung.
    pub step: Length,
}

/// A rung.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// From 1; the number of its grooves.
    pub number: u8,
    /// Flank clearance to the mate: as asked for, and once the rung is made for a printer as measured
    /// on the solid that is exported, less what the printer takes from its flanks.
    pub clearance: Length,
    /// How much farther its flanks are moved into the material than the section's.
    pub opened: Length,
}

/// Why there is no such ladder.
#[derive(Clone, Debug, PartialEq)]
pub enum LadderError {
    /// No rungs, or more than can be told apart.
    Count {
        /// As asked for.
        rungs: u8,
    },
    /// A step of nothing, or backwards.
    Step {
        /// As asked for.
        step: Length,
    },
    /// A thread that the printer leaves smooth.
    TooFine {
        /// The thread.
        thread: Item,
        /// Its pitch.
        pitch: Length,
        /// The finest pitch that the printer shows.
        least: Length,
    },
    /// A body that can't be built.
    Build(BuildError),
}

impl Ladder {
    /// A ladder of five rungs from no clearance on, in steps of what the printer's diameters are off
    /// by from print to print, and no finer than 0.02 mm: less is not felt.
    pub fn usual(printer: &Printer, mated: Mated) -> Self {
        const FINEST: Length = Length::mm(0.02);
        const HUNDREDTHS: f64 = 100.0;
        let step = (printer.scatter.max(FINEST).as_mm() * HUNDREDTHS).round() / HUNDREDTHS;
        Self { mated, rungs: 5, first: Length::ZERO, step: Length::mm(step) }
    }

    /// Its rungs, narrowest first.
    ///
    /// # Errors
    /// [`LadderError`]: too many or too few, no step, a thread that the printer can't show, or one
    /// that can't be built.
    pub fn rungs(&self, section: &Section, printer: &Printer) -> Result<Vec<Rung>, LadderError> {
        if !(1..=MOST_RUNGS).contains(&self.rungs) {
            return Err(LadderError::Count { rungs: self.rungs });
        }
        if self.step <= Length::ZERO && self.rungs > 1 {
            return Err(LadderError::Step { step: self.step });
        }
        let thread = self.mated.thread(section);
        let (pitch, least) = (thread.form.pitch, least_pitch(printer));
        if pitch < least {
            return Err(LadderError::TooFine { thread: thread.item, pitch, least });
        }
        let own = own_gap(section, self.mated).map_err(LadderError::Build)?;
        let rung = |number: u8| {
            let clearance = self.first + self.step * f64::from(number - 1);
            Rung { number, clearance, opened: clearance - own }
        };
        Ok((1..=self.rungs).map(rung).collect())
    }

    /// A rung's body, before its thread is opened.
    pub fn part(&self, section: &Section, rung: &Rung, printer: &Printer) -> Part {
        let depth = GROOVE.max(printer.least_feature.value);
        let marks = Marks { count: rung.number, of: self.rungs, depth };
        match self.mated {
            Mated::Unit => sleeve(section, marks, WALL.max(printer.least_wall.value)),
            Mated::Tenon => knob(section, marks),
        }
    }
}

/// The flank clearance that the section's own thread has to its mate, as modelled.
fn own_gap(section: &Section, mated: Mated) -> Result<Length, BuildError> {
    flank_clearance(section, mated, &section.part())
}

/// The flank clearance to the mate of the thread on a part that lies in the section's axes, measured
/// on the solids of both.
pub(crate) fn flank_clearance(
    section: &Section,
    mated: Mated,
    part: &Part,
) -> Result<Length, BuildError> {
    let thread = |part: &Part, item| -> Result<_, BuildError> {
        let found = build(part)?.thread(item).cloned();
        found.ok_or(BuildError::NothingToThread { thread: item })
    };
    let own = thread(part, mated.thread(section).item)?;
    let gap = match mated {
        Mated::Unit => {
            let unit = thread(&section.unit.part(), section.unit.thread.item)?;
            flank_gap(&own, &unit, section.seat().as_mm())
        }
        Mated::Tenon => {
            let barrel = thread(&section.barrel.part(), section.barrel.thread.item)?;
            flank_gap(&barrel, &own, -section.grip.length().as_mm())
        }
    };
    Ok(Length::mm(gap))
}

/// Grooves that number a rung.
#[derive(Clone, Copy)]
struct Marks {
    count: u8,
    of: u8,
    depth: Length,
}

impl Marks {
    fn width(self) -> Length {
        self.depth * WIDE
    }

    /// How long a cylinder must be for all that the ladder's last rung has.
    fn length(self) -> Length {
        self.width() * APART * f64::from(self.of)
    }

    /// Draws a cylinder from the pen's z to another, with its grooves counted from there.
    fn draw(self, pen: &mut Pen, diameter: Length, [from, to]: [Length; 2]) {
        let side = Feature::new(Item::Rung, Facet::Side);
        for n in 1..=self.count {
            let start = from + self.width() * (APART * f64::from(n) - APART / 2.0);
            let (middle, end) = (start + self.width() / 2.0, start + self.width());
            pen.to(side, Skin::Outside, diameter, start);
            let wall = |facet| Feature::new(Item::Mark(n), facet);
            pen.to(wall(Facet::FlankBack), Skin::Outside, diameter - self.depth * 2.0, middle);
            pen.to(wall(Facet::FlankFront), Skin::Outside, diameter, end);
        }
        pen.to(side, Skin::Outside, diameter, to);
    }
}

/// The section's bores down to behind the unit's thread, in a sleeve with grooves near its end.
fn sleeve(section: &Section, marks: Marks, wall: Length) -> Part {
    let end = (section.unit_thread.to + BEHIND).max(marks.length() + BEHIND).min(section.length());
    let inside = between(&section.part(), [Length::ZERO, end]);
    let bore: Vec<Run> = inside.runs.iter().filter(|run| run.skin == Skin::Bore).copied().collect();
    let widest = bore.iter().flat_map(|run| [run.from.diameter, run.to.diameter]);
    let widest = widest.fold(section.unit_thread.form.root, Length::max);
    let outside = widest + (wall + marks.depth) * 2.0;
    let (mouth, back) = (bore.last().map(|run| run.to), bore.first().map(|run| run.from));
    let (Some(mouth), Some(back)) = (mouth, back) else { return inside };
    let face = Feature::new(Item::Rung, Facet::Floor);
    let mut pen = Pen::start(mouth);
    pen.to(face, Skin::End, outside, mouth.z);
    marks.draw(&mut pen, outside, [mouth.z, back.z]);
    pen.to(Feature::new(Item::CutFace, Facet::Side), Skin::End, back.diameter, back.z);
    let mut runs = pen.finish();
    runs.extend(bore);
    let threads = inside.threads.into_iter().filter(|thread| thread.side == Side::Internal);
    Part { runs, threads: threads.collect() }.snapped()
}

/// The tenon on a knob that is as wide as the shoulder, with grooves.
fn knob(section: &Section, marks: Marks) -> Part {
    let shoulder = section.grip.length();
    let part = between(&section.part(), [shoulder, section.length()]);
    let (tenon, rest): (Vec<Run>, Vec<Run>) =
        part.runs.iter().partition(|run| run.skin == Skin::Outside);
    let Some(foot) = tenon.first().map(|run| run.from) else { return part };
    // The back face and the bore, up to where it was cut.
    let rest: Vec<Run> = rest.into_iter().filter(|r| r.feature.item != Item::CutFace).collect();
    let hole = rest.last().map_or(Length::ZERO, |run| run.to.diameter);
    let from = shoulder - marks.length() - BEHIND;
    let wide = section.grip.back();
    let mut pen = Pen::start(Station::new(hole, from));
    pen.to(Feature::new(Item::CutFace, Facet::Side), Skin::End, wide, from);
    marks.draw(&mut pen, wide, [from, shoulder]);
    pen.to(Feature::new(Item::Shoulder, Facet::Side), Skin::Outside, foot.diameter, foot.z);
    let mut runs = pen.finish();
    runs.extend(tenon);
    runs.extend(rest);
    if hole > Length::ZERO {
        let mut pen = Pen::start(Station::new(hole, shoulder));
        pen.to(Feature::new(Item::ThroughBore, Facet::Side), Skin::Bore, hole, from);
        runs.extend(pen.finish());
    }
    let threads = part.threads.into_iter().filter(|thread| thread.item == Item::TenonThread);
    Part { runs, threads: threads.collect() }.snapped()
}

impl LadderError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Count { .. } => "print.rungs",
            Self::Step { .. } => "print.step",
            Self::TooFine { .. } => "print.ladder-too-fine",
            Self::Build(error) => error.code(),
        }
    }

    /// What would work.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Count { .. } => Some("--rungs 5".to_owned()),
            Self::Step { .. } => Some("--step 0.02".to_owned()),
            Self::TooFine { .. } => Some(
                "--what coupon prints it smooth, ready for the tap or the die; or name a finer printer"
                    .to_owned(),
            ),
            Self::Build(_) => None,
        }
    }
}

impl fmt::Display for LadderError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { rungs } => {
                write!(f, "a ladder has 1 to {MOST_RUNGS} rungs, not {rungs}")
            }
            Self::Step { step } => write!(f, "a ladder's step can't be {step}"),
            Self::TooFine { thread, pitch, least } => write!(
                f,
                "a ladder of the {thread} would be smooth: its pitch is {pitch}, and the printer shows \
                 none under {:.2} mm",
                least.as_mm()
            ),
            Self::Build(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for LadderError {}
