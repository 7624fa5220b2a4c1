//! The pitch of a unit's thread from a reading over several turns.

use crate::design::reader::Placed;
use crate::design::resolve::Making;
use crate::design::unit_file::PitchFile;
use crate::design::value::CALIPER;
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::standard::{ThreadDesignation, pitch_series};

/// What a reading says.
pub(super) struct PitchRead {
    /// The thread's pitch.
    pub pitch: Length,
    /// What it may be besides.
    pub others: Vec<Length>,
}

/// Above the noise of the arithmetic, below any step between pitches.
const SAME: Length = Length::mm(1e-6);

/// More turns than any thread of a pen has.
const MOST_TURNS: f64 = 100.0;

/// How far a pitch may be off its name, as a share, and still be a thread of that name that was
/// cut or moulded badly (moulded parts shrink by up to 2 %; from memory). Growing, it would take a
/// wrong name for a bad thread; shrinking, a bad thread for a wrong name.
const OFF_ITS_NAME: f64 = 0.03;

/// The pitch that a reading and the designation agree on, with those in use that the reading can't
/// tell from it; where no pitch in use agrees with the reading, the pitch as read. None, and an
/// error, where the reading says that the name is wrong.
pub(super) fn read(
    file: &PitchFile,
    designation: &Placed<ThreadDesignation>,
    making: &mut Making,
) -> Option<PitchRead> {
    let turns = file.turns.value.0;
    if turns.fract() != 0.0 || !(1.0..=MOST_TURNS).contains(&turns) {
        making.log.push(
            Diagnostic::error("value.turns", format!("a pitch is not read over {turns} turns"))
                .at(file.turns.at())
                .hint("a whole number of turns, such as 6"),
        );
        return None;
    }
    let uncertainty = file.uncertainty.as_ref().map_or(CALIPER, |u| u.value.0);
    let over = file.over.value.0;
    let reading = match pitch_series::rivals(over, turns as u32, uncertainty) {
        Ok(reading) => reading,
        Err(error) => {
            making.log.push(
                Diagnostic::error("value.pitch-reading", error.to_string())
                    .at(file.over.at())
                    .hint(error.hint()),
            );
            return None;
        }
    };
    let pitch = designation.value.pitch();
    if (pitch * turns - over).abs() > uncertainty + SAME {
        let bad =
            reading.candidates.is_empty() && (reading.pitch / pitch - 1.0).abs() < OFF_ITS_NAME;
        if bad && file.gauge.is_none() {
            making.log.push(
                Diagnostic::note(
                    "unit.pitch-as-read",
                    format!(
                        "the thread's pitch is {:.4} by its reading, not {pitch}: it is taken as read",
                        reading.pitch
                    ),
                )
                .at(file.over.at())
                .also(designation.at(), "called so here")
                .hint("read it again over as many turns as there are"),
            );
            let others = vec![reading.allowed.min(), reading.allowed.max()];
            return Some(PitchRead { pitch: reading.pitch, others });
        }
        making.log.push(
            Diagnostic::error(
                "unit.pitch-disagrees",
                format!("{over} over {turns} turns is no pitch of {pitch}: {reading}"),
            )
            .at(file.over.at())
            .also(designation.at(), "called so here")
            .hint(format!("a pitch of {pitch} measures {} over {turns} turns", pitch * turns)),
        );
        return None;
    }
    if let Some(gauge) = &file.gauge {
        return gauged(gauge.value.0, gauge, designation, making);
    }
    let others = reading.candidates.iter().filter(|other| (other.pitch() - pitch).abs() > SAME);
    let (names, others): (Vec<_>, Vec<_>) =
        others.map(|other| (other.name.to_string(), other.pitch())).unzip();
    if !others.is_empty() {
        making.log.push(
            Diagnostic::note(
                "unit.rival-pitches",
                format!("the reading can't tell a pitch of {pitch} from {}", names.join(" or from ")),
            )
            .at(file.at)
            .hint(
                "hold a thread gauge of each against it and write the leaf that fits, gauge = 0.75, \
                 or measure over more turns",
            ),
        );
    }
    Some(PitchRead { pitch, others })
}

/// A leaf of a thread gauge that fits leaves no other pitch.
fn gauged<T>(
    gauge: Length,
    written: &Placed<T>,
    designation: &Placed<ThreadDesignation>,
    making: &mut Making,
) -> Option<PitchRead> {
    let pitch = designation.value.pitch();
    if (gauge - pitch).abs() > SAME {
        making.log.push(
            Diagnostic::error(
                "unit.gauge-disagrees",
                format!("a gauge of {gauge} does not fit a pitch of {pitch}"),
            )
            .at(written.at())
            .also(designation.at(), "called so here")
            .hint(format!("write {}, or the thread by the pitch that fits", pitch.as_mm())),
        );
        return None;
    }
    Some(PitchRead { pitch, others: Vec::new() })
}
