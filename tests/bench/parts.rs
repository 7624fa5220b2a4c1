//! What is measured: the reference part R1.

use std::path::Path;

use sectionwright::design::{Library, load};
use sectionwright::section::Section;

/// R1 from its file.
pub fn r1() -> Section {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/r1.toml");
    let found = load(&Library::new(vec![]), &file.to_string_lossy());
    found.unwrap_or_else(|_| panic!("{} has errors", file.display())).section
}
