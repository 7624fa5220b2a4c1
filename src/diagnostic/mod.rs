//! What is said about a file: a stable code, the place, a second place, and a change that works.
//!
//! ```text
//!   error[key.unknown]: unknown key `lenght`
//!     --> pen.toml:8:1
//!      |
//!    8 | lenght = 20
//!      | ^^^^^^
//!      |
//!      = help: did you mean `length`?
//! ```
//! The only module that colours.

mod escape;
mod render;
mod source;
mod tone;

pub use escape::{escaped, without_commands};
pub use render::{Style, render};
pub use source::{Place, Source, SourceId, Sources};
pub use tone::{Tone, paint};

/// How much a diagnostic weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing can be made of the file until it is changed.
    Error,
    /// Worth knowing; nothing stops.
    Note,
}

/// A second place that has a part in it, and what it says there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Also {
    /// Where.
    pub at: Place,
    /// What is there.
    pub label: String,
}

/// One thing to say about what somebody wrote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// A stable code: `key.unknown`, `section.no-thread`.
    pub code: &'static str,
    /// Error or note.
    pub severity: Severity,
    /// What is the matter, in one sentence without a full stop.
    pub message: String,
    /// Where; none where there is no text to point at, such as a file that can't be read.
    pub at: Option<Place>,
    /// Further places that have a part in it.
    pub also: Vec<Also>,
    /// A change that works.
    pub hint: Option<String>,
}

impl Diagnostic {
    /// An error without place or hint.
    pub fn error(code: &'static str, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, message.into())
    }

    /// A note without place or hint.
    pub fn note(code: &'static str, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Note, message.into())
    }

    fn new(code: &'static str, severity: Severity, message: String) -> Self {
        Self { code, severity, message, at: None, also: Vec::new(), hint: None }
    }

    /// With its place.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.at = Some(place);
        self
    }

    /// With one more place.
    #[must_use]
    pub fn also(mut self, at: Place, label: impl Into<String>) -> Self {
        self.also.push(Also { at, label: label.into() });
        self
    }

    /// With a change that works.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}
