//! Where each thing that a section's fault may be about is written.

use std::collections::HashMap;

use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;
use crate::section::{COINCIDENT, Item, SectionError, Subject};

/// The place of every [`Subject`], and of the lengths that a step may lie between.
#[derive(Debug, Default)]
pub(super) struct Places {
    subjects: HashMap<Subject, Place>,
    diameters: Vec<(Length, Place)>,
    stations: Vec<(Length, Place)>,
    /// The z up to which a key says how wide the outside is, in the order of z.
    outside: Vec<(Length, Place)>,
    /// From where to where a bead or groove has the say.
    rings: Vec<(Length, Length, Place)>,
}

impl Places {
    /// Says where a subject is written; for a derived one, what it was derived from.
    pub(super) fn set(&mut self, subject: Subject, place: Place) {
        self.subjects.insert(subject, place);
    }

    /// Where a subject is written.
    pub(super) fn get(&self, subject: Subject) -> Option<Place> {
        self.subjects.get(&subject).copied()
    }

    /// Says where a diameter is written.
    pub(super) fn diameter(&mut self, diameter: Length, place: Place) {
        self.diameters.push((diameter, place));
    }

    /// Says where a z is written.
    pub(super) fn station(&mut self, z: Length, place: Place) {
        self.stations.push((z, place));
    }

    /// Says which key tells how wide the outside is up to a z, from the one before on.
    pub(super) fn outside(&mut self, to: Length, place: Place) {
        self.outside.push((to, place));
    }

    /// Says which key tells how wide the outside is from one z to another, whatever else does.
    pub(super) fn ring(&mut self, from: Length, to: Length, place: Place) {
        self.rings.push((from, to, place));
    }

    /// The key that says how wide the outside is at a z.
    fn outside_at(&self, z: Length) -> Option<Place> {
        let ring = self.rings.iter().find(|(from, to, _)| (*from..=*to).contains(&z));
        let run = || self.outside.iter().find(|(to, _)| z <= *to).map(|(_, place)| *place);
        ring.map(|(_, _, place)| *place).or_else(run)
    }

    /// Where two values are written of which nothing else is known: both as z, or as diameters.
    fn values(&self, a: Length, b: Length) -> Option<(Place, Place)> {
        let place = |values: &[(Length, Place)], value: Length| {
            let near = |other: Length| (other - value).abs() <= COINCIDENT;
            values.iter().find(|(other, _)| near(*other)).map(|(_, place)| *place)
        };
        [&self.stations, &self.diameters]
            .into_iter()
            .find_map(|values| place(values, a).zip(place(values, b)))
    }

    /// A fault with its places and its hint.
    pub(super) fn diagnostic(&self, error: &SectionError) -> Diagnostic {
        let mut diagnostic = Diagnostic::error(error.code(), error.to_string()).hint(error.hint());
        if let SectionError::StepTooSmall { a, b } = error
            && let Some((lesser, greater)) = self.values(*a, *b)
        {
            return diagnostic.at(greater).also(lesser, a.to_string());
        }
        if let SectionError::BoreWiderThanBody { z, .. } = error
            && let Some(outside) = self.outside_at(*z)
        {
            diagnostic = diagnostic.also(outside, "the outside there");
        }
        for subject in error.subjects() {
            match (self.get(subject), diagnostic.at) {
                (Some(place), None) => diagnostic.at = Some(place),
                (Some(place), Some(first)) if place != first => {
                    diagnostic = diagnostic.also(place, label(subject));
                }
                _ => {}
            }
        }
        diagnostic
    }
}

/// What stands at a second place.
fn label(subject: Subject) -> String {
    match subject {
        Subject::Diameter(item) => format!("diameter of the {item}"),
        Subject::Depth(item) => format!("depth of the {item}"),
        Subject::GripLength => "length of the grip".to_owned(),
        Subject::GripRun(n) => format!("run {} of the grip", n + 1),
        Subject::GripCurve(n) => format!("the arc of run {}", n + 1),
        Subject::GripCorner(0) => "the corner at the front face".to_owned(),
        Subject::GripCorner(n) => format!("the corner behind run {n}"),
        Subject::RingHeight(item) => format!("height of the {item}"),
        Subject::Thread(item) | Subject::Ring(item) => format!("the {item}"),
        Subject::TenonLength => "length of the tenon".to_owned(),
        Subject::TenonChamfer => "the tenon's chamfer".to_owned(),
        Subject::Relief => "the relief".to_owned(),
        Subject::Pilot => "the pilot".to_owned(),
        Subject::BarrelDepth => "depth of the barrel's hole".to_owned(),
        Subject::Counterbore => "the barrel's counterbore".to_owned(),
        Subject::BarrelBore => "the barrel's bore".to_owned(),
        Subject::CapStop => "where the cap stops".to_owned(),
        Subject::CapCounterbore => "the cap's counterbore".to_owned(),
        Subject::CapBore(n) => format!("bore {n} of the cap"),
        Subject::CapSeal => "the inner cap".to_owned(),
        Subject::Converter => "the converter".to_owned(),
        Subject::ConverterMouth => "the converter's mouth".to_owned(),
        Subject::Unit => "the nib unit".to_owned(),
        Subject::BlankDiameter => "diameter of the rod".to_owned(),
        Subject::BlankLength => "length of the rod".to_owned(),
        Subject::UnitChamfer => "the unit's chamfer".to_owned(),
        Subject::UnitStep(Item::UnitBody) => "the unit's thread".to_owned(),
        Subject::UnitStep(item) => format!("the unit's {item}"),
    }
}
