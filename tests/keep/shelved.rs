//! `shelf`: what is kept, found again.

use super::*;

#[test]
fn what_is_kept_is_found() {
    let home = tempfile::tempdir().unwrap();
    keep(home.path(), "demo", &["--date", "2031-05-01"]);
    keep(home.path(), "demo-second", &["--date", "2032-01-31"]);
    keep(home.path(), &fixture("r1.toml"), &[]);
    let shelf = home.path().join("shelf");
    fs::write(shelf.join("broken.zip"), "x").unwrap();
    let found = |filter: &[&str]| {
        let listed = run(home.path(), &[&["shelf", "shelf", "--json"], filter].concat());
        let told = json(&listed);
        let archives = told["archives"].as_array().unwrap();
        let sound = archives.iter().filter(|it| it["state"] == "sound");
        let mut names: Vec<String> =
            sound.map(|it| it["name"].as_str().unwrap().to_owned()).collect();
        names.sort();
        assert_eq!(
            archives.len(),
            names.len() + 1,
            "the broken one is told whatever is looked for"
        );
        names
    };
    assert_eq!(found(&[]), ["R1", "demo", "demo-second"]);
    assert_eq!(found(&["--unit", "demo unit"]), ["demo", "demo-second"]);
    assert_eq!(found(&["--tenon", "M10x0.75"]), ["R1", "demo", "demo-second"]);
    assert_eq!(found(&["--thread", "M7.9x0.6"]), ["demo"]);
    assert_eq!(found(&["--date", "2031"]), ["demo"]);
    assert_eq!(found(&["--grip", "21"]), ["R1"]);
    // The second's shoulder stands over the demo's barrel; R1's is too thin for it.
    assert_eq!(found(&["--fits", "demo"]), ["demo"]);
    let listed = run(home.path(), &["shelf", "shelf"]);
    assert_eq!(status(&listed), 1, "something is damaged");
    let table = out(&listed);
    assert!(
        table.contains("Demo unit, second") && table.contains("damaged  broken.zip"),
        "{table}"
    );
    assert!(table.contains("4 of 4 in shelf"), "{table}");
    fs::remove_file(shelf.join("broken.zip")).unwrap();
    assert_eq!(status(&run(home.path(), &["shelf", "shelf", "--verify"])), 0);
}

/// Every mistake at once; a shelf that is not there yet is an empty one.
#[test]
fn wrong_words_are_said() {
    let home = tempfile::tempdir().unwrap();
    let wrong = run(home.path(), &["shelf", "gone", "--tenon", "M", "--verdict", "fine"]);
    assert_eq!(status(&wrong), 2);
    for code in ["shelf.folder", "shelf.thread", "shelf.verdict"] {
        assert!(err(&wrong).contains(code), "{}", err(&wrong));
    }
    let empty = run(home.path(), &["shelf"]);
    assert_eq!(status(&empty), 0, "{}", err(&empty));
    assert!(out(&empty).starts_with("0 of 0 in"));
    let barrel = run(home.path(), &["shelf", "--fits", "nothing"]);
    assert_eq!(status(&barrel), 2);
    assert!(err(&barrel).contains("profile.missing"));
}
