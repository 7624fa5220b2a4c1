//! `keep`: what goes into an archive, where it goes, and what is refused.

use super::*;

#[test]
fn everything_is_kept() {
    let home = tempfile::tempdir().unwrap();
    fs::write(home.path().join("nib.jpg"), [0xff, 0xd8, 0xff]).unwrap();
    let more = ["--note", "for R.", "--note", "paid", "--photo", "nib.jpg", "--date", "2031-05-01"];
    let arguments = [&["keep", "demo", "--shelf", "shelf", "--chord", "0.05"][..], &more].concat();
    let kept = run(home.path(), &arguments);
    assert_eq!(status(&kept), 0, "{}", err(&kept));
    assert!(out(&kept).contains("Kept:") && out(&kept).contains("no approval"));
    let files = names(&home.path().join("shelf"));
    assert_eq!(files.len(), 1, "{files:?}");
    let archive = open(&home.path().join("shelf").join(&files[0]));
    assert!(archive.is_called(&files[0]));
    assert_eq!(archive.notes(), ["for R.", "paid"]);
    assert_eq!(archive.files["photos/nib.jpg"], [0xff, 0xd8, 0xff]);
    assert_eq!(archive.manifest.summary.date.as_deref(), Some("2031-05-01"));
    let exports: Vec<&str> = archive.exports().map(|(name, _)| name).collect();
    let made = ["section.stl", "section.step", "drawing.pdf", "sheet.pdf", "report.json"];
    assert!(made.iter().all(|name| exports.contains(name)), "{exports:?}");
    let text = include_str!("../../profiles/units/demo-unit.toml");
    assert_eq!(archive.files["written/2-demo-unit.toml"], text.as_bytes());
    // The same once more is the same to the byte, and stays.
    let again = run(home.path(), &arguments);
    assert_eq!(status(&again), 0, "{}", err(&again));
    assert!(out(&again).contains("Kept already"));
    assert_eq!(names(&home.path().join("shelf")), files);
}

/// The place of a design on a disk, and the folder it is kept from, are not in the archive.
#[test]
fn an_archive_is_the_same_wherever_its_design_lies() {
    let archive = |folder: &str| {
        let home = tempfile::tempdir().unwrap();
        let place = home.path().join(folder);
        fs::create_dir_all(&place).unwrap();
        for name in ["r1.toml", "r1-unit.toml"] {
            fs::copy(fixture(name), place.join(name)).unwrap();
        }
        let design = place.join("r1.toml");
        let path = keep(home.path(), design.to_str().unwrap(), &[]);
        let bytes = fs::read(&path).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        assert!(!text.contains(home.path().to_str().unwrap()), "no place on this machine");
        (path.file_name().unwrap().to_owned(), bytes)
    };
    assert!(archive("a") == archive("another/place"));
}

#[test]
fn the_shelf_is_where_the_environment_says_or_in_the_data_folder() {
    let home = tempfile::tempdir().unwrap();
    let arguments = ["keep", &fixture("r1.toml"), "--only", "report", "--quiet"];
    assert!(status(&run(home.path(), &arguments)) < 2);
    assert_eq!(names(&home.path().join("data/sectionwright/kept")).len(), 1);
    let named = program(home.path(), &arguments).env("SECTIONWRIGHT_SHELF", "mine").output();
    assert!(status(&named.unwrap()) < 2);
    assert_eq!(names(&home.path().join("mine")).len(), 1);
}

#[test]
fn what_was_cut_otherwise_is_kept() {
    let home = tempfile::tempdir().unwrap();
    let archive = open(&keep(home.path(), "demo", &["--set", "bores.clearance.depth=4.35"]));
    let measured: serde_json::Value =
        serde_json::from_slice(&archive.files["as-made.json"]).unwrap();
    assert_eq!(measured["set"][0]["made_mm"], 4.35);
    assert_eq!(archive.manifest.asked.set, ["bores.clearance.depth=4.35"]);
    assert!(!open(&keep(home.path(), "demo", &[])).files.contains_key("as-made.json"));
}

/// Everything that is wrong is said at once, and nothing is written.
#[test]
fn wrong_input_leaves_nothing() {
    let home = tempfile::tempdir().unwrap();
    let wrong = run(
        home.path(),
        &[
            "keep",
            "demo",
            "--shelf",
            "shelf",
            "--note",
            " ",
            "--photo",
            "gone.jpg",
            "--date",
            "2031-02-29",
            "--chord",
            "9",
        ],
    );
    assert_eq!(status(&wrong), 2);
    for code in ["keep.note", "keep.photo", "keep.date", "mesh.chord"] {
        assert!(err(&wrong).contains(code), "{code}\n{}", err(&wrong));
    }
    let size = run(home.path(), &["keep", "demo", "--shelf", "shelf", "--set", "nothing.depth=1"]);
    assert_eq!(status(&size), 2);
    assert!(err(&size).contains("made.unknown"), "{}", err(&size));
    assert!(names(home.path()).is_empty(), "{:?}", names(home.path()));
    run(home.path(), &["make", "--only", "report", "--quiet"]);
    let output = run(home.path(), &["keep", "demo", "--shelf", "out/demo"]);
    assert_eq!(status(&output), 2);
    assert!(err(&output).contains("keep.output"));
    assert_eq!(names(&home.path().join("out/demo")), [".made-by", "report.json"]);
}
