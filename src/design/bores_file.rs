//! The tools beyond the unit's stack of holes, as people write them.

use super::reader::{Placed, Reader};
use super::value::{CutsOver, Hole, Size};
use crate::diagnostic::Place;
use crate::section::{Mouth, Point};

/// A further hole from one face.
#[derive(Clone, Debug)]
pub(super) struct StepFile {
    /// None where it is missing or bad, which is noted.
    pub(super) from: Option<Placed<Mouth>>,
    pub(super) diameter: Placed<Hole>,
    pub(super) depth: Placed<Size>,
    pub(super) point: Option<Placed<Point>>,
    pub(super) cuts_over: Option<Placed<CutsOver>>,
}

/// A cone at a mouth.
#[derive(Clone, Debug)]
pub(super) struct CountersinkFile {
    pub(super) at: Place,
    pub(super) mouth: Placed<Hole>,
    pub(super) angle: Option<Placed<Point>>,
    pub(super) cuts_over: Option<Placed<CutsOver>>,
}

/// A groove inside the bore.
#[derive(Clone, Debug)]
pub(super) struct ReliefFile {
    pub(super) from: Placed<Size>,
    pub(super) to: Placed<Size>,
    pub(super) diameter: Placed<Hole>,
    pub(super) walls: Option<Placed<Point>>,
    pub(super) cuts_over: Option<Placed<CutsOver>>,
}

/// All of them.
#[derive(Clone, Debug, Default)]
pub(super) struct ToolsFile {
    pub(super) steps: Vec<StepFile>,
    pub(super) front: Option<CountersinkFile>,
    pub(super) back: Option<CountersinkFile>,
    pub(super) reliefs: Vec<ReliefFile>,
}

fn step(reader: &mut Reader<'_>) -> StepFile {
    if !reader.has("from") {
        reader.missing("from", "from = \"back\"");
    }
    StepFile {
        from: reader.maybe("from"),
        diameter: reader.need("diameter", "diameter = 7.5"),
        depth: reader.need("depth", "depth = 6"),
        point: reader.maybe("point"),
        cuts_over: reader.maybe("cuts_over"),
    }
}

fn countersink(reader: &mut Reader<'_>) -> CountersinkFile {
    CountersinkFile {
        at: reader.at(),
        mouth: reader.need("mouth", "mouth = 7.5"),
        angle: reader.maybe("angle"),
        cuts_over: reader.maybe("cuts_over"),
    }
}

fn relief(reader: &mut Reader<'_>) -> ReliefFile {
    ReliefFile {
        from: reader.need("from", "from = 14"),
        to: reader.need("to", "to = 16"),
        diameter: reader.need("diameter", "diameter = 7.5"),
        walls: reader.maybe("walls"),
        cuts_over: reader.maybe("cuts_over"),
    }
}

/// Reads `[[bores.step]]`, `[bores.countersink]` and `[[bores.relief]]`.
pub(super) fn tools(reader: &mut Reader<'_>) -> ToolsFile {
    let steps = reader.tables("step", step);
    let sinks = reader.table("countersink", |reader| {
        (reader.table("front", countersink), reader.table("back", countersink))
    });
    let (front, back) = sinks.unwrap_or_default();
    ToolsFile { steps, front, back, reliefs: reader.tables("relief", relief) }
}
