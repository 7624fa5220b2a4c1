//! The sizes of the grip: what the hand feels, from the front face to the shoulder.

use super::chamfer;
use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::{SizeId, coincide, ring, shift, thread};
use crate::quantity::Length;
use crate::section::{Corner, Curve, Facet, Feature, Item, Means, Section, Shape};

/// What a size of the grip is; none of what is another's.
#[expect(clippy::too_many_lines, reason = "a table, one row a size")]
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Angle, Length};
    let side = |item| vec![Feature::new(item, Facet::Side)];
    let behind = |n: u8, what: &str| match n {
        0 => format!("grip.{what}"),
        n => format!("grip.run.{n}.{what}"),
    };
    let corner_at = |n: u8| if n == 0 { Item::FrontFace } else { Item::Grip(n) };
    let corner = |n: u8, facet| vec![Feature::new(corner_at(n), facet)];
    let place = |n: u8| match n {
        0 => "the front face's rim".to_owned(),
        n => format!("the end of run {n} of the grip"),
    };
    let at_end = |n: u8, what: &str| match n {
        0 => format!("{what} of {}", place(0)),
        n => format!("{what} at {}", place(n)),
    };
    let (turned, faced) = (Made::By(Means::Turned), Made::By(Means::Faced));
    let ring = |item: Item, what: &str| format!("grip.{}.{what}", ring_key(item));
    let (name, words, dimension, datum, shapes, made) = match size {
        SizeId::FrontDiameter => (
            "grip.front".to_owned(),
            "diameter at the front face".to_owned(),
            Across,
            Datum::None,
            side(Item::Grip(1)),
            turned,
        ),
        SizeId::GripDiameter(n) => {
            let words = format!("diameter at the end of run {n} of the grip");
            let name = behind(n, "diameter");
            (name, words, Across, Datum::None, side(Item::Grip(n)), turned)
        }
        SizeId::RunEnd(n) => {
            let words = format!("end of run {n} of the grip");
            (behind(n, "to"), words, Length, Datum::Front, side(Item::Grip(n)), faced)
        }
        SizeId::GripLength => (
            "grip.length".to_owned(),
            "length of the grip".to_owned(),
            Length,
            Datum::Front,
            vec![Feature::new(Item::Shoulder, Facet::Side)],
            faced,
        ),
        SizeId::ArcRadius(n) => {
            let words = format!("radius of run {n} of the grip");
            (behind(n, "radius"), words, Across, Datum::None, side(Item::Grip(n)), turned)
        }
        SizeId::CornerRadius(n) => {
            let shapes = corner(n, Facet::Fillet);
            (behind(n, "fillet"), at_end(n, "radius"), Across, Datum::None, shapes, turned)
        }
        SizeId::CornerChamfer(n) => {
            let shapes = corner(n, Facet::Chamfer);
            (behind(n, "chamfer"), at_end(n, "chamfer"), Length, Datum::None, shapes, faced)
        }
        SizeId::CornerAngle(n) => {
            let words = match n {
                0 => format!("angle of the chamfer of {}", place(0)),
                n => format!("angle of the chamfer at {}", place(n)),
            };
            let shapes = corner(n, Facet::Chamfer);
            (behind(n, "chamfer.angle"), words, Angle, Datum::None, shapes, faced)
        }
        SizeId::GrooveDepth(n) => {
            let item = Item::Groove(n);
            let words = format!("depth of groove {n} of the grip");
            (ring(item, "depth"), words, Across, Datum::None, side(item), turned)
        }
        SizeId::RingStart(item) => {
            let words = format!("beginning of {item} of the grip");
            let shapes = [Facet::Side, Facet::FlankBack].map(|facet| Feature::new(item, facet));
            (ring(item, "from"), words, Length, Datum::Front, shapes.to_vec(), faced)
        }
        SizeId::RingEnd(item) => {
            let words = format!("end of {item} of the grip");
            let shapes = [Facet::Side, Facet::FlankFront].map(|facet| Feature::new(item, facet));
            (ring(item, "to"), words, Length, Datum::Front, shapes.to_vec(), faced)
        }
        SizeId::RingFloor(item) => {
            let words = format!("diameter at the bottom of {item} of the grip");
            let shapes = [Facet::Floor, Facet::FlankBack].map(|facet| Feature::new(item, facet));
            let shapes = shapes.to_vec();
            (ring(item, "floor"), words, Across, Datum::None, shapes, turned)
        }
        SizeId::RingRadius(item) => {
            let words = format!("radius of {item} of the grip");
            (ring(item, "radius"), words, Across, Datum::None, side(item), turned)
        }
        SizeId::GripThreadStart => (
            "grip.thread.from".to_owned(),
            "start of full thread for the cap".to_owned(),
            Length,
            Datum::Front,
            side(Item::CapThread),
            faced,
        ),
        SizeId::GripThreadEnd => (
            "grip.thread.to".to_owned(),
            "end of full thread for the cap".to_owned(),
            Length,
            Datum::Front,
            side(Item::CapThread),
            faced,
        ),
        SizeId::GripThreadSize => (
            "grip.thread.pitch_diameter".to_owned(),
            "pitch diameter of the thread for the cap".to_owned(),
            Across,
            Datum::None,
            side(Item::CapThread),
            Made::Tool,
        ),
        _ => return None,
    };
    let rank = if size == SizeId::GripLength { 7 } else { 5 };
    Some(Definition { name, words, dimension, owner: Owner::Grip, datum, shapes, made, rank })
}

/// `bead.1`, `groove.2`.
fn ring_key(item: Item) -> String {
    match item {
        Item::Bead(n) => format!("bead.{n}"),
        Item::Groove(n) => format!("groove.{n}"),
        other => other.to_string(),
    }
}

/// Its value, in millimetres or degrees; none where the section has no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let grip = &section.grip;
    let run = |n: u8| grip.runs.get(usize::from(n).checked_sub(1)?);
    let length = match size {
        SizeId::FrontDiameter => grip.front,
        SizeId::GripDiameter(n) => run(n)?.to.diameter,
        SizeId::GripLength => grip.length(),
        SizeId::RunEnd(n) if usize::from(n) < grip.runs.len() => run(n)?.to.z,
        SizeId::GrooveDepth(n) => {
            grip.rings.iter().find(|ring| ring.item == Item::Groove(n))?.height
        }
        SizeId::ArcRadius(n) => return arc(section, n).map(|(radius, _)| radius),
        SizeId::CornerRadius(n) => match chamfer::corner(grip, usize::from(n))? {
            Corner::Fillet(radius) => radius,
            _ => return None,
        },
        SizeId::CornerChamfer(n) => return Some(chamfer::drawn(section, usize::from(n))?[0]),
        SizeId::CornerAngle(n) => return Some(chamfer::drawn(section, usize::from(n))?[1]),
        SizeId::RingStart(item) => return ring::get(section, item, ring::Part::Start),
        SizeId::RingEnd(item) => return ring::get(section, item, ring::Part::End),
        SizeId::RingFloor(item) => return ring::get(section, item, ring::Part::Floor),
        SizeId::RingRadius(item) => return ring::get(section, item, ring::Part::Radius),
        SizeId::GripThreadStart => grip.thread.as_ref()?.thread.from,
        SizeId::GripThreadEnd => grip.thread.as_ref()?.thread.to,
        SizeId::GripThreadSize => grip.thread.as_ref()?.thread.form.pitch_diameter,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let to = Length::mm(value);
    match size {
        SizeId::FrontDiameter => section.grip.front = to,
        SizeId::GripDiameter(n) => {
            section.grip.runs.get_mut(usize::from(n) - 1)?.to.diameter = to;
        }
        SizeId::GrooveDepth(n) => {
            let rings = &mut section.grip.rings;
            rings.iter_mut().find(|ring| ring.item == Item::Groove(n))?.height = to;
        }
        SizeId::GripLength => {
            let by = to - section.grip.length();
            section.grip.runs.last_mut()?.to.z = to;
            section.blank.length += by;
            shift(&mut section.tenon.thread, by);
        }
        SizeId::RunEnd(n) => {
            // A step is a run of no length: both its ends are one place.
            let old = section.grip.runs.get(usize::from(n) - 1)?.to.z;
            for run in section.grip.runs.iter_mut().filter(|run| coincide(run.to.z, old)) {
                run.to.z = to;
            }
        }
        SizeId::ArcRadius(n) => {
            let (_, hollow) = arc(section, n)?;
            let run = section.grip.runs.get_mut(usize::from(n) - 1)?;
            run.curve = if hollow { Curve::Concave(to) } else { Curve::Convex(to) };
        }
        SizeId::CornerRadius(n) => {
            chamfer::replace(&mut section.grip, usize::from(n), Corner::Fillet(to))?;
        }
        SizeId::CornerChamfer(n) => {
            let [_, angle] = chamfer::drawn(section, usize::from(n))?;
            chamfer::set(section, usize::from(n), [value, angle])?;
        }
        SizeId::CornerAngle(n) => {
            let [length, _] = chamfer::drawn(section, usize::from(n))?;
            chamfer::set(section, usize::from(n), [length, value])?;
        }
        SizeId::RingStart(item) => ring::set(section, item, ring::Part::Start, value)?,
        SizeId::RingEnd(item) => ring::set(section, item, ring::Part::End, value)?,
        SizeId::RingFloor(item) => ring::set(section, item, ring::Part::Floor, value)?,
        SizeId::RingRadius(item) => ring::set(section, item, ring::Part::Radius, value)?,
        SizeId::GripThreadStart => section.grip.thread.as_mut()?.thread.from = to,
        SizeId::GripThreadEnd => section.grip.thread.as_mut()?.thread.to = to,
        SizeId::GripThreadSize => {
            let thread = &mut section.grip.thread.as_mut()?.thread;
            thread::swell(thread, to - thread.form.pitch_diameter)?;
        }
        _ => return None,
    }
    Some(())
}

/// Radius of a run's arc, and whether it is hollow; none of a straight one.
fn arc(section: &Section, n: u8) -> Option<(f64, bool)> {
    match section.grip.runs.get(usize::from(n).checked_sub(1)?)?.curve {
        Curve::Straight => None,
        Curve::Concave(radius) => Some((radius.as_mm(), true)),
        Curve::Convex(radius) => Some((radius.as_mm(), false)),
        // What a corner leaves of it lies on the same circle.
        Curve::Through(_) | Curve::TangentBefore | Curve::TangentAfter => {
            let run = chamfer::run(section, Feature::new(Item::Grip(n), Facet::Side))?;
            let Shape::Arc { bulge } = run.shape else { return None };
            let by = [(run.to.z - run.from.z).as_mm(), run.to.radius() - run.from.radius()];
            let chord = libm::hypot(by[0], by[1]);
            Some((chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs()), bulge > 0.0))
        }
    }
}
