//! The sizes of the barrel, counted from its joint face.

use super::SizeId;
use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::thread::{move_crest, open};
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Means, Section};

/// What a size of the barrel is; none of what is another's.
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Length};
    use Means::{Bored, Depth, Drilled, Faced, Mark, Turned};
    let (across, along) = ((Across, Datum::None), (Length, Datum::Joint));
    let (name, words, (dimension, datum), item, made) = match size {
        SizeId::BarrelThreadSize => (
            "barrel.form.pitch_diameter",
            "pitch diameter of the barrel's thread",
            across,
            Item::BarrelThread,
            Made::Tool,
        ),
        SizeId::BarrelHole => (
            "barrel.form.minor",
            "diameter of the barrel's hole for the thread",
            across,
            Item::BarrelBore,
            Made::By(Drilled),
        ),
        SizeId::BarrelDepth => (
            "barrel.depth",
            "depth of the barrel's hole for the thread",
            along,
            Item::BarrelBore,
            Made::By(Depth),
        ),
        SizeId::BarrelThreadEnd => (
            "barrel.full_thread_to",
            "depth of full thread in the barrel",
            along,
            Item::BarrelThread,
            Made::By(Mark),
        ),
        SizeId::CounterboreDiameter => (
            "barrel.counterbore.diameter",
            "diameter of the barrel's counterbore",
            across,
            Item::Counterbore,
            Made::By(Bored),
        ),
        SizeId::CounterboreDepth => (
            "barrel.counterbore.depth",
            "depth of the barrel's counterbore",
            along,
            Item::Counterbore,
            Made::By(Faced),
        ),
        SizeId::BarrelBoreDiameter => (
            "barrel.bore.diameter",
            "diameter of the barrel's bore",
            across,
            Item::BarrelInside,
            Made::By(Bored),
        ),
        SizeId::BarrelBoreDepth => (
            "barrel.bore.depth",
            "depth of the barrel's bore",
            along,
            Item::BarrelInside,
            Made::By(Depth),
        ),
        SizeId::BarrelOutside => (
            "barrel.outside",
            "diameter of the barrel at the joint",
            across,
            Item::Barrel,
            Made::By(Turned),
        ),
        _ => return None,
    };
    let (name, words) = (name.to_owned(), words.to_owned());
    let shapes = vec![Feature::new(item, Facet::Side)];
    let (owner, rank) = (Owner::Barrel, 4);
    Some(Definition { name, words, dimension, owner, datum, shapes, made, rank })
}

/// Its value, in millimetres; none where the barrel has no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let barrel = &section.barrel;
    let length = match size {
        SizeId::BarrelThreadSize => barrel.thread.form.pitch_diameter,
        SizeId::BarrelHole => barrel.thread.form.crest,
        SizeId::BarrelDepth => barrel.depth,
        SizeId::BarrelThreadEnd => barrel.thread.to,
        SizeId::CounterboreDiameter => barrel.counterbore?.diameter,
        SizeId::CounterboreDepth => barrel.counterbore?.depth,
        SizeId::BarrelBoreDiameter => barrel.bore?.diameter,
        SizeId::BarrelBoreDepth => barrel.bore?.depth,
        SizeId::BarrelOutside => barrel.outside,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let (to, barrel) = (Length::mm(value), &mut section.barrel);
    match size {
        SizeId::BarrelThreadSize => {
            let by = to - barrel.thread.form.pitch_diameter;
            open(&mut barrel.thread, by)?;
        }
        SizeId::BarrelHole => {
            let by = to - barrel.thread.form.crest;
            move_crest(&mut barrel.thread, by)?;
        }
        SizeId::BarrelDepth => barrel.depth = to,
        SizeId::BarrelThreadEnd => barrel.thread.to = to,
        SizeId::CounterboreDiameter => barrel.counterbore.as_mut()?.diameter = to,
        SizeId::CounterboreDepth if to > Length::ZERO => {
            barrel.counterbore.as_mut()?.depth = to;
        }
        SizeId::BarrelBoreDiameter => barrel.bore.as_mut()?.diameter = to,
        SizeId::BarrelBoreDepth => barrel.bore.as_mut()?.depth = to,
        SizeId::BarrelOutside => barrel.outside = to,
        _ => return None,
    }
    Some(())
}
