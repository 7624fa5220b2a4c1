//! How a material is cut, each figure with where it comes from.

use crate::section::Limit;

/// Speeds and habits for one material.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// Speed of a drill's lips, in m/min.
    pub drilling: Limit<f64>,
    /// Speed of the work's outside under a turning tool, in m/min.
    pub turning: Limit<f64>,
    /// A drill is drawn out and cleared each time it has gone so many of its diameters deeper.
    pub peck: Limit<f64>,
    /// What keeps the cut cool and clear, in words; none where nobody says.
    pub coolant: Option<Limit<String>>,
    /// What is to be known of the material at the lathe, a sentence each.
    pub notes: Vec<Limit<String>>,
}
