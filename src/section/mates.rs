//! What makes a barrel's bore, a cap or a converter impossible.

use super::{Cap, CapMouth, Item, LEAST_STEP, Section, SectionError, Subject};
use crate::quantity::Length;

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
    let deeper = barrel.depth + LEAST_STEP;
    misfit(found, subject, "depth", (bore.depth, deeper), false);
    misfit(found, subject, "diameter", (bore.diameter, barrel.outside - LEAST_STEP), true);
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
    misfit(found, hole, "end", (cap.hole_end(), from + LEAST_STEP), false);
    misfit(found, hole, "end", (cap.hole_end(), end - LEAST_STEP), true);
    from = cap.hole_end();
    for (n, bore) in (1..).zip(&cap.bores) {
        let subject = Subject::CapBore(n);
        misfit(found, subject, "end", (bore.to, from + LEAST_STEP), false);
        from = bore.to;
    }
    if let Some(last) = u8::try_from(cap.bores.len()).ok().filter(|n| *n > 0) {
        misfit(found, Subject::CapBore(last), "end", (from, end), false);
        misfit(found, Subject::CapBore(last), "end", (from, end), true);
    }
    if let Some(seal) = cap.seal {
        let subject = Subject::CapSeal;
        misfit(found, subject, "depth", (seal.depth.value, end - LEAST_STEP), true);
        misfit(found, subject, "depth", (seal.depth.value, cap.hole_end() + LEAST_STEP), false);
        let unlined = Cap { seal: None, ..cap.clone() };
        let at_rim = unlined.cylinders().into_iter().find(|(_, _, to)| *to > seal.depth.value);
        if let Some((_, wide, _)) = at_rim {
            misfit(found, subject, "diameter", (seal.diameter.value, wide - LEAST_STEP), true);
        }
    }
}

fn converter(section: &Section, found: &mut Vec<SectionError>) {
    let Some(converter) = &section.converter else { return };
    let Some((_, nipple)) = section.unit.step(Item::Nipple) else {
        found.push(SectionError::NoNipple);
        return;
    };
    let (end, subject) = (converter.length.value - LEAST_STEP, Subject::Converter);
    misfit(found, subject, "depth on the nipple", (converter.onto_nipple.value, end), true);
    let over = nipple.diameter.value + LEAST_STEP;
    if let Some(mouth) = converter.mouth {
        let subject = Subject::ConverterMouth;
        misfit(found, subject, "length", (mouth.length.value, end), true);
        misfit(found, subject, "diameter", (mouth.diameter.value, over), false);
    }
    misfit(found, subject, "diameter", (converter.diameter.value, over), false);
}
