//! What a drawing is of.

use super::scheme::{Datums, Size};
use super::words::Allowances;
use crate::drawing::sheet_frame::Table;
use crate::section::{Item, Part, SizingTap};

/// A part, with what its drawing says beside its sizes.
pub struct Subject<'a> {
    /// The part.
    pub part: &'a Part,
    /// What it is: `grip section`.
    pub title: String,
    /// What it is for, or what there is to know of it in a line.
    pub supplement: Option<String>,
    /// The design's name, and the part's.
    pub name: String,
    /// What it is made of.
    pub material: String,
    /// The thread whose axis is a datum, with the datum's letter.
    pub axis: Option<(Item, char)>,
    /// z of the face that the back end is measured from, with the datum's letter.
    pub back: Option<(f64, char)>,
    /// What of it is not turned.
    pub tap: Option<SizingTap>,
    /// The letter of the front face.
    pub front: char,
    /// General tolerances: `ISO 2768-m`.
    pub tolerances: String,
    /// How far a size may be off.
    pub allowed: Box<dyn Fn(&Size) -> Allowances + 'a>,
    /// What stands over the views in rows and columns.
    pub table: Table,
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
