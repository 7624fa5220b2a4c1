//! As made: single mistakes, measured against a fresh check of the same geometry, and every advised
//! rescue carried out.

mod common;
#[path = "as_made/bad_input.rs"]
mod bad_input;
#[path = "as_made/command.rs"]
mod command;
#[path = "as_made/mistakes.rs"]
mod mistakes;
#[path = "as_made/stories.rs"]
mod stories;
#[path = "as_made/written.rs"]
mod written;

use sectionwright::design::{Library, load};
use sectionwright::quantity::Length;
use sectionwright::scene::Scene;
use sectionwright::section::{Section, Stage};
use sectionwright::shop::as_made::{AsMade, MadeSize, Said, as_made};
use sectionwright::size::SizeId;

/// A design of the fixtures, or a built-in one.
fn section(path: &str) -> Section {
    load(&Library::default(), path).unwrap().section
}

/// The same as made, with one size as it was cut.
fn made_with(drawn: &Section, parameter: SizeId, to: f64, after: Option<Stage>) -> AsMade {
    let written = Length::mm(parameter.as_written(drawn, to));
    let sizes = vec![MadeSize::of(drawn, parameter, written)];
    as_made(&Scene::of(drawn).unwrap(), &Said { sizes, after })
}

/// As [`made_with`], the size by its key.
fn made(drawn: &Section, key: &str, to: f64) -> AsMade {
    made_with(drawn, SizeId::read(key, drawn).unwrap(), to, None)
}
