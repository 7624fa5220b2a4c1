//! Files that people get wrong, and what is said of them; every shipped profile is sound.

use sectionwright::design::{Library, load};

#[test]
fn the_reference_part_resolves() {
    let resolved = load(&Library::default(), "tests/fixtures/r1.toml").expect("R1 is sound");
    assert_eq!(resolved.section.length().as_mm(), 32.0);
}
