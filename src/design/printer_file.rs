//! A printer as people write it: how fine it is, and what it does to each kind of surface.

use super::reader::{Needed, Placed, Read, Reader};
use super::tree::Node;
use super::value::{Build, Distance, Share, Shift, Size, Sourced, word};
use crate::diagnostic::Diagnostic;
use crate::section::Process;

impl Read for Process {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        word(node, key, log, &Self::ALL.map(|process| (process.name(), process)))
    }
}

impl Needed for Process {
    fn stand_in() -> Self {
        Self::Resin
    }
}

/// What is added to a diameter.
#[derive(Clone, Debug, Default)]
pub(super) struct CompensationFile {
    pub(super) constant: Placed<Shift>,
    pub(super) share: Placed<Share>,
}

/// How far the flanks of threads are moved into the material.
#[derive(Clone, Debug, Default)]
pub(super) struct FlanksFile {
    pub(super) internal: Placed<Shift>,
    pub(super) external: Placed<Shift>,
}

/// A printer.
#[derive(Clone, Debug)]
pub(super) struct PrinterFile {
    pub(super) name: Placed<String>,
    pub(super) process: Placed<Process>,
    pub(super) pixel: Option<Placed<Size>>,
    pub(super) nozzle: Option<Placed<Size>>,
    pub(super) layer: Placed<Size>,
    pub(super) hole: CompensationFile,
    pub(super) boss: CompensationFile,
    pub(super) thread: FlanksFile,
    pub(super) face: Placed<Shift>,
    pub(super) spread: Placed<Distance>,
    pub(super) scatter: Placed<Distance>,
    pub(super) least_wall: Placed<Sourced<Size>>,
    pub(super) least_feature: Placed<Sourced<Size>>,
    pub(super) build: Placed<Build>,
}

impl PrinterFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let name = reader.need("name", "name = \"our printer\"");
        let process: Placed<Process> = reader.need("process", "process = \"resin\"");
        let (pixel, nozzle) = (reader.maybe("pixel"), reader.maybe("nozzle"));
        // Which of the two it has is the process's; where both or the wrong one are there, what
        // is said of that is enough (`resolve::printer`).
        if process.place().is_some() && !reader.has("pixel") && !reader.has("nozzle") {
            match process.value {
                Process::Resin => reader.missing("pixel", "pixel = 0.05"),
                Process::Filament => reader.missing("nozzle", "nozzle = 0.4"),
            }
        }
        let layer = reader.need("layer", "layer = 0.05");
        let hole = compensation(reader, "hole", "hole = { constant = 0.1, share = 0.003 }");
        let boss = compensation(reader, "boss", "boss = { constant = -0.06, share = 0.003 }");
        let example = "thread = { internal = 0.04, external = 0.04 }";
        let thread = reader.need_table("thread", example, |r| FlanksFile {
            internal: r.need("internal", "internal = 0.04"),
            external: r.need("external", "external = 0.04"),
        });
        Self {
            name,
            process,
            pixel,
            nozzle,
            layer,
            hole,
            boss,
            thread: thread.unwrap_or_default(),
            face: reader.need("face", "face = 0.0"),
            spread: reader.need("spread", "spread = 0.15"),
            scatter: reader.need("scatter", "scatter = 0.03"),
            least_wall: reader.need("least_wall", "least_wall = 0.5"),
            least_feature: reader.need("least_feature", "least_feature = 0.15"),
            build: reader.need("build", "build = [120, 68, 150]"),
        }
    }
}

fn compensation(reader: &mut Reader<'_>, key: &'static str, example: &str) -> CompensationFile {
    let read = reader.need_table(key, example, |r| CompensationFile {
        constant: r.need("constant", "constant = 0.1"),
        share: r.need("share", "share = 0.003"),
    });
    read.unwrap_or_default()
}
