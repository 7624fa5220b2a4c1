//! Tools that cut holes, as people write them.

use crate::design::reader::{Needed, Placed, Read, Reader};
use crate::design::tree::Node;
use crate::design::value::{ConeAngle, CutsOver, Distance, PILOT_POINT, Size, word};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Angle;
use crate::section::{Point, ToolKind};
use crate::standard::{DrillSize, Series};

/// The point of a drill that nobody described (common practice, no source), as in a design.
const DRILL_POINT: Angle = Angle::deg(118.0);

/// The cone of a centre drill that nobody described: a centre's (common practice, no source).
const CENTRE: Angle = Angle::deg(60.0);

/// A hole that a tool left in a material.
#[derive(Clone, Debug)]
pub(in crate::design) struct CutFile {
    pub(in crate::design) material: Placed<String>,
    pub(in crate::design) hole: Placed<Size>,
    pub(in crate::design) uncertainty: Option<Placed<Distance>>,
}

/// What is thinner in front of a tool's cone.
#[derive(Clone, Debug)]
pub(in crate::design) struct PilotFile {
    pub(in crate::design) diameter: Placed<Size>,
    /// From the end of the cone to where the pilot's full diameter ends.
    pub(in crate::design) length: Placed<Size>,
    pub(in crate::design) point: Angle,
}

/// A tool.
#[derive(Clone, Debug)]
pub(in crate::design) struct ToolFile {
    pub(in crate::design) kind: ToolKind,
    pub(in crate::design) size: Placed<DrillSize>,
    pub(in crate::design) measured: Option<Placed<Size>>,
    /// Flat, or its cone.
    pub(in crate::design) point: Point,
    pub(in crate::design) pilot: Option<PilotFile>,
    pub(in crate::design) cuts: Vec<CutFile>,
    pub(in crate::design) cuts_over: Option<Placed<CutsOver>>,
    pub(in crate::design) reach: Option<Placed<Size>>,
}

/// Many drills in a line.
#[derive(Clone, Debug)]
pub(in crate::design) struct SeriesFile {
    pub(in crate::design) at: Place,
    pub(in crate::design) of: Placed<Series>,
    pub(in crate::design) from: Placed<DrillSize>,
    pub(in crate::design) to: Placed<DrillSize>,
    pub(in crate::design) point: Point,
}

impl Read for Series {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let words = [
            ("metric", Self::Metric),
            ("fractional", Self::Fractional),
            ("number", Self::Number),
            ("letter", Self::Letter),
        ];
        word(node, key, log, &words)
    }
}

impl Needed for Series {
    fn stand_in() -> Self {
        Self::Metric
    }
}

pub(super) fn series(reader: &mut Reader<'_>) -> SeriesFile {
    SeriesFile {
        at: reader.at(),
        of: reader.need("of", "of = \"metric\""),
        from: reader.need("from", "from = 1.0"),
        to: reader.need("to", "to = 13.0"),
        point: drill_point(reader),
    }
}

pub(super) fn drill(reader: &mut Reader<'_>) -> ToolFile {
    let point = drill_point(reader);
    ToolFile { point, ..sized(reader, ToolKind::Drill) }
}

pub(super) fn end_mill(reader: &mut Reader<'_>) -> ToolFile {
    sized(reader, ToolKind::EndMill)
}

pub(super) fn reamer(reader: &mut Reader<'_>) -> ToolFile {
    sized(reader, ToolKind::Reamer)
}

/// Its thinner end has the point that its shoulder has.
pub(super) fn step_drill(reader: &mut Reader<'_>) -> ToolFile {
    let cone = angle(reader, "point", DRILL_POINT);
    let pilot = pilot(reader, cone);
    let tool = sized(reader, ToolKind::StepDrill);
    ToolFile { point: Point::Cone(cone), pilot: Some(pilot), ..tool }
}

pub(super) fn centre_drill(reader: &mut Reader<'_>) -> ToolFile {
    let cone = angle(reader, "angle", CENTRE);
    let point = angle(reader, "pilot_point", PILOT_POINT);
    let pilot = pilot(reader, point);
    let size = reader.need("body", "body = 8.0");
    let tool = bare(reader, ToolKind::CentreDrill, size);
    ToolFile { point: Point::Cone(cone), pilot: Some(pilot), ..tool }
}

pub(super) fn boring_bar(reader: &mut Reader<'_>) -> ToolFile {
    let size = reader.need("least", "least = 5.0");
    bare(reader, ToolKind::BoringBar, size)
}

fn drill_point(reader: &mut Reader<'_>) -> Point {
    let point: Option<Placed<Point>> = reader.maybe("point");
    point.map_or(Point::Cone(DRILL_POINT), |point| point.value)
}

fn angle(reader: &mut Reader<'_>, key: &'static str, usual: Angle) -> Angle {
    let angle: Option<Placed<ConeAngle>> = reader.maybe(key);
    angle.map_or(usual, |angle| angle.value.0)
}

fn pilot(reader: &mut Reader<'_>, point: Angle) -> PilotFile {
    PilotFile {
        diameter: reader.need("pilot", "pilot = 2.5"),
        length: reader.need("pilot_length", "pilot_length = 3.0"),
        point,
    }
}

/// A tool of a size that leaves a hole of about that size.
fn sized(reader: &mut Reader<'_>, kind: ToolKind) -> ToolFile {
    let size = reader.need("size", "size = 8.2");
    let measured = reader.maybe("measured");
    let cuts = reader.tables("cuts", |r| CutFile {
        material: r.need("material", "material = \"cast-resin\""),
        hole: r.need("hole", "hole = 8.25"),
        uncertainty: r.maybe("uncertainty"),
    });
    let cuts_over = reader.maybe("cuts_over");
    ToolFile { measured, cuts, cuts_over, ..bare(reader, kind, size) }
}

/// What every tool has.
fn bare(reader: &mut Reader<'_>, kind: ToolKind, size: Placed<DrillSize>) -> ToolFile {
    ToolFile {
        kind,
        size,
        measured: None,
        point: Point::Flat,
        pilot: None,
        cuts: Vec::new(),
        cuts_over: None,
        reach: reader.maybe("reach"),
    }
}
