//! Reasons why readings make no calibration.

use std::error::Error;
use std::fmt;

use super::contradiction::{Against, Contradiction};
use crate::design::LoadedReadings;
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;
use crate::section::Measurand;

/// What is wrong with the readings of a plate.
#[derive(Clone, Debug, PartialEq)]
pub enum CalibrationFault {
    /// None was taken.
    Nothing,
    /// Some of a kind were read, but too few of one of its groups of sizes.
    TooFew {
        /// The kind.
        kind: Measurand,
        /// Whether it is the wide group.
        wide: bool,
        /// Sizes of the group that were read.
        found: usize,
        /// Sizes that must be.
        needed: usize,
        /// One that was not.
        such_as: String,
    },
    /// A reading that contradicts others.
    Contradiction(Contradiction),
    /// Readings that agree on what no printer does.
    NoPrinter {
        /// The kind.
        kind: Measurand,
        /// The constant that they make.
        constant: Length,
        /// The share that they make.
        share: f64,
    },
}

impl CalibrationFault {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Nothing => "calibrate.nothing",
            Self::TooFew { .. } => "calibrate.too-few",
            Self::Contradiction(_) => "calibrate.contradiction",
            Self::NoPrinter { .. } => "calibrate.no-printer",
        }
    }

    /// What would help.
    pub fn hint(&self) -> String {
        match self {
            Self::Nothing => "type what the caliper shows between the brackets".to_owned(),
            Self::TooFew { such_as, .. } => {
                format!("read more, such as {such_as}, or leave the kind out altogether")
            }
            Self::Contradiction(Contradiction { reading, against }) => {
                let again = format!("measure {} again, or leave it out", reading.name());
                match against {
                    Against::Line { looks_like: Some(other), .. } => {
                        format!("{again}; it would do for {other}: were two of them exchanged?")
                    }
                    _ => again,
                }
            }
            Self::NoPrinter { .. } => {
                "see that every piece was read by its own marks, and that the plate was printed \
                 at its size and without compensation"
                    .to_owned()
            }
        }
    }

    /// Where the form asks for what it is about.
    fn place(&self, loaded: &LoadedReadings) -> Place {
        let kind = match self {
            Self::TooFew { such_as, .. } => return loaded.asked_at(such_as),
            Self::NoPrinter { kind, .. } => Some(*kind),
            Self::Nothing | Self::Contradiction(_) => None,
        };
        let first = loaded.taken.iter().find(|taken| Some(taken.of.kind) == kind);
        first.and_then(|taken| loaded.place_of(&taken.name())).unwrap_or(loaded.form)
    }

    /// With its places in the form that the readings were loaded from.
    pub fn diagnostic(&self, loaded: &LoadedReadings) -> Diagnostic {
        let mut diagnostic = Diagnostic::error(self.code(), self.to_string()).hint(self.hint());
        if let Self::Contradiction(Contradiction { reading, against }) = self {
            diagnostic.at = loaded.place_of(&reading.name());
            let twin = match against {
                Against::Line { twin, .. } => twin.as_ref(),
                Against::Twin(twin) => Some(twin),
            };
            let place = twin.and_then(|twin| loaded.place_of(&twin.name()));
            if let Some(place) = place {
                diagnostic = diagnostic.also(place, "the same size, read again");
            }
        }
        diagnostic.at = diagnostic.at.or_else(|| Some(self.place(loaded)));
        diagnostic
    }
}

impl fmt::Display for CalibrationFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str("nothing was read"),
            Self::TooFew { kind: Measurand::Height, found, needed, .. } => {
                write!(f, "{found} of the heights are read, and it takes {needed}")
            }
            Self::TooFew { kind, wide, found, needed, .. } => {
                let group = if *wide { "wide" } else { "thin" };
                write!(
                    f,
                    "{found} sizes of the {group} ones among the {} are read, and it takes \
                     {needed} of the thin and of the wide ones to tell a share from a constant",
                    plural(*kind)
                )
            }
            Self::Contradiction(Contradiction { reading, against }) => {
                let (name, value) = (reading.name(), reading.value);
                match against {
                    Against::Line { expected, .. } => write!(
                        f,
                        "`{name}` reads {value:.2}, and the other {} make it {expected:.2}",
                        plural(reading.of.kind)
                    ),
                    Against::Twin(twin) => write!(
                        f,
                        "`{name}` reads {value:.2}, and `{}`, of the same size, {:.2}",
                        twin.name(),
                        twin.value
                    ),
                }
            }
            Self::NoPrinter { kind, constant, share } => write!(
                f,
                "the {} make a constant of {constant:.3} and a share of {share:.4}, which no \
                 printer has",
                plural(*kind)
            ),
        }
    }
}

fn plural(kind: Measurand) -> &'static str {
    match kind {
        Measurand::Hole => "holes",
        Measurand::Boss => "pegs",
        Measurand::Height => "heights",
    }
}

impl Error for CalibrationFault {}
