//! What makes a section impossible, whatever its limits: each rule finds its own faults.
//!
//! A rule that holds for every section that can be cut stands here; whether a wall is thick
//! enough is a check's matter.

use super::{
    Depth, Item, LEAST_STEP, Section, SectionError, Side, Skin, Station, Subject, Thread, bore,
    envelope,
};
use crate::quantity::Length;
use crate::standard::iso68;

/// All faults of a section; empty where it can be made.
pub fn faults(section: &Section) -> Vec<SectionError> {
    let mut found = Vec::new();
    outside_runs(section, &mut found);
    tenon(section, &mut found);
    threads(section, &mut found);
    depths(section, &mut found);
    unit(section, &mut found);
    stack(section, &mut found);
    blank(section, &mut found);
    if found.is_empty() {
        bore::faults(section, &mut found);
    }
    if found.is_empty() {
        walls(section, &mut found);
    }
    if found.is_empty() {
        found.extend(
            section.part().step_too_small().map(|(a, b)| SectionError::StepTooSmall { a, b }),
        );
    }
    found
}

fn outside_runs(section: &Section, found: &mut Vec<SectionError>) {
    let mut from = Length::mm(0.0);
    for (run, grip) in section.grip.runs.iter().enumerate() {
        let to = grip.to.z;
        if to - from < LEAST_STEP {
            found.push(SectionError::RunsOverlap { run, from, to });
        }
        from = to;
    }
    let (grip, tenon) = (section.grip.back(), section.tenon.thread.form.crest);
    if grip - tenon < LEAST_STEP {
        let run = section.grip.runs.len().saturating_sub(1);
        found.push(SectionError::NoShoulder { run, grip, tenon });
    }
}

fn tenon(section: &Section, found: &mut Vec<SectionError>) {
    let tenon = &section.tenon;
    let zero = Length::mm(0.0);
    let root = tenon.thread.form.root;
    let mut misfit = |subject, measure, value, bound, at_most| {
        if (at_most && value > bound) || (!at_most && value < bound) {
            found.push(SectionError::DoesNotFit { subject, measure, value, bound, at_most });
        }
    };
    if let Some(relief) = tenon.relief {
        misfit(Subject::Relief, "diameter", relief.diameter, tenon.thread.form.crest, true);
        misfit(Subject::Relief, "width", relief.width, LEAST_STEP, false);
        misfit(Subject::Relief, "width", relief.width, tenon.length / 2.0, true);
    }
    if let Some(pilot) = tenon.pilot {
        misfit(Subject::Pilot, "diameter", pilot.diameter, root, true);
        misfit(Subject::Pilot, "length", pilot.length, LEAST_STEP, false);
        misfit(Subject::Pilot, "length", pilot.length, tenon.length / 2.0, true);
    }
    let plain = tenon.relief.map_or(zero, |r| r.width) + tenon.pilot.map_or(zero, |p| p.length);
    let length = tenon.length - plain;
    if tenon.chamfer >= length {
        let (thread, chamfer) = (Item::TenonThread, tenon.chamfer);
        found.push(SectionError::ChamferWiderThanThread { thread, chamfer, length });
    }
    let barrel = section.barrel.depth;
    if tenon.length > barrel {
        found.push(SectionError::TenonLongerThanBarrel { tenon: tenon.length, barrel });
    }
    if let Some(counterbore) = section.barrel.counterbore {
        let (subject, bound) = (Subject::Counterbore, section.barrel.thread.form.crest);
        let mut misfit = |measure, value, bound, at_most| {
            if (at_most && value > bound) || (!at_most && value < bound) {
                found.push(SectionError::DoesNotFit { subject, measure, value, bound, at_most });
            }
        };
        misfit("diameter", counterbore.diameter, bound, false);
        misfit("depth", counterbore.depth, barrel, true);
    }
}

fn threads(section: &Section, found: &mut Vec<SectionError>) {
    // A flat is there, or rounded away whole.
    let too_narrow = |flat: Length| flat != Length::ZERO && flat < LEAST_STEP;
    for thread in [&section.unit_thread, &section.tenon.thread, &section.unit.thread] {
        let form = &thread.form;
        let inside_out = match thread.side {
            Side::External => form.crest <= form.root,
            Side::Internal => form.crest >= form.root,
        };
        if inside_out
            || form.depth() < LEAST_STEP
            || form.flank_runs().is_empty()
            || [form.crest_flat(), form.root_flat()].into_iter().any(too_narrow)
        {
            let works = crest_that_works(thread);
            found.push(SectionError::NoThread { thread: thread.item, crest: form.crest, works });
        }
    }
    let unit = &section.unit;
    if unit.chamfer >= unit.thread.length() {
        found.push(SectionError::ChamferWiderThanThread {
            thread: Item::UnitBody,
            chamfer: unit.chamfer,
            length: unit.thread.length(),
        });
    }
}

/// The crest of a thread that is 5/8 of the sharp V deep (ISO 68-1) with this root.
fn crest_that_works(thread: &Thread) -> Length {
    let depth = iso68::engagement_depth(thread.form.pitch) * 2.0;
    match thread.side {
        Side::External => thread.form.root + depth,
        Side::Internal => thread.form.root - depth,
    }
}

fn depths(section: &Section, found: &mut Vec<SectionError>) {
    let length = section.length();
    let chain = [Item::Recess, Item::ClearanceBore];
    let mut before: Option<(Item, Length)> = None;
    let thread_end = (Item::UnitThread, section.unit_thread.to);
    let depth_of = |item| section.bore(item).map(|b| (item, b.full_depth(length)));
    let stack = chain.into_iter().filter_map(depth_of).chain([thread_end]);
    for (deeper, depth) in stack.chain(depth_of(Item::TapDrill)) {
        if let Some((than, other)) = before {
            let must_pass = deeper != Item::TapDrill;
            if depth < other || (must_pass && depth - other < LEAST_STEP) {
                found.push(SectionError::DepthsOutOfOrder { deeper, depth, than, other });
            }
        }
        before = Some((deeper, depth));
    }
    for bore in &section.bores {
        let depth = bore.full_depth(length);
        if !matches!(bore.depth, Depth::Through) && depth > length {
            let (deeper, than) = (Item::BackFace, bore.item);
            found.push(SectionError::DepthsOutOfOrder {
                deeper,
                depth: length,
                than,
                other: depth,
            });
        }
    }
}

/// The rod holds the part, with what is still to come off it.
fn blank(section: &Section, found: &mut Vec<SectionError>) {
    let rod = section.blank;
    for (subject, measure, value, bound) in [
        (Subject::BlankDiameter, "diameter", rod.diameter, section.greatest_diameter()),
        (Subject::BlankLength, "length", rod.length, section.squared_length()),
    ] {
        if value < bound {
            found.push(SectionError::DoesNotFit { subject, measure, value, bound, at_most: false });
        }
    }
}

/// Each hole of the stack must leave the one in front of it standing.
fn stack(section: &Section, found: &mut Vec<SectionError>) {
    for (than, bore) in [(Item::ClearanceBore, Item::TapDrill), (Item::TapDrill, Item::ThroughBore)]
    {
        let diameter_of = |item| section.bore(item).map(|b| b.diameter);
        if let (Some(other), Some(diameter)) = (diameter_of(than), diameter_of(bore))
            && diameter > other
        {
            found.push(SectionError::SwallowsHole { bore, diameter, than, other });
        }
    }
}

fn unit(section: &Section, found: &mut Vec<SectionError>) {
    let unit = &section.unit;
    let mut pass = |step, diameter: Length, bore| {
        let Some(hole) = section.bore(bore).map(|b| b.diameter) else { return };
        if diameter >= hole {
            found.push(SectionError::UnitCannotPass { step, diameter, bore, hole });
        }
    };
    pass(Item::Collar, unit.collar.value, Item::Recess);
    for step in &unit.steps {
        let d = step.diameter.value;
        match step.item {
            Item::Plain | Item::UnitBody => pass(step.item, d, Item::ClearanceBore),
            Item::Tail | Item::Nipple => pass(step.item, d, Item::TapDrill),
            _ => {}
        }
    }
    // The widest of the other holes where the collar is to rest.
    let length = section.length();
    let behind = section.bores.iter().filter(|bore| bore.item != Item::Recess);
    let at_seat =
        behind.map(|bore| (bore.item, bore::tool_diameter_at(bore, section.seat(), length)));
    let widest = at_seat.reduce(|a, b| if b.1 > a.1 { b } else { a });
    if let Some((bore, hole)) = widest
        && unit.collar.value <= hole
    {
        found.push(SectionError::NoSeat { collar: unit.collar.value, bore, hole });
    }
    let end = section.seat() + unit.length();
    if end > length {
        found.push(SectionError::UnitLongerThanSection { unit: end, section: length });
    }
}

/// Holes against the outside, at every corner of both.
fn walls(section: &Section, found: &mut Vec<SectionError>) {
    let bores = envelope(&section.bores, section.length());
    let part = section.part();
    let tenon = &section.tenon.thread;
    let unit_thread = &section.unit_thread;
    let outside = part.runs.iter().filter(|r| r.skin == Skin::Outside);
    let ends = outside.flat_map(|r| [(r, r.from), (r, r.to)]);
    let mut corners: Vec<Length> = ends.map(|(_, s)| s.z).collect();
    corners.extend(bores.iter().flat_map(|r| [r.from.z, r.to.z]));
    corners.extend([unit_thread.from, unit_thread.to]);
    corners.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    corners.dedup();
    let within = |from: Length, to: Length, z: Length| z >= from && z <= to;
    for z in corners {
        let narrowest = |runs: &mut dyn Iterator<Item = Length>| {
            runs.reduce(Length::min).unwrap_or(Length::mm(f64::INFINITY))
        };
        let outside = &mut part.runs.iter().filter(|r| r.skin == Skin::Outside);
        let surface = narrowest(&mut outside.filter_map(|r| diameter_at(r.from, r.to, z)));
        let Some((bore, hole)) = bores
            .iter()
            .filter_map(|r| diameter_at(r.from, r.to, z).map(|d| (r.feature.item, d)))
            .max_by(|a, b| a.1.as_mm().total_cmp(&b.1.as_mm()))
        else {
            continue;
        };
        let on_tenon_thread = within(tenon.from, tenon.to, z);
        let body = if on_tenon_thread { surface.min(tenon.form.root) } else { surface };
        if hole >= surface {
            found.push(SectionError::BoreWiderThanBody { bore, z, hole, body: surface });
        } else if hole >= body {
            let (thread, root) = (Item::TenonThread, body);
            found.push(SectionError::RootCutsBore { thread, bore, root, hole });
        } else if within(unit_thread.from, unit_thread.to, z) && unit_thread.form.root >= body {
            let (bore, hole) = (Item::UnitThread, unit_thread.form.root);
            found.push(SectionError::BoreWiderThanBody { bore, z, hole, body });
        }
    }
    // One message a hole is enough: the first place from the front.
    let mut seen = Vec::new();
    found.retain(|error| {
        let key = match error {
            SectionError::BoreWiderThanBody { bore, .. } => (false, *bore),
            SectionError::RootCutsBore { bore, .. } => (true, *bore),
            _ => return true,
        };
        let new = !seen.contains(&key);
        seen.push(key);
        new
    });
}

/// A straight run's diameter at a z within it; on a step, its narrower end.
fn diameter_at(from: Station, to: Station, z: Length) -> Option<Length> {
    let (low, high) = if from.z <= to.z { (from, to) } else { (to, from) };
    if z < low.z || z > high.z {
        return None;
    }
    if low.z == high.z {
        return Some(low.diameter.min(high.diameter));
    }
    let t = (z - low.z).as_mm() / (high.z - low.z).as_mm();
    Some(low.diameter + (high.diameter - low.diameter) * t)
}
