//! The stack of holes and the unit thread, from the design and the unit.
//!
//! ```text
//!    front                seat       thread from        thread to   + beyond
//!      |--- A recess ------|              |                  |          |
//!      |--- B clearance bore -------------|                  |          |
//!      |                                  |-- C unit thread -|          |
//!      |--- D tap drill ------------------------------------------------|
//!      |--- E through bore ----------------------------------------------------->
//! ```

use super::barrel::CHIPS;
use super::form::{self, ToolEnd};
use super::{Making, thread, unit_thread};
use crate::design::design_file::{BoreFile, BoresFile};
use crate::design::reader::Placed;
use crate::design::unit_file::UnitFile;
use crate::design::value::{CutsOver, Hole};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::{Angle, Length, Limits};
use crate::section::{Bore, Depth, Item, Mouth, Point, Side, Subject, Thread, Unit};
use crate::standard::{ThreadDesignation, tap_drill};

/// Room for the collar in its recess, on the diameter (common practice, no source): less, and it
/// may bind before it seats; more, and it sits off the axis.
const COLLAR_OVER: Length = Length::mm(0.3);

/// Room for the unit's thread in the clearance bore, on the diameter (common practice, no source).
const THREAD_OVER: Length = Length::mm(0.3);

/// Room for tail and nipple in the through bore, on the diameter (common practice, no source).
const TAIL_OVER: Length = Length::mm(0.2);

/// What a drill may cut over its size (common practice, no source): a greater spread condemns
/// sound walls, a lesser one passes thin ones.
const CUTS_OVER: CutsOver = CutsOver { least: Length::ZERO, greatest: Length::mm(0.15) };

/// The point of a drill that nobody described (common practice, no source).
pub(super) const DRILL_POINT: Point = Point::Cone(Angle::deg(118.0));

/// A diameter, the drill's name, and where it was written or what it was derived from.
pub(super) struct Diameter {
    pub(super) size: Length,
    pub(super) tool: Option<String>,
    pub(super) at: Place,
}

/// A tool without its diameter.
#[derive(Clone, Copy)]
pub(super) struct Tool<'a> {
    pub(super) item: Item,
    pub(super) mouth: Mouth,
    pub(super) depth: Depth,
    pub(super) depth_at: Place,
    pub(super) point: Point,
    pub(super) cuts_over: Option<&'a Placed<CutsOver>>,
}

/// The holes, widest first, and the thread; `tap_lead` is that of a usual tap, in pitches. None
/// where something is missing, which is noted.
pub(super) fn resolve(
    file: &BoresFile,
    unit_file: &UnitFile,
    unit: &Unit,
    tap_lead: f64,
    making: &mut Making,
) -> Option<(Vec<Bore>, Thread)> {
    let designation = unit_thread::designation(&file.thread, unit_file, making)?;
    let recess = recess(&file.recess, unit_file, unit, making)?;
    let seat = recess.full_depth(Length::ZERO)
        + recess.point.length_between(recess.diameter, unit.collar.value);
    let clearance = clearance(&file.clearance, unit_file, unit, seat, making)?;
    let from = clearance.full_depth(Length::ZERO);
    let to = unit_thread::end(&file.thread, unit_file, unit, seat, making);
    let lead = tap_lead.max(file.thread.cut.lead());
    let drill = drill(&file.tap_drill, &designation, (to, lead), making)?;
    let through =
        if file.blind { None } else { Some(through(&file.through, unit_file, unit, making)?) };
    for subject in [Subject::Thread(Item::UnitThread), Subject::Diameter(Item::UnitThread)] {
        making.places.set(subject, designation.at());
    }
    let (classed, at) = (designation.value, designation.at());
    let thread = thread::internal(classed, at, Item::UnitThread, (from, to), making)?;
    let mut thread = form::cut(thread, &file.thread.cut, ToolEnd::To, making)?;
    thread.form.crest = drill.diameter;
    thread.limits.minor = drill.limits;
    let stack = [recess, clearance, drill].into_iter().chain(through);
    Some((stack.collect(), thread))
}

/// A diameter as written, or as much wider than something as `over`, or the usual.
fn diameter(
    file: &BoreFile,
    key: &str,
    (what, inner, inner_at): (&str, Length, Place),
    usual: Length,
    making: &mut Making,
) -> Option<Diameter> {
    if let Some(diameter) = &file.diameter {
        return match &diameter.value {
            Hole::Size(size, tool) => {
                Some(Diameter { size: *size, tool: tool.clone(), at: diameter.at() })
            }
            Hole::Basic => {
                making.log.push(
                    Diagnostic::error(
                        "value.drill",
                        format!("`{key}` has no thread to be basic to"),
                    )
                    .at(diameter.at())
                    .hint(format!("write a diameter such as {}", (inner + usual).as_mm())),
                );
                None
            }
        };
    }
    let (over, at) = file.over.as_ref().map_or((usual, inner_at), |over| (over.value.0, over.at()));
    let size = inner + over;
    making.derive(key, &size, format!("{what} {inner} + {over}"));
    Some(Diameter { size, tool: None, at })
}

/// A hole of a diameter, with what its tool may cut over it.
pub(super) fn bore(tool: Tool<'_>, diameter: Diameter, making: &mut Making) -> Option<Bore> {
    let Tool { item, mouth, depth, depth_at, point, cuts_over } = tool;
    let Diameter { size, tool, at } = diameter;
    making.places.set(Subject::Diameter(item), at);
    making.places.set(Subject::Depth(item), depth_at);
    making.places.diameter(size, at);
    let spread = cuts_over.map_or(CUTS_OVER, |spread| spread.value);
    let limits = Limits::new(size + spread.least, size + spread.greatest)?;
    Some(Bore { item, mouth, diameter: size, depth, point, limits, tool })
}

/// A hole of the unit's stack, which are cut from the front.
fn of_stack(
    item: Item,
    diameter: Diameter,
    (depth, depth_at): (Depth, Place),
    file: &BoreFile,
    usual_point: Point,
    making: &mut Making,
) -> Option<Bore> {
    if let Depth::To(z) = depth {
        making.places.station(z, depth_at);
    }
    let point = file.point.as_ref().map_or(usual_point, |point| point.value);
    let (mouth, cuts_over) = (Mouth::Front, file.cuts_over.as_ref());
    bore(Tool { item, mouth, depth, depth_at, point, cuts_over }, diameter, making)
}

fn recess(file: &BoreFile, unit_file: &UnitFile, unit: &Unit, making: &mut Making) -> Option<Bore> {
    let collar = ("collar", unit.collar.value, unit_file.collar.at());
    let diameter = diameter(file, "bores.recess.diameter", collar, COLLAR_OVER, making)?;
    let point = file.point.as_ref().map_or(Point::Flat, |point| point.value);
    let thickness = unit.thickness.value;
    let (depth, at) = if let Some(depth) = &file.depth {
        (depth.value.0, depth.at())
    } else {
        // A cone takes the collar below the end of the full diameter.
        let below = point.length_between(diameter.size, unit.collar.value);
        let (set, at, said) = match (&file.under, &file.proud) {
            (Some(under), _) => {
                (under.value.0, under.at(), format!(" + {} under the face", under.value.0))
            }
            (None, Some(proud)) => {
                let value = Length::ZERO - proud.value.0;
                (value, proud.at(), format!(" - {} proud of the face", proud.value.0))
            }
            (None, None) => {
                (Length::ZERO, unit_file.thickness.at(), ", flush with the face".to_owned())
            }
        };
        let depth = thickness + set - below;
        making.derive("bores.recess.depth", &depth, format!("collar {thickness} thick{said}"));
        (depth, at)
    };
    if depth <= Length::ZERO {
        making.log.push(
            Diagnostic::error("bores.no-recess", format!("a recess of {depth} takes no collar"))
                .at(at)
                .also(unit_file.thickness.at(), "the collar's thickness")
                .hint(format!("a recess of {thickness} has the collar flush with the face")),
        );
        return None;
    }
    if let Some(seat) = &file.point {
        making.places.set(Subject::Diameter(Item::CentrePilot), seat.at());
    }
    of_stack(Item::Recess, diameter, (Depth::To(depth), at), file, Point::Flat, making)
}

fn clearance(
    file: &BoreFile,
    unit_file: &UnitFile,
    unit: &Unit,
    seat: Length,
    making: &mut Making,
) -> Option<Bore> {
    let major = ("the unit's thread", unit.thread.form.crest, unit_file.thread.major.at());
    let diameter = diameter(file, "bores.clearance.diameter", major, THREAD_OVER, making)?;
    let (depth, at) = file.depth.as_ref().map_or_else(
        || {
            let begins = unit.thread.from;
            let depth = seat + begins;
            let why = format!("seat {seat} + the unit's thread begins at {begins}");
            making.derive("bores.clearance.depth", &depth, why);
            let plain = unit_file.plain.as_ref().map(|plain| plain.to.at());
            let from = unit_file.thread.from.as_ref().map(Placed::at).or(plain);
            (depth, from.unwrap_or(unit_file.thread.to.at()))
        },
        |depth| (depth.value.0, depth.at()),
    );
    of_stack(Item::ClearanceBore, diameter, (Depth::To(depth), at), file, DRILL_POINT, making)
}

fn drill(
    file: &BoreFile,
    thread: &Placed<ThreadDesignation>,
    (thread_to, lead): (Length, f64),
    making: &mut Making,
) -> Option<Bore> {
    let (major, pitch) = (thread.value.diameter(), thread.value.pitch());
    let diameter = if let Some(diameter) = &file.diameter {
        let (size, tool) = match &diameter.value {
            Hole::Size(size, tool) => (*size, tool.clone()),
            Hole::Basic => (thread::basic_form(thread.value, Side::Internal).crest, None),
        };
        Diameter { size, tool, at: diameter.at() }
    } else {
        let rule = tap_drill(major, pitch)?;
        let why = format!("{} less its pitch: {}", thread.value, rule.percent);
        making.derive("bores.tap_drill.diameter", &rule.diameter, why);
        Diameter { size: rule.diameter, tool: None, at: thread.at() }
    };
    let depth = if let Some(depth) = &file.depth {
        (Depth::To(depth.value.0), depth.at())
    } else {
        let thread_at = making.places.get(Subject::Depth(Item::UnitThread));
        let (beyond, at) = file
            .beyond
            .as_ref()
            .map_or((pitch * (lead + CHIPS), thread_at.unwrap_or(thread.at())), |beyond| {
                (beyond.value.0, beyond.at())
            });
        let depth = thread_to + beyond;
        let why = format!("the thread's end {thread_to} + {beyond} for the tap's lead and chips");
        making.derive("bores.tap_drill.depth", &depth, why);
        (Depth::To(depth), at)
    };
    of_stack(Item::TapDrill, diameter, depth, file, DRILL_POINT, making)
}

fn through(
    file: &BoreFile,
    unit_file: &UnitFile,
    unit: &Unit,
    making: &mut Making,
) -> Option<Bore> {
    let ends = [("the unit's tail", &unit_file.tail), ("the unit's nipple", &unit_file.nipple)];
    let ends = ends.into_iter().filter_map(|(name, step)| {
        let step = step.as_ref()?;
        Some((name, step.diameter.value.value, step.diameter.at()))
    });
    let widest = ends.reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some(inner) = widest.or_else(|| {
        // Only a written diameter needs nothing to be wider than.
        let diameter = file.diameter.as_ref()?;
        Some(("nothing", Length::ZERO, diameter.at()))
    }) else {
        making.log.push(
            Diagnostic::error(
                "key.missing",
                "`bores.through` lacks `diameter`: the unit has neither tail nor nipple",
            )
            .at(file.at.unwrap_or(unit_file.at))
            .hint(format!(
                "write diameter = {} in [bores.through]",
                (unit.thread.form.root - Length::mm(0.5)).as_mm().floor()
            )),
        );
        return None;
    };
    let diameter = diameter(file, "bores.through.diameter", inner, TAIL_OVER, making)?;
    let at = file.at.unwrap_or(diameter.at);
    of_stack(Item::ThroughBore, diameter, (Depth::Through, at), file, DRILL_POINT, making)
}
