//! A nib unit as people write it.

use super::reader::{Needed, Placed, Reader};
use super::value::{Amount, Distance, Measured, Size};
use crate::diagnostic::Place;
use crate::standard::ThreadDesignation;

/// A cylinder of the unit behind the collar.
#[derive(Clone, Debug, Default)]
pub(super) struct StepFile {
    pub(super) diameter: Placed<Measured>,
    /// From the underside of the collar.
    pub(super) to: Placed<Measured>,
}

/// How the pitch was measured: so many turns, over this length.
#[derive(Clone, Debug)]
pub(super) struct PitchFile {
    pub(super) at: Place,
    pub(super) over: Placed<Size>,
    pub(super) turns: Placed<Amount>,
    pub(super) uncertainty: Option<Placed<Distance>>,
    /// The pitch of the thread gauge's leaf that fits.
    pub(super) gauge: Option<Placed<Size>>,
}

/// The unit's thread.
#[derive(Clone, Debug)]
pub(super) struct UnitThreadFile {
    pub(super) designation: Placed<ThreadDesignation>,
    pub(super) major: Placed<Measured>,
    pub(super) pitch: Option<PitchFile>,
    pub(super) from: Option<Placed<Measured>>,
    pub(super) to: Placed<Measured>,
    pub(super) chamfer: Option<Placed<Distance>>,
}

/// A nib unit.
#[derive(Clone, Debug)]
pub(super) struct UnitFile {
    pub(super) at: Place,
    pub(super) name: Placed<String>,
    pub(super) collar: Placed<Measured>,
    pub(super) thickness: Placed<Measured>,
    pub(super) plain: Option<StepFile>,
    pub(super) thread: UnitThreadFile,
    pub(super) tail: Option<StepFile>,
    pub(super) nipple: Option<StepFile>,
    pub(super) nib_reach: Placed<Measured>,
    pub(super) nib_width: Placed<Measured>,
}

fn step(reader: &mut Reader<'_>) -> StepFile {
    StepFile {
        diameter: reader.need("diameter", "diameter = 6.5"),
        to: reader.need("to", "to = 12.0"),
    }
}

fn pitch(reader: &mut Reader<'_>) -> PitchFile {
    PitchFile {
        at: reader.at(),
        over: reader.need("over", "over = 3.3"),
        turns: reader.need("turns", "turns = 6"),
        uncertainty: reader.maybe("uncertainty"),
        gauge: reader.maybe("gauge"),
    }
}

fn thread(reader: &mut Reader<'_>) -> UnitThreadFile {
    UnitThreadFile {
        designation: reader.need("designation", "designation = \"M8.05x0.55\""),
        major: reader.need("major", "major = { value = 8.00, uncertainty = 0.02 }"),
        pitch: reader.table("pitch", pitch),
        from: reader.maybe("from"),
        to: reader.need("to", "to = 10.5"),
        chamfer: reader.maybe("chamfer"),
    }
}

impl UnitFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let (collar, thickness) = reader
            .need_table("collar", "[collar] with diameter = 9.0 and thickness = 1.2", |r| {
                (r.need("diameter", "diameter = 9.0"), r.need("thickness", "thickness = 1.2"))
            })
            .unwrap_or_default();
        let (nib_reach, nib_width) = reader
            .need_table("nib", "[nib] with reach = 20 and width = 6.5", |r| {
                (r.need("reach", "reach = 20"), r.need("width", "width = 6.5"))
            })
            .unwrap_or_default();
        Self {
            at: reader.at(),
            name: reader.need("name", "name = \"our own unit, measured\""),
            collar,
            thickness,
            plain: reader.table("plain", step),
            thread: reader
                .need_table("thread", "[thread] with designation, major and to", thread)
                .unwrap_or_else(UnitThreadFile::stand_in),
            tail: reader.table("tail", step),
            nipple: reader.table("nipple", step),
            nib_reach,
            nib_width,
        }
    }
}

impl UnitThreadFile {
    fn stand_in() -> Self {
        Self {
            designation: Placed::stand_in(ThreadDesignation::stand_in()),
            major: Placed::default(),
            pitch: None,
            from: None,
            to: Placed::default(),
            chamfer: None,
        }
    }
}
