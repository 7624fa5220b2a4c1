//! Tools that cut holes: series told out, points with their pilots, holes by material.

use crate::design::rack_file::{CutFile, RackFile, SeriesFile, ToolFile};
use crate::design::reader::Placed;
use crate::design::resolve::Making;
use crate::design::resolve::criteria::spread_of;
use crate::design::value::{CALIPER, Size};
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::{Length, Limits};
use crate::section::{COINCIDENT, CentrePilot, Point, Tool, ToolKind};
use crate::standard::DrillSize;

/// More tools are no rack: all series of drills together are under half of them.
const MOST: usize = 1000;

/// A tool that measures more off its mark is another tool: less, and an end mill ground a few times
/// would be refused, more, and a slip in the tenths would pass.
const MOST_OFF: Length = Length::mm(0.5);

/// A hole that is more off its tool was left by another one, or by another tool's slip; as far as
/// `cuts_over` may say.
const MOST_OVER: Length = Length::mm(1.0);

/// All tools, in the order of the files; those that are wrong are noted and left out.
pub(super) fn resolve(racks: &[RackFile], material: &str, making: &mut Making) -> Vec<Tool> {
    let mut tools = Vec::new();
    let mut told = false;
    let mut room = |tools: &Vec<Tool>, at: Place, making: &mut Making| {
        let full = tools.len() >= MOST;
        if full && !told {
            told = true;
            making.log.push(
                Diagnostic::error(
                    "rack.too-many-tools",
                    format!("more than {MOST} tools are no rack"),
                )
                .at(at)
                .hint(format!("{MOST} at most, series, sets and all")),
            );
        }
        !full
    };
    for rack in racks {
        for drill in &rack.drills {
            if room(&tools, drill.size.at(), making) {
                tools.extend(one(drill, material, making));
            }
        }
        for series in &rack.series {
            for drill in in_line(series, making) {
                if !room(&tools, series.at, making) {
                    break;
                }
                tools.push(drill);
            }
        }
        for tool in &rack.others {
            if room(&tools, tool.size.at(), making) {
                tools.extend(one(tool, material, making));
            }
        }
    }
    tools
}

/// The drills of a series between two of its sizes.
fn in_line(file: &SeriesFile, making: &mut Making) -> Vec<Tool> {
    let (from, to) = (file.from.value, file.to.value);
    let all = file.of.value.sizes();
    let written = |size: DrillSize| match size.name() {
        Some(name) => format!("\"{name}\""),
        None => size.diameter().as_mm().to_string(),
    };
    if from.diameter() > to.diameter() {
        making.log.push(
            Diagnostic::error(
                "rack.series-order",
                format!("a series from {from} to {to} runs backwards"),
            )
            .at(file.from.at())
            .also(file.to.at(), "the widest")
            .hint(format!(
                "from = {}, to = {}: the thinnest first",
                written(to),
                written(from)
            )),
        );
        return Vec::new();
    }
    let (least, greatest) = (from.diameter() - COINCIDENT, to.diameter() + COINCIDENT);
    let sizes = all.iter().filter(|size| (least..=greatest).contains(&size.diameter()));
    let drill = |size: &DrillSize| Tool {
        kind: ToolKind::Drill,
        size: *size,
        measured: None,
        point: file.point,
        hole: None,
        cuts_over: None,
        reach: None,
    };
    let drills: Vec<Tool> = sizes.map(drill).collect();
    if let ([], Some(first), Some(last)) = (&drills[..], all.first(), all.last()) {
        making.log.push(
            Diagnostic::error(
                "rack.series-empty",
                format!("no drill of it lies from {from} to {to}"),
            )
            .at(file.from.at())
            .also(file.of.at(), "the series")
            .hint(format!("it runs from {} to {}", written(*first), written(*last))),
        );
    }
    drills
}

fn one(file: &ToolFile, material: &str, making: &mut Making) -> Option<Tool> {
    let before = making.log.len();
    let size = file.size.value;
    let off = |measured: &&Placed<Size>| (measured.value.0 - size.diameter()).abs() > MOST_OFF;
    if let Some(slip) = file.measured.as_ref().filter(off) {
        let message = format!("a {} of {size} does not measure {}", file.kind, slip.value.0);
        let works = format!("within {MOST_OFF} of {:.3}", size.diameter());
        making.log.push(
            Diagnostic::error("rack.not-this-tool", message)
                .at(slip.at())
                .also(file.size.at(), "as it is marked")
                .hint(format!("{works}; or write the size that it is")),
        );
    }
    let measured = file.measured.as_ref().filter(|measured| !off(measured));
    let measured = measured.map(|measured| measured.value.0);
    let diameter = measured.unwrap_or(size.diameter());
    let point = point(file, diameter, making);
    let hole = hole(&file.cuts, diameter, material, making);
    (making.log.len() == before).then(|| Tool {
        kind: file.kind,
        size,
        measured,
        point,
        hole,
        cuts_over: file.cuts_over.as_ref().map(|over| spread_of(over.value)),
        reach: file.reach.as_ref().map(|reach| reach.value.0),
    })
}

/// The end of a tool of this diameter, with what is thinner in front of it.
fn point(file: &ToolFile, diameter: Length, making: &mut Making) -> Point {
    let (Point::Cone(cone), Some(pilot)) = (file.point, &file.pilot) else { return file.point };
    let thin = pilot.diameter.value.0;
    if thin >= diameter {
        let message =
            format!("a pilot of {thin} is not thinner than its {} of {diameter}", file.kind);
        making.log.push(
            Diagnostic::error("rack.pilot", message)
                .at(pilot.diameter.at())
                .also(file.size.at(), "the tool behind it")
                .hint(format!("under {diameter}, such as pilot = {}", (diameter / 2.0).as_mm())),
        );
    }
    let (length, point) = (pilot.length.value.0, pilot.point);
    Point::Centre(cone, CentrePilot { diameter: thin, length, point })
}

/// The hole that a tool of this diameter left in a material; none where nobody measured one.
fn hole(cuts: &[CutFile], diameter: Length, material: &str, making: &mut Making) -> Option<Limits> {
    let mut found = None;
    for (n, cut) in cuts.iter().enumerate() {
        let hole = cut.hole.value.0;
        let uncertainty = cut.uncertainty.as_ref().map_or(CALIPER, |u| u.value.0);
        if (hole - diameter).abs() > MOST_OVER {
            let message = format!("a tool of {diameter} does not leave a hole of {hole}");
            making.log.push(
                Diagnostic::error("rack.not-its-hole", message).at(cut.hole.at()).hint(format!(
                    "within {MOST_OVER} of the tool, such as hole = {}",
                    diameter.as_mm()
                )),
            );
        }
        if uncertainty >= hole {
            let at = cut.uncertainty.as_ref().map_or(cut.hole.at(), Placed::at);
            making.log.push(uncertain(hole, uncertainty, at));
        }
        let same = |other: &&CutFile| other.material.value == cut.material.value;
        if let Some(first) = cuts[..n].iter().find(same) {
            let message = format!("`cuts` has a hole in {} twice", cut.material.value);
            making.log.push(
                Diagnostic::error("rack.cut-twice", message)
                    .at(cut.material.at())
                    .also(first.material.at(), "the other one")
                    .hint("keep one, with an uncertainty that spans both"),
            );
        }
        if cut.material.value == material {
            found = Limits::around(hole, uncertainty);
        }
    }
    found
}

/// A reading that may be off by all of itself.
pub(super) fn uncertain(reading: Length, uncertainty: Length, at: Place) -> Diagnostic {
    let message = format!("a reading of {reading} can't be off by {uncertainty}");
    Diagnostic::error("rack.uncertainty", message)
        .at(at)
        .hint(format!("less than the reading, such as uncertainty = {}", CALIPER.as_mm()))
}
