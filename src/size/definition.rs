//! What is known of a size whatever section it is of.

use crate::section::{Feature, Means};

/// What a size measures, and so in which unit its number is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// A length along the axis, in millimetres.
    Length,
    /// A diameter, or a depth or radius square to the axis, in millimetres.
    Across,
    /// An angle, in degrees.
    Angle,
}

impl Dimension {
    /// `mm` or `deg`, as files of other programs have it.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length | Self::Across => "mm",
            Self::Angle => "deg",
        }
    }
}

/// Whose size it is, and so which solid changes with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Owner {
    /// The outside from the front face to the shoulder.
    Grip,
    /// Holes and thread of the section's bore.
    Bores,
    /// What screws into the barrel.
    Tenon,
    /// The barrel.
    Barrel,
    /// The cap.
    Cap,
    /// The bought nib unit.
    Unit,
    /// The bought converter.
    Converter,
    /// The rod that it is made of, and what is still to come off it.
    Rod,
    /// How far off the axis things lie.
    Axis,
}

/// The face that a length is counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Datum {
    /// None: a diameter, a width, a radius, an angle.
    None,
    /// The finished front face.
    Front,
    /// The shoulder.
    Shoulder,
    /// The face by which its tool comes in: the front face, or for holes from the back the back
    /// face.
    OwnFace,
    /// The barrel's joint face.
    Joint,
    /// The cap's mouth.
    CapMouth,
    /// The underside of the unit's collar.
    Collar,
    /// The converter's mouth.
    ConverterMouth,
}

/// How a size comes about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// By means of which a maker's file says how far they can be held.
    By(Means),
    /// As wide as the tool of a hole leaves it: drilled, or bored where its end is flat.
    Hole,
    /// By a tap or die, within the limits of its class.
    Tool,
    /// It is bought, and was measured.
    Bought,
    /// It is no size of anything that is cut.
    Stock,
}

/// One size, defined once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Definition {
    /// Its name: the key of the design's file where there is one.
    pub name: String,
    /// What people call it. Free to change: no file knows a size by it.
    pub words: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Whose it is.
    pub owner: Owner,
    /// What it is counted from.
    pub datum: Datum,
    /// The surfaces that it places, of which a part may show some alone; nothing for what lies off the axis, and for a rod.
    pub shapes: Vec<Feature>,
    /// How it comes about.
    pub made: Made,
    /// Which of two changes to make first, the lower: hidden ends of threads and holes before
    /// diameters, and last what the hand feels or what moves the collar.
    pub rank: u8,
}
