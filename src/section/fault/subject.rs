//! What a fault is about.

use crate::section::Item;

/// What a fault is about; [`crate::design`] knows where each was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A hole's diameter.
    Diameter(Item),
    /// A hole's depth.
    Depth(Item),
    /// The length of the grip.
    GripLength,
    /// Run `n` of the outside, counted from 0.
    GripRun(usize),
    /// The curve of run `n`, counted from 0.
    GripCurve(usize),
    /// The corner behind `n` runs: 0 is the front face's rim.
    GripCorner(usize),
    /// A bead or groove.
    Ring(Item),
    /// How high a bead or deep a groove is.
    RingHeight(Item),
    /// A thread's designation.
    Thread(Item),
    /// The tenon's length.
    TenonLength,
    /// The tenon's lead chamfer.
    TenonChamfer,
    /// The relief groove.
    Relief,
    /// The pilot.
    Pilot,
    /// The barrel's depth.
    BarrelDepth,
    /// The barrel's counterbore.
    Counterbore,
    /// The barrel's bore behind the thread's hole.
    BarrelBore,
    /// Where the cap stops.
    CapStop,
    /// The cap's counterbore.
    CapCounterbore,
    /// Bore `n` of the cap, counted from 1.
    CapBore(u8),
    /// The inner cap.
    CapSeal,
    /// The converter.
    Converter,
    /// The converter's mouth.
    ConverterMouth,
    /// The nib unit.
    Unit,
    /// The unit's lead chamfer.
    UnitChamfer,
    /// A step of the unit.
    UnitStep(Item),
    /// The rod's diameter.
    BlankDiameter,
    /// The rod's length.
    BlankLength,
}
