//! `recall`: an archive verified and made again.

use sectionwright::archive::kept::Contents;
use sectionwright::export::{File, KeptFact};

use super::*;

#[test]
fn nothing_differs_with_the_program_that_kept_it() {
    let home = tempfile::tempdir().unwrap();
    let more = ["--limit", "walls.lip=0.35", "--part", "section,unit", "--chord", "0.1"];
    let arguments =
        [&["keep", "demo", "--quiet", "--shelf", "shelf", "--only", "stl,svg"], &more[..]];
    assert_eq!(status(&run(home.path(), &arguments.concat())), 0);
    let path = home.path().join("shelf").join(&names(&home.path().join("shelf"))[0]);
    let recalled = run(home.path(), &["recall", path.to_str().unwrap()]);
    assert_eq!(status(&recalled), 0, "{}", err(&recalled));
    assert!(out(&recalled).contains("nothing differs"), "{}", out(&recalled));
    assert!(err(&recalled).is_empty(), "{}", err(&recalled));
}

/// The profiles in the archive are used, not those at hand.
#[test]
fn profiles_at_hand_do_not_matter() {
    let home = tempfile::tempdir().unwrap();
    let units = home.path().join("mine/units");
    fs::create_dir_all(&units).unwrap();
    let unit = |collar: &str| {
        let text = format!("format = 1\nlike = \"demo-unit\"\n[collar]\ndiameter = {collar}\n");
        fs::write(units.join("demo-unit.toml"), text).unwrap();
    };
    unit("8.7");
    let archive = keep(home.path(), "demo", &["--profiles", "mine"]);
    unit("8.9");
    let recall = ["recall", archive.to_str().unwrap(), "--json", "--profiles", "mine"];
    let told = json(&run(home.path(), &recall));
    assert_eq!(told["geometry"].as_array().unwrap().len(), 0, "{told}");
}

/// An archive whose record says another depth: as if a later program had resolved it otherwise.
#[test]
fn a_size_that_differs_is_named_with_how_much() {
    let home = tempfile::tempdir().unwrap();
    let archive = open(&keep(home.path(), "demo", &[]));
    let mut record = archive.record().unwrap();
    let depth = "depth of the collar recess";
    let name = "bores.recess.depth";
    let fact = record.facts.iter_mut().find(|fact| fact.name == name).unwrap();
    *fact.number.as_mut().unwrap() += 0.05;
    record.verdicts[0].verdict = "holds".to_owned();
    let contents = Contents {
        written: archive.written(),
        record,
        exports: archive.exports().map(|(name, bytes)| File::new(name, bytes)).collect(),
        as_made: None,
        notes: Vec::new(),
        photos: Vec::new(),
    };
    let manifest = archive.manifest;
    let file = Kept::pack(manifest.asked, manifest.summary, contents).unwrap();
    fs::write(home.path().join(&file.name), &file.bytes).unwrap();
    let recalled = run(home.path(), &["recall", &file.name]);
    assert_eq!(status(&recalled), 1);
    let said = out(&recalled);
    assert!(said.contains("the geometry differs") && said.contains(depth), "{said}");
    assert!(said.contains("(-0.050000 mm)"), "{said}");
    let told = json(&run(home.path(), &["recall", &file.name, "--json"]));
    assert_eq!(told["geometry"][0]["what"], depth);
    assert_eq!(told["geometry"][0]["name"], name);
    assert_eq!(told["worse"], true, "the lip was said to hold and is close");
}

/// A byte of an export that is otherwise, and no geometry: no failure.
#[test]
fn bytes_alone_are_told() {
    let home = tempfile::tempdir().unwrap();
    let archive = open(&keep(home.path(), "demo", &[]));
    let contents = Contents {
        written: archive.written(),
        record: archive.record().unwrap(),
        exports: vec![File::new("report.json", "{}\n")],
        as_made: None,
        notes: Vec::new(),
        photos: Vec::new(),
    };
    let file = Kept::pack(archive.manifest.asked, archive.manifest.summary, contents).unwrap();
    fs::write(home.path().join(&file.name), &file.bytes).unwrap();
    let recalled = run(home.path(), &["recall", &file.name]);
    assert_eq!(status(&recalled), 0, "{}", err(&recalled));
    assert!(out(&recalled).contains("Files that differ: report.json"), "{}", out(&recalled));
}

#[test]
fn an_archive_is_unpacked_into_a_new_folder_only() {
    let home = tempfile::tempdir().unwrap();
    let archive = keep(home.path(), "demo", &["--note", "for R."]);
    let archive = archive.to_str().unwrap();
    let recall = ["recall", archive, "--to", "back/demo", "--quiet"];
    assert_eq!(status(&run(home.path(), &recall)), 0);
    let back = home.path().join("back/demo");
    let expected =
        ["exports", "manifest.json", "notes", "section.json", "written"].map(str::to_owned);
    assert_eq!(names(&back), expected);
    assert_eq!(fs::read_to_string(back.join("notes/1.txt")).unwrap(), "for R.");
    let again = run(home.path(), &recall);
    assert_eq!(status(&again), 2);
    assert!(err(&again).contains("archive.taken"), "{}", err(&again));
    assert_eq!(names(&home.path().join("back")), ["demo"]);
    // What was unpacked can be made: the design asks for its files by their names then.
    assert!(back.join("written/1-demo.toml").is_file());
}

/// As if a later version called everything something else: words are for people alone.
#[test]
fn other_words_are_no_difference() {
    let home = tempfile::tempdir().unwrap();
    let archive = open(&keep(home.path(), &fixture("capped.toml"), &[]));
    let mut record = archive.record().unwrap();
    for (n, fact) in record.facts.iter_mut().enumerate() {
        fact.what = format!("what was once called {n}");
    }
    for verdict in &mut record.verdicts {
        verdict.title = "what was once judged".to_owned();
    }
    let contents = Contents {
        written: archive.written(),
        record,
        exports: archive.exports().map(|(name, bytes)| File::new(name, bytes)).collect(),
        as_made: None,
        notes: Vec::new(),
        photos: Vec::new(),
    };
    let file = Kept::pack(archive.manifest.asked, archive.manifest.summary, contents).unwrap();
    fs::write(home.path().join(&file.name), &file.bytes).unwrap();
    let recalled = run(home.path(), &["recall", &file.name]);
    assert_eq!(status(&recalled), 0, "{}", err(&recalled));
    assert!(out(&recalled).contains("nothing differs"), "{}", out(&recalled));
}

/// The archives of version 0.1.0 that are in git, one of each format that there was; a later version
/// has to find the same geometry.
#[test]
fn archives_of_every_format_are_recalled() {
    let folder = fixture("archives");
    let mut formats = Vec::new();
    for name in names(Path::new(&folder)) {
        let home = tempfile::tempdir().unwrap();
        let path = format!("{folder}/{name}");
        let recalled = run(home.path(), &["recall", &path, "--json"]);
        assert_eq!(status(&recalled), 0, "{name}: {}", err(&recalled));
        let told = json(&recalled);
        assert_eq!(told["tool_then"], "0.1.0");
        assert_eq!(told["geometry"].as_array().unwrap().len(), 0, "{told}");
        assert_eq!(told["verdicts"].as_array().unwrap().len(), 0, "{told}");
        let kept = open(Path::new(&path));
        assert!(kept.is_called(&name));
        let words = |fact: &&KeptFact| fact.name.contains(' ');
        assert_eq!(kept.record().unwrap().facts.iter().find(words), None, "{name}");
        formats.push(kept.manifest.format);
    }
    formats.sort_unstable();
    assert_eq!(formats, [1, 2]);
}
