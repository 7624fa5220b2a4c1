//! Fundamental deviations es and EI.

use super::{Position, ToleranceError, covered, is_pitch};
use crate::quantity::Length;
use crate::standard::r40;

/// Micrometres in a millimetre.
const UM_PER_MM: f64 = 1000.0;

/// Pitch in mm with the size of es for positions e and f in micrometres, of ISO 965-1:1998 table 1
/// (from memory: unlike g they follow neither the formula nor R40 everywhere). Positions that the
/// table leaves blank hold none.
const E_AND_F: [(f64, Option<f64>, Option<f64>); 22] = [
    (0.35, None, Some(34.0)),
    (0.4, None, Some(34.0)),
    (0.45, None, Some(35.0)),
    (0.5, Some(50.0), Some(36.0)),
    (0.6, Some(53.0), Some(36.0)),
    (0.7, Some(56.0), Some(38.0)),
    (0.75, Some(56.0), Some(38.0)),
    (0.8, Some(60.0), Some(38.0)),
    (1.0, Some(60.0), Some(40.0)),
    (1.25, Some(63.0), Some(42.0)),
    (1.5, Some(67.0), Some(45.0)),
    (1.75, Some(71.0), Some(48.0)),
    (2.0, Some(71.0), Some(52.0)),
    (2.5, Some(80.0), Some(58.0)),
    (3.0, Some(85.0), Some(63.0)),
    (3.5, Some(90.0), Some(70.0)),
    (4.0, Some(95.0), Some(75.0)),
    (4.5, Some(100.0), Some(80.0)),
    (5.0, Some(106.0), Some(85.0)),
    (5.5, Some(112.0), Some(90.0)),
    (6.0, Some(118.0), Some(95.0)),
    (8.0, Some(140.0), Some(118.0)),
];

/// es(g) = -EI(G) where the table is not the formula's nearest member of R40 (23.25 would be 24).
const G_EXCEPTION: (f64, f64) = (0.75, 22.0);

/// The fundamental deviation of a position: EI, zero or above, for an internal thread; es, zero or
/// below, for an external one. All three diameters move by it.
///
/// ISO 965-1:1998 clause 13: 15 + 11 P for g and G, 30 + 11 P for f, 50 + 11 P for e, in
/// micrometres with P in mm, rounded to R40; table 1 where it differs.
///
/// # Errors
/// [`ToleranceError::PitchOutOfRange`] outside 0.2 to 8 mm.
pub fn fundamental_deviation(position: Position, pitch: Length) -> Result<Length, ToleranceError> {
    /// Any diameter: the deviation depends on none.
    const ANY_DIAMETER: Length = Length::mm(10.0);
    covered(ANY_DIAMETER, pitch)?;
    let listed = E_AND_F.iter().find(|(listed, _, _)| is_pitch(pitch, *listed));
    let micrometres = match position {
        Position::ExternalH | Position::InternalH => 0.0,
        Position::ExternalG if is_pitch(pitch, G_EXCEPTION.0) => -G_EXCEPTION.1,
        Position::InternalG if is_pitch(pitch, G_EXCEPTION.0) => G_EXCEPTION.1,
        Position::ExternalG => -by_formula(15.0, pitch),
        Position::InternalG => by_formula(15.0, pitch),
        Position::ExternalF => {
            -listed.and_then(|row| row.2).unwrap_or_else(|| by_formula(30.0, pitch))
        }
        Position::ExternalE => {
            -listed.and_then(|row| row.1).unwrap_or_else(|| by_formula(50.0, pitch))
        }
    };
    Ok(Length::mm(micrometres / UM_PER_MM))
}

/// The deviation grows by 11 micrometres for each millimetre of pitch.
fn by_formula(at_no_pitch: f64, pitch: Length) -> f64 {
    r40::Member::nearest(at_no_pitch + 11.0 * pitch.as_mm()).whole()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn um(position: Position, pitch: f64) -> f64 {
        let deviation = fundamental_deviation(position, Length::mm(pitch)).expect("in range");
        (deviation.as_mm() * UM_PER_MM).round()
    }

    #[test]
    fn internal_mirrors_external() {
        for pitch in [0.2, 0.55, 0.75, 1.0, 3.7, 8.0] {
            assert_eq!(um(Position::InternalG, pitch), -um(Position::ExternalG, pitch));
            assert_eq!(um(Position::ExternalH, pitch), 0.0);
            assert!(um(Position::ExternalE, pitch) < um(Position::ExternalF, pitch));
            assert!(um(Position::ExternalF, pitch) < um(Position::ExternalG, pitch));
        }
    }

    #[test]
    fn e_and_f_stay_near_their_formula() {
        // Table (from memory) against clause 13: never more than one step of R40 (6 %) and a bit.
        for (pitch, e, f) in E_AND_F {
            for (table, constant) in [(e, 50.0), (f, 30.0)] {
                let formula = constant + 11.0 * pitch;
                assert!(table.is_none_or(|table| (table / formula - 1.0).abs() < 0.1), "{pitch}");
            }
        }
    }

    #[test]
    fn refuses_what_the_formula_is_not_for() {
        for pitch in [0.0, -1.0, 0.19, 8.1, f64::NAN] {
            assert!(fundamental_deviation(Position::ExternalG, Length::mm(pitch)).is_err());
        }
    }
}
