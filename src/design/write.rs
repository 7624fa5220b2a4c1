//! Which keys of a file say a size, and with which numbers.

use std::fmt;

use super::tree::Value;
use super::values::Values;
use crate::quantity::Length;
use crate::section::{CapMouth, Corner, Curve, Item, Mouth, Section, Thread};
use crate::size::{Owner, SizeId, coincide};

/// Which file a key stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InFile {
    /// The design's.
    Design,
    /// The nib unit's.
    Unit,
}

/// A key with its number.
#[derive(Clone, Debug, PartialEq)]
pub struct Write {
    /// Which file it stands in.
    pub file: InFile,
    /// Tables and key joined by dots, of lists the number from 1: `grip.run.2.to`.
    pub key: String,
    /// Millimetres or degrees.
    pub value: f64,
    /// Whether its list is written in a file that this one is like: it is to be changed there, or
    /// the whole list to be written here.
    pub inherited: bool,
}

impl fmt::Display for Write {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} = {}", self.key, self.value)?;
        if self.inherited {
            f.write_str(" (in the file that this one is like)")?;
        }
        Ok(())
    }
}

/// As [`Values::writes`].
pub(super) fn writes(
    values: &Values,
    section: &Section,
    size: SizeId,
    value: f64,
) -> Option<Vec<Write>> {
    size.get(section)?;
    let keys: Vec<(String, f64)> = match size.owner() {
        Owner::Grip => grip(values, section, size, value)?,
        Owner::Bores => bores(values, section, size, value)?,
        Owner::Tenon => tenon(values, section, size, value)?,
        Owner::Barrel => barrel(section, size, value),
        Owner::Cap => cap(values, section, size, value)?,
        Owner::Unit => {
            let key = size.name().strip_prefix("unit.")?.to_owned();
            return Some(vec![values.write_in(InFile::Unit, key, value)]);
        }
        Owner::Converter | Owner::Rod | Owner::Axis => vec![(size.name(), value)],
    };
    let write = |(key, value)| values.write_in(InFile::Design, key, value);
    Some(keys.into_iter().map(write).collect())
}

type Keys = Option<Vec<(String, f64)>>;

fn one(size: SizeId, value: f64) -> Vec<(String, f64)> {
    vec![(size.name(), value)]
}

fn grip(values: &Values, section: &Section, size: SizeId, value: f64) -> Keys {
    let grip = &section.grip;
    let to = Length::mm(value);
    let written = values.files.design.grip.runs.len();
    let ends_at = |z: Length| {
        let runs = (1..).zip(&grip.runs).take(written);
        runs.filter(move |(_, run)| coincide(run.to.z, z)).map(|(n, _)| format!("grip.run.{n}.to"))
    };
    let table = |n: u8| if n == 0 { "grip".to_owned() } else { format!("grip.run.{n}") };
    match size {
        SizeId::GripDiameter(_) if written == 0 => {
            let end = (SizeId::RunEnd(1).name(), grip.length().as_mm());
            Some(vec![end, (size.name(), value)])
        }
        SizeId::FrontDiameter
        | SizeId::GripDiameter(_)
        | SizeId::GrooveDepth(_)
        | SizeId::CornerRadius(_) => Some(one(size, value)),
        SizeId::GripLength => {
            let ends = ends_at(grip.length()).map(|key| (key, value));
            Some([(size.name(), value)].into_iter().chain(ends).collect())
        }
        SizeId::RunEnd(n) => {
            let old = grip.runs.get(usize::from(n) - 1)?.to.z;
            Some(ends_at(old).map(|key| (key, value)).collect())
        }
        SizeId::ArcRadius(n) => {
            let changed = size.set(section, value)?;
            let key = match changed.grip.runs.get(usize::from(n) - 1)?.curve {
                Curve::Concave(_) => "concave",
                _ => "convex",
            };
            Some(vec![(format!("grip.run.{n}.{key}"), to.as_mm())])
        }
        SizeId::CornerChamfer(n) | SizeId::CornerAngle(n) => {
            let changed = size.set(section, value)?;
            let corner = match n {
                0 => changed.grip.rim,
                n => changed.grip.runs.get(usize::from(n) - 1)?.corner,
            };
            let Corner::Chamfer { before, after } = corner else { return None };
            let key = |what: &str| format!("{}.chamfer.{what}", table(n));
            Some(vec![(key("before"), tidy(before)), (key("after"), tidy(after))])
        }
        SizeId::RingStart(item)
        | SizeId::RingEnd(item)
        | SizeId::RingFloor(item)
        | SizeId::RingRadius(item) => {
            let changed = size.set(section, value)?;
            let ring = changed.grip.rings.iter().find(|ring| ring.item == item)?;
            let (list, n, height) = match item {
                Item::Bead(n) => ("bead", n, "height"),
                Item::Groove(n) => ("groove", n, "depth"),
                _ => return None,
            };
            let key = |what: &str| format!("grip.{list}.{n}.{what}");
            let sizes = [("at", ring.at), ("width", ring.width), (height, ring.height)];
            Some(sizes.into_iter().map(|(what, size)| (key(what), tidy(size))).collect())
        }
        SizeId::GripThreadSize => {
            let cap = grip.thread.as_ref()?;
            Some(form(&format!("grip.run.{}", cap.run + 1), &cap.thread, value, "minor"))
        }
        _ => None,
    }
}

/// A sum or difference as somebody writes it, without the rounding of its last bits.
fn tidy(sum: Length) -> f64 {
    /// Digits finer than a nanometre, which no file needs.
    const PER_MM: f64 = 1e9;
    (sum.as_mm() * PER_MM).round() / PER_MM
}

/// The pitch diameter of a thread and the diameter that its tool cuts with it.
fn form(table: &str, thread: &Thread, value: f64, root: &str) -> Vec<(String, f64)> {
    let by = Length::mm(value) - thread.form.pitch_diameter;
    let key = |what: &str| format!("{table}.form.{what}");
    vec![(key("pitch_diameter"), value), (key(root), tidy(thread.form.root + by))]
}

fn bores(values: &Values, section: &Section, size: SizeId, value: f64) -> Keys {
    let key = |item, what: &str| Some(format!("bores.{}.{what}", hole(values, item)?));
    let end_angle = |item| match item {
        Item::Recess => "seat.cone",
        Item::Countersink(_) => "angle",
        Item::BoreRelief(_) => "walls",
        _ => "point",
    };
    let key = match size {
        SizeId::BoreDiameter(item @ Item::Countersink(_)) => key(item, "mouth")?,
        SizeId::BoreDiameter(item) => key(item, "diameter")?,
        SizeId::BoreDepth(item @ Item::BoreRelief(_)) => key(item, "to")?,
        SizeId::BoreDepth(item) => key(item, "depth")?,
        SizeId::ReliefStart(item) => key(item, "from")?,
        SizeId::PointAngle(Item::CentrePilot) | SizeId::UnitThreadStart => return None,
        SizeId::PointAngle(item) => key(item, end_angle(item))?,
        SizeId::UnitThreadEnd => {
            return Some(one(size, size.as_written(section, value)));
        }
        SizeId::UnitThreadSize => {
            if values.files.design.bores.thread.tap.is_none() {
                return Some(form("bores.thread", &section.unit_thread, value, "major"));
            }
            let form = &section.unit_thread.form;
            let major = form.root + (Length::mm(value) - form.pitch_diameter);
            let key = |what: &str| format!("bores.thread.tap.{what}");
            return Some(vec![(key("pitch_diameter"), value), (key("major"), tidy(major))]);
        }
        _ => return Some(one(size, value)),
    };
    Some(vec![(key, value)])
}

/// The table of a hole in the design's file.
fn hole(values: &Values, item: Item) -> Option<String> {
    Some(match item {
        Item::Recess => "recess".to_owned(),
        Item::ClearanceBore => "clearance".to_owned(),
        Item::TapDrill => "tap_drill".to_owned(),
        Item::ThroughBore => "through".to_owned(),
        Item::Countersink(Mouth::Front) => "countersink.front".to_owned(),
        Item::Countersink(Mouth::Back) => "countersink.back".to_owned(),
        Item::BoreRelief(n) => format!("relief.{n}"),
        Item::BoreStep(mouth, n) => {
            // The file lists the steps of both faces together.
            let steps = (1..).zip(&values.files.design.bores.tools.steps);
            let from_there = |from: Mouth| from == mouth;
            let mut own =
                steps.filter(|(_, step)| step.from.as_ref().is_some_and(|at| from_there(at.value)));
            format!("step.{}", own.nth(usize::from(n) - 1)?.0)
        }
        _ => return None,
    })
}

fn tenon(values: &Values, section: &Section, size: SizeId, value: f64) -> Keys {
    let chamfer = values.table(InFile::Design).at("tenon.chamfer");
    let is_table = matches!(chamfer, Some(Value::Table(_)));
    match size {
        SizeId::TenonChamfer if is_table => Some(vec![("tenon.chamfer.depth".to_owned(), value)]),
        SizeId::TenonChamferAngle => {
            let depth = size.set(section, value)?.tenon.chamfer.depth.as_mm();
            let key = |what: &str| format!("tenon.chamfer.{what}");
            Some(vec![(key("depth"), depth), (key("angle"), value)])
        }
        SizeId::TenonThreadSize => Some(form("tenon", &section.tenon.thread, value, "minor")),
        SizeId::TenonThreadStart | SizeId::TenonThreadEnd => None,
        _ => Some(one(size, value)),
    }
}

fn barrel(section: &Section, size: SizeId, value: f64) -> Vec<(String, f64)> {
    match size {
        SizeId::BarrelThreadSize => form("barrel", &section.barrel.thread, value, "major"),
        SizeId::BarrelThreadEnd => one(size, size.as_written(section, value)),
        _ => one(size, value),
    }
}

fn cap(values: &Values, section: &Section, size: SizeId, value: f64) -> Keys {
    let cap = section.cap.as_ref()?;
    match (size, &cap.mouth) {
        (SizeId::CapThreadSize, CapMouth::Thread(thread)) => {
            Some(form("cap", thread, value, "major"))
        }
        (SizeId::CapHole, CapMouth::Thread(_)) => Some(vec![("cap.form.minor".to_owned(), value)]),
        (SizeId::CapThreadEnd, _) => Some(one(size, size.as_written(section, value))),
        (SizeId::CapLength, _) => {
            let last = SizeId::CapBoreEnd(u8::try_from(cap.bores.len()).ok()?).name();
            let ends = values.table(InFile::Design).at(&last).map(|_| (last, value));
            Some([(size.name(), value)].into_iter().chain(ends).collect())
        }
        _ => Some(one(size, value)),
    }
}
