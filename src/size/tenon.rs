//! The sizes of the tenon, counted from the shoulder.

use super::SizeId;
use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::thread::{move_rod, swell};
use crate::quantity::{Angle, Length};
use crate::section::{Facet, Feature, Item, LeadChamfer, Means, Section};

/// What a size of the tenon is; none of what is another's.
#[expect(clippy::too_many_lines, reason = "a table, one row a size")]
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Angle, Length};
    let of = |item, facet| vec![Feature::new(item, facet)];
    let (turned, faced) = (Made::By(Means::Turned), Made::By(Means::Faced));
    let side = Facet::Side;
    let (name, words, dimension, datum, shapes, made, rank) = match size {
        SizeId::TenonLength => (
            "tenon.length",
            "length of the tenon",
            Length,
            Datum::Shoulder,
            of(Item::BackFace, side),
            faced,
            3,
        ),
        SizeId::TenonDiameter => (
            "tenon.form.major",
            "diameter of the tenon",
            Across,
            Datum::None,
            of(Item::Tenon, side),
            turned,
            3,
        ),
        SizeId::TenonChamfer => (
            "tenon.chamfer",
            "chamfer of the tenon",
            Length,
            Datum::None,
            of(Item::Tenon, Facet::Chamfer),
            faced,
            0,
        ),
        SizeId::TenonChamferAngle => (
            "tenon.chamfer.angle",
            "angle of the tenon's chamfer",
            Angle,
            Datum::None,
            of(Item::Tenon, Facet::Chamfer),
            faced,
            0,
        ),
        SizeId::TenonThreadStart => (
            "tenon.thread.from",
            "start of full thread on the tenon",
            Length,
            Datum::Shoulder,
            of(Item::TenonThread, side),
            faced,
            0,
        ),
        SizeId::TenonThreadEnd => (
            "tenon.thread.to",
            "end of full thread on the tenon",
            Length,
            Datum::Shoulder,
            of(Item::TenonThread, side),
            faced,
            0,
        ),
        SizeId::TenonThreadSize => (
            "tenon.form.pitch_diameter",
            "pitch diameter of the tenon's thread",
            Across,
            Datum::None,
            of(Item::TenonThread, side),
            Made::Tool,
            3,
        ),
        SizeId::PilotDiameter => (
            "tenon.pilot.diameter",
            "diameter of the tenon's pilot",
            Across,
            Datum::None,
            of(Item::Pilot, side),
            turned,
            3,
        ),
        SizeId::PilotLength => (
            "tenon.pilot.length",
            "length of the tenon's pilot",
            Length,
            Datum::None,
            of(Item::Pilot, side),
            faced,
            3,
        ),
        SizeId::ReliefDiameter => (
            "tenon.relief.diameter",
            "diameter of the relief groove",
            Across,
            Datum::None,
            of(Item::Relief, side),
            turned,
            3,
        ),
        SizeId::ReliefWidth => (
            "tenon.relief.width",
            "width of the relief groove",
            Length,
            Datum::Shoulder,
            of(Item::Relief, side),
            faced,
            3,
        ),
        _ => return None,
    };
    let (name, words) = (name.to_owned(), words.to_owned());
    Some(Definition { name, words, dimension, owner: Owner::Tenon, datum, shapes, made, rank })
}

/// Its value, in millimetres or degrees; none where the section has no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let (tenon, shoulder) = (&section.tenon, section.grip.length());
    let length = match size {
        SizeId::TenonLength => tenon.length,
        SizeId::TenonDiameter => tenon.thread.form.crest,
        SizeId::TenonChamfer => tenon.chamfer.depth,
        SizeId::TenonChamferAngle => {
            let LeadChamfer { depth, length } = tenon.chamfer;
            let none = length == Length::ZERO;
            let angle = libm::atan2(depth.as_mm(), length.as_mm()).to_degrees();
            return (!none).then_some(angle);
        }
        SizeId::TenonThreadStart => tenon.thread.from - shoulder,
        SizeId::TenonThreadEnd => tenon.thread.to - shoulder,
        SizeId::TenonThreadSize => tenon.thread.form.pitch_diameter,
        SizeId::PilotDiameter => tenon.pilot?.diameter,
        SizeId::PilotLength => tenon.pilot?.length,
        SizeId::ReliefDiameter => tenon.relief?.diameter,
        SizeId::ReliefWidth => tenon.relief?.width,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let (to, shoulder) = (Length::mm(value), section.grip.length());
    let tenon = &mut section.tenon;
    match size {
        SizeId::TenonLength => {
            section.blank.length += to - tenon.length;
            tenon.length = to;
        }
        SizeId::TenonDiameter => {
            let by = to - tenon.thread.form.crest;
            move_rod(&mut tenon.thread, by)?;
        }
        SizeId::TenonChamfer => tenon.chamfer = tenon.chamfer.with_depth(to),
        SizeId::TenonChamferAngle => {
            tenon.chamfer.depth = tenon.chamfer.length * Angle::deg(value).tan();
        }
        SizeId::TenonThreadStart => tenon.thread.from = shoulder + to,
        SizeId::TenonThreadEnd => tenon.thread.to = shoulder + to,
        SizeId::TenonThreadSize => {
            let by = to - tenon.thread.form.pitch_diameter;
            swell(&mut tenon.thread, by)?;
        }
        SizeId::PilotDiameter => tenon.pilot.as_mut()?.diameter = to,
        SizeId::PilotLength => tenon.pilot.as_mut()?.length = to,
        SizeId::ReliefDiameter => tenon.relief.as_mut()?.diameter = to,
        SizeId::ReliefWidth => tenon.relief.as_mut()?.width = to,
        _ => return None,
    }
    Some(())
}
