//! What makes a section impossible, whatever its limits: each rule finds its own faults.
//!
//! A rule that holds for every section that can be cut stands here; whether a wall is thick
//! enough is a check's matter.

use super::outside::{Stroke, Vector, draw};
use super::{
    Cap, Corner, Depth, EnvelopeRun, Facet, Feature, Item, LEAST_STEP, Run, Section, SectionError,
    Side, Skin, Subject, Thread, bore, envelope, mates,
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
    mates::faults(section, &mut found);
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

/// With the least material, where corners have less room, then as drawn.
fn outside_runs(section: &Section, found: &mut Vec<SectionError>) {
    for section in [&section.at_least_material(), section] {
        let bores = envelope(&section.bores, section.length());
        let mouth = bores.first().map_or(Length::ZERO, |run| run.from.diameter);
        let chain = draw(&section.grip, mouth, section.tenon.foot());
        if chain.faults.is_empty() {
            found.extend(cap_thread_eaten(section, &chain.runs));
        }
        found.extend(chain.faults.into_iter().map(SectionError::Outside));
        if !found.is_empty() {
            break;
        }
    }
    let (grip, tenon) = (section.grip.back(), section.tenon.thread.form.crest);
    if grip - tenon < LEAST_STEP {
        let run = section.grip.runs.len().saturating_sub(1);
        found.push(SectionError::NoShoulder { run, grip, tenon });
    }
}

/// Chamfers that leave nothing of the cap thread's cylinder.
fn cap_thread_eaten(section: &Section, runs: &[Run]) -> Option<SectionError> {
    let cap = section.grip.thread.as_ref()?;
    let own = u8::try_from(cap.run + 1).unwrap_or(u8::MAX);
    let feature = Feature::new(Item::Grip(own), Facet::Side);
    if runs.iter().any(|run| run.feature == feature) {
        return None;
    }
    let leg = |corner: Corner| match corner {
        Corner::Chamfer { before, after } => before.max(after),
        Corner::Fillet(radius) => radius,
        Corner::Sharp => Length::ZERO,
    };
    let before = cap.run.checked_sub(1).map_or(section.grip.rim, |n| section.grip.runs[n].corner);
    let chamfer = leg(before).max(leg(section.grip.runs.get(cap.run)?.corner));
    let (thread, length) = (Item::CapThread, cap.thread.length());
    Some(SectionError::ChamferWiderThanThread { thread, chamfer, length })
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
    if tenon.chamfer.length >= length {
        let (thread, chamfer) = (Item::TenonThread, tenon.chamfer.length);
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
    let cap = section.cap.as_ref().and_then(Cap::thread);
    for thread in section.threads().chain([&section.unit.thread]).chain(cap) {
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

/// Holes against the outside, wherever one may be nearest to the other.
fn walls(section: &Section, found: &mut Vec<SectionError>) {
    let bores = envelope(&section.bores, section.length());
    let part = section.part();
    let unit_thread = &section.unit_thread;
    let outside: Vec<Stroke> =
        part.runs.iter().filter(|r| r.skin == Skin::Outside).map(Stroke::of).collect();
    let within = |thread: &Thread, z: Length| z >= thread.from && z <= thread.to;
    for z in places(&outside, &bores, unit_thread) {
        let surface = outside.iter().filter_map(|stroke| stroke.r_at(z)).reduce(f64::min);
        let surface = Length::mm(surface.map_or(f64::INFINITY, |r| r * 2.0));
        let Some((bore, hole)) = bores
            .iter()
            .filter_map(|r| stroke(r).r_at(z).map(|r_at| (r.feature.item, r_at * 2.0)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(item, diameter)| (item, Length::mm(diameter)))
        else {
            continue;
        };
        let z = Length::mm(z);
        let external = section.threads().filter(|t| t.side == Side::External && within(t, z));
        let deepest = external.min_by(|a, b| a.form.root.as_mm().total_cmp(&b.form.root.as_mm()));
        let body = deepest.map_or(surface, |thread| thread.form.root.min(surface));
        if hole >= surface {
            found.push(SectionError::BoreWiderThanBody { bore, z, hole, body: surface });
        } else if let Some(thread) = deepest.filter(|_| hole >= body) {
            let (thread, root) = (thread.item, body);
            found.push(SectionError::RootCutsBore { thread, bore, root, hole });
        } else if within(unit_thread, z) && unit_thread.form.root >= body {
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

fn stroke(run: &EnvelopeRun) -> Stroke {
    Stroke::straight(Vector::of(run.from), Vector::of(run.to))
}

/// Every z at which outside and bore may be nearest: the corners of both, the tops and bottoms of
/// arcs, and where an arc runs parallel to a line of the bore.
fn places(outside: &[Stroke], bores: &[EnvelopeRun], unit_thread: &Thread) -> Vec<f64> {
    let mut found: Vec<f64> =
        bores.iter().flat_map(|r| [r.from.z, r.to.z]).map(Length::as_mm).collect();
    found.extend([unit_thread.from.as_mm(), unit_thread.to.as_mm()]);
    for line in outside {
        found.extend(line.extremes().into_iter().map(|point| point.z));
        let directions = bores.iter().map(|run| stroke(run).chord());
        found.extend(directions.flat_map(|along| line.parallel_to(along)).map(|v| line.at(v).z));
    }
    found.sort_by(f64::total_cmp);
    found.dedup();
    found
}
