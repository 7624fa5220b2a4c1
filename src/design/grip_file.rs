//! The grip of a design as people write it.

use super::reader::{Placed, Reader};
use super::thread_file::{self, CutFile};
use super::value::{Groove, Legs, Size, TangentTo};
use crate::diagnostic::Place;
use crate::standard::ThreadDesignation;

/// What becomes of a corner; neither: it stays sharp.
#[derive(Clone, Debug, Default)]
pub(super) struct CornerFile {
    pub(super) fillet: Option<Placed<Size>>,
    pub(super) chamfer: Option<Placed<Legs>>,
}

/// A point that an arc passes.
#[derive(Clone, Debug)]
pub(super) struct PointFile {
    pub(super) at: Place,
    pub(super) z: Placed<Size>,
    pub(super) diameter: Placed<Size>,
}

/// One turned run of the grip; without a diameter it is as wide as the run before it, or as the
/// thread that it carries. At most one of the curves is given.
#[derive(Clone, Debug)]
pub(super) struct RunFile {
    pub(super) to: Placed<Size>,
    pub(super) diameter: Option<Placed<Size>>,
    pub(super) concave: Option<Placed<Size>>,
    pub(super) convex: Option<Placed<Size>>,
    pub(super) through: Option<PointFile>,
    pub(super) tangent: Option<Placed<TangentTo>>,
    pub(super) thread: Option<Placed<ThreadDesignation>>,
    pub(super) cut: CutFile,
    pub(super) corner: CornerFile,
}

impl RunFile {
    /// Where its curve is written, if it has one.
    pub(super) fn curve_at(&self) -> Option<Place> {
        let radius = self.concave.as_ref().or(self.convex.as_ref()).map(Placed::at);
        let point = self.through.as_ref().map(|point| point.at);
        radius.or(point).or(self.tangent.as_ref().map(Placed::at))
    }
}

/// A bead (`height`) or groove (`depth`).
#[derive(Clone, Debug)]
pub(super) struct GripRingFile {
    pub(super) header: Place,
    pub(super) at: Placed<Size>,
    pub(super) width: Placed<Size>,
    pub(super) height: Placed<Size>,
    /// Of a groove; round without it.
    pub(super) shape: Option<Placed<Groove>>,
}

/// The grip.
#[derive(Clone, Debug, Default)]
pub(super) struct GripFile {
    pub(super) length: Placed<Size>,
    pub(super) front: Placed<Size>,
    pub(super) rim: CornerFile,
    pub(super) runs: Vec<RunFile>,
    pub(super) beads: Vec<GripRingFile>,
    pub(super) grooves: Vec<GripRingFile>,
}

fn corner(reader: &mut Reader<'_>) -> CornerFile {
    reader.one_of(&["fillet", "chamfer"]);
    CornerFile { fillet: reader.maybe("fillet"), chamfer: reader.maybe("chamfer") }
}

fn point(reader: &mut Reader<'_>) -> PointFile {
    PointFile {
        at: reader.at(),
        z: reader.need("z", "z = 12"),
        diameter: reader.need("diameter", "diameter = 10.8"),
    }
}

fn run(reader: &mut Reader<'_>) -> RunFile {
    reader.one_of(&["concave", "convex", "through", "tangent"]);
    RunFile {
        to: reader.need("to", "to = 8"),
        diameter: reader.maybe("diameter"),
        concave: reader.maybe("concave"),
        convex: reader.maybe("convex"),
        through: reader.table("through", point),
        tangent: reader.maybe("tangent"),
        thread: reader.maybe("thread"),
        cut: thread_file::read(reader),
        corner: corner(reader),
    }
}

fn bead(reader: &mut Reader<'_>) -> GripRingFile {
    GripRingFile {
        header: reader.at(),
        at: reader.need("at", "at = 5"),
        width: reader.need("width", "width = 2"),
        height: reader.need("height", "height = 0.4"),
        shape: None,
    }
}

fn groove(reader: &mut Reader<'_>) -> GripRingFile {
    GripRingFile {
        header: reader.at(),
        at: reader.need("at", "at = 5"),
        width: reader.need("width", "width = 1"),
        height: reader.need("depth", "depth = 0.3"),
        shape: reader.maybe("shape"),
    }
}

/// Reads `[grip]`.
pub(super) fn read(reader: &mut Reader<'_>) -> GripFile {
    GripFile {
        length: reader.need("length", "length = 22"),
        front: reader.need("front", "front = 10.4"),
        rim: corner(reader),
        runs: reader.tables("run", run),
        beads: reader.tables("bead", bead),
        grooves: reader.tables("groove", groove),
    }
}
