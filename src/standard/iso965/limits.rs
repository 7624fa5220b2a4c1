//! Limits of size of external and internal threads.
//!
//! ```text
//!   internal                                   external
//!     major  >= D + EI                           major  d + es - Td   .. d + es
//!     pitch   D2 + EI .. D2 + EI + TD2           pitch  d2 + es - Td2 .. d2 + es
//!     minor   D1 + EI .. D1 + EI + TD1           root   d3 min at d2 min, flat d1 max at d2 max
//! ```
//! All values are exact sums of basic sizes and tolerances; tables print them rounded to 0.001.

use super::{Side, ToleranceClass, ToleranceError, covered, fundamental_deviation, tolerance};
use crate::quantity::{Length, Limits};
use crate::standard::{iso68, iso724};

/// The limits of size of an external thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExternalLimits {
    /// The major diameter d.
    pub major: Limits,
    /// The pitch diameter d2.
    pub pitch: Limits,
    /// d1 max: the greatest minor diameter, of the root flat that a go gauge passes; d2 max less
    /// H/2 (0.433013 P).
    pub minor_flat_max: Length,
    /// d3 min: the least diameter of the root, rounded with R = P/8; d2 min less 0.616025 P.
    pub root_min: Length,
}

/// The limits of size of an internal thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InternalLimits {
    /// D min; the standard sets no greatest major diameter.
    pub major_min: Length,
    /// D max that the tool's form allows: D2 max and 11/12 H (0.793857 P), a rounded root.
    pub major_max: Length,
    /// The pitch diameter D2.
    pub pitch: Limits,
    /// The minor diameter D1.
    pub minor: Limits,
}

/// H/2 per pitch of diameter: from the pitch diameter to the minor diameter of the flat root.
const FLAT_BELOW_PITCH: f64 = 0.5;

/// The share of H from d2 min to d3 min: a V with R = P/8 is tangent there. H/2 with P/4 flats
/// would be 0.433013 P, the rounded root lies 0.616025 P below (Machinery's Handbook 27 p. 1786
/// prints 0.711325 H).
fn root_below_pitch(pitch: Length) -> Length {
    // The V's apex lies H/2 per side below the pitch line; an arc of radius R tangent to flanks of
    // half angle 30 degrees ends R (1/sin 30 - 1) = R above the apex.
    (iso68::fundamental_height(pitch) / 2.0 - iso68::least_root_radius(pitch)) * 2.0
}

/// The share of H from D2 max to D max (Machinery's Handbook 27 p. 1786: 11/12 H = 0.793857 P).
const MAJOR_ABOVE_PITCH: f64 = 11.0 / 12.0;

/// The limits of size of an external thread (ISO 965-1:1998 clauses 6 to 8 and 11).
///
/// # Errors
/// A class of an internal thread, a pitch or diameter outside the standard, or a pitch so coarse
/// that the least root is no longer above zero.
pub fn external(
    diameter: Length,
    pitch: Length,
    class: ToleranceClass,
) -> Result<ExternalLimits, ToleranceError> {
    require_side(class, Side::External)?;
    covered(diameter, pitch)?;
    let basic = iso724::basic_sizes(diameter, pitch);
    let es = fundamental_deviation(class.position(), pitch)?;
    let (of_pitch, of_major) = class.quantities();
    let major_max = basic.major + es;
    let major_min = major_max - tolerance(of_major, diameter, pitch, class.crest_grade())?;
    let pitch_max = basic.pitch + es;
    let pitch_min = pitch_max - tolerance(of_pitch, diameter, pitch, class.pitch_grade())?;
    let root_min = pitch_min - root_below_pitch(pitch);
    let too_coarse = ToleranceError::PitchTooCoarse { diameter, pitch };
    if root_min <= Length::ZERO {
        return Err(too_coarse);
    }
    Ok(ExternalLimits {
        major: Limits::new(major_min, major_max).ok_or(too_coarse)?,
        pitch: Limits::new(pitch_min, pitch_max).ok_or(too_coarse)?,
        minor_flat_max: pitch_max - iso68::fundamental_height(pitch) * FLAT_BELOW_PITCH,
        root_min,
    })
}

/// The limits of size of an internal thread (ISO 965-1:1998 clauses 6 to 8).
///
/// # Errors
/// A class of an external thread, a pitch or diameter outside the standard, or a pitch so coarse
/// that its external partner's root passes the axis.
pub fn internal(
    diameter: Length,
    pitch: Length,
    class: ToleranceClass,
) -> Result<InternalLimits, ToleranceError> {
    require_side(class, Side::Internal)?;
    covered(diameter, pitch)?;
    let too_coarse = ToleranceError::PitchTooCoarse { diameter, pitch };
    if iso724::root_passes_axis(diameter, pitch) {
        return Err(too_coarse);
    }
    let basic = iso724::basic_sizes(diameter, pitch);
    let ei = fundamental_deviation(class.position(), pitch)?;
    let (of_pitch, of_minor) = class.quantities();
    let pitch_min = basic.pitch + ei;
    let pitch_max = pitch_min + tolerance(of_pitch, diameter, pitch, class.pitch_grade())?;
    let minor_min = basic.minor + ei;
    let minor_max = minor_min + tolerance(of_minor, diameter, pitch, class.crest_grade())?;
    Ok(InternalLimits {
        major_min: basic.major + ei,
        major_max: pitch_max + iso68::fundamental_height(pitch) * MAJOR_ABOVE_PITCH,
        pitch: Limits::new(pitch_min, pitch_max).ok_or(too_coarse)?,
        minor: Limits::new(minor_min, minor_max).ok_or(too_coarse)?,
    })
}

fn require_side(class: ToleranceClass, side: Side) -> Result<(), ToleranceError> {
    if class.position().side() == side { Ok(()) } else { Err(ToleranceError::WrongSide(class)) }
}
