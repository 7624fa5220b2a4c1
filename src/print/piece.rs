//! A specimen made right for its printer, standing on the plate.

use std::fmt;

use super::foot::foot;
use super::offset::{Amounts, Loss, OffsetError, offset};
use super::specimen::{
    Ladder, LadderError, Mated, Rung, Specimen, SpecimenKind, Stands, flank_clearance, specimens,
    too_fine,
};
use crate::design::Fault;
use crate::quantity::Length;
use crate::section::{Item, Part, PieceKind, Plate, PlatePiece, Printer, Section, Side};

/// What is printed: axis upright, z = 0 on the plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What sort it is; none of a plate that calibrates.
    pub kind: Option<SpecimenKind>,
    /// Its name, which is its file's.
    pub name: String,
    /// What it is, for people.
    pub what: String,
    /// The part that the printer is given.
    pub part: Part,
    /// The part that is to come out, in the same place; threads too fine left out.
    pub wanted: Part,
    /// The rung of a ladder.
    pub rung: Option<Rung>,
    /// Threads that the printer can't show, which are left out.
    pub smooth: Vec<Item>,
    /// What the compensation takes whole.
    pub losses: Vec<Loss>,
    /// How far the foot's edges are cut back.
    pub foot: Length,
}

/// Why a specimen can't be printed.
#[derive(Clone, Debug, PartialEq)]
pub enum PieceError {
    /// A ladder that there is not.
    Ladder(LadderError),
    /// The compensation leaves no sound part.
    Offset {
        /// The piece.
        name: String,
        /// Why.
        error: OffsetError,
    },
}

/// Makes all specimens of some kinds right for a printer, for triangles with a chord error of so
/// many millimetres.
///
/// # Errors
/// [`PieceError`], of every piece that can't be made.
pub fn pieces(
    section: &Section,
    kinds: &[SpecimenKind],
    printer: &Printer,
    ladder: &Ladder,
    chord: Length,
) -> Result<Vec<Piece>, Vec<PieceError>> {
    let (mut made, mut wrong) = (Vec::new(), Vec::new());
    for kind in kinds {
        match specimens(section, *kind, printer, ladder) {
            Err(error) => wrong.push(PieceError::Ladder(error)),
            Ok(found) => {
                for specimen in found {
                    match piece((section, ladder), specimen, printer, chord) {
                        Ok(piece) => made.push(piece),
                        Err(error) => wrong.push(error),
                    }
                }
            }
        }
    }
    if wrong.is_empty() { Ok(made) } else { Err(wrong) }
}

/// The pieces of a printer's calibration plate, as they are in the file: nothing is put right.
pub fn calibration_pieces(plate: &Plate) -> Vec<Piece> {
    let piece = |piece: &PlatePiece| {
        let part = piece.part();
        let sizes = [piece.sizes.lower, piece.sizes.upper].map(Length::as_mm);
        let kind = match piece.sizes.kind {
            PieceKind::Ring => "holes",
            PieceKind::Plug => "pegs",
        };
        Piece {
            kind: None,
            name: piece.sizes.name.to_string(),
            what: format!("{kind}, {:.2} and {:.2} mm", sizes[0], sizes[1]),
            wanted: part.clone(),
            part,
            rung: None,
            smooth: Vec::new(),
            losses: Vec::new(),
            foot: piece.chamfer,
        }
    };
    plate.pieces.iter().map(piece).collect()
}

/// Makes one specimen right for its printer.
fn piece(
    of: (&Section, &Ladder),
    specimen: Specimen,
    printer: &Printer,
    chord: Length,
) -> Result<Piece, PieceError> {
    let Specimen { kind, name, mut what, part, stands, mut rung } = specimen;
    let smooth = too_fine(&part, printer);
    let mut wanted = part;
    wanted.threads.retain(|thread| !smooth.contains(&thread.item));
    // The plate's face is the printer's own; its first layer is pressed on, not moved.
    let amounts = opened(Amounts::of(printer).with_facets(chord), rung.as_ref(), &wanted);
    let made = offset(&wanted, &amounts)
        .map_err(|error| PieceError::Offset { name: name.clone(), error })?;
    if let Some(rung) = &mut rung {
        rung.clearance = measured(of, &made.part, printer)?;
        what += &format!(": {:.3} mm between the flanks", rung.clearance.as_mm());
    }
    let (made_part, wanted) = match stands {
        Stands::Front => (made.part, wanted),
        Stands::Back => (made.part.turned_over(), wanted.turned_over()),
    };
    let cut = foot(&made_part, printer.spread, printer.least_feature.value);
    let up = Length::ZERO - cut.part.extent()[0];
    Ok(Piece {
        kind: Some(kind),
        name,
        what,
        part: cut.part.moved(up).snapped(),
        wanted: wanted.moved(up),
        rung,
        smooth,
        losses: made.losses,
        foot: cut.cut,
    })
}

/// The flank clearance of a rung's solid to its mate, less what the printer takes from its flanks.
fn measured(
    (section, ladder): (&Section, &Ladder),
    part: &Part,
    printer: &Printer,
) -> Result<Length, PieceError> {
    /// Digits of a millimetre that are kept: the noise of the measure lies below, and a clearance of
    /// none is none.
    const DIGITS: f64 = 1e6;
    let gap = flank_clearance(section, ladder.mated, part);
    let gap = gap.map_err(|error| PieceError::Ladder(LadderError::Build(error)))?;
    let taken = match ladder.mated {
        Mated::Unit => printer.internal_flank,
        Mated::Tenon => printer.external_flank,
    };
    Ok(Length::mm(((gap - taken).as_mm() * DIGITS).round() / DIGITS + 0.0))
}

/// The amounts of a rung: its thread goes farther into the material.
fn opened(amounts: Amounts, rung: Option<&Rung>, part: &Part) -> Amounts {
    let Some(rung) = rung else { return amounts };
    match part.threads.first().map(|thread| thread.side) {
        Some(Side::External) => {
            Amounts { external_thread: amounts.external_thread + rung.opened, ..amounts }
        }
        _ => Amounts { internal_thread: amounts.internal_thread + rung.opened, ..amounts },
    }
}

impl Piece {
    /// Its greatest radius, in millimetres; a rounded arc counts with its whole circle's reach.
    pub fn radius(&self) -> f64 {
        let stations = self.part.runs.iter().flat_map(|run| [run.from, run.to]);
        let widest = stations.map(crate::section::Station::radius).fold(0.0, f64::max);
        let arcs = self.part.runs.iter().map(|run| {
            let meridian = crate::solid::Meridian::of(run);
            (1..16).map(|n| meridian.at(f64::from(n) / 16.0)[0]).fold(0.0, f64::max)
        });
        arcs.fold(widest, f64::max)
    }

    /// How high it stands.
    pub fn height(&self) -> Length {
        self.part.extent()[1]
    }
}

impl PieceError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Ladder(error) => error.code(),
            Self::Offset { error, .. } => error.code(),
        }
    }

    /// What would work.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Ladder(error) => error.hint(),
            Self::Offset { .. } => Some(
                "print another specimen, or on a printer that needs less compensation".to_owned(),
            ),
        }
    }
}

impl fmt::Display for PieceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ladder(error) => error.fmt(f),
            Self::Offset { name, error } => write!(f, "{name}: {error}"),
        }
    }
}

impl std::error::Error for PieceError {}

impl From<PieceError> for Fault {
    fn from(error: PieceError) -> Self {
        let (code, message, hint) = (error.code(), error.to_string(), error.hint());
        let fault = match error {
            PieceError::Offset { error, .. } => Self { message, ..error.into() },
            PieceError::Ladder(LadderError::Build(cause)) => Self { message, ..cause.into() },
            PieceError::Ladder(LadderError::TooFine { thread, .. }) => {
                Self::new(code, message).about([thread])
            }
            PieceError::Ladder(_) => Self::new(code, message),
        };
        match hint {
            Some(hint) => fault.hint(hint),
            None => fault,
        }
    }
}
