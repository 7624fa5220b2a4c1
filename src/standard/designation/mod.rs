//! Designations of ISO threads: `M10x0.75-6g`, `M10`, `M13xPh2.4P0.8`, `M8x1-6H-LH`, `Tr10x2`,
//! `Tr12x4P2-LH`.
//!
//! ```text
//! M  <diameter> [x <pitch> | x Ph <lead> P <pitch>] [- <class>] [- LH]
//! Tr <diameter> x <pitch> | x <lead> P <pitch> [- LH]
//! ```
//! A trapezoidal thread (ISO 2902, ISO 2904) takes no class here: ISO 2903's are not known.
//! Without a pitch the coarse one of ISO 261 is meant. `x` may be `×` or `X`. Source: ISO 965-1:1998
//! clause 4 and ISO 261 (the clause number is from memory).

mod error;
mod read;

use std::fmt;

use super::iso965::ToleranceClass;
use super::{iso261, iso724};
use crate::quantity::Length;

pub use error::DesignationError;

/// The most starts a thread may have. Pens use up to four, and sharply fewer turns than a lead of
/// six pitches gives would not hold; more is a slip of the pen in the lead or the pitch.
pub const MAX_STARTS: u32 = 6;

/// Which way a thread winds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Hand {
    /// Clockwise turning screws it in; a designation leaves it out.
    #[default]
    Right,
    /// `LH`.
    Left,
}

/// Which system of threads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// `M`: ISO 68-1, flanks at 60 degrees.
    #[default]
    Metric,
    /// `Tr`: ISO 2901, flanks at 30 degrees.
    Trapezoidal,
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
    system: System,
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
        Ok(Self { diameter, pitch, starts, hand, class, system: System::Metric })
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

    /// The system of threads.
    pub const fn system(self) -> System {
        self.system
    }

    /// The lead: how far one turn moves it, the pitch times the starts.
    pub fn lead(self) -> Length {
        self.pitch * f64::from(self.starts)
    }

    /// Whether ISO 261 lists this diameter with this pitch (up to 30 mm).
    pub fn is_standard(self) -> bool {
        self.system == System::Metric && iso261::is_standard(self.diameter, self.pitch)
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
        let (name, lead) = match self.system {
            System::Metric => ("M", "Ph"),
            System::Trapezoidal => ("Tr", ""),
        };
        write!(f, "{name}{}x", self.diameter.as_mm())?;
        if self.starts == 1 {
            write!(f, "{pitch}")?;
        } else {
            write!(f, "{lead}{}P{pitch}", written(self.lead()))?;
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
