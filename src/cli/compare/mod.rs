//! `compare`: two pens side by side, and whether both go into one barrel and cap.

mod found;
mod json;
mod said;

use std::path::{Path, PathBuf};

use super::either::design_or_archive;
use super::outcome::Outcome;
use super::picture;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::design::Library;
use crate::drawing::half_section::pair_sheet;
use found::Comparison;

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
pub(super) fn compare(library: &Library, typed: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet() || typed.json);
    progress.step("reading the designs");
    let alone = screen.without_notes();
    let [a, b] = [&typed.a, &typed.b].map(|typed| design_or_archive(library, typed, alone));
    let (Some(a), Some(b)) = (a, b) else { return Outcome::Wrong };
    progress.step("putting each into the other's barrel and cap");
    let comparison = match Comparison::new(a.section, b.section) {
        Ok(comparison) => comparison,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    progress.step("drawing");
    let [first, second] = comparison.sections();
    let path = typed.picture.clone().unwrap_or_else(|| {
        Path::new("out").join(format!("compare-{}-{}.svg", first.name, second.name))
    });
    if let Some(folder) = path.parent().filter(|_| typed.picture.is_none())
        && let Err(error) = std::fs::create_dir_all(folder)
    {
        screen.complain("archive.not-written", format!("{}: {error}", folder.display()));
        return Outcome::Failed;
    }
    let sheet = pair_sheet([first, second], &comparison.rows());
    if let Some(outcome) = picture::draw(&path, &sheet, screen) {
        return outcome;
    }
    drop(progress);
    if typed.json {
        print(&json::json(&comparison));
    } else {
        screen.say(&said::said(&comparison, &path, screen.style()));
    }
    if comparison.interchange() { Outcome::Fine } else { Outcome::Breaks }
}
