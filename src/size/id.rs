//! Which size: each that a person may set, cut or read.

use crate::section::Item;

/// One size of a section, or of what it meets; or how far off the axis things lie.
///
/// What each is called, counted from and made by: [`SizeId::definition`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SizeId {
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
    /// Diameter of the barrel's counterbore.
    CounterboreDiameter,
    /// Diameter of the cap's counterbore.
    CapCounterboreDiameter,
    /// Depth of the cap's counterbore, from its mouth.
    CapCounterboreDepth,
    /// Where bore `n` of the cap ends, from its mouth, counted from 1.
    CapBoreEnd(u8),
    /// Diameter of the unit's collar.
    CollarDiameter,
    /// Thickness of the unit's collar.
    CollarThickness,
    /// Diameter of a step of the unit: [`Item::Plain`], [`Item::UnitBody`] (its thread's major
    /// diameter), [`Item::Tail`] or [`Item::Nipple`].
    UnitStepDiameter(Item),
    /// Where such a step ends, from the underside of the collar.
    UnitStepEnd(Item),
    /// Where the unit's own thread begins, from the underside of the collar.
    OwnThreadStart,
    /// Chamfer at the far end of the unit's own thread, off the radius.
    UnitChamfer,
    /// How far nib and feed stand out in front of the collar.
    NibReach,
    /// Greatest width of nib and feed.
    NibWidth,
    /// Greatest diameter of the converter.
    ConverterDiameter,
    /// From the converter's mouth to its end.
    ConverterLength,
    /// How far the converter's mouth goes onto the nipple.
    ConverterOntoNipple,
    /// Diameter of the converter's mouth, where that is another one.
    ConverterMouthDiameter,
    /// How far that mouth goes on.
    ConverterMouthLength,
    /// Diameter of the rod.
    BlankDiameter,
    /// Length of the rod.
    BlankLength,
    /// What is still to be faced off the front.
    Facing,
    /// What is still to be sanded off the front.
    Sanding,
}
