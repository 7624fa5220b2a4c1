//! The sizes of a section as its drawing gives them, and how each is set alone.
//!
//! Lengths of the outside up to the shoulder, and of holes from the front, are measured from the
//! front face; the tenon's, and those of holes from the back, from the shoulder. So another tenon
//! length moves the back face alone. Ends at one z of one chain are one size, and so is the
//! diameter of a cylinder. A chamfer is its length along the axis and its angle to it.

use crate::quantity::{Length, Limits};
use crate::section::{
    COINCIDENT, CentrePilot, Curve, Depth, Facet, Feature, Grip, Item, Mouth, Point, Ring, Run,
    Section,
};
use crate::size::SizeId;
use crate::size::coincide;
use crate::size::ring::is_round;

/// Every size that a section's drawing gives: lengths and diameters, then what depends on them,
/// chamfers and angles.
pub(super) fn drawn(section: &Section) -> Vec<SizeId> {
    let part = section.part();
    let mut all = outside(section);
    all.extend(bores(section, &part.runs));
    all.extend(tenon(section));
    let shown = |item, facet| part.runs.iter().any(|run| run.feature == Feature::new(item, facet));
    let corners = (0..=section.grip.runs.len()).filter_map(|n| u8::try_from(n).ok());
    all.extend(corners.clone().map(SizeId::CornerRadius));
    all.push(SizeId::TenonChamfer);
    if shown(Item::CentrePilot, Facet::Side) {
        all.extend([SizeId::CentrePilotDiameter, SizeId::CentrePilotLength]);
    }
    for corner in corners {
        all.extend([SizeId::CornerChamfer(corner), SizeId::CornerAngle(corner)]);
    }
    all.push(SizeId::TenonChamferAngle);
    all.extend(section.bores.iter().filter_map(|bore| {
        let facet =
            if matches!(bore.item, Item::Countersink(_)) { Facet::Side } else { Facet::Cone };
        shown(bore.item, facet).then_some(SizeId::PointAngle(bore.item))
    }));
    if shown(Item::CentrePilot, Facet::Cone) {
        all.push(SizeId::PointAngle(Item::CentrePilot));
    }
    all.retain(|parameter| value(section, *parameter).is_some_and(|value| value != 0.0));
    all.sort_by_key(|parameter| parameter.is_angle());
    all
}

fn outside(section: &Section) -> Vec<SizeId> {
    let grip = &section.grip;
    let carries = grip.thread.as_ref().map(|cap| cap.run);
    let count = grip.runs.len();
    let mut all = Vec::new();
    let threaded = |station: usize| {
        // Stations are counted from the front face: run n goes from n to n + 1.
        carries.is_some_and(|run| [run, run + 1].iter().any(|at| leader(grip, *at) == station))
    };
    for station in (0..=count).filter(|n| leader(grip, *n) == *n && !threaded(*n)) {
        all.push(diameter_at(station));
    }
    let ends = (1..count).filter(|n| {
        let end = |n: usize| grip.runs[n - 1].to.z;
        (*n == 1 || end(*n) - end(n - 1) > COINCIDENT) && grip.length() - end(*n) > COINCIDENT
    });
    all.extend(ends.filter_map(|n| u8::try_from(n).ok()).map(SizeId::RunEnd));
    all.push(SizeId::GripLength);
    let runs = (1..=count).filter_map(|n| u8::try_from(n).ok());
    all.extend(runs.map(SizeId::ArcRadius));
    for Ring { item, form, .. } in grip.rings.iter().copied() {
        let body = if is_round(form) { SizeId::RingRadius } else { SizeId::RingFloor };
        all.extend([SizeId::RingStart(item), SizeId::RingEnd(item), body(item)]);
    }
    if let Some(cap) = &grip.thread {
        let ends = [grip.start(cap.run).z, grip.start(cap.run + 1).z];
        let free = |z: Length| ends.iter().all(|end| (*end - z).abs() > COINCIDENT);
        all.extend(free(cap.thread.from).then_some(SizeId::GripThreadStart));
        all.extend(free(cap.thread.to).then_some(SizeId::GripThreadEnd));
    }
    all
}

fn diameter_at(station: usize) -> SizeId {
    match u8::try_from(station) {
        Ok(0) | Err(_) => SizeId::FrontDiameter,
        Ok(n) => SizeId::GripDiameter(n),
    }
}

fn diameter(grip: &Grip, station: usize) -> Length {
    grip.start(station).diameter
}

/// The first station of the cylinder that a station belongs to.
fn leader(grip: &Grip, mut station: usize) -> usize {
    while station > 0
        && grip.runs.get(station - 1).is_some_and(|run| run.curve == Curve::Straight)
        && (diameter(grip, station) - diameter(grip, station - 1)).abs() <= COINCIDENT
    {
        station -= 1;
    }
    station
}

fn bores(section: &Section, runs: &[Run]) -> Vec<SizeId> {
    let length = section.length();
    let sink = |item| matches!(item, Item::Countersink(_));
    // What another hole swallows is no size of the part; of holes of one wall one is named.
    let side = |item| Feature::new(item, Facet::Side);
    let stands = |item: &Item| runs.iter().any(|run| run.feature == side(*item));
    let items = section.bores.iter().map(|bore| bore.item).filter(stands);
    let mut all: Vec<SizeId> = items.map(SizeId::BoreDiameter).collect();
    let shown = |item: Item, z: Length| {
        let own = runs.iter().filter(|run| run.feature.item == item);
        own.flat_map(|run| [run.from.z, run.to.z]).any(|end| (end - z).abs() <= COINCIDENT)
    };
    let mut depths = Vec::new();
    for bore in section.bores.iter().filter(|bore| !sink(bore.item)) {
        let [from, to] = bore.full(length);
        let [start, end] = if bore.mouth == Mouth::Front { [from, to] } else { [to, from] };
        if bore.depth != Depth::Through && shown(bore.item, end) {
            depths.push(SizeId::BoreDepth(bore.item));
        }
        if matches!(bore.depth, Depth::Between(..)) && shown(bore.item, start) {
            depths.push(SizeId::ReliefStart(bore.item));
        }
    }
    depths.extend([SizeId::UnitThreadStart, SizeId::UnitThreadEnd]);
    for (n, depth) in depths.iter().enumerate() {
        let own = |other: &SizeId| !one_place(section, *other, *depth);
        if depths[..n].iter().all(own) {
            all.push(*depth);
        }
    }
    all
}

/// The holes that make one wall with a hole, and itself: of one diameter, where they overlap.
fn one_wall(section: &Section, item: Item) -> Vec<Item> {
    let (length, sink) = (section.length(), |item| matches!(item, Item::Countersink(_)));
    let Some(own) = section.bore(item).filter(|_| !sink(item)) else { return vec![item] };
    let [from, to] = own.full(length);
    let along = section.bores.iter().filter(|bore| {
        let [start, end] = bore.full(length);
        !sink(bore.item) && coincide(bore.diameter, own.diameter) && start <= to && from <= end
    });
    along.map(|bore| bore.item).collect()
}

/// Whether two ends in the bore are one size: at one z, from one face.
fn one_place(section: &Section, a: SizeId, b: SizeId) -> bool {
    let at = |parameter| Some((from_back(section, parameter), value(section, parameter)?));
    match (at(a), at(b)) {
        (Some((back, a)), Some((other, b))) => back == other && (a - b).abs() <= COINCIDENT.as_mm(),
        _ => false,
    }
}

/// Whether a length is measured from the shoulder.
pub(super) fn from_shoulder(section: &Section, parameter: SizeId) -> bool {
    use SizeId as P;
    from_back(section, parameter)
        || matches!(
            parameter,
            P::TenonLength
                | P::TenonThreadStart
                | P::TenonThreadEnd
                | P::PilotLength
                | P::ReliefWidth
        )
}

/// Whether it belongs to a hole that comes in by the back face.
fn from_back(section: &Section, parameter: SizeId) -> bool {
    let (SizeId::BoreDepth(item) | SizeId::ReliefStart(item)) = parameter else {
        return false;
    };
    section.bore(item).is_some_and(|bore| bore.mouth == Mouth::Back)
}

fn tenon(section: &Section) -> Vec<SizeId> {
    let (tenon, shoulder) = (&section.tenon, section.grip.length());
    let start = tenon.relief.map_or(Length::ZERO, |relief| relief.width);
    let end = tenon.length - tenon.pilot.map_or(Length::ZERO, |pilot| pilot.length);
    let mut all = vec![SizeId::TenonLength];
    let free = |z: Length, face: Length| (z - shoulder - face).abs() > COINCIDENT;
    let starts_free = free(tenon.thread.from, start) && free(tenon.thread.from, Length::ZERO);
    all.extend(starts_free.then_some(SizeId::TenonThreadStart));
    all.extend(free(tenon.thread.to, end).then_some(SizeId::TenonThreadEnd));
    if tenon.relief.is_some() {
        all.extend([SizeId::ReliefDiameter, SizeId::ReliefWidth]);
    }
    if tenon.pilot.is_some() {
        all.extend([SizeId::PilotDiameter, SizeId::PilotLength]);
    }
    all
}

/// Whether material is lost where a size of the drawing grows: a hole, a groove, a corner cut off.
///
/// The end of a hole from the back lies nearer its face, where the size is greater: it cuts less,
/// and its beginning more.
pub(super) fn cuts_material(section: &Section, parameter: SizeId) -> bool {
    use SizeId as P;
    match parameter {
        P::BoreDepth(_) => !from_back(section, parameter),
        P::ReliefStart(_) => from_back(section, parameter),
        _ => matches!(
            parameter,
            P::BoreDiameter(_)
                | P::UnitThreadEnd
                | P::ReliefWidth
                | P::RingEnd(Item::Groove(_))
                | P::RingStart(Item::Bead(_))
                | P::RingRadius(Item::Bead(_))
                | P::CornerRadius(_)
                | P::CornerChamfer(_)
                | P::TenonChamfer
                | P::CentrePilotDiameter
                | P::CentrePilotLength
        ),
    }
}

/// A size as the drawing gives it, in millimetres or degrees; none where there is none.
///
/// Of the tenon's pilot it is where it begins, from the shoulder; of a centre drill's pilot where
/// it ends, from the front; of a hole from the back its floor, from the shoulder, less than nothing
/// where it lies before it; of the tenon's chamfer its length; of a thread where it is full.
pub(super) fn value(section: &Section, parameter: SizeId) -> Option<f64> {
    let own = parameter.get(section)?;
    let tenon = section.tenon.length.as_mm();
    Some(match parameter {
        SizeId::BoreDepth(_) | SizeId::ReliefStart(_) if from_back(section, parameter) => {
            tenon - own
        }
        SizeId::PilotLength => tenon - own,
        SizeId::TenonChamfer => section.tenon.chamfer.length.as_mm(),
        SizeId::CentrePilotLength => own + cone_end(section)?,
        _ => own + run_out(section, parameter),
    })
}

/// From the end of a tool's cut to the end of full thread, which is what a drawing gives; nothing
/// of what is no thread's end.
fn run_out(section: &Section, parameter: SizeId) -> f64 {
    use SizeId as P;
    let cap = section.grip.thread.as_ref().map(|cap| &cap.thread);
    let (thread, end) = match parameter {
        P::UnitThreadStart => (Some(&section.unit_thread), 0),
        P::UnitThreadEnd => (Some(&section.unit_thread), 1),
        P::TenonThreadStart => (Some(&section.tenon.thread), 0),
        P::TenonThreadEnd => (Some(&section.tenon.thread), 1),
        P::GripThreadStart => (cap, 0),
        P::GripThreadEnd => (cap, 1),
        _ => (None, 0),
    };
    let length = thread.map_or(0.0, |thread| thread.run_out_lengths()[end].as_mm());
    if end == 0 { length } else { -length }
}

/// The section with one size of its drawing at another value, the others of the drawing as they
/// are but for those that follow from it.
pub(super) fn set(section: &Section, parameter: SizeId, to: f64) -> Option<Section> {
    let tenon = section.tenon.length.as_mm();
    match parameter {
        SizeId::FrontDiameter | SizeId::GripDiameter(_) => {
            let first = if let SizeId::GripDiameter(n) = parameter { usize::from(n) } else { 0 };
            let mut changed = section.clone();
            for station in first..=section.grip.runs.len() {
                if leader(&section.grip, station) == first {
                    changed = diameter_at(station).set(&changed, to)?;
                }
            }
            Some(changed)
        }
        SizeId::BoreDiameter(item) => {
            let mut changed = section.clone();
            for one in one_wall(section, item) {
                changed = SizeId::BoreDiameter(one).set(&changed, to)?;
                let bore = changed.bores.iter_mut().find(|bore| bore.item == one)?;
                bore.limits = Limits::exactly(bore.diameter);
                // Its pilot is a size of its own.
                bore.point = section.bore(one)?.point;
            }
            Some(changed)
        }
        SizeId::BoreDepth(_)
        | SizeId::ReliefStart(_)
        | SizeId::UnitThreadStart
        | SizeId::UnitThreadEnd => {
            let ends = section
                .bores
                .iter()
                .flat_map(|bore| [SizeId::BoreDepth(bore.item), SizeId::ReliefStart(bore.item)]);
            let ends = ends.chain([SizeId::UnitThreadStart, SizeId::UnitThreadEnd]);
            let here = ends.filter(|end| one_place(section, *end, parameter));
            here.into_iter().try_fold(section.clone(), |changed, end| {
                let own = if from_back(section, end) { tenon - to } else { to };
                end.set(&changed, own - run_out(section, end))
            })
        }
        SizeId::TenonLength => Some(tenon_length(section, to)),
        SizeId::TenonChamfer => {
            let mut changed = section.clone();
            let chamfer = &mut changed.tenon.chamfer;
            chamfer.depth = chamfer.depth * (to / chamfer.length.as_mm());
            chamfer.length = Length::mm(to);
            Some(changed)
        }
        SizeId::PilotLength => parameter.set(section, tenon - to),
        SizeId::CentrePilotLength => parameter.set(section, to - cone_end(section)?),
        _ => parameter.set(section, to - run_out(section, parameter)),
    }
}

/// The back face moved alone.
fn tenon_length(section: &Section, to: f64) -> Section {
    let mut changed = section.clone();
    let by = Length::mm(to) - section.tenon.length;
    changed.tenon.length = Length::mm(to);
    changed.blank.length += by;
    if let Some(pilot) = &mut changed.tenon.pilot {
        pilot.length += by;
    } else if coincide(section.tenon.thread.to, section.length()) {
        changed.tenon.thread.to = changed.length();
    }
    for bore in changed.bores.iter_mut().filter(|bore| bore.mouth == Mouth::Back) {
        bore.depth = match bore.depth {
            // A countersink goes with its face.
            Depth::To(depth) if depth > Length::ZERO => Depth::To(depth + by),
            Depth::Between(a, b) => Depth::Between(a + by, b + by),
            depth => depth,
        };
    }
    changed
}

/// z at which a centre drill's cone ends in its pilot.
fn cone_end(section: &Section) -> Option<f64> {
    section.bores.iter().find_map(|bore| {
        let Point::Centre(_, CentrePilot { diameter, .. }) = bore.point else { return None };
        let cone = bore.point.length_between(bore.diameter, diameter);
        Some((bore.full_depth(section.length()) + cone).as_mm())
    })
}
