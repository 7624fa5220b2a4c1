//! A printer: how fine it is, and what it does to the surfaces that it prints.
//!
//! Printers leave material where none was asked for: light scatters past a pixel's edge, a bead of
//! plastic is wider than its path. So holes come out too small and pegs too large. What is put right
//! in the file is said per kind of surface ([`Surface`]); `print` offsets the exact solid by it.

use std::fmt;

use super::Limit;
use crate::quantity::Length;

/// How a printer makes a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Process {
    /// Light cures a vat of resin, a pixel wide.
    Resin,
    /// A nozzle lays down molten filament, a bead wide.
    Filament,
}

impl Process {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Resin, Self::Filament];

    /// As a profile writes it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Resin => "resin",
            Self::Filament => "filament",
        }
    }
}

impl fmt::Display for Process {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// What is added to a diameter in the file, so that it comes out of the printer as it is wanted:
/// `constant + share x wanted diameter`. Positive for holes, which close; negative for pegs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Compensation {
    /// On every diameter: how far cured light or a bead stands over its edge, twice.
    pub constant: Length,
    /// Of the diameter: how much the material shrinks (a share, not a percentage).
    pub share: f64,
}

impl Compensation {
    /// What is added to a wanted diameter.
    pub fn at(self, wanted: Length) -> Length {
        self.constant + wanted * self.share
    }

    /// The diameter in the file that comes out as wanted.
    pub fn in_file(self, wanted: Length) -> Length {
        wanted + self.at(wanted)
    }

    /// What comes out of a diameter in the file; the inverse of [`Self::in_file`].
    pub fn printed(self, in_file: Length) -> Length {
        (in_file - self.constant) / (1.0 + self.share)
    }
}

/// The kinds of surface that a printer treats differently.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Surface {
    /// The wall of a hole, cones included: looks at the axis.
    Bore,
    /// What the hand touches, and the tenon: looks away from the axis.
    Outside,
    /// Flanks and root of a thread in a hole.
    InternalThread,
    /// Flanks and root of a thread on a peg.
    ExternalThread,
    /// A plane across the axis: where a layer begins or ends.
    Face,
}

impl Surface {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::Bore, Self::Outside, Self::InternalThread, Self::ExternalThread, Self::Face];
}

impl fmt::Display for Surface {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bore => "bore",
            Self::Outside => "outside",
            Self::InternalThread => "internal thread",
            Self::ExternalThread => "external thread",
            Self::Face => "face across the axis",
        })
    }
}

/// A printer, in its material, as it was measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Printer {
    /// The profile's name.
    pub name: String,
    /// How it makes a layer.
    pub process: Process,
    /// Width of a pixel, or of the nozzle.
    pub across: Length,
    /// Height of a layer.
    pub layer: Length,
    /// What is added to a hole's diameter.
    pub hole: Compensation,
    /// What is added to a peg's diameter.
    pub boss: Compensation,
    /// How far flanks and root of an internal thread are moved into the material, along their
    /// normals.
    pub internal_flank: Length,
    /// The same of an external thread.
    pub external_flank: Length,
    /// How far a plane across the axis is moved into the material.
    pub face: Length,
    /// How far the first layer spreads over its edge, to a side.
    pub spread: Length,
    /// How far a printed diameter may be off, to either side, when all of this is put right: from
    /// one print to the next.
    pub scatter: Length,
    /// The thinnest wall that comes out whole.
    pub least_wall: Limit<Length>,
    /// The narrowest ridge or groove that comes out as such.
    pub least_feature: Limit<Length>,
    /// Width, depth and height of what it can build.
    pub build: [Length; 3],
}

impl Printer {
    /// How far a surface is moved into the material, along its normal, so that the printer puts it
    /// where it is wanted; `diameter` is the wanted one, of no matter to threads and faces.
    pub fn into_material(&self, surface: Surface, diameter: Length) -> Length {
        match surface {
            Surface::Bore => self.hole.at(diameter) / 2.0,
            Surface::Outside => self.boss.at(diameter) / -2.0,
            Surface::InternalThread => self.internal_flank,
            Surface::ExternalThread => self.external_flank,
            Surface::Face => self.face,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a hole of 8 mm that closes by 0.1 mm and half a percent.
    #[test]
    fn a_diameter_comes_out_as_it_was_wanted() {
        let hole = Compensation { constant: Length::mm(0.1), share: 0.005 };
        assert!((hole.in_file(Length::mm(8.0)).as_mm() - 8.14).abs() < 1e-12);
        assert!((hole.printed(Length::mm(8.14)).as_mm() - 8.0).abs() < 1e-12);
    }
}
