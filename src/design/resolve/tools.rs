//! The tools beyond the unit's stack: steps from either face, countersinks, reliefs.

use super::Making;
use super::bores::{DRILL_POINT, Diameter, Tool, bore};
use crate::design::bores_file::{CountersinkFile, ReliefFile, StepFile, ToolsFile};
use crate::design::reader::Placed;
use crate::design::value::Hole;
use crate::diagnostic::Diagnostic;
use crate::quantity::{Angle, Length};
use crate::section::{Bore, Depth, Item, LEAST_STEP, Mouth, Point};

/// The included angle of a countersink that nobody described (common practice, no source): a
/// centre drill's, so that a live centre can be set in it.
const COUNTERSINK: Point = Point::Cone(Angle::deg(60.0));

/// More tools have no names of their own, and no bore is described like that.
const MOST: usize = 100;

/// The tools, in the order of the file; those that are wrong are noted and left out.
pub(super) fn resolve(file: &ToolsFile, length: Length, making: &mut Making) -> Vec<Bore> {
    let mut bores = Vec::new();
    let (mut front, mut back) = (0, 0);
    let too_many = [
        ("step", file.steps.get(MOST).map(|step| step.depth.at())),
        ("relief", file.reliefs.get(MOST).map(|relief| relief.to.at())),
    ];
    for (kind, at) in too_many {
        if let Some(at) = at {
            let message = format!("more than {MOST} of `bores.{kind}` are no bore");
            let error = Diagnostic::error("bores.too-many-tools", message).at(at);
            making.log.push(error.hint(format!("{MOST} at most")));
        }
    }
    for step in file.steps.iter().take(MOST) {
        let Some(from) = &step.from else { continue };
        let count = if from.value == Mouth::Front { &mut front } else { &mut back };
        *count += 1;
        bores.extend(one_step(step, from.value, *count, length, making));
    }
    for (sink, mouth) in [(&file.front, Mouth::Front), (&file.back, Mouth::Back)] {
        bores.extend(sink.as_ref().and_then(|sink| countersink(sink, mouth, making)));
    }
    for (n, relief) in (1..).zip(file.reliefs.iter().take(MOST)) {
        bores.extend(one_relief(relief, n, making));
    }
    bores
}

fn one_step(
    step: &StepFile,
    mouth: Mouth,
    number: u8,
    length: Length,
    making: &mut Making,
) -> Option<Bore> {
    let diameter = sized(&step.diameter, "diameter", making)?;
    let depth = step.depth.value.0;
    let tool = Tool {
        item: Item::BoreStep(mouth, number),
        mouth,
        depth: Depth::To(depth),
        depth_at: step.depth.at(),
        point: step.point.as_ref().map_or(DRILL_POINT, |point| point.value),
        cuts_over: step.cuts_over.as_ref(),
    };
    let end = if mouth == Mouth::Front { depth } else { length - depth };
    making.places.station(end, step.depth.at());
    bore(tool, diameter, making)
}

fn countersink(sink: &CountersinkFile, mouth: Mouth, making: &mut Making) -> Option<Bore> {
    let diameter = sized(&sink.mouth, "mouth", making)?;
    let tool = Tool {
        item: Item::Countersink(mouth),
        mouth,
        depth: Depth::To(Length::ZERO),
        depth_at: sink.at,
        point: sink.angle.as_ref().map_or(COUNTERSINK, |angle| angle.value),
        cuts_over: sink.cuts_over.as_ref(),
    };
    if tool.point == Point::Flat {
        let at = sink.angle.as_ref().map_or(sink.at, Placed::at);
        making.log.push(
            Diagnostic::error("value.angle", "a countersink is a cone, not flat")
                .at(at)
                .hint("an included angle such as 60 or 90"),
        );
        return None;
    }
    bore(tool, diameter, making)
}

fn one_relief(relief: &ReliefFile, number: u8, making: &mut Making) -> Option<Bore> {
    let diameter = sized(&relief.diameter, "diameter", making)?;
    let (from, to) = (relief.from.value.0, relief.to.value.0);
    if to - from < LEAST_STEP {
        let message = format!("a relief from {from} to {to} has no width");
        making.log.push(
            Diagnostic::error("bores.relief-order", message)
                .at(relief.to.at())
                .also(relief.from.at(), "it begins here")
                .hint(format!("to = {} is 1 mm wide", (from + Length::mm(1.0)).as_mm())),
        );
        return None;
    }
    let tool = Tool {
        item: Item::BoreRelief(number),
        mouth: Mouth::Front,
        depth: Depth::Between(from, to),
        depth_at: relief.to.at(),
        point: relief.walls.as_ref().map_or(Point::Flat, |walls| walls.value),
        cuts_over: relief.cuts_over.as_ref(),
    };
    making.places.station(from, relief.from.at());
    making.places.station(to, relief.to.at());
    bore(tool, diameter, making)
}

/// A diameter that no thread is cut in.
fn sized(hole: &Placed<Hole>, key: &str, making: &mut Making) -> Option<Diameter> {
    match &hole.value {
        Hole::Size(size, tool) => Some(Diameter { size: *size, tool: tool.clone(), at: hole.at() }),
        Hole::Basic => {
            let message = format!("`{key}` has no thread to be basic to");
            let error = Diagnostic::error("value.drill", message).at(hole.at());
            making.log.push(error.hint("write a diameter such as 7.5"));
            None
        }
    }
}
