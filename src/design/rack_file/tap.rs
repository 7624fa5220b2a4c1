//! A tap as people write it.

use crate::design::reader::{Placed, Reader};
use crate::design::value::{Distance, Positive, Size};
use crate::standard::ThreadDesignation;

/// A tap; what was not measured is left out.
#[derive(Clone, Debug)]
pub(in crate::design) struct RackTapFile {
    pub(in crate::design) thread: Placed<ThreadDesignation>,
    pub(in crate::design) major: Option<Placed<Size>>,
    pub(in crate::design) pitch_diameter: Option<Placed<Size>>,
    /// Of both diameters.
    pub(in crate::design) uncertainty: Option<Placed<Distance>>,
    /// In pitches.
    pub(in crate::design) lead: Option<Placed<Positive>>,
    pub(in crate::design) length: Option<Placed<Size>>,
}

pub(super) fn tap(reader: &mut Reader<'_>) -> RackTapFile {
    // A number that says how far off nothing may be is a slip.
    if reader.has("uncertainty") && !reader.has("major") && !reader.has("pitch_diameter") {
        reader.missing("pitch_diameter", "pitch_diameter = 7.54");
    }
    RackTapFile {
        thread: reader.need("thread", "thread = \"M8x0.75-6H\""),
        major: reader.maybe("major"),
        pitch_diameter: reader.maybe("pitch_diameter"),
        uncertainty: reader.maybe("uncertainty"),
        lead: reader.maybe("lead"),
        length: reader.maybe("length"),
    }
}
