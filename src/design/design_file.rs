//! A section's design as people write it.

use super::bores_file::{ToolsFile, tools};
use super::cap_file::{self, CapFile, ConverterFile};
use super::grip_file::{self, GripFile};
use super::reader::{Placed, Reader};
use super::resolved::Made;
use super::thread_file::{self, CutFile};
use super::tree::Table;
use super::value::{CutsOver, Distance, Hole, Lead, Seat, Size};
use crate::diagnostic::Place;
use crate::section::Point;
use crate::standard::ThreadDesignation;

/// A ring: a relief groove (`width`), a pilot (`length`) or a counterbore (`depth`).
#[derive(Clone, Debug)]
pub(super) struct RingFile {
    pub(super) at: Place,
    pub(super) along: Placed<Size>,
    pub(super) diameter: Placed<Size>,
}

/// The tenon.
#[derive(Clone, Debug)]
pub(super) struct TenonFile {
    pub(super) thread: Placed<ThreadDesignation>,
    pub(super) cut: CutFile,
    pub(super) length: Placed<Size>,
    pub(super) chamfer: Option<Placed<Lead>>,
    pub(super) relief: Option<RingFile>,
    pub(super) pilot: Option<RingFile>,
}

/// What every hole of the stack may say.
#[derive(Clone, Debug, Default)]
pub(super) struct BoreFile {
    /// The table's header, if there is a table.
    pub(super) at: Option<Place>,
    pub(super) diameter: Option<Placed<Hole>>,
    /// How much wider than what goes through it.
    pub(super) over: Option<Placed<Size>>,
    pub(super) depth: Option<Placed<Size>>,
    /// The recess: how far the collar's front lies under the front face.
    pub(super) under: Option<Placed<Distance>>,
    /// The recess: how far the collar stands out of the front face.
    pub(super) proud: Option<Placed<Distance>>,
    /// The tap drill: how far it goes on behind the thread.
    pub(super) beyond: Option<Placed<Distance>>,
    pub(super) point: Option<Placed<Point>>,
    pub(super) cuts_over: Option<Placed<CutsOver>>,
}

/// The thread that takes the unit.
#[derive(Clone, Debug, Default)]
pub(super) struct UnitThreadFile {
    pub(super) designation: Option<Placed<ThreadDesignation>>,
    pub(super) class: Option<Placed<String>>,
    pub(super) to: Option<Placed<Size>>,
    pub(super) cut: CutFile,
    pub(super) tap: Option<TapFile>,
}

/// A tap, as it was measured.
#[derive(Clone, Debug)]
pub(super) struct TapFile {
    pub(super) at: Place,
    pub(super) major: Placed<Size>,
    pub(super) pitch_diameter: Placed<Size>,
    pub(super) uncertainty: Option<Placed<Distance>>,
}

/// The holes.
#[derive(Clone, Debug, Default)]
pub(super) struct BoresFile {
    pub(super) recess: BoreFile,
    pub(super) clearance: BoreFile,
    pub(super) thread: UnitThreadFile,
    pub(super) tap_drill: BoreFile,
    pub(super) through: BoreFile,
    /// Whether it says that no hole goes through.
    pub(super) blind: bool,
    pub(super) tools: ToolsFile,
}

/// The barrel.
#[derive(Clone, Debug)]
pub(super) struct BarrelFile {
    pub(super) thread: Option<Placed<ThreadDesignation>>,
    pub(super) cut: CutFile,
    pub(super) depth: Placed<Size>,
    pub(super) full_thread_to: Option<Placed<Size>>,
    pub(super) counterbore: Option<RingFile>,
    pub(super) bore: Option<RingFile>,
    pub(super) outside: Option<Placed<Size>>,
}

/// The rod.
#[derive(Clone, Debug, Default)]
pub(super) struct BlankFile {
    pub(super) diameter: Option<Placed<Size>>,
    pub(super) length: Option<Placed<Size>>,
}

/// What is still to come off the front, and how far features may lie off the axis.
#[derive(Clone, Debug, Default)]
pub(super) struct ShopFile {
    pub(super) facing: Option<Placed<Distance>>,
    pub(super) sanding: Option<Placed<Distance>>,
    pub(super) holding: Option<Placed<Distance>>,
    pub(super) long_hole: Option<Placed<Distance>>,
}

/// What the drawing's title block says.
#[derive(Clone, Debug, Default)]
pub(super) struct DrawingFile {
    pub(super) drawn_by: Option<Placed<String>>,
    pub(super) date: Option<Placed<String>>,
}

/// A section's design.
#[derive(Clone, Debug)]
pub(super) struct DesignFile {
    pub(super) name: Placed<String>,
    pub(super) unit: Placed<String>,
    pub(super) material: Placed<String>,
    pub(super) maker: Option<Placed<String>>,
    pub(super) rack: Option<Placed<String>>,
    pub(super) grip: GripFile,
    pub(super) tenon: TenonFile,
    pub(super) bores: BoresFile,
    pub(super) barrel: BarrelFile,
    pub(super) cap: Option<CapFile>,
    pub(super) converter: Option<ConverterFile>,
    pub(super) blank: BlankFile,
    pub(super) shop: ShopFile,
    pub(super) drawing: DrawingFile,
    /// `[limits]`: what goes over the material's own, as its file writes it.
    pub(super) limits: Option<Table>,
    /// `[made]`: what was really cut.
    pub(super) made: Option<Placed<Made>>,
}

pub(super) fn ring(along: &'static str) -> impl FnOnce(&mut Reader<'_>) -> RingFile {
    move |reader| RingFile {
        at: reader.at(),
        along: reader.need(along, &format!("{along} = 1.2")),
        diameter: reader.need("diameter", "diameter = 8.8"),
    }
}

fn tenon(reader: &mut Reader<'_>) -> TenonFile {
    TenonFile {
        thread: reader.need("thread", "thread = \"M10x0.75-6g\""),
        cut: thread_file::read(reader),
        length: reader.need("length", "length = 10"),
        chamfer: reader.maybe("chamfer"),
        relief: reader.table("relief", ring("width")),
        pilot: reader.table("pilot", ring("length")),
    }
}

fn barrel(reader: &mut Reader<'_>) -> BarrelFile {
    BarrelFile {
        thread: reader.maybe("thread"),
        cut: thread_file::read(reader),
        depth: reader.need("depth", "depth = 14"),
        full_thread_to: reader.maybe("full_thread_to"),
        counterbore: reader.table("counterbore", ring("depth")),
        bore: reader.table("bore", ring("depth")),
        outside: reader.maybe("outside"),
    }
}

/// Diameter and spread, which all holes have.
fn hole(reader: &mut Reader<'_>) -> BoreFile {
    reader.one_of(&["diameter", "over"]);
    BoreFile {
        at: Some(reader.at()),
        diameter: reader.maybe("diameter"),
        over: reader.maybe("over"),
        cuts_over: reader.maybe("cuts_over"),
        ..BoreFile::default()
    }
}

fn recess(reader: &mut Reader<'_>) -> BoreFile {
    reader.one_of(&["depth", "under", "proud"]);
    let seat: Option<Placed<Seat>> = reader.maybe("seat");
    BoreFile {
        depth: reader.maybe("depth"),
        under: reader.maybe("under"),
        proud: reader.maybe("proud"),
        point: seat.map(|seat| seat.map(|seat| seat.0)),
        ..hole(reader)
    }
}

fn clearance(reader: &mut Reader<'_>) -> BoreFile {
    BoreFile { depth: reader.maybe("depth"), point: reader.maybe("point"), ..hole(reader) }
}

fn tap_drill(reader: &mut Reader<'_>) -> BoreFile {
    reader.one_of(&["depth", "beyond"]);
    BoreFile {
        at: Some(reader.at()),
        diameter: reader.maybe("diameter"),
        depth: reader.maybe("depth"),
        beyond: reader.maybe("beyond"),
        point: reader.maybe("point"),
        cuts_over: reader.maybe("cuts_over"),
        ..BoreFile::default()
    }
}

fn through(reader: &mut Reader<'_>) -> BoreFile {
    BoreFile { point: reader.maybe("point"), ..hole(reader) }
}

fn unit_thread(reader: &mut Reader<'_>) -> UnitThreadFile {
    UnitThreadFile {
        designation: reader.maybe("designation"),
        class: reader.maybe("class"),
        to: reader.maybe("to"),
        cut: thread_file::read(reader),
        tap: reader.table("tap", |r| TapFile {
            at: r.at(),
            major: r.need("major", "major = 8.02"),
            pitch_diameter: r.need("pitch_diameter", "pitch_diameter = 7.70"),
            uncertainty: r.maybe("uncertainty"),
        }),
    }
}

fn bores(reader: &mut Reader<'_>) -> BoresFile {
    BoresFile {
        recess: reader.table("recess", recess).unwrap_or_default(),
        clearance: reader.table("clearance", clearance).unwrap_or_default(),
        thread: reader.table("thread", unit_thread).unwrap_or_default(),
        tap_drill: reader.table("tap_drill", tap_drill).unwrap_or_default(),
        blind: reader.left_out("through"),
        through: reader.table("through", through).unwrap_or_default(),
        tools: tools(reader),
    }
}

impl DesignFile {
    /// Reads all keys; those in `[limits]` are read with the material's.
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let name = reader.need("name", "name = \"Pen 7\"");
        let unit = reader.need("unit", "unit = \"demo-unit\"");
        let material = reader.need("material", "material = \"cast-resin\"");
        let maker = reader.maybe("maker");
        let rack = reader.maybe("rack");
        let grip = reader
            .need_table("grip", "[grip] with length = 22 and front = 10.4", grip_file::read)
            .unwrap_or_default();
        let tenon = reader
            .need_table("tenon", "[tenon] with thread = \"M10x0.75-6g\" and length = 10", tenon)
            .unwrap_or_default();
        let bores = reader.table("bores", bores).unwrap_or_default();
        let barrel =
            reader.need_table("barrel", "[barrel] with depth = 14", barrel).unwrap_or_default();
        let cap = reader.table("cap", cap_file::cap);
        let converter = reader.table("converter", cap_file::converter);
        let blank = reader
            .table("blank", |r| BlankFile {
                diameter: r.maybe("diameter"),
                length: r.maybe("length"),
            })
            .unwrap_or_default();
        let allowance = reader
            .table("allowance", |r| (r.maybe("facing"), r.maybe("sanding")))
            .unwrap_or_default();
        let offsets = reader
            .table("offsets", |r| (r.maybe("holding"), r.maybe("long_hole")))
            .unwrap_or_default();
        let shop = ShopFile {
            facing: allowance.0,
            sanding: allowance.1,
            holding: offsets.0,
            long_hole: offsets.1,
        };
        let drawing = reader
            .table("drawing", |r| DrawingFile {
                drawn_by: r.maybe("drawn_by"),
                date: r.maybe("date"),
            })
            .unwrap_or_default();
        let limits = reader.unread("limits").map(|(table, _)| table);
        let made = reader.maybe("made");
        Self {
            name,
            unit,
            material,
            maker,
            rack,
            grip,
            tenon,
            bores,
            barrel,
            cap,
            converter,
            blank,
            shop,
            drawing,
            limits,
            made,
        }
    }
}

impl Default for TenonFile {
    fn default() -> Self {
        let thread = Placed::stand_in(super::reader::Needed::stand_in());
        Self {
            thread,
            cut: CutFile::default(),
            length: Placed::default(),
            chamfer: None,
            relief: None,
            pilot: None,
        }
    }
}

impl Default for BarrelFile {
    fn default() -> Self {
        let depth = Placed::default();
        Self {
            thread: None,
            cut: CutFile::default(),
            depth,
            full_thread_to: None,
            counterbore: None,
            bore: None,
            outside: None,
        }
    }
}
