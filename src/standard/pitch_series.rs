//! The pitches in use, and those that a reading over several turns cannot tell apart.
//!
//! A caliper's jaws over n crests read n pitches with one uncertainty, so a pitch is known to
//! uncertainty / n. Pitches of metric and inch practice crowd within that: 34 TPI is 0.747 mm.

use std::fmt;

use crate::quantity::{Length, Limits};

/// ISO 261:1998: all its pitches up to 3.5 mm (from memory).
const ISO_METRIC: [f64; 19] = [
    0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0,
    3.5,
];

/// Metric pitches that ISO 261 lacks but thread gauges and odd taps have (common practice, no
/// source).
const OTHER_METRIC: [f64; 6] = [0.55, 0.65, 0.85, 0.9, 0.95, 1.1];

/// Threads per inch of the Unified and Whitworth series and of thread gauges (common practice, no
/// source): a leaf that a gauge set has is a pitch that someone may have cut.
const THREADS_PER_INCH: [f64; 38] = [
    80.0, 72.0, 64.0, 62.0, 60.0, 56.0, 54.0, 52.0, 50.0, 48.0, 46.0, 44.0, 42.0, 40.0, 38.0, 36.0,
    34.0, 32.0, 30.0, 28.0, 27.0, 26.0, 24.0, 22.0, 20.0, 19.0, 18.0, 16.0, 14.0, 13.0, 12.0, 11.5,
    11.0, 10.0, 9.0, 8.0, 7.0, 6.0,
];

/// How a pitch is named.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PitchName {
    /// A pitch of ISO 261, in mm.
    IsoMetric(f64),
    /// A metric pitch that ISO 261 lacks, in mm.
    OtherMetric(f64),
    /// Threads per inch.
    ThreadsPerInch(f64),
}

impl PitchName {
    /// The pitch.
    pub fn pitch(self) -> Length {
        match self {
            Self::IsoMetric(mm) | Self::OtherMetric(mm) => Length::mm(mm),
            Self::ThreadsPerInch(count) => Length::inch(1.0) / count,
        }
    }
}

impl fmt::Display for PitchName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::IsoMetric(mm) => write!(f, "{mm} mm"),
            Self::OtherMetric(mm) => write!(f, "{mm} mm (not in ISO 261)"),
            Self::ThreadsPerInch(count) => write!(f, "{count} TPI ({:.3})", self.pitch()),
        }
    }
}

/// All pitches, metric and inch, finest first.
pub fn pitches() -> Vec<PitchName> {
    let mut all: Vec<PitchName> = ISO_METRIC
        .into_iter()
        .map(PitchName::IsoMetric)
        .chain(OTHER_METRIC.into_iter().map(PitchName::OtherMetric))
        .chain(THREADS_PER_INCH.into_iter().map(PitchName::ThreadsPerInch))
        .collect();
    all.sort_by(|a, b| a.pitch().as_mm().total_cmp(&b.pitch().as_mm()));
    all
}

/// A pitch and how far it is from a reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PitchCandidate {
    /// The pitch by its name.
    pub name: PitchName,
    /// What this pitch would read over the turns, less what was read.
    pub off: Length,
}

impl PitchCandidate {
    /// The pitch.
    pub fn pitch(&self) -> Length {
        self.name.pitch()
    }
}

impl fmt::Display for PitchCandidate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = if self.off < Length::ZERO { "under" } else { "over" };
        write!(f, "{}, {:.3} {side} the reading", self.name, self.off.abs())
    }
}

/// What a reading over several turns says of the pitch.
#[derive(Clone, Debug, PartialEq)]
pub struct PitchReading {
    /// The pitch as read: the reading over its turns.
    pub pitch: Length,
    /// Every pitch that the reading allows lies here.
    pub allowed: Limits,
    /// The pitches in use within the span, nearest to the reading first; empty when there is none.
    pub candidates: Vec<PitchCandidate>,
    /// The pitch in use that is nearest to the reading, in the span or not.
    pub nearest: PitchCandidate,
}

/// One line that says the span and what lies in it.
impl fmt::Display for PitchReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the reading allows pitches of {:.3}: ", self.allowed)?;
        if self.candidates.is_empty() {
            return write!(f, "none in use; the nearest is {}", self.nearest);
        }
        for (place, candidate) in self.candidates.iter().enumerate() {
            let gap = if place == 0 { "" } else { "; " };
            write!(f, "{gap}{candidate}")?;
        }
        Ok(())
    }
}

/// Why a reading says nothing of the pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadingError {
    /// The length that was read is not above zero.
    NothingMeasured(Length),
    /// The reading spans no turn.
    NoTurns,
    /// The uncertainty is below zero or not finite.
    BadUncertainty(Length),
    /// The uncertainty is as great as the reading, so that any pitch would do.
    UncertaintyTooGreat {
        /// The length that was read.
        measured: Length,
        /// Its uncertainty.
        uncertainty: Length,
    },
}

impl ReadingError {
    /// What to measure or write instead.
    pub fn hint(&self) -> String {
        match self {
            Self::NothingMeasured(_) | Self::NoTurns => {
                "measure over as many turns as there are, such as 4.5 mm over 6 turns".to_owned()
            }
            Self::BadUncertainty(_) => {
                "an uncertainty from 0, such as 0.03 mm for a caliper".to_owned()
            }
            Self::UncertaintyTooGreat { measured, .. } => {
                format!("an uncertainty below {measured}, or a reading over more turns")
            }
        }
    }
}

impl fmt::Display for ReadingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingMeasured(measured) => write!(f, "a reading of {measured} has no pitch"),
            Self::NoTurns => write!(f, "a reading over no turns has no pitch"),
            Self::BadUncertainty(size) => write!(f, "{size} is no uncertainty"),
            Self::UncertaintyTooGreat { measured, uncertainty } => {
                write!(f, "an uncertainty of {uncertainty} on {measured} allows any pitch")
            }
        }
    }
}

impl std::error::Error for ReadingError {}

/// The pitches in use that a reading cannot tell apart: those with `turns` pitches within the
/// uncertainty of what was measured over them.
///
/// # Errors
/// A reading that says nothing: none measured, no turns, or an uncertainty that allows anything.
pub fn rivals(
    measured_over: Length,
    turns: u32,
    uncertainty: Length,
) -> Result<PitchReading, ReadingError> {
    if !(measured_over.is_finite() && measured_over > Length::ZERO) {
        return Err(ReadingError::NothingMeasured(measured_over));
    }
    if turns == 0 {
        return Err(ReadingError::NoTurns);
    }
    if !(uncertainty.is_finite() && uncertainty >= Length::ZERO) {
        return Err(ReadingError::BadUncertainty(uncertainty));
    }
    let too_great = ReadingError::UncertaintyTooGreat { measured: measured_over, uncertainty };
    if uncertainty >= measured_over {
        return Err(too_great);
    }
    let turns = f64::from(turns);
    let pitch = measured_over / turns;
    let mut all: Vec<PitchCandidate> = pitches()
        .into_iter()
        .map(|name| PitchCandidate { name, off: name.pitch() * turns - measured_over })
        .collect();
    // Stable, so that two pitches equally far off keep the finer one first.
    all.sort_by(|a, b| a.off.abs().as_mm().total_cmp(&b.off.abs().as_mm()));
    Ok(PitchReading {
        pitch,
        allowed: Limits::around(pitch, uncertainty / turns).ok_or(too_great)?,
        nearest: all[0],
        candidates: all
            .into_iter()
            .filter(|candidate| candidate.off.abs() <= uncertainty + NOISE)
            .collect(),
    })
}

/// A reading as far off as its uncertainty still counts, though decimals add up with an error: a
/// millionth of a millimetre, above that error and below anything that is measured.
const NOISE: Length = Length::mm(1e-6);

#[cfg(test)]
mod tests {
    use super::*;

    fn names(reading: &PitchReading) -> Vec<PitchName> {
        reading.candidates.iter().map(|candidate| candidate.name).collect()
    }

    #[test]
    fn a_caliper_over_six_turns_cannot_tell() {
        // 0.75 mm and 34 TPI are 0.018 mm apart over six turns.
        let reading = rivals(Length::mm(4.5), 6, Length::mm(0.03)).expect("a reading");
        assert_eq!(names(&reading), [PitchName::IsoMetric(0.75), PitchName::ThreadsPerInch(34.0)]);
        assert_eq!(
            reading.to_string(),
            "the reading allows pitches of 0.745 to 0.755 mm: 0.75 mm, 0.000 mm over the reading; \
             34 TPI (0.747 mm), 0.018 mm under the reading"
        );
    }

    #[test]
    fn more_turns_tell_more() {
        let over = |turns: u32| {
            rivals(Length::mm(0.75) * f64::from(turns), turns, Length::mm(0.03)).expect("a reading")
        };
        let mut last = usize::MAX;
        for turns in 1..20 {
            let found = over(turns).candidates.len();
            assert!(found <= last && found >= 1);
            last = found;
        }
        assert_eq!(last, 1);
    }

    #[test]
    fn nothing_in_the_span_names_the_nearest() {
        let reading = rivals(Length::mm(5.75), 10, Length::mm(0.02)).expect("a reading");
        assert!(reading.candidates.is_empty());
        assert_eq!(reading.nearest.name, PitchName::ThreadsPerInch(44.0));
        assert!(reading.to_string().contains("none in use; the nearest is 44 TPI"));
    }

    #[test]
    fn on_the_edge_counts() {
        let reading = rivals(Length::mm(4.53), 6, Length::mm(0.03)).expect("a reading");
        assert_eq!(names(&reading), [PitchName::IsoMetric(0.75)]);
        let exact = rivals(Length::mm(4.5), 6, Length::ZERO).expect("a reading");
        assert_eq!(names(&exact), [PitchName::IsoMetric(0.75)]);
    }

    #[test]
    fn refuses_readings_that_say_nothing() {
        let mm = Length::mm;
        for (measured, turns, uncertainty) in [
            (mm(0.0), 6, mm(0.03)),
            (mm(-1.0), 6, mm(0.03)),
            (mm(f64::NAN), 6, mm(0.03)),
            (mm(4.5), 0, mm(0.03)),
            (mm(4.5), 6, mm(-0.1)),
            (mm(4.5), 6, mm(f64::NAN)),
            (mm(4.5), 6, mm(4.5)),
        ] {
            let error = rivals(measured, turns, uncertainty).expect_err("says nothing");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
    }
}
