//! What makes a barrel's bore, a cap or a converter impossible.

use super::{Cap, CapMouth, Item, Section, SectionError, Subject, envelope};
use crate::quantity::Length;

/// The least difference between neighbouring diameters, depths and ends here: no caliper tells less
/// inside a hole. Larger, and a step that was meant is refused; smaller, and a hint names a size
/// that nobody can set.
const LEAST: Length = Length::mm(0.05);

/// Faults of what the section meets beside unit and thread.
pub(super) fn faults(section: &Section, found: &mut Vec<SectionError>) {
    let before = found.len();
    barrel_bore(section, found);
    if let Some(cap) = &section.cap {
        cap_bores(section, cap, found);
    }
    converter(section, found);
    if found.len() > before {
        return;
    }
    let nipple = section.unit.step(Item::Nipple).map(|(_, step)| step.diameter.value);
    let converter = section.converter.as_ref().zip(nipple).map(|(it, nipple)| it.part(nipple));
    let barrel = section.barrel.bore.map(|_| section.barrel.whole());
    for part in [section.cap.as_ref().map(Cap::part), converter, barrel].into_iter().flatten() {
        let step = part.step_too_small();
        found.extend(step.map(|(a, b)| SectionError::StepTooSmall { a, b }));
    }
}

/// A value that must stay under a bound, or over it.
fn misfit(
    found: &mut Vec<SectionError>,
    subject: Subject,
    measure: &'static str,
    (value, bound): (Length, Length),
    at_most: bool,
) {
    let over = if at_most { value - bound } else { bound - value };
    if over > Length::ZERO {
        found.push(SectionError::DoesNotFit { subject, measure, value, bound, at_most });
    }
}

fn barrel_bore(section: &Section, found: &mut Vec<SectionError>) {
    let barrel = &section.barrel;
    let Some(bore) = barrel.bore else { return };
    let subject = Subject::BarrelBore;
    let deeper = barrel.depth + LEAST;
    misfit(found, subject, "depth", (bore.depth, deeper), false);
    misfit(found, subject, "diameter", (bore.diameter, barrel.outside - LEAST), true);
}

fn cap_bores(section: &Section, cap: &Cap, found: &mut Vec<SectionError>) {
    let end = cap.inner_length.value;
    misfit(found, Subject::CapStop, "stop", (cap.stops_at, section.length()), true);
    let mut from = Length::ZERO;
    if let Some(counterbore) = cap.counterbore {
        let subject = Subject::CapCounterbore;
        misfit(found, subject, "diameter", (counterbore.diameter, cap.hole()), false);
        from = counterbore.depth;
    }
    let hole = match cap.mouth {
        CapMouth::Thread(_) => Subject::Depth(Item::CapInsideThread),
        CapMouth::Minor { .. } => Subject::Depth(Item::CapHole),
    };
    misfit(found, hole, "depth", (cap.hole_end(), from + LEAST), false);
    misfit(found, hole, "depth", (cap.hole_end(), end - LEAST), true);
    from = cap.hole_end();
    for (n, bore) in (1..).zip(&cap.bores) {
        let subject = Subject::CapBore(n);
        misfit(found, subject, "depth", (bore.to, from + LEAST), false);
        from = bore.to;
    }
    if let Some(last) = u8::try_from(cap.bores.len()).ok().filter(|n| *n > 0) {
        misfit(found, Subject::CapBore(last), "depth", (from, end), false);
        misfit(found, Subject::CapBore(last), "depth", (from, end), true);
    }
    if let Some(seal) = cap.seal {
        let subject = Subject::CapSeal;
        misfit(found, subject, "depth", (seal.depth.value, end - LEAST), true);
        misfit(found, subject, "depth", (seal.depth.value, cap.hole_end() + LEAST), false);
        let unlined = Cap { seal: None, ..cap.clone() };
        let at_rim = unlined.cylinders().into_iter().find(|(_, _, to)| *to > seal.depth.value);
        if let Some((_, wide, _)) = at_rim {
            misfit(found, subject, "diameter", (seal.diameter.value, wide - LEAST), true);
        }
    }
}

fn converter(section: &Section, found: &mut Vec<SectionError>) {
    let Some(converter) = &section.converter else { return };
    let Some((_, nipple)) = section.unit.step(Item::Nipple) else {
        found.push(SectionError::NoNipple);
        return;
    };
    let bores = envelope(&section.bores, section.length());
    let ends = bores.iter().flat_map(|run| [run.from, run.to]);
    let mut closed = ends.filter(|station| station.diameter == Length::ZERO);
    if let Some(station) = closed.next() {
        found.push(SectionError::BlindToConverter { z: station.z });
    }
    let (end, subject) = (converter.length.value - LEAST, Subject::Converter);
    misfit(found, subject, "depth on the nipple", (converter.onto_nipple.value, end), true);
    let over = nipple.diameter.value + LEAST;
    if let Some(mouth) = converter.mouth {
        let subject = Subject::ConverterMouth;
        misfit(found, subject, "length", (mouth.length.value, end), true);
        misfit(found, subject, "diameter", (mouth.diameter.value, over), false);
    }
    misfit(found, subject, "diameter", (converter.diameter.value, over), false);
}
