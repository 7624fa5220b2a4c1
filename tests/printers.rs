//! Printers: those that are shipped, those that are like another, and whatever somebody may type.

use std::fs;

use sectionwright::design::{Failure, Kind, Library, LoadedPrinter, load_printer};
use sectionwright::diagnostic::{Severity, Style, render};
use sectionwright::quantity::Length;
use sectionwright::section::{Compensation, Printer, Process, Surface};

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn said(failure: &Failure) -> String {
    render(&failure.diagnostics, &failure.sources, Style::Plain)
}

/// A printer's file of this text.
fn made(text: &str) -> Result<LoadedPrinter, Failure> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("p.toml");
    fs::write(&path, text).expect("written");
    load_printer(&Library::default(), path.to_str().expect("ASCII"))
}

fn sound(text: &str) -> Printer {
    made(text).unwrap_or_else(|failure| panic!("{text}:\n{}", said(&failure))).printer
}

/// What a printer has to hold so that everything made of it holds.
fn in_bounds(printer: &Printer) {
    assert!(printer.across > Length::ZERO && printer.layer > Length::ZERO);
    assert!(printer.least_wall.value >= printer.across);
    assert!(printer.least_feature.value >= printer.across);
    assert!(printer.build.into_iter().all(|side| side >= mm(20.0)));
    for surface in Surface::ALL {
        // Half of 1 mm and 5 % of the diameter.
        assert!(printer.into_material(surface, mm(12.0)).abs() <= mm(1.0), "{surface}");
    }
    for compensation in [printer.hole, printer.boss] {
        let there_and_back = compensation.printed(compensation.in_file(mm(8.0)));
        assert!((there_and_back - mm(8.0)).abs() < mm(1e-12));
    }
}

#[test]
fn every_shipped_printer_prints() {
    let library = Library::default();
    let names: Vec<String> = library.list(Kind::Printer).into_iter().map(|e| e.name).collect();
    assert_eq!(names, ["filament", "resin"]);
    for name in names {
        let loaded = load_printer(&library, &name).unwrap_or_else(|f| panic!("{}", said(&f)));
        assert_eq!((loaded.printer.name.as_str(), loaded.path), (name.as_str(), None));
        in_bounds(&loaded.printer);
        for limit in [&loaded.printer.least_wall, &loaded.printer.least_feature] {
            assert!(limit.source.starts_with(&format!("{name}: ")), "{}", limit.source);
            assert!(!limit.source.contains("no source given"), "{}", limit.source);
        }
    }
}

/// Every number of the file, where it belongs.
#[test]
fn the_resin_printer_is_as_written() {
    let printer = load_printer(&Library::default(), "resin").expect("it is sound").printer;
    assert_eq!(printer.process, Process::Resin);
    assert_eq!((printer.across, printer.layer), (mm(0.05), mm(0.05)));
    assert_eq!(printer.hole, Compensation { constant: mm(0.10), share: 0.003 });
    assert_eq!(printer.boss, Compensation { constant: mm(-0.06), share: 0.003 });
    assert_eq!((printer.internal_flank, printer.external_flank), (mm(0.04), mm(0.04)));
    assert_eq!((printer.face, printer.spread, printer.scatter), (mm(0.0), mm(0.15), mm(0.03)));
    assert_eq!(printer.build, [120.0, 68.0, 150.0].map(mm));
}

#[test]
fn a_printer_may_be_like_another() {
    let own = sound("format = 1\nlike = \"resin\"\nname = \"ours\"\nhole = { constant = 0.2 }\n");
    // Key by key: the share is the other's.
    assert_eq!(own.hole, Compensation { constant: mm(0.2), share: 0.003 });
    assert_eq!((own.name.as_str(), own.across), ("ours", mm(0.05)));
    // A nozzle takes the pixel's place, and a source is told of the printer that has it.
    let text = "format = 1\nlike = \"resin\"\nname = \"ours\"\nprocess = \"filament\"\nnozzle = 0.25\n\
                least_feature = 0.3\nlayer = 0.1\n";
    let other = sound(text);
    assert_eq!((other.process, other.across), (Process::Filament, mm(0.25)));
    assert_eq!(other.least_feature.source, "ours: no source given");
}

#[test]
fn a_file_is_told_apart_from_a_built_in_printer() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::create_dir(folder.path().join("printers")).expect("made");
    let path = folder.path().join("printers/resin.toml");
    fs::write(&path, "format = 1\nlike = \"resin\"\nface = 0.02\n").expect("written");
    let library = Library::new(vec![folder.path().to_owned()]);
    let own =
        load_printer(&library, "resin").unwrap_or_else(|failure| panic!("{}", said(&failure)));
    assert_eq!((own.printer.face, own.path), (mm(0.02), Some(path)));
}

#[test]
fn what_is_no_printer_says_so() {
    let failure = load_printer(&Library::default(), "resinn").expect_err("there is none");
    assert_eq!(failure.diagnostics[0].code, "profile.missing");
    assert!(said(&failure).contains("did you mean \"resin\"?"), "{}", said(&failure));
    let failure = made("format = 2\n").expect_err("of a newer format");
    assert_eq!(failure.diagnostics[0].code, "file.format-newer");
    assert!(made("like = \"resin\"\n[").is_err());
}

/// Whatever stands behind a key, there is a printer in its bounds or an error with a hint.
#[test]
fn any_value_of_any_key_gets_an_answer() {
    let values = [
        "0",
        "-1",
        "1e-9",
        "0.02",
        "1",
        "2.5",
        "301",
        "1e300",
        "nan",
        "inf",
        "true",
        "\"\"",
        "\"x\"",
        "\"0.01 in\"",
        "\"none\"",
        "[]",
        "[1]",
        "[30, 30, 30]",
        "[nan, 30, -1]",
        "{}",
        "{ constant = 0.1 }",
        "{ constant = -1, share = 0.05 }",
        "{ value = 0.5 }",
        "1979-05-27",
        "{ internal = 1, external = -1 }",
        "\"resin\"",
        "\"filament\"",
    ];
    let keys = [
        "name",
        "process",
        "pixel",
        "nozzle",
        "layer",
        "hole",
        "boss",
        "thread",
        "face",
        "spread",
        "scatter",
        "least_wall",
        "least_feature",
        "build",
        "unknown",
    ];
    let mut prints = 0;
    for base in ["resin", "filament"] {
        for (key, value) in keys.into_iter().flat_map(|key| values.map(|value| (key, value))) {
            match made(&format!("format = 1\nlike = \"{base}\"\n{key} = {value}\n")) {
                Ok(loaded) => {
                    in_bounds(&loaded.printer);
                    prints += 1;
                }
                Err(failure) => {
                    let errors =
                        failure.diagnostics.iter().filter(|d| d.severity == Severity::Error);
                    let errors: Vec<_> = errors.collect();
                    assert!(!errors.is_empty(), "{key} = {value}");
                    assert!(errors.iter().all(|e| e.hint.is_some()), "{key} = {value}");
                }
            }
        }
    }
    assert!(prints > 50, "{prints}");
}
