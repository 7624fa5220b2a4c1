//! A drawing as it is looked at: with its scale, its borders, and what it is called.

use super::{Drawing, Point};

/// A drawing with its scale and what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// In millimetres of the part; sizes on paper are divided by the scale.
    pub drawing: Drawing,
    /// Millimetres on paper per millimetre of the part.
    pub scale: f64,
    /// What of it is shown: lower left and upper right corner, in millimetres of the part. Times
    /// the scale it is as large as the paper.
    pub area: [Point; 2],
    /// One line: what is seen.
    pub title: String,
    /// A sentence for those who can't see it.
    pub description: String,
}
