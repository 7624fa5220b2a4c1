//! A tap, as it lies in the rack.

use std::fmt;

use crate::quantity::{Length, Limits};
use crate::standard::ThreadDesignation;

/// How many pitches the chamfered end of a tap is long. Ranges of 7 to 10, 3 to 5 and 1 to 2 are
/// from memory, no source; a rack says its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapLead {
    /// So many pitches.
    Pitches(f64),
    /// Nobody said.
    Unknown,
}

/// A tap.
#[derive(Clone, Debug, PartialEq)]
pub struct Tap {
    /// Its thread, as it is marked.
    pub thread: ThreadDesignation,
    /// Its own major diameter, where somebody measured it.
    pub major: Option<Limits>,
    /// Its own pitch diameter, where somebody measured it.
    pub pitch_diameter: Option<Limits>,
    /// Its lead.
    pub lead: TapLead,
    /// From its tip to the end of its thread, where that is known.
    pub length: Option<Length>,
}

/// As people say it: `tap M8x0.75-6H`.
impl fmt::Display for Tap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "tap {}", self.thread)
    }
}
