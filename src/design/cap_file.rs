//! The cap and the converter of a design as people write them.

use super::design_file::{RingFile, ring};
use super::reader::{Placed, Reader};
use super::thread_file::{self, CutFile};
use super::value::{Measured, Size};
use crate::diagnostic::Place;
use crate::standard::ThreadDesignation;

/// A bore of the cap; the last one may leave out where it ends.
#[derive(Clone, Debug)]
pub(super) struct CapBoreFile {
    pub(super) at: Place,
    pub(super) to: Option<Placed<Size>>,
    pub(super) diameter: Placed<Measured>,
}

/// The inner cap.
#[derive(Clone, Debug)]
pub(super) struct SealFile {
    pub(super) at: Place,
    pub(super) depth: Placed<Measured>,
    pub(super) diameter: Placed<Measured>,
}

/// The cap.
#[derive(Clone, Debug)]
pub(super) struct CapFile {
    pub(super) at: Place,
    pub(super) stops_at: Option<Placed<Size>>,
    pub(super) length: Placed<Measured>,
    pub(super) thread: Option<Placed<ThreadDesignation>>,
    pub(super) cut: CutFile,
    pub(super) thread_minor: Option<Placed<Measured>>,
    pub(super) full_thread_to: Option<Placed<Size>>,
    pub(super) counterbore: Option<RingFile>,
    pub(super) bores: Vec<CapBoreFile>,
    pub(super) seal: Option<SealFile>,
}

/// The converter's mouth.
#[derive(Clone, Debug)]
pub(super) struct ConverterMouthFile {
    pub(super) at: Place,
    pub(super) diameter: Placed<Measured>,
    pub(super) length: Placed<Measured>,
}

/// The converter.
#[derive(Clone, Debug)]
pub(super) struct ConverterFile {
    pub(super) at: Place,
    pub(super) diameter: Placed<Measured>,
    pub(super) length: Placed<Measured>,
    pub(super) onto_nipple: Placed<Measured>,
    pub(super) mouth: Option<ConverterMouthFile>,
}

/// Reads `[cap]`.
pub(super) fn cap(reader: &mut Reader<'_>) -> CapFile {
    reader.one_of(&["thread", "thread_minor"]);
    CapFile {
        at: reader.at(),
        stops_at: reader.maybe("stops_at"),
        length: reader.need("length", "length = 48"),
        thread: reader.maybe("thread"),
        cut: thread_file::read(reader),
        thread_minor: reader.maybe("thread_minor"),
        full_thread_to: reader.maybe("full_thread_to"),
        counterbore: reader.table("counterbore", ring("depth")),
        bores: reader.tables("bores", |r| CapBoreFile {
            at: r.at(),
            to: r.maybe("to"),
            diameter: r.need("diameter", "diameter = 13.2"),
        }),
        seal: reader.table("seal", |r| SealFile {
            at: r.at(),
            depth: r.need("depth", "depth = 22.5"),
            diameter: r.need("diameter", "diameter = 9.5"),
        }),
    }
}

/// Reads `[converter]`.
pub(super) fn converter(reader: &mut Reader<'_>) -> ConverterFile {
    ConverterFile {
        at: reader.at(),
        diameter: reader.need("diameter", "diameter = 6.2"),
        length: reader.need("length", "length = 55"),
        onto_nipple: reader.need("onto_nipple", "onto_nipple = 5"),
        mouth: reader.table("mouth", |r| ConverterMouthFile {
            at: r.at(),
            diameter: r.need("diameter", "diameter = 5.6"),
            length: r.need("length", "length = 8"),
        }),
    }
}
