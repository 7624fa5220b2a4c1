//! Designations of ISO metric threads: `M10x0.75-6g`, `M10`, `M13xPh2.4P0.8`, `M8x1-6H-LH`.
//!
//! ```text
//! M <diameter> [x <pitch> | x Ph <lead> P <pitch>] [- <class>] [- LH]
//! ```
//! Without a pitch the coarse one of ISO 261 is meant. `x` may be `×` or `X`. Source: ISO 965-1:1998
//! clause 4 and ISO 261 (the clause number is from memory).

use std::fmt;
use std::str::FromStr;

use super::iso965::{ClassError, ToleranceClass};
use super::{iso261, iso724};
use crate::quantity::Length;

/// The most starts a thread may have. Pens use up to four, and sharply fewer turns than a lead of
/// six pitches gives would not hold; more is a slip of the pen in the lead or the pitch.
pub const MAX_STARTS: u32 = 6;

/// How far from a whole number lead / pitch may be: decimals as written divide to within 1e-12,
/// while a lead wrong in its last written digit is off by 1e-3 and more.
const WHOLE_STARTS: f64 = 1e-6;

/// Which way a thread winds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Hand {
    /// Clockwise turning screws it in; a designation leaves it out.
    #[default]
    Right,
    /// `LH`.
    Left,
}

/// What a designation says of a thread. Its root is off the axis, it has 1 to 6 starts, and its
/// sizes are finite and above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadDesignation {
    diameter: Length,
    pitch: Length,
    starts: u32,
    hand: Hand,
    class: Option<ToleranceClass>,
}

impl ThreadDesignation {
    /// A thread of any diameter and pitch.
    ///
    /// # Errors
    /// A size that is not above zero, starts that are not 1 to 6, or a pitch so coarse that the
    /// root passes the axis.
    pub fn new(
        diameter: Length,
        pitch: Length,
        starts: u32,
        hand: Hand,
        class: Option<ToleranceClass>,
    ) -> Result<Self, DesignationError> {
        let positive = |size: Length| size.is_finite() && size > Length::ZERO;
        if !positive(diameter) {
            return Err(DesignationError::DiameterNotPositive(diameter));
        }
        if !positive(pitch) {
            return Err(DesignationError::PitchNotPositive(pitch));
        }
        if !(1..=MAX_STARTS).contains(&starts) {
            return Err(DesignationError::Starts(f64::from(starts)));
        }
        if iso724::root_passes_axis(diameter, pitch) {
            return Err(DesignationError::PitchTooCoarse { diameter, pitch });
        }
        Ok(Self { diameter, pitch, starts, hand, class })
    }

    /// The nominal (major) diameter.
    pub const fn diameter(self) -> Length {
        self.diameter
    }

    /// The pitch: from one crest to the next, of whichever start.
    pub const fn pitch(self) -> Length {
        self.pitch
    }

    /// The number of starts.
    pub const fn starts(self) -> u32 {
        self.starts
    }

    /// Which way it winds.
    pub const fn hand(self) -> Hand {
        self.hand
    }

    /// The tolerance class, if one is given.
    pub const fn class(self) -> Option<ToleranceClass> {
        self.class
    }

    /// The lead: how far one turn moves it, the pitch times the starts.
    pub fn lead(self) -> Length {
        self.pitch * f64::from(self.starts)
    }

    /// Whether ISO 261 lists this diameter with this pitch (up to 30 mm).
    pub fn is_standard(self) -> bool {
        iso261::is_standard(self.diameter, self.pitch)
    }

    /// The same thread with this class.
    #[must_use]
    pub const fn with_class(self, class: Option<ToleranceClass>) -> Self {
        Self { class, ..self }
    }
}

/// Always with its pitch, coarse or not: on a lathe sheet nobody should have to know it by heart.
impl fmt::Display for ThreadDesignation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let pitch = self.pitch.as_mm();
        write!(f, "M{}x", self.diameter.as_mm())?;
        if self.starts == 1 {
            write!(f, "{pitch}")?;
        } else {
            write!(f, "Ph{}P{pitch}", written(self.lead()))?;
        }
        if let Some(class) = self.class {
            write!(f, "-{class}")?;
        }
        if self.hand == Hand::Left {
            write!(f, "-LH")?;
        }
        Ok(())
    }
}

/// A product of written decimals without the noise of its arithmetic: 2.4, not 2.4000000000000004.
fn written(length: Length) -> f64 {
    /// A millionth of a micrometre: nine decimals hold any lead that people write, and the noise
    /// of a product of two such numbers lies below.
    const DIGITS: f64 = 1e9;
    (length.as_mm() * DIGITS).round() / DIGITS
}

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

impl FromStr for ThreadDesignation {
    type Err = DesignationError;

    fn from_str(text: &str) -> Result<Self, DesignationError> {
        let text = text.trim();
        if text.contains(',') {
            return Err(DesignationError::Comma(text.replace(',', ".")));
        }
        let mut parts = text.split('-').map(str::trim);
        let size = parts.next().unwrap_or_default();
        let (diameter, pitch, starts) = read_size(size)?;
        let (mut hand, mut class) = (Hand::Right, None);
        for part in parts {
            if hand == Hand::Left || (class.is_some() && part != "LH") {
                return Err(DesignationError::UnknownPart(part.to_owned()));
            } else if part == "LH" {
                hand = Hand::Left;
            } else {
                class = Some(part.parse()?);
            }
        }
        Self::new(diameter, pitch, starts, hand, class)
    }
}

/// Diameter, pitch and starts of the part before the first hyphen.
fn read_size(size: &str) -> Result<(Length, Length, u32), DesignationError> {
    let not_metric = || DesignationError::NotMetric(size.to_owned());
    let behind_m = size.strip_prefix(['M', 'm']).ok_or_else(not_metric)?.trim_start();
    if !behind_m.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return Err(not_metric());
    }
    let Some((diameter, pitch)) = behind_m.split_once(['x', 'X', '×']) else {
        let diameter = number(behind_m)?;
        if diameter == Length::ZERO {
            return Err(DesignationError::DiameterNotPositive(diameter));
        }
        let coarse = iso261::coarse_pitch(diameter);
        return Ok((diameter, coarse.ok_or(DesignationError::NoCoarsePitch(diameter))?, 1));
    };
    let (diameter, pitch) = (number(diameter)?, pitch.trim());
    let Some(lead) = pitch.strip_prefix("Ph") else {
        return Ok((diameter, number(pitch)?, 1));
    };
    let Some((lead, pitch)) = lead.split_once('P') else {
        return Err(DesignationError::LeadWithoutPitch(number(lead)?));
    };
    let (lead, pitch) = (number(lead)?, number(pitch)?);
    if pitch == Length::ZERO {
        return Err(DesignationError::PitchNotPositive(pitch));
    }
    let starts = lead / pitch;
    if (starts - starts.round()).abs() > WHOLE_STARTS {
        return Err(DesignationError::LeadNotMultiple { lead, pitch });
    }
    if !(1.0..=f64::from(MAX_STARTS)).contains(&starts.round()) {
        return Err(DesignationError::Starts(starts.round()));
    }
    Ok((diameter, pitch, starts.round() as u32))
}

/// Plain decimals in mm.
fn number(text: &str) -> Result<Length, DesignationError> {
    let text = text.trim();
    let plain = text.chars().all(|c| c.is_ascii_digit() || c == '.');
    let value = text.parse::<f64>().ok().filter(|value| plain && value.is_finite());
    value.map(Length::mm).ok_or_else(|| DesignationError::NotANumber(text.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thread(text: &str) -> ThreadDesignation {
        text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn reads_what_the_trade_writes() {
        let fine = thread("M10x0.75-6g");
        assert_eq!((fine.diameter(), fine.pitch()), (Length::mm(10.0), Length::mm(0.75)));
        assert_eq!(fine.class(), Some(ToleranceClass::MEDIUM_EXTERNAL));
        assert!(fine.is_standard() && fine.hand() == Hand::Right);
        assert_eq!(thread("M10").pitch(), Length::mm(1.5));
        assert!(!thread("M8.05x0.55").is_standard());
        let cap = thread("M13xPh2.4P0.8");
        assert_eq!((cap.starts(), cap.pitch()), (3, Length::mm(0.8)));
        assert!((cap.lead() - Length::mm(2.4)).abs() < Length::mm(1e-12));
        assert_eq!(thread("M8 × 1 - LH").hand(), Hand::Left);
        assert_eq!(thread("m6x0.5-4H5H-LH").to_string(), "M6x0.5-4H5H-LH");
        assert_eq!(thread("M13xPh0.8P0.8").to_string(), "M13x0.8");
    }

    #[test]
    fn refuses_with_a_hint() {
        use DesignationError as E;
        let mm = Length::mm;
        let cases = [
            ("", E::NotMetric(String::new())),
            ("G1/4", E::NotMetric("G1/4".into())),
            ("M", E::NotMetric("M".into())),
            ("M10x", E::NotANumber(String::new())),
            ("M10x1.0.0", E::NotANumber("1.0.0".into())),
            ("M10x1x20", E::NotANumber("1x20".into())),
            ("M8,05x0,55", E::Comma("M8.05x0.55".into())),
            ("M0x1", E::DiameterNotPositive(mm(0.0))),
            ("M0", E::DiameterNotPositive(mm(0.0))),
            ("M10x0", E::PitchNotPositive(mm(0.0))),
            ("M10xPh1P0", E::PitchNotPositive(mm(0.0))),
            ("M13", E::NoCoarsePitch(mm(13.0))),
            ("M13xPh2.4", E::LeadWithoutPitch(mm(2.4))),
            ("M13xPh2.5P0.8", E::LeadNotMultiple { lead: mm(2.5), pitch: mm(0.8) }),
            ("M13xPh5.6P0.8", E::Starts(7.0)),
            ("M13xPh0P0.8", E::Starts(0.0)),
            ("M1x0.9", E::PitchTooCoarse { diameter: mm(1.0), pitch: mm(0.9) }),
            ("M10x1-6x", E::Class(ClassError::UnknownPosition('x'))),
            ("M10x1-6g-S", E::UnknownPart("S".into())),
            ("M10x1-LH-6g", E::UnknownPart("6g".into())),
        ];
        for (text, expected) in cases {
            let error = text.parse::<ThreadDesignation>().expect_err(text);
            assert_eq!(error, expected, "{text}");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
    }

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
