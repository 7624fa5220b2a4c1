//! Files that people get wrong, and what is said of them.
//!
//! Each `diagnostics/NAME.toml` is a design with something wrong, each `diagnostics/printers/NAME.toml`
//! a printer, each `diagnostics/readings/NAME.toml` readings of its plate, and `NAME.txt` is all that is said of it; the files that they need are in
//! `diagnostics/parts/`. A line `# fix: OLD => NEW` is
//! a change that a hint names: NEW's value stands in a hint, and with all changes the file is
//! sound. `# mend: OLD => NEW` is a change that no hint can spell out.
//!
//! `SNAPSHOTS=overwrite cargo test --test diagnostics` writes the texts anew.

use std::fs;
use std::path::{Path, PathBuf};

use sectionwright::design::{Failure, Library, load, load_printer, load_readings};
use sectionwright::diagnostic::{Diagnostic, Severity, Sources, Style, render};

const FOLDER: &str = "tests/diagnostics";

/// What is said of a sound file, or of a bad one.
type Said = Result<(Vec<Diagnostic>, Sources), Failure>;

/// Reads a file by its path.
type Read = fn(&str) -> Said;

/// The folders of bad files, and what reads a file of each.
const READ_BY: [(&str, Read); 3] = [(".", design), ("printers", printer), ("readings", readings)];

fn design(path: &str) -> Said {
    load(&Library::default(), path).map(|resolved| (resolved.notes, resolved.sources))
}

fn printer(path: &str) -> Said {
    load_printer(&Library::default(), path).map(|loaded| (loaded.notes, loaded.sources))
}

fn readings(path: &str) -> Said {
    let loaded = load_readings(&Library::default(), Path::new(path));
    loaded.map(|loaded| (loaded.notes, loaded.sources))
}

/// The bad files of all kinds, each with what reads it; by name.
fn bad_files() -> Vec<(PathBuf, Read)> {
    let mut found = Vec::new();
    for (folder, read) in READ_BY {
        let files = fs::read_dir(Path::new(FOLDER).join(folder)).expect("the folder is there");
        let mut paths: Vec<PathBuf> = files.map(|file| file.expect("a file").path()).collect();
        paths.retain(|path| path.extension().is_some_and(|ext| ext == "toml"));
        paths.sort();
        found.extend(paths.into_iter().map(|path| (path, read)));
    }
    found
}

/// What is said of a file, and whether it is sound.
fn said_of(path: &Path, read: Read) -> (bool, String) {
    let path = path.strip_prefix("./").unwrap_or(path);
    let path = path.to_str().expect("names are ASCII").replace("/./", "/");
    match read(&path) {
        Ok((notes, sources)) => (true, render(&notes, &sources, Style::Plain)),
        Err(failure) => {
            let is_error = |d: &Diagnostic| d.severity == Severity::Error;
            assert!(failure.diagnostics.iter().any(is_error), "{path} fails without an error");
            (false, render(&failure.diagnostics, &failure.sources, Style::Plain))
        }
    }
}

#[test]
fn every_bad_file_gets_its_text() {
    let files = bad_files();
    assert!(files.len() >= 16, "{}", files.len());
    let check = snapbox::Assert::new().action_env("SNAPSHOTS");
    for (path, read) in files {
        let (sound, text) = said_of(&path, read);
        assert!(!sound, "{} is sound", path.display());
        check.eq(text, snapbox::Data::read_from(&path.with_extension("txt"), None).raw());
    }
}

#[test]
fn a_file_with_two_errors_gets_two() {
    let (_, text) = said_of(&Path::new(FOLDER).join("two-errors.toml"), design);
    assert_eq!(text.matches("error[").count(), 2, "{text}");
}

/// A change noted in a bad file.
struct Change {
    from: String,
    to: String,
    in_hint: bool,
}

fn changes(text: &str) -> Vec<Change> {
    let change = |line: &str| {
        let (kind, change) = line.strip_prefix("# ")?.split_once(": ")?;
        let (from, to) = change.split_once(" => ")?;
        let unescape = |part: &str| part.replace("\\n", "\n");
        Some(Change { from: unescape(from), to: unescape(to), in_hint: kind == "fix" })
    };
    text.lines().filter_map(change).collect()
}

/// The value of `key = value`, bare: what a hint about it says.
fn bare(change: &str) -> &str {
    let value = change.rsplit_once("= ").map_or(change, |(_, value)| value);
    value.trim_matches(|c| "\"[]{}- ".contains(c))
}

#[test]
fn every_hint_works() {
    let mut failures = Vec::new();
    for (path, read) in bad_files() {
        let name = path.file_stem().and_then(|stem| stem.to_str()).expect("names are ASCII");
        let text = fs::read_to_string(&path).expect("readable");
        let changes = changes(&text);
        if changes.is_empty() {
            failures.push(format!("{name} says no change"));
        }
        let (_, said) = said_of(&path, read);
        let hints: Vec<&str> = said.lines().filter(|line| line.contains("= help:")).collect();
        let folder = tempfile::tempdir().expect("a folder");
        let parts = folder.path().join("parts");
        fs::create_dir(&parts).expect("made");
        for file in fs::read_dir(Path::new(FOLDER).join("parts")).expect("there") {
            let file = file.expect("a file");
            fs::copy(file.path(), parts.join(file.file_name())).expect("copied");
        }
        let mended = folder.path().join(path.file_name().expect("a name"));
        let body = text.split("\n# ").next().expect("there is a first part");
        fs::write(&mended, body.to_owned() + "\n").expect("written");
        for change in &changes {
            if change.in_hint {
                let said = hints.iter().any(|hint| hint.contains(bare(&change.to)));
                if !said {
                    failures.push(format!("{name}: no hint says {}", bare(&change.to)));
                }
            }
            let mut found = false;
            let kinds = ["unit", "material", "maker", "rack"]
                .map(|kind| parts.join(format!("{name}-{kind}.toml")));
            for file in [&mended].into_iter().chain(&kinds).filter(|file| file.is_file()) {
                let text = fs::read_to_string(file).expect("readable");
                if text.contains(&change.from) {
                    found = true;
                    fs::write(file, text.replacen(&change.from, &change.to, 1)).expect("written");
                }
            }
            if !found {
                failures.push(format!("{name}: nothing says {}", change.from));
            }
        }
        let (sound, text) = said_of(&mended, read);
        if !sound {
            failures.push(format!("{name} is not mended:\n{text}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}
