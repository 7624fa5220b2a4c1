//! One piece of a rod.

use crate::quantity::Length;

/// A piece, as it is parted from the rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Its number, from 1 at the free end: the order in which pieces are parted, and made.
    pub number: usize,
    /// Which of the request's designs it is for.
    pub design: usize,
    /// The set that it is of, from 1; none for a spare.
    pub set: Option<usize>,
    /// Where it begins, from the free end.
    pub from: Length,
    /// Where it ends: the cut lies beyond.
    pub to: Length,
    /// What the cut behind it takes; zero where it ends with the rod and none is made.
    pub kerf: Length,
}

impl Piece {
    /// From end to end.
    pub fn length(&self) -> Length {
        self.to - self.from
    }

    /// Whether it is a spare.
    pub fn is_spare(&self) -> bool {
        self.set.is_none()
    }
}
