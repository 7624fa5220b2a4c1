//! The sizes of the section's holes and of the thread that takes the unit.

use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::thread::{move_crest, moved, open};
use super::{SizeId, words};
use crate::quantity::{Angle, Length};
use crate::section::{
    Bore, CentrePilot, Depth, Facet, Feature, Item, Means, Mouth, Point, Section,
};

/// What a size of the bore is; none of what is another's.
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Angle, Length};
    let by = |means| Made::By(means);
    let of = |item, facet| vec![Feature::new(item, facet)];
    let key = |item, what: &str| format!("bores.{}.{what}", key(item));
    let thread = || of(Item::UnitThread, Facet::Side);
    let (name, words, dimension, datum, shapes, made, rank) = match size {
        SizeId::BoreDiameter(item) => {
            let what = if let Item::Countersink(_) = item { "mouth" } else { "diameter" };
            let words = format!("diameter of the {}", words::item(item));
            (key(item, what), words, Across, Datum::None, of(item, Facet::Side), Made::Hole, 2)
        }
        SizeId::BoreDepth(item) => {
            let what = if let Item::BoreRelief(_) = item { "to" } else { "depth" };
            let words = format!("depth of the {}", words::item(item));
            let rank = if item == Item::Recess { 6 } else { 1 };
            // A relief has a wall at either end.
            let facets: &[Facet] = match item {
                Item::BoreRelief(_) => &[Facet::Side],
                _ => &[Facet::Side, Facet::Floor, Facet::Cone],
            };
            let shapes = facets.iter().map(|facet| Feature::new(item, *facet)).collect();
            (key(item, what), words, Length, Datum::OwnFace, shapes, by(Means::Depth), rank)
        }
        SizeId::ReliefStart(item) => {
            let words = format!("start of the {}", words::item(item));
            let shapes = of(item, Facet::Side);
            (key(item, "from"), words, Length, Datum::Front, shapes, by(Means::Faced), 1)
        }
        SizeId::PointAngle(item) => {
            let what = match item {
                Item::Recess => "seat.cone",
                Item::Countersink(_) => "angle",
                Item::BoreRelief(_) => "walls",
                _ => "point",
            };
            let words = format!("angle at the end of the {}", words::item(item));
            let facet = if let Item::Countersink(_) = item { Facet::Side } else { Facet::Cone };
            (key(item, what), words, Angle, Datum::None, of(item, facet), by(Means::Drilled), 1)
        }
        SizeId::CentrePilotDiameter => (
            "bores.recess.seat.pilot".to_owned(),
            "diameter of the centre drill's pilot hole".to_owned(),
            Across,
            Datum::None,
            of(Item::CentrePilot, Facet::Side),
            by(Means::Drilled),
            1,
        ),
        SizeId::CentrePilotLength => (
            "bores.recess.seat.pilot_length".to_owned(),
            "length of the centre drill's pilot hole".to_owned(),
            Length,
            Datum::None,
            of(Item::CentrePilot, Facet::Side),
            by(Means::Depth),
            1,
        ),
        SizeId::UnitThreadStart => (
            "bores.thread.from".to_owned(),
            "start of full thread for the unit".to_owned(),
            Length,
            Datum::Front,
            thread(),
            by(Means::Mark),
            0,
        ),
        SizeId::UnitThreadEnd => (
            "bores.thread.to".to_owned(),
            "depth of full thread for the unit".to_owned(),
            Length,
            Datum::Front,
            thread(),
            by(Means::Mark),
            0,
        ),
        SizeId::UnitThreadSize => (
            "bores.thread.form.pitch_diameter".to_owned(),
            "pitch diameter of the section's thread".to_owned(),
            Across,
            Datum::None,
            thread(),
            Made::Tool,
            2,
        ),
        _ => return None,
    };
    Some(Definition { name, words, dimension, owner: Owner::Bores, datum, shapes, made, rank })
}

/// The table of a hole, as names have it: of steps the face and the number from there.
fn key(item: Item) -> String {
    let mouth = |mouth| if mouth == Mouth::Front { "front" } else { "back" };
    match item {
        Item::Recess => "recess".to_owned(),
        Item::ClearanceBore => "clearance".to_owned(),
        Item::TapDrill => "tap_drill".to_owned(),
        Item::ThroughBore => "through".to_owned(),
        Item::CentrePilot => "recess.seat.pilot".to_owned(),
        Item::BoreStep(from, n) => format!("step.{}.{n}", mouth(from)),
        Item::Countersink(at) => format!("countersink.{}", mouth(at)),
        Item::BoreRelief(n) => format!("relief.{n}"),
        other => other.to_string(),
    }
}

/// Its value, in millimetres or degrees; none where the section has no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let bore = |item| section.bore(item);
    let length = match size {
        SizeId::BoreDiameter(item) => bore(item)?.diameter,
        SizeId::BoreDepth(item) => match bore(item)?.depth {
            Depth::To(z) | Depth::Between(_, z) => z,
            Depth::Through => return None,
        },
        SizeId::ReliefStart(item) => match bore(item)?.depth {
            Depth::Between(from, _) => from,
            _ => return None,
        },
        SizeId::PointAngle(Item::CentrePilot) => return Some(pilot(section)?.point.as_deg()),
        SizeId::PointAngle(item) => return Some(bore(item)?.point.cone()?.as_deg()),
        SizeId::CentrePilotDiameter => pilot(section)?.diameter,
        SizeId::CentrePilotLength => pilot(section)?.length,
        SizeId::UnitThreadStart => section.unit_thread.from,
        SizeId::UnitThreadEnd => section.unit_thread.to,
        SizeId::UnitThreadSize => section.unit_thread.form.pitch_diameter,
        _ => return None,
    };
    Some(length.as_mm())
}

/// From where to where a relief goes; none that has no width.
fn wide(from: Length, to: Length) -> Option<Depth> {
    (to > from).then_some(Depth::Between(from, to))
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let to = Length::mm(value);
    match size {
        SizeId::BoreDiameter(item) => {
            let bore = bore_mut(section, item)?;
            let by = to - bore.diameter;
            *bore = bore.cutting(to);
            bore.limits = moved(bore.limits, by)?;
            bore.tool = None;
            // The thread's crest is what its drill leaves.
            if item == Item::TapDrill {
                move_crest(&mut section.unit_thread, by)?;
            }
        }
        SizeId::BoreDepth(item) => {
            let bore = bore_mut(section, item)?;
            bore.depth = match bore.depth {
                Depth::Between(from, _) => wide(from, to)?,
                _ if to > Length::ZERO => Depth::To(to),
                // A hole that is not there has another place in the file than its depth.
                _ => return None,
            };
        }
        SizeId::ReliefStart(item) => {
            let length = section.length();
            let bore = bore_mut(section, item)?;
            bore.depth = wide(to, bore.full_depth(length))?;
        }
        SizeId::PointAngle(Item::CentrePilot) => pilot_mut(section)?.point = Angle::deg(value),
        SizeId::PointAngle(item) => match &mut bore_mut(section, item)?.point {
            Point::Flat => return None,
            Point::Cone(angle) | Point::Centre(angle, _) => *angle = Angle::deg(value),
        },
        SizeId::CentrePilotDiameter => pilot_mut(section)?.diameter = to,
        SizeId::CentrePilotLength => pilot_mut(section)?.length = to,
        SizeId::UnitThreadStart => section.unit_thread.from = to,
        SizeId::UnitThreadEnd => section.unit_thread.to = to,
        SizeId::UnitThreadSize => {
            let thread = &mut section.unit_thread;
            open(thread, to - thread.form.pitch_diameter)?;
        }
        _ => return None,
    }
    Some(())
}

fn bore_mut(section: &mut Section, item: Item) -> Option<&mut Bore> {
    section.bores.iter_mut().find(|bore| bore.item == item)
}

fn pilot(section: &Section) -> Option<CentrePilot> {
    section.bores.iter().find_map(|bore| match bore.point {
        Point::Centre(_, pilot) => Some(pilot),
        _ => None,
    })
}

fn pilot_mut(section: &mut Section) -> Option<&mut CentrePilot> {
    section.bores.iter_mut().find_map(|bore| match &mut bore.point {
        Point::Centre(_, pilot) => Some(pilot),
        _ => None,
    })
}
