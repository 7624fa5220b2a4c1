//! Where words go: results to standard output, what is wrong to standard error.

use std::io::{IsTerminal, Write};

use super::Colour;
use super::outcome::Outcome;
use crate::diagnostic::{Diagnostic, Severity, Sources, Style, render, without_commands};
use crate::job::{Said, Stopped, Why};

/// The two streams, and how to write to them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Screen {
    quiet: bool,
    out: Style,
    err: Style,
}

impl Screen {
    pub fn new(quiet: bool, colour: Colour) -> Self {
        // NO_COLOR (no-color.org) and a pipe turn colour off, unless it is asked for.
        let wanted = std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty());
        let style = |terminal: bool| match colour {
            Colour::Always => Style::Coloured,
            Colour::Auto if terminal && wanted => Style::Coloured,
            Colour::Auto | Colour::Never => Style::Plain,
        };
        let (out, err) = (std::io::stdout().is_terminal(), std::io::stderr().is_terminal());
        Self { quiet, out: style(out), err: style(err) }
    }

    /// How to colour what is printed as a result.
    pub fn style(self) -> Style {
        self.out
    }

    /// Whether only what is wrong is printed.
    pub fn quiet(self) -> bool {
        self.quiet
    }

    /// Prints a result, unless quiet.
    pub fn say(self, text: &str) {
        if !self.quiet {
            print(&without_commands(text, self.out));
        }
    }

    /// Prints what is wrong.
    pub fn complain(self, code: &'static str, message: impl Into<String>) {
        self.diagnostics(&[Diagnostic::error(code, message)], &Sources::default());
    }

    /// Prints what a job has said: errors, and notes unless quiet.
    pub fn said(self, said: &[Said]) {
        for Said { diagnostics, sources } in said {
            let heard = |d: &&Diagnostic| !self.quiet || d.severity == Severity::Error;
            let heard: Vec<Diagnostic> = diagnostics.iter().filter(heard).cloned().collect();
            self.diagnostics(&heard, sources);
        }
    }

    /// Prints why a job stopped; gives how the command ended.
    pub fn stopped(self, stopped: &Stopped) -> Outcome {
        self.said(&stopped.said);
        match stopped.why {
            Why::Wrong => Outcome::Wrong,
            Why::NotMade => Outcome::Breaks,
            Why::Failed | Why::Cancelled => Outcome::Failed,
        }
    }

    /// Prints errors, and notes unless quiet, with their places.
    pub fn diagnostics(self, diagnostics: &[Diagnostic], sources: &Sources) {
        if diagnostics.is_empty() {
            return;
        }
        let text = render(diagnostics, sources, self.err);
        let _ = std::io::stderr().write_all((text + "\n").as_bytes());
    }
}

/// Prints what was asked for itself (JSON, a profile's text), quiet or not.
pub(super) fn print(text: &str) {
    // Who closes the pipe has read enough.
    let _ = std::io::stdout().write_all(text.as_bytes());
}
