//! The sizes of a section that a maker can change one at a time.

mod cap;
mod change;
pub(in crate::check) mod chamfer;
mod drawn;
mod key;
mod making;
mod name;
pub(super) mod ring;
mod value;

pub(in crate::check) use change::{coincide, move_crest, open};

use crate::section::{Depth, Item, Section};

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
    /// z at which a bead or groove of the grip begins. Its end, floor or arc stay.
    RingStart(Item),
    /// z at which it ends.
    RingEnd(Item),
    /// Diameter of a square groove's floor, or at the bottom of a vee.
    RingFloor(Item),
    /// Radius of the arc of a bead or round groove.
    RingRadius(Item),
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
    /// Diameter that the tenon is turned to before its thread is cut: the thread's crest.
    TenonDiameter,
    /// Pitch diameter of the tenon's thread, its minor diameter with it: how deep it is cut.
    TenonThreadSize,
    /// Pitch diameter of the thread for the cap, its minor diameter with it.
    GripThreadSize,
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
    pub fn rank(self) -> u8 {
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
            | Self::TenonDiameter
            | Self::TenonThreadSize
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
            | Self::RingStart(_)
            | Self::RingEnd(_)
            | Self::RingFloor(_)
            | Self::RingRadius(_)
            | Self::GripThreadStart
            | Self::GripThreadEnd
            | Self::GripThreadSize
            | Self::CapStop => 5,
            Self::GripLength => 7,
            Self::HoldingOffset | Self::LongHoleOffset => 8,
        }
    }
}
