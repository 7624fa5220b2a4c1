//! `compare`: two pens side by side, and whether both go into one barrel and cap.

mod json;
mod said;

use std::path::PathBuf;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::design::Library;
use crate::job::compare::{self, Compared, Request};

/// What is asked of [`compare`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, the name of a built-in one, or an archive
    a: String,
    /// The other, which is to match it
    b: String,
    /// Draw both over each other into this file, as SVG, or as PDF where it ends so; without it
    /// out/compare-A-B.svg
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// Says what two pens differ in, whether their sections can be exchanged, and what to change so
/// that they can.
pub(super) fn compare(library: &Library, typed: Typed, screen: Screen) -> Outcome {
    let Typed { a, b, picture, json } = typed;
    let progress = Progress::start(screen.quiet() || json);
    let compared = compare::compare(library, &Request { a, b, picture }, &progress);
    drop(progress);
    let Compared { comparison, picture } = match compared {
        Ok(compared) => compared,
        Err(stopped) => return screen.stopped(&stopped),
    };
    if json {
        print(&json::json(&comparison));
    } else {
        screen.say(&said::said(&comparison, &picture, screen.style()));
    }
    if comparison.interchange() { Outcome::Fine } else { Outcome::Breaks }
}
