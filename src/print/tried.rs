//! What a ladder said when it was tried, and what follows for the printer or for the thread.
//!
//! A rung that is said to have a flank clearance g binds: then what came out has none, so the printer
//! closes flanks by g more than its profile says, or by more than that. One that turns freely says
//! by how much less. The truth lies between the widest that bound and the narrowest that turned:
//!
//! ```text
//!   rung        1      2      3      4      5
//!   said     0.00   0.02   0.04   0.06   0.08
//!   tried   bound  bound   free          free
//!                     |--x--|  0.03 +/- 0.01
//! ```

use std::fmt;

use super::specimen::{Mated, Rung};
use crate::quantity::Length;
use crate::section::{Printer, Side, ThreadForm};

/// How a rung did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turned {
    /// It turned home by two fingers.
    Free,
    /// It bound, or did not enter.
    Bound,
}

/// A rung that was tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tried {
    /// Its number.
    pub rung: u8,
    /// How it did.
    pub turned: Turned,
}

/// What it was tried with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mate {
    /// The bought unit, or the barrel that was made: only the rung was printed.
    Real,
    /// A printed stand-in: both were.
    Printed,
}

/// What is wrong with what was said of a ladder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TriedError {
    /// Words that are no rung and how it did.
    Words(String),
    /// There is no such rung.
    NoRung {
        /// Its number.
        rung: u8,
        /// How many there are.
        rungs: usize,
    },
    /// A rung is said to have done both.
    Both {
        /// Its number.
        rung: u8,
    },
    /// A rung bound though a narrower one turned.
    Contradiction {
        /// The one that bound.
        bound: u8,
        /// The narrower one that turned.
        free: u8,
    },
    /// All that were tried turned freely.
    NoneBound {
        /// The narrowest that turned.
        free: u8,
    },
    /// All that were tried bound.
    NoneFree {
        /// The widest that bound.
        bound: u8,
    },
}

/// What a ladder found: how much more, per flank, it takes than was thought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// The widest rung that bound and the narrowest that turned.
    pub between: [u8; 2],
    /// Along the normals of the flanks, into the material; negative where less is enough.
    pub lacking: Length,
    /// It may be this much more or less.
    pub uncertainty: Length,
}

/// Reads `3=free,2=bound`.
///
/// # Errors
/// [`TriedError::Words`], of every word that can't be read.
pub fn read_tried(words: &str) -> Result<Vec<Tried>, Vec<TriedError>> {
    let (mut tried, mut wrong) = (Vec::new(), Vec::new());
    for word in words.split(',').map(str::trim) {
        let pair = word.split_once('=').map(|(rung, turned)| (rung.trim(), turned.trim()));
        let read = pair.and_then(|(rung, turned)| {
            let turned = match turned {
                "free" => Turned::Free,
                "bound" => Turned::Bound,
                _ => return None,
            };
            Some(Tried { rung: rung.parse().ok()?, turned })
        });
        match read {
            Some(read) => tried.push(read),
            None => wrong.push(TriedError::Words(word.to_owned())),
        }
    }
    if wrong.is_empty() { Ok(tried) } else { Err(wrong) }
}

/// What follows from a ladder's rungs.
///
/// # Errors
/// [`TriedError`], everything that does not go together.
pub fn found(rungs: &[Rung], tried: &[Tried]) -> Result<Found, Vec<TriedError>> {
    let mut wrong = Vec::new();
    let clearance = |number: u8| rungs.iter().find(|r| r.number == number).map(|r| r.clearance);
    for Tried { rung, .. } in tried {
        if clearance(*rung).is_none() {
            wrong.push(TriedError::NoRung { rung: *rung, rungs: rungs.len() });
        }
    }
    let of = |turned: Turned| -> Vec<u8> {
        let mut numbers: Vec<u8> =
            tried.iter().filter(|t| t.turned == turned).map(|t| t.rung).collect();
        numbers.sort_unstable();
        numbers.dedup();
        numbers
    };
    let (free, bound) = (of(Turned::Free), of(Turned::Bound));
    for rung in &bound {
        if free.contains(rung) {
            wrong.push(TriedError::Both { rung: *rung });
        } else if let Some(narrower) = free.iter().find(|free| *free < rung) {
            wrong.push(TriedError::Contradiction { bound: *rung, free: *narrower });
        }
    }
    match (bound.last(), free.first()) {
        (Some(b), Some(f)) if wrong.is_empty() => {
            if let (Some(low), Some(high)) = (clearance(*b), clearance(*f)) {
                let (lacking, uncertainty) = ((low + high) / 2.0, (high - low) / 2.0);
                return Ok(Found { between: [*b, *f], lacking, uncertainty });
            }
        }
        (Some(bound), None) => wrong.push(TriedError::NoneFree { bound: *bound }),
        (None, Some(free)) => wrong.push(TriedError::NoneBound { free: *free }),
        _ => {}
    }
    Err(wrong)
}

impl Found {
    /// The printer with what was lacking put into its flanks: `used` are those that the ladder was
    /// printed with, internal and external.
    pub fn printer(&self, printer: &Printer, used: [Length; 2], of: (Mated, Mate)) -> Printer {
        let [internal, external] = used;
        let half = self.lacking / 2.0;
        let [internal, external] = match of {
            (_, Mate::Printed) => [internal + half, external + half],
            (Mated::Unit, Mate::Real) => [internal + self.lacking, external],
            (Mated::Tenon, Mate::Real) => [internal, external + self.lacking],
        };
        Printer { internal_flank: internal, external_flank: external, ..printer.clone() }
    }

    /// A thread's pitch diameter and root with what was lacking cut off its flanks and its root.
    pub fn thread(&self, form: &ThreadForm, side: Side) -> [Length; 2] {
        let slope = form.half_angle.tan();
        let helix = form.lead() / (form.pitch_diameter * std::f64::consts::PI);
        let along = (1.0 + slope * slope + helix * helix).sqrt();
        let (on_pitch, on_root) = (self.lacking * (2.0 * along / slope), self.lacking * 2.0);
        match side {
            Side::Internal => [form.pitch_diameter + on_pitch, form.root + on_root],
            Side::External => [form.pitch_diameter - on_pitch, form.root - on_root],
        }
    }
}

impl TriedError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Words(_) => "print.tried",
            Self::NoRung { .. } => "print.no-rung",
            Self::Both { .. } | Self::Contradiction { .. } => "print.tried-contradiction",
            Self::NoneBound { .. } | Self::NoneFree { .. } => "print.tried-open",
        }
    }

    /// What would work.
    pub fn hint(&self) -> String {
        match self {
            Self::Words(_) => "--tried 3=free,2=bound".to_owned(),
            Self::NoRung { rungs, .. } => {
                format!("a rung's number is that of its grooves, 1 to {rungs}")
            }
            Self::Both { .. } | Self::Contradiction { .. } => {
                "look at the grooves again, clear chips and supports, and try both once more"
                    .to_owned()
            }
            Self::NoneBound { .. } => {
                "say which bound; if none did, print a ladder from lower on: --first -0.06"
                    .to_owned()
            }
            Self::NoneFree { .. } => {
                "say which turned; if none did, print a ladder from higher on: --first 0.08"
                    .to_owned()
            }
        }
    }
}

impl fmt::Display for TriedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Words(words) => write!(f, "`{words}` does not say how a rung did"),
            Self::NoRung { rung, rungs } => {
                write!(f, "there is no rung {rung}: the ladder has {rungs}")
            }
            Self::Both { rung } => {
                write!(f, "rung {rung} is said to have turned, and to have bound")
            }
            Self::Contradiction { bound, free } => write!(
                f,
                "rung {bound} is said to have bound, and rung {free}, which is narrower, to have turned"
            ),
            Self::NoneBound { free } => {
                write!(f, "no rung is said to have bound; rung {free} and wider ones turned")
            }
            Self::NoneFree { bound } => {
                write!(f, "no rung is said to have turned; rung {bound} and narrower ones bound")
            }
        }
    }
}

impl std::error::Error for TriedError {}

#[cfg(test)]
mod tests {
    use super::*;

    fn rungs() -> Vec<Rung> {
        let rung = |number: u8| {
            let clearance = Length::mm(0.02 * f64::from(number - 1));
            Rung { number, clearance, opened: clearance }
        };
        (1..=5).map(rung).collect()
    }

    fn tried(words: &str) -> Result<Found, Vec<&'static str>> {
        let codes = |wrong: Vec<TriedError>| wrong.iter().map(TriedError::code).collect();
        found(&rungs(), &read_tried(words).map_err(codes)?).map_err(codes)
    }

    /// By hand, as drawn above.
    #[test]
    fn the_truth_lies_between_bound_and_free() {
        let found = tried("3=free, 1=bound,2=bound,5=free").unwrap();
        assert_eq!(found.between, [2, 3]);
        assert!((found.lacking - Length::mm(0.03)).abs() < Length::mm(1e-12));
        assert!((found.uncertainty - Length::mm(0.01)).abs() < Length::mm(1e-12));
    }

    #[test]
    fn what_does_not_go_together_is_refused() {
        for (words, codes) in [
            ("3=free,4=bound", vec!["print.tried-contradiction"]),
            ("3=free,3=bound", vec!["print.tried-contradiction"]),
            ("1=bound,2=bound", vec!["print.tried-open"]),
            ("4=free", vec!["print.tried-open"]),
            ("7=free,8=bound", vec!["print.no-rung", "print.no-rung", "print.tried-contradiction"]),
            ("3=loose,x=free,", vec!["print.tried"; 3]),
        ] {
            assert_eq!(tried(words).unwrap_err(), codes, "{words}");
        }
    }

    /// Source: plane geometry: a flank at 30 degrees that goes back by a, square to itself, takes
    /// 2 a / sin 30 = 4 a off the pitch diameter; the helix adds 1 + (k / r)^2 / 2 cos^2 30.
    #[test]
    fn a_thread_is_opened_by_four_times_what_its_flanks_lack() {
        use crate::section::Flank;
        use crate::standard::designation::Hand;
        let mm = Length::mm;
        let form = ThreadForm {
            pitch: mm(0.55),
            starts: 1,
            hand: Hand::Right,
            half_angle: crate::quantity::Angle::deg(30.0),
            flank: Flank::Straight,
            crest: mm(7.45),
            pitch_diameter: mm(7.7),
            root: mm(8.05),
            crest_radius: Length::ZERO,
            root_radius: Length::ZERO,
        };
        let found = Found { between: [1, 2], lacking: mm(0.03), uncertainty: mm(0.01) };
        let [pitch, root] = found.thread(&form, Side::Internal);
        assert!((pitch - mm(7.82)).abs() < mm(1e-4), "{pitch:?}");
        assert_eq!(root, mm(8.05) + mm(0.06));
        let [pitch, _] = found.thread(&form, Side::External);
        assert!((pitch - mm(7.58)).abs() < mm(1e-4), "{pitch:?}");
    }
}
