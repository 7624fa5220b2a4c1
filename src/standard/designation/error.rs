//! Why a thread's designation is none, and what would be.

use std::fmt;

use super::{MAX_STARTS, written};
use crate::quantity::Length;
use crate::standard::iso965::ClassError;
use crate::standard::{iso261, iso724};

/// Why a text or a set of values is no thread.
#[derive(Clone, Debug, PartialEq)]
pub enum DesignationError {
    /// It does not begin with `M` and a number; holds the text.
    NotMetric(String),
    /// What stands where a number should be is none.
    NotANumber(String),
    /// A comma stands in a number; holds the text with points.
    Comma(String),
    /// The diameter is not above zero.
    DiameterNotPositive(Length),
    /// The pitch is not above zero.
    PitchNotPositive(Length),
    /// No pitch is written and ISO 261 has no coarse one for the diameter.
    NoCoarsePitch(Length),
    /// A lead without a pitch, as in `M13xPh2.4`.
    LeadWithoutPitch(Length),
    /// The lead is not a whole number of pitches.
    LeadNotMultiple {
        /// The lead as written.
        lead: Length,
        /// The pitch as written.
        pitch: Length,
    },
    /// The starts are not 1 to 6.
    Starts(f64),
    /// The pitch is so coarse that the root passes the axis.
    PitchTooCoarse {
        /// The diameter.
        diameter: Length,
        /// The pitch.
        pitch: Length,
    },
    /// A trapezoidal thread without its pitch.
    NoTrapezoidalPitch(Length),
    /// A class behind a trapezoidal thread.
    ClassOfTrapezoidal(String),
    /// The tolerance class does not read.
    Class(ClassError),
    /// A part behind the class that is no hand, or a part too many.
    UnknownPart(String),
}

impl DesignationError {
    /// What to write instead.
    pub fn hint(&self) -> String {
        match self {
            Self::NotMetric(_) | Self::NotANumber(_) => {
                "write M, diameter, x and pitch in mm, as in M10x0.75, M10x0.75-6g, \
                 M13xPh2.4P0.8 or M10x1-6H-LH"
                    .to_owned()
            }
            Self::Comma(with_points) => format!("write decimal points: {with_points}"),
            Self::DiameterNotPositive(_) => "a diameter above zero, as in M10x0.75".to_owned(),
            Self::PitchNotPositive(_) => "a pitch above zero, as in M10x0.75".to_owned(),
            Self::NoCoarsePitch(diameter) => {
                format!("write the pitch: {}", Self::with_a_pitch(*diameter))
            }
            Self::NoTrapezoidalPitch(diameter) => {
                format!("write the pitch: Tr{}x2", diameter.as_mm())
            }
            Self::ClassOfTrapezoidal(class) => {
                format!("leave out the class {class}; limits follow from ISO 965-1's grade 6")
            }
            Self::LeadWithoutPitch(lead) => {
                let lead = lead.as_mm();
                format!("write the pitch behind the lead, as in Ph{lead}P{}", lead / 2.0)
            }
            Self::LeadNotMultiple { lead, pitch } => {
                let starts = (*lead / *pitch).round().clamp(1.0, f64::from(MAX_STARTS));
                let noun = if starts == 1.0 { "start has" } else { "starts have" };
                format!(
                    "{starts} {noun} the lead Ph{} at P{}, or the pitch P{} at Ph{}",
                    written(*pitch * starts),
                    pitch.as_mm(),
                    written(*lead / starts),
                    lead.as_mm()
                )
            }
            Self::Starts(_) => format!("a thread has 1 to {MAX_STARTS} starts: lead / pitch"),
            Self::PitchTooCoarse { diameter, .. } => {
                // d3 is above zero up to a pitch of d / 1.2269; half the diameter leaves a core.
                let pitch = written(*diameter / 2.0);
                format!("M{} needs a pitch of {pitch} mm or finer", diameter.as_mm())
            }
            Self::Class(error) => error.hint(),
            Self::UnknownPart(_) => {
                "behind the size come a tolerance class and LH: M10x1-6g, M10x1-6g-LH".to_owned()
            }
        }
    }

    /// A diameter with the first pitch that ISO 261 lists for it, or one that pens use.
    fn with_a_pitch(diameter: Length) -> String {
        /// A usual fine pitch, for an example.
        const EXAMPLE: Length = Length::mm(0.75);
        let pitch = iso261::pitches(diameter).first().copied().unwrap_or(EXAMPLE);
        let fits = !iso724::root_passes_axis(diameter, pitch);
        let pitch = if fits { pitch } else { diameter / 2.0 };
        format!("M{}x{}", diameter.as_mm(), written(pitch))
    }
}

impl fmt::Display for DesignationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotMetric(text) => write!(f, "`{text}` is not a metric thread"),
            Self::NotANumber(text) => write!(f, "`{text}` is not a number"),
            Self::Comma(_) => write!(f, "a comma is not a decimal point"),
            Self::DiameterNotPositive(size) => write!(f, "a thread of {size} is none"),
            Self::PitchNotPositive(size) => write!(f, "a pitch of {size} is none"),
            Self::NoCoarsePitch(size) => write!(f, "M{} has no coarse pitch", size.as_mm()),
            Self::NoTrapezoidalPitch(size) => {
                write!(f, "Tr{} stands without a pitch", size.as_mm())
            }
            Self::ClassOfTrapezoidal(class) => {
                write!(f, "the class `{class}` of a trapezoidal thread is not known")
            }
            Self::LeadWithoutPitch(lead) => write!(f, "the lead of {lead} stands without a pitch"),
            Self::LeadNotMultiple { lead, pitch } => {
                write!(f, "a lead of {lead} is not a whole number of pitches of {pitch}")
            }
            Self::Starts(starts) => write!(f, "a thread of {starts} starts"),
            Self::PitchTooCoarse { diameter, pitch } => {
                write!(f, "a pitch of {pitch} cuts a thread of {diameter} through its axis")
            }
            Self::Class(error) => error.fmt(f),
            Self::UnknownPart(part) => write!(f, "`{part}` is no part of a thread's designation"),
        }
    }
}

impl std::error::Error for DesignationError {}

impl From<ClassError> for DesignationError {
    fn from(error: ClassError) -> Self {
        Self::Class(error)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard::ThreadDesignation;

    #[test]
    fn hints_work_when_written() {
        let hint = "M13xPh2.5P0.8".parse::<ThreadDesignation>().expect_err("no multiple").hint();
        assert_eq!(
            hint,
            "3 starts have the lead Ph2.4 at P0.8, or the pitch P0.833333333 at Ph2.5"
        );
        for diameter in [13.0, 5.5, 0.4] {
            let written = DesignationError::with_a_pitch(Length::mm(diameter));
            assert!(written.parse::<ThreadDesignation>().is_ok(), "{written}");
        }
    }
}
