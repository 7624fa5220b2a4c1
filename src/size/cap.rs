//! The sizes of the cap, counted from its mouth.

use super::SizeId;
use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::thread::{move_crest, open};
use crate::quantity::Length;
use crate::section::{Cap, CapMouth, Facet, Feature, Item, Means, Section};

/// What a size of the cap is; none of what is another's.
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Length};
    use Means::{Bored, Drilled, Faced, Mark};
    let (across, along) = ((Across, Datum::None), (Length, Datum::CapMouth));
    let (name, words, (dimension, datum), item, made): (String, String, _, _, _) = match size {
        SizeId::CapStop => (
            "cap.stops_at".into(),
            "place where the cap stops, from the front face".into(),
            (Length, Datum::Front),
            Item::Cap,
            Made::By(Faced),
        ),
        SizeId::CapHole => (
            "cap.thread_minor".into(),
            "diameter of the cap's hole for the thread".into(),
            across,
            Item::CapHole,
            Made::By(Drilled),
        ),
        SizeId::CapThreadSize => (
            "cap.form.pitch_diameter".into(),
            "pitch diameter of the thread in the cap".into(),
            across,
            Item::CapInsideThread,
            Made::Tool,
        ),
        SizeId::CapThreadEnd => (
            "cap.full_thread_to".into(),
            "depth of full thread in the cap".into(),
            along,
            Item::CapInsideThread,
            Made::By(Mark),
        ),
        SizeId::CapCounterboreDiameter => (
            "cap.counterbore.diameter".into(),
            "diameter of the cap's counterbore".into(),
            across,
            Item::CapCounterbore,
            Made::By(Bored),
        ),
        SizeId::CapCounterboreDepth => (
            "cap.counterbore.depth".into(),
            "depth of the cap's counterbore".into(),
            along,
            Item::CapCounterbore,
            Made::By(Faced),
        ),
        SizeId::CapBoreDiameter(n) => (
            format!("cap.bores.{n}.diameter"),
            format!("diameter of the cap's bore {n}"),
            across,
            Item::CapBore(n),
            Made::By(Bored),
        ),
        SizeId::CapBoreEnd(n) => (
            format!("cap.bores.{n}.to"),
            format!("end of the cap's bore {n}"),
            along,
            Item::CapBore(n),
            Made::By(Faced),
        ),
        SizeId::CapLength => {
            ("cap.length".into(), "depth of the cap".into(), along, Item::Cap, Made::By(Faced))
        }
        SizeId::SealDepth => (
            "cap.seal.depth".into(),
            "depth of the inner cap's rim".into(),
            along,
            Item::InnerCap,
            Made::By(Faced),
        ),
        SizeId::SealDiameter => (
            "cap.seal.diameter".into(),
            "diameter of the inner cap's bore".into(),
            across,
            Item::InnerCap,
            Made::By(Bored),
        ),
        _ => return None,
    };
    let shapes = vec![Feature::new(item, Facet::Side)];
    let rank = if size == SizeId::CapStop { 5 } else { 4 };
    Some(Definition { name, words, dimension, owner: Owner::Cap, datum, shapes, made, rank })
}

/// Every one that a cap has and that its maker may change, from its mouth to its closed end.
pub(super) fn of(cap: &Cap) -> Vec<SizeId> {
    let mut all = vec![SizeId::CapStop, SizeId::CapHole];
    all.extend(cap.thread().map(|_| SizeId::CapThreadSize));
    all.push(SizeId::CapThreadEnd);
    let bores = (1..).zip(&cap.bores);
    all.extend(bores.map(|(n, _)| SizeId::CapBoreDiameter(n)));
    all.push(SizeId::CapLength);
    if cap.seal.is_some() {
        all.extend([SizeId::SealDepth, SizeId::SealDiameter]);
    }
    all
}

/// Its value, in millimetres; none where the section has no cap, or the cap no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let cap = section.cap.as_ref()?;
    let length = match size {
        SizeId::CapStop => cap.stops_at,
        SizeId::CapHole => cap.hole(),
        SizeId::CapThreadSize => cap.thread()?.form.pitch_diameter,
        SizeId::CapThreadEnd => cap.hole_end(),
        SizeId::CapCounterboreDiameter => cap.counterbore?.diameter,
        SizeId::CapCounterboreDepth => cap.counterbore?.depth,
        SizeId::CapBoreDiameter(n) => cap.bores.get(usize::from(n).checked_sub(1)?)?.diameter.value,
        SizeId::CapBoreEnd(n) => cap.bores.get(usize::from(n).checked_sub(1)?)?.to,
        SizeId::CapLength => cap.inner_length.value,
        SizeId::SealDepth => cap.seal?.depth.value,
        SizeId::SealDiameter => cap.seal?.diameter.value,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let (to, cap) = (Length::mm(value), section.cap.as_mut()?);
    match (size, &mut cap.mouth) {
        (SizeId::CapStop, _) => cap.stops_at = to,
        (SizeId::CapHole, CapMouth::Thread(thread)) => {
            let by = to - thread.form.crest;
            move_crest(thread, by)?;
        }
        (SizeId::CapHole, CapMouth::Minor { diameter, .. }) => diameter.value = to,
        (SizeId::CapThreadSize, CapMouth::Thread(thread)) => {
            let by = to - thread.form.pitch_diameter;
            open(thread, by)?;
        }
        (SizeId::CapThreadEnd, CapMouth::Thread(thread)) => thread.to = to,
        (SizeId::CapThreadEnd, CapMouth::Minor { to: end, .. }) => *end = to,
        (SizeId::CapCounterboreDiameter, _) => cap.counterbore.as_mut()?.diameter = to,
        (SizeId::CapCounterboreDepth, _) if to > Length::ZERO => {
            cap.counterbore.as_mut()?.depth = to;
        }
        (SizeId::CapBoreDiameter(n), _) => {
            cap.bores.get_mut(usize::from(n) - 1)?.diameter.value = to;
        }
        (SizeId::CapBoreEnd(n), _) => cap.bores.get_mut(usize::from(n) - 1)?.to = to,
        (SizeId::CapLength, _) => cap.inner_length.value = to,
        (SizeId::SealDepth, _) => cap.seal.as_mut()?.depth.value = to,
        (SizeId::SealDiameter, _) => cap.seal.as_mut()?.diameter.value = to,
        _ => return None,
    }
    Some(())
}
