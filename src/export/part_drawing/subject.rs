//! What a drawing is of.

use super::scheme::{Datums, Size};
use super::words::Limits;
use crate::section::{Item, Part};

/// A part, with what its drawing says beside its sizes.
pub struct Subject<'a> {
    /// The part.
    pub part: &'a Part,
    /// What it is: `grip section`.
    pub title: String,
    /// The design's name.
    pub name: String,
    /// What it is made of.
    pub material: String,
    /// The thread whose axis is a datum, with the datum's letter.
    pub axis: Option<(Item, char)>,
    /// z of the face that the back end is measured from, with the datum's letter.
    pub back: Option<(f64, char)>,
    /// The letter of the front face.
    pub front: char,
    /// How far a size may be off.
    pub limits: &'a dyn Fn(&Size) -> Limits,
    /// What else is to be known, each a sentence or two.
    pub notes: Vec<String>,
}

impl Subject<'_> {
    /// z of the front face.
    fn front_z(&self) -> f64 {
        let stations = self.part.runs.iter().flat_map(|run| [run.from, run.to]);
        stations.map(|s| s.z.as_mm()).fold(f64::INFINITY, f64::min)
    }

    /// Where lengths are measured from.
    pub fn datums(&self) -> Datums {
        Datums { front: self.front_z(), back: self.back.map(|(z, _)| z) }
    }

    /// The datum faces with their letters.
    pub fn faces(&self) -> Vec<(f64, char)> {
        [Some((self.front_z(), self.front)), self.back].into_iter().flatten().collect()
    }
}
