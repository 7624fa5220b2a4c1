//! Wrong keys, values and steps: all at once, each with its code and its place.

use sectionwright::design::{Library, Made, MadeSize, load};
use sectionwright::quantity::Length;
use sectionwright::shop::as_made::read;

use super::section;

fn said(key: &str) -> MadeSize {
    MadeSize { key: key.to_owned(), value: Length::mm(4.3), at: None }
}

#[test]
fn every_wrong_word_is_said_with_one_that_works() {
    let demo = section("demo");
    let keys =
        ["bores.clearance.dpeth", "barrel.depth", "bores.recess.depth", "bores.recess.depth", "x"];
    let sizes = keys.map(said).to_vec();
    let made = Made { sizes, after: Some(("taped".to_owned(), None)) };
    let wrong = read(&demo, &made).unwrap_err();
    let codes: Vec<_> = wrong.iter().map(|d| d.code).collect();
    let (key, twice, step) = ("made.unknown-key", "made.twice", "made.unknown-step");
    assert_eq!(codes, [key, key, twice, key, step]);
    let hint = |n: usize| wrong[n].hint.clone().unwrap();
    assert!(hint(0).contains("`bores.clearance.depth`") && hint(0).contains("grip.length"));
    assert!(hint(4).contains("`tapped`") && hint(4).contains("outside-turned"));
    let nothing = read(&demo, &Made::default()).unwrap_err();
    assert_eq!(nothing[0].code, "made.nothing");
}

#[test]
fn a_table_in_the_design_has_its_places_and_changes_no_section() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("pen.toml");
    let text = "format = 1\nlike = \"demo\"\n[made]\nbores.clearance.depth = 4.6\n\
                recess = { depth = \"0.05 in\" }\nno.such = 3\nafter = \"tapped\"\n";
    std::fs::write(&path, text).unwrap();
    let resolved = load(&Library::default(), path.to_str().unwrap()).unwrap();
    assert_eq!(resolved.section, section("demo"));
    let wrong = read(&resolved.section, &resolved.made).unwrap_err();
    let at = wrong[0].at.unwrap();
    assert_eq!((wrong.len(), wrong[0].code), (1, "made.unknown-key"));
    assert_eq!(&text[at.start..at.end], "3");
    let mut made = resolved.made.clone();
    made.sizes.retain(|size| size.key != "no.such");
    let said = read(&resolved.section, &made).unwrap();
    let sizes: Vec<_> = said.sizes.iter().map(|size| size.made).collect();
    assert_eq!(sizes, [Length::inch(0.05), Length::mm(4.6)], "in the order of the part");
    assert_eq!(said.after.map(|step| step.to_string()), Some("unit thread tapped".to_owned()));
}
