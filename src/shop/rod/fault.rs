//! What is wrong with what is asked of a rod.

use std::fmt;

use super::lay::most_sets;
use super::remedy;
use super::request::{DEFAULT_HOLDING, DEFAULT_SQUARING, RodRequest};
use crate::quantity::Length;

/// The longest rod that is planned, in mm: the usual trade length of plastic rod is 1 or 2 m
/// (common practice, no source). Longer ones would be drawn too small to read.
const LONGEST: f64 = 3000.0;
/// The thickest rod, in mm. No pen is as thick; larger values are slips of the decimal point.
const THICKEST: f64 = 100.0;
/// The widest cut, in mm, wider than any parting tool for such rods; more is a slip.
const WIDEST_CUT: f64 = 10.0;
/// The most that is squared off an end, in mm; more is a slip.
const MOST_SQUARED: f64 = 20.0;
/// The most that is held, in mm; more is a slip.
const MOST_HELD: f64 = 500.0;
/// The most pieces in a set, and the most spares: the letters that designs are called by.
const MOST_IN_SET: usize = 26;
/// The most pieces of a rod. More, and no sheet holds their table in letters that can be read.
const MOST_PIECES: usize = 200;

/// Why a rod can't be planned.
#[derive(Clone, Debug, PartialEq)]
pub enum RodError {
    /// A length that no rod, cut or allowance has.
    Value {
        /// A stable code.
        code: &'static str,
        /// What it is the length of.
        what: &'static str,
        /// As it was given.
        value: Length,
        /// From 0, or above it where nothing makes no sense, to this.
        most: Length,
        /// A value that works, as it is typed.
        works: String,
    },
    /// No design, or more than a sheet has letters for.
    Designs(usize),
    /// No set at all is asked for.
    NoSets,
    /// More spares than anybody makes.
    Spares(u32),
    /// More pieces than can be drawn.
    TooMany {
        /// How many the rod gives.
        pieces: usize,
        /// So many sets can be drawn.
        sets: usize,
    },
    /// The rod is thinner than a design's blank.
    TooThin {
        /// The design.
        name: String,
        /// How thick its blank is.
        needs: Length,
        /// How thick the rod is.
        rod: Length,
        /// How thick a rod must be for all designs.
        works: Length,
    },
    /// The rod does not give the sets.
    TooShort {
        /// How many sets are asked for.
        sets: usize,
        /// How much longer it would have to be.
        missing: Length,
        /// The design of the longest piece.
        longest: String,
        /// Designs of which it does not give a piece.
        alone: Vec<String>,
        /// What would do, each planned before it is said.
        works: Vec<String>,
    },
}

impl RodError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Value { code, .. } => code,
            Self::Designs(_) => "rod.designs",
            Self::NoSets => "rod.no-sets",
            Self::Spares(_) => "rod.spares",
            Self::TooMany { .. } => "rod.too-many",
            Self::TooThin { .. } => "rod.too-thin",
            Self::TooShort { .. } => "rod.too-short",
        }
    }

    /// The design that asks for more than the rod has; none where the fault is what is asked of the
    /// rod itself.
    pub fn design(&self) -> Option<&str> {
        match self {
            Self::TooThin { name, .. } => Some(name),
            Self::TooShort { longest, .. } => Some(longest),
            _ => None,
        }
    }

    /// What works.
    pub fn hint(&self) -> String {
        match self {
            Self::Value { works, .. } => works.clone(),
            Self::Designs(_) => "name one design, or two for a matched pair".to_owned(),
            Self::NoSets => "--sets 1, or leave it out for as many as the rod gives".to_owned(),
            Self::Spares(_) => format!("--spare {MOST_IN_SET} at most"),
            Self::TooMany { sets, .. } => format!("--sets {sets}"),
            Self::TooThin { works, .. } => format!("a rod of {works} does for all designs"),
            Self::TooShort { works, .. } => works.join("; or "),
        }
    }
}

impl fmt::Display for RodError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Value { code: "rod.no-kerf", value, .. } => {
                write!(f, "a cut of {value} takes nothing: every saw and parting tool takes some")
            }
            Self::Value { what, value, most, .. } => {
                write!(f, "{what} can't be {value}; it is at most {most}, and never negative")
            }
            Self::Designs(0) => write!(f, "no design is named"),
            Self::Designs(count) => {
                write!(f, "a set of {count} pieces is more than the {MOST_IN_SET} that are planned")
            }
            Self::NoSets => write!(f, "no set is asked for"),
            Self::Spares(count) => {
                write!(f, "{count} spares are more than the {MOST_IN_SET} that are planned")
            }
            Self::TooMany { pieces, .. } => {
                write!(f, "{pieces} pieces are more than the {MOST_PIECES} that can be drawn")
            }
            Self::TooThin { name, needs, rod, .. } => {
                write!(f, "the rod is {rod} thick; {name} needs {needs}")
            }
            Self::TooShort { sets, missing, alone, .. } => {
                let what = if *sets == 1 { "one set".to_owned() } else { format!("{sets} sets") };
                write!(f, "the rod is {missing} too short for {what}")?;
                if !alone.is_empty() {
                    write!(f, "; it does not even give the piece of {}", alone.join(", "))?;
                }
                Ok(())
            }
        }
    }
}

impl std::error::Error for RodError {}

/// Everything that is wrong with a request; what can't be told while values are wrong is not said.
pub(super) fn faults(request: &RodRequest) -> Vec<RodError> {
    let mut found = values(request);
    let in_set: usize = request.designs.iter().map(|wanted| wanted.count as usize).sum();
    if in_set == 0 || in_set > MOST_IN_SET {
        found.push(RodError::Designs(in_set));
    }
    if request.sets == Some(0) {
        found.push(RodError::NoSets);
    }
    if request.spares as usize > MOST_IN_SET {
        found.push(RodError::Spares(request.spares));
    }
    let sound = found.is_empty();
    let works = request.least_diameter();
    for wanted in &request.designs {
        if let Some(rod) = request.diameter.filter(|rod| rod.is_finite() && *rod < wanted.diameter)
        {
            let (name, needs) = (wanted.name.clone(), wanted.diameter);
            found.push(RodError::TooThin { name, needs, rod, works });
        }
    }
    if sound {
        found.extend(number(request, in_set));
    }
    found
}

/// Whether the rod gives the sets, and no more than can be drawn.
fn number(request: &RodRequest, in_set: usize) -> Option<RodError> {
    let sets = most_sets(request);
    let asked = request.sets.map_or(1, |sets| sets as usize);
    let spares = request.spares as usize;
    if sets.max(asked) * in_set + spares > MOST_PIECES {
        let pieces = sets.max(asked) * in_set + spares;
        return Some(RodError::TooMany {
            pieces,
            sets: ((MOST_PIECES - spares) / in_set).min(sets),
        });
    }
    (sets < asked).then(|| remedy::too_short(request, asked, sets))
}

/// Lengths that are none.
fn values(request: &RodRequest) -> Vec<RodError> {
    let usual = |option: &str, value: Length| format!("--{option} {}", value.as_mm());
    let kerf = "--kerf 2 for most saws: measure a cut of yours";
    let no_kerf = request.kerf == Length::ZERO;
    let kerf_code = if no_kerf { "rod.no-kerf" } else { "rod.kerf" };
    let thick = request.least_diameter().max(Length::mm(1.0));
    let thickness = request.diameter.unwrap_or(thick);
    // Code, what, value, whether nothing will do, the most, what works.
    let values = [
        ("rod.length", "a rod's length", request.length, false, LONGEST, "--length 230".to_owned()),
        ("rod.diameter", "a rod's diameter", thickness, false, THICKEST, usual("diameter", thick)),
        (kerf_code, "a cut", request.kerf, false, WIDEST_CUT, kerf.to_owned()),
        (
            "rod.squaring",
            "what is squared off an end",
            request.squaring,
            true,
            MOST_SQUARED,
            usual("squaring", DEFAULT_SQUARING),
        ),
        (
            "rod.holding",
            "what is held",
            request.holding,
            true,
            MOST_HELD,
            usual("holding", DEFAULT_HOLDING) + ", or --holding 0 for pieces sawn by hand",
        ),
    ];
    let wrong = values.into_iter().filter_map(|(code, what, value, none_will_do, most, works)| {
        let mm = value.as_mm();
        let good = mm > 0.0 || (none_will_do && mm == 0.0);
        let most = Length::mm(most);
        // Not a number is neither.
        (!good || mm > most.as_mm()).then_some(RodError::Value { code, what, value, most, works })
    });
    wrong.collect()
}

#[cfg(test)]
mod tests {
    use super::super::plan;
    use super::super::request::tests::rod;
    use super::*;

    fn codes(request: &RodRequest) -> Vec<&'static str> {
        plan(request).unwrap_err().iter().map(RodError::code).collect()
    }

    #[test]
    fn values_are_held_to_what_there_is() {
        for value in [-1.0, f64::NAN, f64::INFINITY, 1e9] {
            let value = Length::mm(value);
            let all = RodRequest {
                length: value,
                diameter: Some(value),
                kerf: value,
                squaring: value,
                holding: value,
                sets: Some(0),
                spares: 1000,
                ..rod(&[30.0], 230.0)
            };
            let mut expected = vec![
                "rod.length",
                "rod.diameter",
                "rod.kerf",
                "rod.squaring",
                "rod.holding",
                "rod.no-sets",
                "rod.spares",
            ];
            if value.as_mm() == -1.0 {
                expected.push("rod.too-thin");
            }
            assert_eq!(codes(&all), expected, "{value}");
        }
        let none = RodRequest { kerf: Length::ZERO, ..rod(&[30.0], 230.0) };
        assert_eq!(codes(&none), ["rod.no-kerf"]);
        assert_eq!(codes(&rod(&[], 230.0)), ["rod.designs"]);
    }

    #[test]
    fn thin_and_short_are_said_at_once_with_what_works() {
        let bad = RodRequest { diameter: Some(Length::mm(12.0)), ..rod(&[30.0, 20.0], 60.0) };
        let errors = plan(&bad).unwrap_err();
        assert_eq!(codes(&bad), ["rod.too-thin", "rod.too-thin", "rod.too-short"]);
        assert_eq!(errors[0].to_string(), "the rod is 12 mm thick; a needs 13 mm");
        let thick = RodRequest { diameter: Some(Length::mm(13.0)), ..bad };
        assert_eq!(codes(&thick), ["rod.too-short"]);
    }

    #[test]
    fn more_pieces_than_can_be_drawn_are_refused() {
        let many = rod(&[1.0], 3000.0);
        assert_eq!(codes(&many), ["rod.too-many"]);
        let hint = plan(&many).unwrap_err()[0].hint();
        assert_eq!(hint, "--sets 199");
        assert!(plan(&RodRequest { sets: Some(199), ..many }).is_ok());
    }
}
