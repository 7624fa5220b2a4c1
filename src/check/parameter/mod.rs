//! The sizes of a section that a maker can change one at a time.

mod cap;
mod chamfer;
mod drawn;
mod making;

use std::fmt;

use crate::check::words;
use crate::quantity::{Length, Limits};
use crate::section::{Depth, Grip, Item, Ring, Section, Thread};

/// One size of a section, or of its barrel or cap; or how far off the axis things lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Parameter {
    /// Diameter of the grip at the front face.
    FrontDiameter,
    /// Diameter at the end of run `n` of the grip, counted from 1.
    GripDiameter(u8),
    /// How deep groove `n` of the grip is, counted from 1.
    GrooveDepth(u8),
    /// From the front face to the shoulder.
    GripLength,
    /// Diameter of a hole; the tap drill's is also the unit thread's crest.
    BoreDiameter(Item),
    /// Full-diameter depth of a hole, from the face that it is cut from; of a relief inside the
    /// bore its end. The unit's thread begins where the clearance bore ends.
    BoreDepth(Item),
    /// Where a relief inside the bore begins, from the front face.
    ReliefStart(Item),
    /// z at which the full thread for the unit ends.
    UnitThreadEnd,
    /// Pitch diameter of the section's thread for the unit, its major diameter with it: what the
    /// tap cuts.
    UnitThreadSize,
    /// From the shoulder to the back face.
    TenonLength,
    /// The tenon's lead chamfer.
    TenonChamfer,
    /// Diameter of the tenon's plain end.
    PilotDiameter,
    /// Diameter of the relief groove.
    ReliefDiameter,
    /// Width of the relief groove, with the start of the thread where it begins behind it.
    ReliefWidth,
    /// Pitch diameter of the barrel's thread, its major diameter with it.
    BarrelThreadSize,
    /// The barrel's hole for the thread: its diameter.
    BarrelHole,
    /// The barrel's hole for the thread: its depth from the joint face, its thread with it.
    BarrelDepth,
    /// Where the barrel's full thread ends, from the joint face.
    BarrelThreadEnd,
    /// Depth of the barrel's counterbore.
    CounterboreDepth,
    /// Diameter of the barrel's bore behind its thread.
    BarrelBoreDiameter,
    /// Depth of that bore, from the joint face.
    BarrelBoreDepth,
    /// Outside diameter of the barrel at the joint.
    BarrelOutside,
    /// z of the section at which the closed cap's mouth stands.
    CapStop,
    /// The cap's hole for the thread: its diameter.
    CapHole,
    /// Pitch diameter of the thread in the cap, its major diameter with it.
    CapThreadSize,
    /// Where the full thread in the cap, or the hole of the barrel's thread, ends, from its mouth.
    CapThreadEnd,
    /// Diameter of bore `n` of the cap, counted from 1.
    CapBoreDiameter(u8),
    /// From the cap's mouth to its closed end.
    CapLength,
    /// From the cap's mouth to the rim of its inner cap.
    SealDepth,
    /// Diameter of the inner cap's bore.
    SealDiameter,
    /// How far off the axis things lie after a change of holding.
    HoldingOffset,
    /// How far off the axis a long drilled hole lies at its end.
    LongHoleOffset,
    /// z of the end of run `n` of the grip, counted from 1; not of the last one's. Steps there
    /// belong to it.
    RunEnd(u8),
    /// Radius of the arc of run `n` of the grip, counted from 1.
    ArcRadius(u8),
    /// Radius of the fillet behind so many runs of the grip; 0 is the front face's rim.
    CornerRadius(u8),
    /// Length along the axis of the chamfer behind so many runs of the grip; 0 is the front
    /// face's rim. Its angle stays.
    CornerChamfer(u8),
    /// Angle of that chamfer to the axis, in degrees. Its length stays.
    CornerAngle(u8),
    /// z of the middle of a bead or groove of the grip.
    RingPosition(Item),
    /// Width of a bead or groove along the axis.
    RingWidth(Item),
    /// How high bead `n` of the grip is, counted from 1.
    BeadHeight(u8),
    /// Where the full thread for the cap begins on the grip, from the front face.
    GripThreadStart,
    /// Where it ends.
    GripThreadEnd,
    /// Where the tenon's full thread begins, from the shoulder.
    TenonThreadStart,
    /// Where it ends, from the shoulder.
    TenonThreadEnd,
    /// Angle of the tenon's lead chamfer to the axis, in degrees. Its length stays.
    TenonChamferAngle,
    /// Length of the tenon's plain end.
    PilotLength,
    /// z at which the full thread for the unit begins.
    UnitThreadStart,
    /// Included angle of a tool's point, or of the walls of a relief, in degrees; of
    /// [`Item::CentrePilot`] that of a centre drill's pilot.
    PointAngle(Item),
    /// Diameter of a centre drill's pilot.
    CentrePilotDiameter,
    /// Full-diameter length of a centre drill's pilot, from the end of the cone.
    CentrePilotLength,
}

impl fmt::Display for Parameter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FrontDiameter => f.write_str("diameter at the front face"),
            Self::GripDiameter(n) => write!(f, "diameter at the end of run {n} of the grip"),
            Self::GrooveDepth(n) => write!(f, "depth of groove {n} of the grip"),
            Self::GripLength => f.write_str("length of the grip"),
            Self::BoreDiameter(item) => write!(f, "diameter of the {}", words::item(*item)),
            Self::BoreDepth(item) => write!(f, "depth of the {}", words::item(*item)),
            Self::ReliefStart(item) => write!(f, "start of the {}", words::item(*item)),
            Self::UnitThreadEnd => f.write_str("depth of full thread for the unit"),
            Self::UnitThreadSize => f.write_str("pitch diameter of the section's thread"),
            Self::BarrelThreadSize => f.write_str("pitch diameter of the barrel's thread"),
            Self::TenonLength => f.write_str("length of the tenon"),
            Self::TenonChamfer => f.write_str("chamfer of the tenon"),
            Self::PilotDiameter => f.write_str("diameter of the tenon's pilot"),
            Self::ReliefDiameter => f.write_str("diameter of the relief groove"),
            Self::ReliefWidth => f.write_str("width of the relief groove"),
            Self::BarrelHole => f.write_str("diameter of the barrel's hole for the thread"),
            Self::BarrelDepth => f.write_str("depth of the barrel's hole for the thread"),
            Self::BarrelThreadEnd => f.write_str("depth of full thread in the barrel"),
            Self::CounterboreDepth => f.write_str("depth of the barrel's counterbore"),
            Self::BarrelBoreDiameter => f.write_str("diameter of the barrel's bore"),
            Self::BarrelBoreDepth => f.write_str("depth of the barrel's bore"),
            Self::BarrelOutside => f.write_str("diameter of the barrel at the joint"),
            Self::CapStop => f.write_str("place where the cap stops, from the front face"),
            Self::CapHole => f.write_str("diameter of the cap's hole for the thread"),
            Self::CapThreadSize => f.write_str("pitch diameter of the thread in the cap"),
            Self::CapThreadEnd => f.write_str("depth of full thread in the cap"),
            Self::CapBoreDiameter(n) => write!(f, "diameter of the cap's bore {n}"),
            Self::CapLength => f.write_str("depth of the cap"),
            Self::SealDepth => f.write_str("depth of the inner cap's rim"),
            Self::SealDiameter => f.write_str("diameter of the inner cap's bore"),
            Self::HoldingOffset => f.write_str("offset of a change of holding"),
            Self::LongHoleOffset => f.write_str("wander of a long drilled hole"),
            Self::RunEnd(n) => write!(f, "end of run {n} of the grip"),
            Self::ArcRadius(n) => write!(f, "radius of run {n} of the grip"),
            Self::CornerRadius(0) => f.write_str("radius of the front face's rim"),
            Self::CornerRadius(n) => write!(f, "radius at the end of run {n} of the grip"),
            Self::CornerChamfer(0) => f.write_str("chamfer of the front face's rim"),
            Self::CornerChamfer(n) => write!(f, "chamfer at the end of run {n} of the grip"),
            Self::CornerAngle(0) => f.write_str("angle of the chamfer of the front face's rim"),
            Self::CornerAngle(n) => {
                write!(f, "angle of the chamfer at the end of run {n} of the grip")
            }
            Self::RingPosition(item) => write!(f, "place of {item} of the grip"),
            Self::RingWidth(item) => write!(f, "width of {item} of the grip"),
            Self::BeadHeight(n) => write!(f, "height of bead {n} of the grip"),
            Self::GripThreadStart => f.write_str("start of full thread for the cap"),
            Self::GripThreadEnd => f.write_str("end of full thread for the cap"),
            Self::TenonThreadStart => f.write_str("start of full thread on the tenon"),
            Self::TenonThreadEnd => f.write_str("end of full thread on the tenon"),
            Self::TenonChamferAngle => f.write_str("angle of the tenon's chamfer"),
            Self::PilotLength => f.write_str("length of the tenon's pilot"),
            Self::UnitThreadStart => f.write_str("start of full thread for the unit"),
            Self::PointAngle(item) => write!(f, "angle at the end of the {}", words::item(*item)),
            Self::CentrePilotDiameter => f.write_str("diameter of the centre drill's pilot hole"),
            Self::CentrePilotLength => f.write_str("length of the centre drill's pilot hole"),
        }
    }
}

impl Parameter {
    /// Every parameter that a section has, in the order of the part from front to back.
    pub fn of(section: &Section) -> Vec<Self> {
        let mut all = vec![Self::FrontDiameter];
        // A run that carries a thread is as wide as the thread.
        let carries = section.grip.thread.as_ref().map(|cap| cap.run);
        let free = (0..section.grip.runs.len()).filter(|run| Some(*run) != carries);
        all.extend(free.filter_map(|run| u8::try_from(run + 1).ok()).map(Self::GripDiameter));
        all.extend(section.grip.rings.iter().filter_map(|ring| match ring.item {
            Item::Groove(n) => Some(Self::GrooveDepth(n)),
            _ => None,
        }));
        all.push(Self::GripLength);
        all.extend(section.bores.iter().map(|bore| Self::BoreDiameter(bore.item)));
        let countersink = |item| matches!(item, Item::Countersink(_));
        for bore in section.bores.iter().filter(|bore| !countersink(bore.item)) {
            match bore.depth {
                Depth::To(_) => all.push(Self::BoreDepth(bore.item)),
                Depth::Between(..) => {
                    all.extend([Self::BoreDepth(bore.item), Self::ReliefStart(bore.item)]);
                }
                Depth::Through => {}
            }
        }
        all.extend([
            Self::UnitThreadEnd,
            Self::UnitThreadSize,
            Self::TenonLength,
            Self::TenonChamfer,
        ]);
        all.extend(section.tenon.pilot.map(|_| Self::PilotDiameter));
        if section.tenon.relief.is_some() {
            all.extend([Self::ReliefDiameter, Self::ReliefWidth]);
        }
        all.extend([Self::BarrelThreadSize, Self::BarrelHole]);
        all.extend([Self::BarrelDepth, Self::BarrelThreadEnd]);
        all.extend(section.barrel.counterbore.map(|_| Self::CounterboreDepth));
        if section.barrel.bore.is_some() {
            all.extend([Self::BarrelBoreDiameter, Self::BarrelBoreDepth]);
        }
        all.push(Self::BarrelOutside);
        all.extend(section.cap.iter().flat_map(Self::of_cap));
        all
    }

    /// Whether it belongs to the barrel and leaves the section as it is.
    pub fn is_barrels(self) -> bool {
        matches!(
            self,
            Self::BarrelThreadSize
                | Self::BarrelHole
                | Self::BarrelDepth
                | Self::BarrelThreadEnd
                | Self::CounterboreDepth
                | Self::BarrelBoreDiameter
                | Self::BarrelBoreDepth
                | Self::BarrelOutside
        )
    }

    /// Which of two changes of one size to make first, the lower: hidden ends of threads and
    /// holes before diameters, and last what the hand feels or what moves the collar.
    pub(in crate::check) fn rank(self) -> u8 {
        match self {
            Self::UnitThreadEnd
            | Self::UnitThreadStart
            | Self::TenonThreadStart
            | Self::TenonThreadEnd
            | Self::TenonChamfer
            | Self::TenonChamferAngle => 0,
            Self::BoreDepth(Item::Recess) => 6,
            Self::BoreDepth(_)
            | Self::ReliefStart(_)
            | Self::PointAngle(_)
            | Self::CentrePilotDiameter
            | Self::CentrePilotLength => 1,
            Self::BoreDiameter(_) | Self::UnitThreadSize => 2,
            Self::TenonLength
            | Self::PilotDiameter
            | Self::PilotLength
            | Self::ReliefDiameter
            | Self::ReliefWidth => 3,
            Self::BarrelThreadSize
            | Self::BarrelHole
            | Self::BarrelDepth
            | Self::BarrelThreadEnd
            | Self::CounterboreDepth
            | Self::BarrelBoreDiameter
            | Self::BarrelBoreDepth
            | Self::BarrelOutside
            | Self::CapHole
            | Self::CapThreadSize
            | Self::CapThreadEnd
            | Self::CapBoreDiameter(_)
            | Self::CapLength
            | Self::SealDepth
            | Self::SealDiameter => 4,
            Self::FrontDiameter
            | Self::GripDiameter(_)
            | Self::GrooveDepth(_)
            | Self::RunEnd(_)
            | Self::ArcRadius(_)
            | Self::CornerRadius(_)
            | Self::CornerChamfer(_)
            | Self::CornerAngle(_)
            | Self::RingPosition(_)
            | Self::RingWidth(_)
            | Self::BeadHeight(_)
            | Self::GripThreadStart
            | Self::GripThreadEnd
            | Self::CapStop => 5,
            Self::GripLength => 7,
            Self::HoldingOffset | Self::LongHoleOffset => 8,
        }
    }

    /// Its value, in millimetres (of an angle in degrees); none where the section has no such thing.
    pub fn get(self, section: &Section) -> Option<f64> {
        let bore = |item| section.bore(item);
        let size = match self {
            Self::FrontDiameter => section.grip.front,
            Self::GripDiameter(n) => section.grip.runs.get(usize::from(n) - 1)?.to.diameter,
            Self::GrooveDepth(n) => groove(&section.grip, n)?.height,
            Self::GripLength => section.grip.length(),
            Self::BoreDiameter(item) => bore(item)?.diameter,
            Self::BoreDepth(item) => match bore(item)?.depth {
                Depth::To(z) | Depth::Between(_, z) => z,
                Depth::Through => return None,
            },
            Self::ReliefStart(item) => match bore(item)?.depth {
                Depth::Between(from, _) => from,
                _ => return None,
            },
            Self::UnitThreadEnd => section.unit_thread.to,
            Self::UnitThreadSize => section.unit_thread.form.pitch_diameter,
            Self::BarrelThreadSize => section.barrel.thread.form.pitch_diameter,
            Self::TenonLength => section.tenon.length,
            Self::TenonChamfer => section.tenon.chamfer.depth,
            Self::PilotDiameter => section.tenon.pilot?.diameter,
            Self::ReliefDiameter => section.tenon.relief?.diameter,
            Self::ReliefWidth => section.tenon.relief?.width,
            Self::BarrelHole => section.barrel.thread.form.crest,
            Self::BarrelDepth => section.barrel.depth,
            Self::BarrelThreadEnd => section.barrel.thread.to,
            Self::CounterboreDepth => section.barrel.counterbore?.depth,
            Self::HoldingOffset => section.criteria.offsets.holding,
            Self::LongHoleOffset => section.criteria.offsets.long_hole,
            Self::BarrelBoreDiameter => section.barrel.bore?.diameter,
            Self::BarrelBoreDepth => section.barrel.bore?.depth,
            Self::BarrelOutside => section.barrel.outside,
            own if own.is_caps() => return own.get_of_cap(section.cap.as_ref()?),
            own => return own.get_beside(section),
        };
        Some(size.as_mm())
    }

    /// The section with this size changed, and with it what is cut by the same tool or measured
    /// from the same place; nothing else is derived anew.
    pub fn set(self, section: &Section, value: f64) -> Option<Section> {
        let by = Length::mm(value - self.get(section)?);
        let to = Length::mm(value);
        let mut changed = section.clone();
        match self {
            Self::HoldingOffset => changed.criteria.offsets.holding = to,
            Self::LongHoleOffset => changed.criteria.offsets.long_hole = to,
            Self::FrontDiameter => changed.grip.front = to,
            Self::GripDiameter(n) => changed.grip.runs[usize::from(n) - 1].to.diameter = to,
            Self::GrooveDepth(n) => {
                let rings = &mut changed.grip.rings;
                rings.iter_mut().find(|ring| ring.item == Item::Groove(n))?.height = to;
            }
            Self::GripLength => {
                let last = changed.grip.runs.len().checked_sub(1)?;
                changed.grip.runs[last].to.z = to;
                if let Some(cap) = changed.grip.thread.as_mut().filter(|cap| cap.run == last) {
                    cap.thread.to = to;
                }
                changed.blank.length += by;
                shift(&mut changed.tenon.thread, by);
                // A cap that stops at the shoulder goes with it.
                let old = section.grip.length();
                if let Some(cap) = changed.cap.as_mut().filter(|cap| cap.stops_at == old) {
                    cap.stops_at = to;
                }
            }
            Self::BoreDiameter(item) => {
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                *bore = bore.cutting(to);
                bore.limits = moved(bore.limits, by)?;
                bore.tool = None;
                if item == Item::TapDrill {
                    move_crest(&mut changed.unit_thread, by)?;
                }
            }
            Self::BoreDepth(item) => {
                let begins_here = section.unit_thread.from == Length::mm(self.get(section)?);
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                bore.depth = match bore.depth {
                    Depth::Between(from, _) => Depth::Between(from, to),
                    _ => Depth::To(to),
                };
                if item == Item::ClearanceBore && begins_here {
                    changed.unit_thread.from = to;
                }
            }
            Self::ReliefStart(item) => {
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                bore.depth = Depth::Between(to, bore.full_depth(section.length()));
            }
            Self::UnitThreadEnd => changed.unit_thread.to = to,
            Self::UnitThreadSize => open(&mut changed.unit_thread, by)?,
            Self::BarrelThreadSize => open(&mut changed.barrel.thread, by)?,
            Self::TenonLength => {
                changed.tenon.length = to;
                changed.blank.length += by;
                changed.tenon.thread.to += by;
            }
            Self::TenonChamfer => {
                changed.tenon.chamfer = section.tenon.chamfer.with_depth(to);
            }
            Self::PilotDiameter => changed.tenon.pilot.as_mut()?.diameter = to,
            Self::ReliefDiameter => changed.tenon.relief.as_mut()?.diameter = to,
            Self::ReliefWidth => {
                let behind = section.grip.length() + section.tenon.relief?.width;
                changed.tenon.relief.as_mut()?.width = to;
                if section.tenon.thread.from == behind {
                    changed.tenon.thread.from += by;
                }
            }
            Self::BarrelHole => move_crest(&mut changed.barrel.thread, by)?,
            Self::BarrelThreadEnd => changed.barrel.thread.to = to,
            Self::BarrelDepth => {
                changed.barrel.depth = to;
                changed.barrel.thread.to += by;
            }
            Self::CounterboreDepth => {
                let begins_here = section.barrel.thread.from == section.barrel.counterbore?.depth;
                changed.barrel.counterbore.as_mut()?.depth = to;
                if begins_here {
                    changed.barrel.thread.from = to;
                }
            }
            Self::BarrelBoreDiameter => changed.barrel.bore.as_mut()?.diameter = to,
            Self::BarrelBoreDepth => changed.barrel.bore.as_mut()?.depth = to,
            Self::BarrelOutside => changed.barrel.outside = to,
            own if own.is_caps() => own.set_of_cap(changed.cap.as_mut()?, to, by)?,
            own => own.set_beside(&mut changed, value)?,
        }
        Some(changed)
    }
}

fn groove(grip: &Grip, n: u8) -> Option<Ring> {
    grip.rings.iter().find(|ring| ring.item == Item::Groove(n)).copied()
}

fn shift(thread: &mut Thread, by: Length) {
    thread.from += by;
    thread.to += by;
}

/// An internal thread cut by a tap that is larger by so much, with its limits.
pub(in crate::check) fn open(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.pitch_diameter += by;
    thread.form.root += by;
    thread.limits.pitch = moved(thread.limits.pitch, by)?;
    thread.limits.major = moved(thread.limits.major, by)?;
    Some(())
}

/// An internal thread's crest, which is the hole's diameter, with its limits.
pub(in crate::check) fn move_crest(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.crest += by;
    thread.limits.minor = moved(thread.limits.minor, by)?;
    Some(())
}

fn moved(limits: Limits, by: Length) -> Option<Limits> {
    Limits::new(limits.min() + by, limits.max() + by)
}
