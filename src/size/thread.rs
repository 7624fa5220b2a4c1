//! A thread that is cut deeper, wider or on another rod, with its limits.

use crate::quantity::{Length, Limits};
use crate::section::Thread;

/// An internal thread cut by a tap that is larger by so much, with its limits.
pub(crate) fn open(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.pitch_diameter += by;
    thread.form.root += by;
    thread.limits.pitch = moved(thread.limits.pitch, by)?;
    thread.limits.major = moved(thread.limits.major, by)?;
    Some(())
}

/// An internal thread's crest, which is the hole's diameter, with its limits.
pub(crate) fn move_crest(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.crest += by;
    thread.limits.minor = moved(thread.limits.minor, by)?;
    Some(())
}

/// An external thread cut less deep by so much, with its limits; the rod stays.
pub(super) fn swell(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.pitch_diameter += by;
    thread.form.root += by;
    thread.limits.pitch = moved(thread.limits.pitch, by)?;
    thread.limits.minor = moved(thread.limits.minor, by)?;
    Some(())
}

/// An external thread's crest, which is the rod's diameter, with its limits.
pub(super) fn move_rod(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.crest += by;
    thread.limits.major = moved(thread.limits.major, by)?;
    Some(())
}

pub(super) fn moved(limits: Limits, by: Length) -> Option<Limits> {
    Limits::new(limits.min() + by, limits.max() + by)
}
