//! A design file that says every size, so that none follows from another: the independent way to the
//! geometry of a mistake.

use std::fmt::Write;

use sectionwright::section::{
    CapMouth, Corner, Curve, Depth, Item, LeadChamfer, Mouth, Point, Section,
};
use sectionwright::size::SizeId;

/// The sizes of a section as a design file writes them.
struct Sizes<'a> {
    section: &'a Section,
    /// The one that was cut otherwise.
    mistake: (SizeId, f64),
}

impl Sizes<'_> {
    fn of(&self, parameter: SizeId) -> f64 {
        let (other, to) = self.mistake;
        if parameter == other { to } else { parameter.get(self.section).unwrap() }
    }
}

/// Whether a file can say this size by itself.
pub fn can_say(section: &Section, parameter: SizeId) -> bool {
    use SizeId as P;
    match parameter {
        P::GripLength | P::FrontDiameter | P::GripDiameter(_) | P::RunEnd(_) => plain(section),
        P::BoreDiameter(item) | P::BoreDepth(item) => stack(item),
        P::UnitThreadEnd
        | P::TenonLength
        | P::TenonChamfer
        | P::ReliefDiameter
        | P::ReliefWidth
        | P::PilotDiameter
        | P::PilotLength => true,
        _ => false,
    }
}

fn stack(item: Item) -> bool {
    let stack = [Item::Recess, Item::ClearanceBore, Item::TapDrill, Item::ThroughBore];
    stack.contains(&item)
}

/// A grip of straight runs and sharp corners alone.
fn plain(section: &Section) -> bool {
    let grip = &section.grip;
    let sharp = |run: &sectionwright::section::GripRun| {
        run.curve == Curve::Straight && run.corner == Corner::Sharp
    };
    grip.thread.is_none()
        && grip.rings.is_empty()
        && grip.rim == Corner::Sharp
        && grip.runs.iter().all(sharp)
}

/// The file, `like` the one that the section is from.
pub fn written(base: &str, section: &Section, mistake: (SizeId, f64)) -> String {
    use SizeId as P;
    let sizes = Sizes { section, mistake };
    let of = |parameter| sizes.of(parameter);
    let mut text = format!("format = 1\nlike = {base:?}\n");
    let drawn_length = P::GripLength.get(section).unwrap();
    let longer = of(P::GripLength) - drawn_length + of(P::TenonLength)
        - P::TenonLength.get(section).unwrap();
    // A tap goes on behind its full thread by its lead.
    let [_, full] = section.unit_thread.full();
    let lead = (section.unit_thread.to - full).as_mm();
    let mut line = |said: String| writeln!(text, "{said}").unwrap();
    if plain(section) {
        line(format!(
            "[grip]\nlength = {:?}\nfront = {:?}",
            of(P::GripLength),
            of(P::FrontDiameter)
        ));
        let count = section.grip.runs.len();
        for n in 1..=count {
            let number = u8::try_from(n).unwrap();
            let end = if n < count { of(P::RunEnd(number)) } else { of(P::GripLength) };
            let diameter = of(P::GripDiameter(number));
            line(format!("[[grip.run]]\nto = {end:?}\ndiameter = {diameter:?}"));
        }
    }
    let LeadChamfer { depth, length } = section.tenon.chamfer;
    line(format!("[tenon]\nlength = {:?}", of(P::TenonLength)));
    if depth.as_mm() > 0.0 {
        let angle = libm::atan2(depth.as_mm(), length.as_mm()).to_degrees();
        line(format!("chamfer = {{ depth = {:?}, angle = {angle:?} }}", of(P::TenonChamfer)));
    }
    if section.tenon.relief.is_some() {
        let (width, diameter) = (of(P::ReliefWidth), of(P::ReliefDiameter));
        line(format!("relief = {{ width = {width:?}, diameter = {diameter:?} }}"));
    }
    if section.tenon.pilot.is_some() {
        let (length, diameter) = (of(P::PilotLength), of(P::PilotDiameter));
        line(format!("pilot = {{ length = {length:?}, diameter = {diameter:?} }}"));
    }
    for (item, table) in [
        (Item::Recess, "recess"),
        (Item::ClearanceBore, "clearance"),
        (Item::TapDrill, "tap_drill"),
        (Item::ThroughBore, "through"),
    ] {
        let Some(bore) = section.bore(item) else { continue };
        assert_eq!(bore.mouth, Mouth::Front);
        line(format!("[bores.{table}]\ndiameter = {:?}", of(P::BoreDiameter(item))));
        if let Point::Centre(cone, pilot) = bore.point {
            // One tool: what it cuts over its size its pilot cuts over its own.
            let over = of(P::BoreDiameter(item)) - bore.diameter.as_mm();
            line(format!(
                "seat = {{ cone = {:?}, pilot = {:?}, pilot_length = {:?} }}",
                cone.as_deg(),
                pilot.diameter.as_mm() + over,
                pilot.length.as_mm()
            ));
        }
        if matches!(bore.depth, Depth::To(_)) {
            line(format!("depth = {:?}", of(P::BoreDepth(item))));
        }
    }
    line(format!("[bores.thread]\nto = {:?}", of(P::UnitThreadEnd) - lead));
    let barrel = &section.barrel;
    line(format!(
        "[barrel]\ndepth = {:?}\nfull_thread_to = {:?}\noutside = {:?}",
        barrel.depth.as_mm(),
        barrel.thread.to.as_mm(),
        barrel.outside.as_mm()
    ));
    if let Some(cap) = &section.cap {
        let stop = cap.stops_at.as_mm();
        // A cap that stops at the shoulder goes where the shoulder goes.
        let stop = if stop == drawn_length { of(P::GripLength) } else { stop };
        line(format!("[cap]\nstops_at = {stop:?}"));
        if let CapMouth::Thread(thread) = &cap.mouth {
            line(format!("full_thread_to = {:?}", thread.to.as_mm()));
        }
    }
    text + &blank(section, longer)
}

fn blank(section: &Section, longer: f64) -> String {
    let (diameter, length) = (section.blank.diameter.as_mm(), section.blank.length.as_mm());
    format!("[blank]\ndiameter = {diameter:?}\nlength = {:?}\n", length + longer)
}
