//! The rod that a section is made of.

use super::{Section, Shape, outside};
use crate::quantity::Length;

/// A rod, as it is squared to length; what is over lies in front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blank {
    /// Its diameter.
    pub diameter: Length,
    /// From end to end.
    pub length: Length,
}

impl Section {
    /// The length that the part has until its front is faced and sanded.
    pub fn squared_length(&self) -> Length {
        self.length() + self.allowance.facing + self.allowance.sanding
    }

    /// The diameter that a rod must have at least: the outside's greatest; a rounded arc
    /// counts with the whole of its rise over its chord.
    pub fn greatest_diameter(&self) -> Length {
        let (_, outside) = outside::outside(&self.grip, &self.tenon, Length::ZERO);
        let reach = outside.iter().map(|run| {
            let widest = run.from.diameter.max(run.to.diameter);
            match run.shape {
                Shape::Straight => widest,
                // Hollow: it rises over neither end.
                Shape::Arc { bulge } if bulge > 0.0 => widest,
                // Sagitta = bulge x half the chord, on both sides of the axis.
                Shape::Arc { bulge } => {
                    let out = run.to.radius() - run.from.radius();
                    let along = (run.to.z - run.from.z).as_mm();
                    widest + Length::mm(bulge.abs() * libm::hypot(out, along))
                }
            }
        });
        reach.fold(Length::ZERO, Length::max)
    }
}
