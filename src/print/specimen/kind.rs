//! Which specimens there are.

use std::fmt;

use super::ladder::{Ladder, LadderError, Mated, Rung};
use super::{back_coupon, front_coupon, stand_in::stand_in};
use crate::quantity::Length;
use crate::section::{Item, Part, Printer, Section, check_fit, plug, ring};

/// A kind of specimen, by the name that asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SpecimenKind {
    /// The whole section.
    Section,
    /// Its front and its back.
    Coupon,
    /// Coupons with one thread opened step by step.
    Ladder,
    /// The nib unit.
    StandIn,
    /// A ring with the barrel's thread, for the tenon.
    Ring,
    /// A plug with the tenon's thread, for the barrel.
    Plug,
    /// The outside alone.
    CapProbe,
}

impl SpecimenKind {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Section,
        Self::Coupon,
        Self::Ladder,
        Self::StandIn,
        Self::Ring,
        Self::Plug,
        Self::CapProbe,
    ];

    /// As it is typed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Section => "section",
            Self::Coupon => "coupon",
            Self::Ladder => "ladder",
            Self::StandIn => "stand-in",
            Self::Ring => "ring",
            Self::Plug => "plug",
            Self::CapProbe => "cap-probe",
        }
    }
}

impl fmt::Display for SpecimenKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Which end of a specimen stands on the plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// The end of least z.
    Front,
    /// The end of greatest z.
    Back,
}

/// A body to print, as it is wanted: nothing is put right for the printer yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Specimen {
    /// What sort it is.
    pub kind: SpecimenKind,
    /// Its name, which is its file's: `coupon-front`, `ladder-3`.
    pub name: String,
    /// What it is, for people.
    pub what: String,
    /// Its half-section, in the section's axes or its own.
    pub part: Part,
    /// The end that stands on the plate: what must come out clean looks up.
    pub stands: Stands,
    /// The rung, of a ladder.
    pub rung: Option<Rung>,
}

/// The specimens of a kind.
///
/// # Errors
/// [`LadderError`] of a ladder that there is not.
pub fn specimens(
    section: &Section,
    kind: SpecimenKind,
    printer: &Printer,
    ladder: &Ladder,
) -> Result<Vec<Specimen>, LadderError> {
    let one = |name: &str, what: &str, part: Part, stands: Stands| Specimen {
        kind,
        name: name.to_owned(),
        what: what.to_owned(),
        part,
        stands,
        rung: None,
    };
    Ok(match kind {
        SpecimenKind::Section => {
            vec![one("section", "the section", section.part(), Stands::Back)]
        }
        SpecimenKind::Coupon => vec![
            one(
                "coupon-front",
                "the front down to behind the unit's thread",
                front_coupon(section),
                Stands::Back,
            ),
            one("coupon-back", "the shoulder and the tenon", back_coupon(section), Stands::Front),
        ],
        SpecimenKind::Ladder => rungs(section, printer, ladder)?,
        SpecimenKind::StandIn => {
            let what = "the nib unit as it was measured, with a handle";
            vec![one("stand-in", what, stand_in(section), Stands::Front)]
        }
        SpecimenKind::Ring => {
            let fit = check_fit(&section.tenon.thread);
            let part = fit.map(|fit| ring(&section.tenon.thread, fit));
            part.map(|part| one("ring", "a ring for the tenon", part, Stands::Front))
                .into_iter()
                .collect()
        }
        SpecimenKind::Plug => {
            let fit = check_fit(&section.barrel.thread);
            let part = fit.map(|fit| plug(&section.barrel.thread, fit));
            part.map(|part| one("plug", "a plug for the barrel", part, Stands::Front))
                .into_iter()
                .collect()
        }
        SpecimenKind::CapProbe => {
            let what = "the outside alone, for the cap and the hand";
            vec![one("cap-probe", what, section.outside_part(), Stands::Back)]
        }
    })
}

fn rungs(
    section: &Section,
    printer: &Printer,
    ladder: &Ladder,
) -> Result<Vec<Specimen>, LadderError> {
    let of = |rung: Rung| {
        let number = rung.number;
        let plural = if number == 1 { "groove" } else { "grooves" };
        let what = format!("{number} {plural}");
        let stands = match ladder.mated {
            Mated::Unit => Stands::Back,
            Mated::Tenon => Stands::Front,
        };
        Specimen {
            kind: SpecimenKind::Ladder,
            name: format!("ladder-{number}"),
            what,
            part: ladder.part(section, &rung, printer),
            stands,
            rung: Some(rung),
        }
    };
    Ok(ladder.rungs(section, printer)?.into_iter().map(of).collect())
}

/// The threads of a specimen that its printer can't show: finer than two of its least features, or
/// than four of its layers, to a pitch.
pub(crate) fn too_fine(part: &Part, printer: &Printer) -> Vec<Item> {
    let least = least_pitch(printer);
    let fine = part.threads.iter().filter(|thread| thread.form.pitch < least);
    fine.map(|thread| thread.item).collect()
}

/// The finest pitch that a printer shows: ridge and groove are each as wide as its least feature,
/// and each flank takes two layers at least, or it is a stair.
pub fn least_pitch(printer: &Printer) -> Length {
    const FEATURES: f64 = 2.0;
    const LAYERS: f64 = 4.0;
    (printer.least_feature.value * FEATURES).max(printer.layer * LAYERS)
}
