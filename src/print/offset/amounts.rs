//! How far each kind of surface is moved.

use crate::quantity::Length;
use crate::section::{Compensation, Printer, Surface};

/// How far each kind of surface is moved into the material, along its normal; negative out of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Amounts {
    /// Added to the diameters of bores.
    pub hole: Compensation,
    /// Added to the diameters of the outside.
    pub boss: Compensation,
    /// Flanks and root of internal threads.
    pub internal_thread: Length,
    /// Flanks and root of external threads.
    pub external_thread: Length,
    /// Planes across the axis.
    pub face: Length,
    /// Walls of bores, and roots of internal threads, beyond all that: the flat sides of a
    /// triangulated hole stand in it by the chord error.
    pub facets: Length,
}

impl Amounts {
    /// What makes a printer's parts come out right.
    pub fn of(printer: &Printer) -> Self {
        Self {
            hole: printer.hole,
            boss: printer.boss,
            internal_thread: printer.internal_flank,
            external_thread: printer.external_flank,
            face: printer.face,
            facets: Length::ZERO,
        }
    }

    /// The same for a solid that is cut into triangles with a chord error.
    #[must_use]
    pub fn with_facets(self, chord: Length) -> Self {
        Self { facets: chord, ..self }
    }

    /// How far a surface of a diameter goes, in millimetres. Of a thread, its flanks.
    pub fn at(&self, surface: Surface, diameter: Length) -> f64 {
        let amount = match surface {
            Surface::Bore => self.hole.at(diameter) / 2.0 + self.facets,
            Surface::Outside => self.boss.at(diameter) / -2.0,
            Surface::InternalThread => self.internal_thread,
            Surface::ExternalThread => self.external_thread,
            Surface::Face => self.face,
        };
        amount.as_mm()
    }

    /// How far a thread's root goes, in millimetres.
    pub fn at_root(&self, surface: Surface) -> f64 {
        let facets = if surface == Surface::InternalThread { self.facets } else { Length::ZERO };
        self.at(surface, Length::ZERO) + facets.as_mm()
    }
}
