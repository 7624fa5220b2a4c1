//! Jobs without the command line: they tell what they do, give data, and stop when they are told to.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use sectionwright::design::{Library, with_numbers};
use sectionwright::diagnostic::Severity;
use sectionwright::job::{Stopped, Watch, Why, check, compare, keep, make, print, recall};

/// Notes each step, and stops at one of them.
#[derive(Default)]
struct Watcher {
    steps: RefCell<Vec<&'static str>>,
    /// How many steps are begun at most.
    most: Cell<Option<usize>>,
}

impl Watcher {
    fn stopping_before(step: usize) -> Self {
        Self { most: Cell::new(Some(step)), ..Self::default() }
    }
}

impl Watch for Watcher {
    fn step(&self, doing: &'static str) {
        self.steps.borrow_mut().push(doing);
    }

    fn is_cancelled(&self) -> bool {
        self.most.get().is_some_and(|most| self.steps.borrow().len() >= most)
    }
}

/// Everything in a folder, by its path there.
fn all(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let inner = all(&path);
            found.extend(inner.into_iter().map(|(file, bytes)| (format!("{name}/{file}"), bytes)));
        } else {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            found.insert(name, fs::read(&path).unwrap());
        }
    }
    found
}

fn request(out: &Path) -> make::Request {
    let only = Some("dxf,drawing,report".to_owned());
    make::Request { only, ..make::Request::of("demo", out) }
}

#[test]
fn make_tells_its_steps_and_gives_what_it_wrote() {
    let home = tempfile::tempdir().unwrap();
    let watcher = Watcher::default();
    let made = make::make(&Library::default(), &request(home.path()), &watcher);
    let made = made.map_err(|stopped| stopped.why).unwrap();
    let steps = watcher.steps.into_inner();
    assert_eq!([steps[0], steps[steps.len() - 1]], ["reading the design", "writing the files"]);
    assert_eq!(made.folder, home.path().join("demo"));
    let written = all(&made.folder);
    assert!(!made.products.files.is_empty());
    for file in &made.products.files {
        assert_eq!(written.get(&file.name), Some(&file.bytes));
    }
    assert!(made.products.examination.finding("wall.lip").is_some());
}

/// Before each of its steps, the one that writes among them: nothing was there, and nothing is; what
/// was there stays as it is.
#[test]
fn make_that_is_stopped_has_written_nothing() {
    let home = tempfile::tempdir().unwrap();
    let whole = Watcher::default();
    assert!(make::make(&Library::default(), &request(home.path()), &whole).is_ok());
    let before = all(home.path());
    let steps = whole.steps.into_inner().len();
    assert!(steps > 5, "{steps}");
    let empty = tempfile::tempdir().unwrap();
    let library = Library::default();
    for n in 0..steps {
        let stopped = |request: &make::Request| {
            let watcher = Watcher::stopping_before(n);
            let stopped = make::make(&library, request, &watcher).err().unwrap();
            assert_eq!(stopped.why, Why::Cancelled);
            assert_eq!(watcher.steps.into_inner().len(), n);
        };
        stopped(&request(empty.path()));
        assert_eq!(all(empty.path()).len(), 0, "before step {n}");
        let other = make::Request { parts: vec!["unit".to_owned()], ..request(home.path()) };
        stopped(&other);
        assert_eq!(all(home.path()), before, "before step {n}");
    }
}

/// The codes of all errors.
fn codes(stopped: &Stopped) -> Vec<&'static str> {
    let all = stopped.said.iter().flat_map(|said| &said.diagnostics);
    all.filter(|said| said.severity == Severity::Error).map(|said| said.code).collect()
}

#[test]
fn everything_that_is_wrong_is_given_at_once() {
    let home = tempfile::tempdir().unwrap();
    let design = home.path().join("pen.toml");
    fs::write(&design, "format = 1\nlike = \"demo\"\n[grip]\nlenght = 3\n").unwrap();
    let out = home.path().join("out");
    let request = make::Request {
        chord: 0.0,
        only: Some("stone".to_owned()),
        ..make::Request::of(design.to_str().unwrap(), &out)
    };
    let stopped = make::make(&Library::default(), &request, &()).err().unwrap();
    assert_eq!(stopped.why, Why::Wrong);
    assert_eq!(codes(&stopped), ["key.unknown", "mesh.chord", "export.unknown-kind"]);
    assert!(!out.exists());
}

#[test]
fn what_is_kept_is_recalled_and_compared() {
    let home = tempfile::tempdir().unwrap();
    let library = Library::default();
    let only = Some("report".to_owned());
    let kept = keep::Request {
        make: make::Request { only, ..make::Request::of("demo", "") },
        notes: vec!["a note".to_owned()],
        photos: Vec::new(),
        date: None,
        shelf: Some(home.path().to_owned()),
        set: Vec::new(),
        after: None,
    };
    let stopped = keep::keep(&library, &kept, &Watcher::stopping_before(3)).err().unwrap();
    assert_eq!((stopped.why, all(home.path()).len()), (Why::Cancelled, 0));
    assert!(keep::keep(&library, &kept, &()).is_ok());
    let name = all(home.path()).into_keys().next().unwrap();
    let file = home.path().join(name);
    let again = recall::recall(&recall::Request { file: file.clone(), to: None }, &());
    let again = again.map_err(|stopped| stopped.why).unwrap();
    assert_eq!(again.kept.notes(), ["a note"]);
    assert!(again.differences.geometry.is_empty() && again.differences.bytes.is_empty());
    let picture = home.path().join("both.svg");
    let b = file.to_str().unwrap().to_owned();
    let request = compare::Request { a: "demo".to_owned(), b, picture: Some(picture.clone()) };
    let compared = compare::compare(&library, &request, &()).map_err(|stopped| stopped.why);
    assert!(compared.unwrap().comparison.interchange() && picture.is_file());
}

#[test]
fn a_check_and_a_print_need_no_command_line() {
    let home = tempfile::tempdir().unwrap();
    let library = Library::default();
    let request = check::Request { design: "demo".to_owned(), ..check::Request::default() };
    let checked = check::check(&library, &request, &()).map_err(|stopped| stopped.why).unwrap();
    assert!(checked.examination.finding("wall.lip").is_some());
    let request = print::Request {
        what: vec!["coupon".to_owned()],
        chord: 0.02,
        ..print::Request::of("demo", "resin", home.path())
    };
    let stopped = print::print(&library, &request, &Watcher::stopping_before(5)).err().unwrap();
    assert_eq!((stopped.why, all(home.path()).len()), (Why::Cancelled, 0));
    let printed = print::print(&library, &request, &()).map_err(|stopped| stopped.why).unwrap();
    assert_eq!(all(&printed.folder).len(), printed.files.len());
}

/// What a printer needs and a design has not is told at the design's size, with a value that prints.
#[test]
fn a_fault_of_a_print_has_its_place_and_what_it_says_helps() {
    let home = tempfile::tempdir().unwrap();
    let design = home.path().join("pen.toml");
    let text = "format = 1\nlike = \"demo\"\n[tenon]\n\
                relief = { width = 1.4, diameter = 6.6 }\n[bores.through]\ndiameter = 6.4\n";
    fs::write(&design, text).unwrap();
    let request = print::Request {
        chord: 0.02,
        ..print::Request::of(design.to_str().unwrap(), "filament", home.path())
    };
    let library = Library::default();
    let stopped = print::print(&library, &request, &()).err().unwrap();
    assert_eq!(codes(&stopped), ["print.crossing"]);
    let said = stopped.said.last().unwrap();
    let fault = &said.diagnostics[0];
    let at = fault.at.unwrap();
    let source = said.sources.get(at.source);
    assert!(source.name.ends_with("pen.toml"), "{}", source.name);
    let hint = fault.hint.as_ref().unwrap();
    let write = hint.strip_prefix("write `").and_then(|hint| hint.strip_suffix('`')).unwrap();
    let (key, value) = write.split_once(" = ").unwrap();
    let mended = with_numbers(text, &[(key, value.parse().unwrap())]).unwrap();
    fs::write(&design, mended).unwrap();
    assert!(print::print(&library, &request, &()).is_ok(), "{hint}");
}
