//! What is read off the plate.

use std::fmt;

use crate::quantity::Length;

/// What a reading measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measurand {
    /// The diameter of a hole.
    Hole,
    /// The diameter of a peg.
    Boss,
    /// From the foot to the top: between two planes across the axis.
    Height,
}

impl Measurand {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Hole, Self::Boss, Self::Height];
}

impl fmt::Display for Measurand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Hole => "hole",
            Self::Boss => "boss",
            Self::Height => "height",
        })
    }
}

/// Something that is read off a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateReading {
    /// `ring-3`, `plug-5`.
    pub piece: &'static str,
    /// Which of its sizes: `lower`, `upper`, `height`.
    pub size: &'static str,
    /// What it measures.
    pub kind: Measurand,
    /// The size in the file that was printed.
    pub in_file: Length,
    /// Whether it is one of the wide diameters, not one of the thin ones; a height is neither.
    pub wide: bool,
    /// How often it is read: a diameter at right angles near both its ends, a height once.
    pub times: usize,
}

impl PlateReading {
    /// `ring-3.lower`: its key in the form.
    pub fn name(&self) -> String {
        format!("{}.{}", self.piece, self.size)
    }
}

/// A reading that was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateValue {
    /// What was read.
    pub of: PlateReading,
    /// The how-manieth time, from 1.
    pub nth: usize,
    /// What the caliper showed.
    pub value: Length,
}

impl PlateValue {
    /// `ring-3.lower[2]`, or `plug-5.height` where it is read once.
    pub fn name(&self) -> String {
        let name = self.of.name();
        if self.of.times == 1 { name } else { format!("{name}[{}]", self.nth) }
    }
}
