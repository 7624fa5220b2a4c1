//! Why a job came to no end, and what is said on the way.

use super::watch::Cancelled;
use crate::diagnostic::{Diagnostic, Severity, Sources};

/// What is said of some files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// Errors and notes.
    pub diagnostics: Vec<Diagnostic>,
    /// The files that they point into.
    pub sources: Sources,
}

impl Said {
    /// What is said of a request: it points into no file.
    pub fn of_request(diagnostics: Vec<Diagnostic>) -> Self {
        Self { diagnostics, sources: Sources::default() }
    }

    /// One thing that is said of some files.
    pub fn one(diagnostic: Diagnostic, sources: &Sources) -> Self {
        Self { diagnostics: vec![diagnostic], sources: sources.clone() }
    }

    /// Leaves its errors alone: notes are for who makes a design.
    pub fn keep_errors(&mut self) {
        self.diagnostics.retain(|said| said.severity == Severity::Error);
    }
}

/// Why a job stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The request or one of its files is wrong.
    Wrong,
    /// The machine failed: disk, permission.
    Failed,
    /// What was kept can't be made any more.
    NotMade,
    /// Somebody stopped it.
    Cancelled,
}

/// A job that came to no end: nothing was written, and what was there is as it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stopped {
    /// Why.
    pub why: Why,
    /// Everything that is wrong, and notes, in the order in which it was found.
    pub said: Vec<Said>,
}

impl Stopped {
    /// By what is wrong with the request or its files.
    pub fn wrong(said: Vec<Said>) -> Self {
        Self { why: Why::Wrong, said }
    }

    /// The same, with what was said before it.
    #[must_use]
    pub fn after(mut self, said: &[Said]) -> Self {
        self.said.splice(0..0, said.iter().cloned());
        self
    }

    /// By one error about no file, for a reason.
    pub fn by(why: Why, mut said: Vec<Said>, error: Diagnostic) -> Self {
        said.push(Said::of_request(vec![error]));
        Self { why, said }
    }
}

impl From<Cancelled> for Stopped {
    fn from(_: Cancelled) -> Self {
        Self { why: Why::Cancelled, said: Vec::new() }
    }
}
