//! `print` as a person meets it.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use sectionwright::design::{Library, load, load_printer};
use sectionwright::section::{Measurand, Plate};

fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_sectionwright"));
    program.args(arguments).current_dir(folder).output().unwrap()
}

fn status(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn said(output: &Output) -> String {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    text(&output.stdout) + &text(&output.stderr)
}

/// Every file below a folder with its bytes.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = entry.file_name().into_string().unwrap();
        if entry.path().is_dir() {
            let inner = files(&entry.path()).into_iter();
            found.extend(inner.map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            found.push((name, fs::read(entry.path()).unwrap()));
        }
    }
    found.sort();
    found
}

#[test]
fn a_ladder_is_written_whole_and_alike_each_time() {
    let home = tempfile::tempdir().unwrap();
    let ask = ["print", "demo", "--what", "ladder,stand-in", "--rungs", "3", "--chord", "0.02"];
    let first = run(home.path(), &ask);
    assert_eq!(status(&first), 0, "{}", said(&first));
    let once = files(home.path());
    let names: Vec<&str> = once.iter().map(|(name, _)| name.as_str()).collect();
    let expected = [
        "ladder-1.stl",
        "ladder-2.stl",
        "ladder-3.stl",
        "plate.3mf",
        "plate.svg",
        "print.json",
        "stand-in.stl",
        "what-to-look-for.txt",
    ];
    assert_eq!(names, expected.map(|name| format!("out/demo/print/{name}")));
    assert_eq!(status(&run(home.path(), &ask)), 0);
    assert_eq!(files(home.path()), once);
    // What is asked for next takes its place; a file of somebody's own stays.
    fs::write(home.path().join("out/demo/print/notes.txt"), "mine").unwrap();
    let next = run(home.path(), &["print", "demo", "--what", "plug", "--chord", "0.02"]);
    assert_eq!(status(&next), 0);
    let names: Vec<String> = files(home.path()).into_iter().map(|(name, _)| name).collect();
    assert!(names.contains(&"out/demo/print/notes.txt".to_owned()), "{names:?}");
    assert!(!names.iter().any(|name| name.contains("ladder")), "{names:?}");
}

#[test]
fn each_rung_is_said_with_its_meaning() {
    let home = tempfile::tempdir().unwrap();
    let ask = [
        "print", "demo", "--what", "ladder", "--first", "0.01", "--step", "0.02", "--chord", "0.02",
    ];
    assert_eq!(status(&run(home.path(), &ask)), 0);
    let text = fs::read_to_string(home.path().join("out/demo/print/what-to-look-for.txt")).unwrap();
    for words in [
        "   3  v v v               0.050 mm",
        "2 binds, 3 turns:  flanks came out 0.030 to 0.050 mm narrower than said",
        "It binds in the first turn",
        "It grows tighter from turn to turn",
        "It stops dead at the same depth",
        "--tried 1=bound,2=free --mate real",
        "A tapped thread is proved on an offcut",
        "is no approval",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

/// A printer that can't show the unit's thread leaves it smooth, and says so.
#[test]
fn a_thread_too_fine_comes_out_smooth() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["print", "demo", "--printer", "filament", "--what", "coupon"]);
    assert_eq!(status(&made), 0, "{}", said(&made));
    assert!(said(&made).contains("unit-thread is left smooth"), "{}", said(&made));
    let text = fs::read_to_string(home.path().join("out/demo/print/what-to-look-for.txt")).unwrap();
    assert!(text.contains("tap drill"), "{text}");
}

#[test]
fn what_is_wrong_is_said_all_at_once_and_nothing_is_written() {
    let home = tempfile::tempdir().unwrap();
    let ask = [
        "print",
        "demo",
        "--what",
        "laddr,section",
        "--thread",
        "cap",
        "--step",
        "x",
        "--chord",
        "9",
    ];
    let wrong = run(home.path(), &ask);
    assert_eq!(status(&wrong), 2);
    for code in ["print.what", "print.thread", "print.step"] {
        assert!(said(&wrong).contains(&format!("error[{code}]")), "{code}: {}", said(&wrong));
    }
    for (ask, code) in [
        (&["print", "demo", "--printer", "none"][..], "profile.missing"),
        (&["print", "demo", "--what", "ladder", "--rungs", "0"], "print.rungs"),
        (&["print", "demo", "--what", "ladder", "--rungs", "40"], "print.rungs"),
        (&["print", "demo", "--what", "ladder", "--step", "-0.02"], "print.step"),
        (&["print", "demo", "--tried", "3=free,2=bound"], "print.no-record"),
        (&["print", "demo", "--tried", "3=loose"], "print.tried"),
        (&["print", "--readings", "none.toml"], "file.unreadable"),
    ] {
        let wrong = run(home.path(), ask);
        assert_eq!(status(&wrong), 2, "{ask:?}");
        assert!(said(&wrong).contains(code), "{ask:?}: {}", said(&wrong));
    }
    assert_eq!(files(home.path()), []);
}

/// What a ladder says is put to the printer once, however often it is said; a contradiction is not
/// put to it at all.
#[test]
fn a_tried_ladder_changes_the_printers_flanks() {
    let home = tempfile::tempdir().unwrap();
    let ladder =
        ["print", "demo", "--what", "ladder", "--first", "0", "--step", "0.02", "--chord", "0.02"];
    assert_eq!(status(&run(home.path(), &ladder)), 0);
    let bad = run(home.path(), &["print", "demo", "--tried", "2=free,3=bound"]);
    assert_eq!(status(&bad), 2);
    assert!(said(&bad).contains("rung 3 is said to have bound, and rung 2"), "{}", said(&bad));
    let good = ["print", "demo", "--tried", "3=free,2=bound"];
    for _ in 0..2 {
        let good = run(home.path(), &good);
        assert_eq!(status(&good), 0, "{}", said(&good));
        assert!(said(&good).contains("0.030 +/- 0.010"), "{}", said(&good));
    }
    let path = home.path().join("resin-measured.toml");
    // Another answer is not written over the first.
    let other = run(home.path(), &["print", "demo", "--tried", "4=free,3=bound"]);
    assert!(status(&other) == 2 && said(&other).contains("print.taken"), "{}", said(&other));
    let library = Library::new(Vec::new());
    let printer = |path: &Path| load_printer(&library, path.to_str().unwrap()).unwrap().printer;
    let old = load_printer(&library, "resin").unwrap().printer;
    let new = printer(&path);
    let by = (new.internal_flank - old.internal_flank).as_mm();
    assert!((by - 0.03).abs() < 1e-9 && new.external_flank == old.external_flank, "{by}");
    // Printed again with that profile, said to turn from the first on: less is enough.
    let name = path.to_str().unwrap();
    let again = [
        "print",
        "demo",
        "--what",
        "ladder",
        "--first",
        "-0.03",
        "--step",
        "0.02",
        "--chord",
        "0.02",
        "--printer",
        name,
    ];
    let done = run(home.path(), &again);
    assert_eq!(status(&done), 0, "{}", said(&done));
    let tried =
        ["print", "demo", "--printer", name, "--tried", "1=bound,2=free", "--mate", "printed"];
    let tried = run(home.path(), &tried);
    assert_eq!(status(&tried), 0, "{}", said(&tried));
    let newest = printer(&path);
    for (newest, new) in
        [(newest.internal_flank, new.internal_flank), (newest.external_flank, new.external_flank)]
    {
        assert!(((newest - new).as_mm() + 0.01).abs() < 1e-9, "{newest:?} {new:?}");
    }
}

/// The design's thread is opened by what its flanks lack; the file keeps its comments, and is not
/// opened twice.
#[test]
fn a_tried_ladder_changes_the_designs_thread() {
    let home = tempfile::tempdir().unwrap();
    let shown = run(home.path(), &["profiles", "demo"]);
    let path = home.path().join("pen.toml");
    fs::write(&path, &shown.stdout).unwrap();
    let ladder = ["print", "pen.toml", "--what", "ladder", "--step", "0.02", "--chord", "0.02"];
    assert_eq!(status(&run(home.path(), &ladder)), 0);
    let tried = ["print", "pen.toml", "--tried", "3=free,2=bound", "--change", "design"];
    let done = run(home.path(), &tried);
    assert_eq!(status(&done), 0, "{}", said(&done));
    let text = fs::read_to_string(&path).unwrap();
    let old = String::from_utf8(shown.stdout).unwrap();
    let added: Vec<&str> = text.lines().filter(|line| !old.contains(line)).collect();
    assert_eq!(added.len(), 2, "{added:?}");
    assert!(old.lines().all(|line| text.contains(line)));
    let library = Library::new(Vec::new());
    let form = |name: &str| load(&library, name).unwrap().section.unit_thread.form;
    let (before, after) = (form("demo"), form(path.to_str().unwrap()));
    // Plane geometry: 2 x 0.03 / sin 30 on the pitch diameter, 2 x 0.03 on the major one.
    assert!(((after.pitch_diameter - before.pitch_diameter).as_mm() - 0.12).abs() < 5e-4);
    assert!(((after.root - before.root).as_mm() - 0.06).abs() < 1e-4);
    let again = run(home.path(), &tried);
    assert_eq!(status(&again), 2);
    assert!(said(&again).contains("print.other-design"), "{}", said(&again));
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
    let built_in = run(home.path(), &["print", "demo", "--what", "ladder", "--chord", "0.02"]);
    assert_eq!(status(&built_in), 0);
    let refused =
        run(home.path(), &["print", "demo", "--tried", "3=free,2=bound", "--change", "design"]);
    assert!(status(&refused) == 2 && said(&refused).contains("print.built-in"));
}

/// A form filled in as a printer of known numbers would have it makes that printer; one with a
/// contradiction makes none. What was typed into a form is never written over.
#[test]
fn readings_make_the_printers_profile() {
    let home = tempfile::tempdir().unwrap();
    let calibrate = ["print", "--calibrate", "--chord", "0.02"];
    let made = run(home.path(), &calibrate);
    assert_eq!(status(&made), 0, "{}", said(&made));
    let path = home.path().join("out/calibration-resin/readings.toml");
    let blank = fs::read_to_string(&path).unwrap();
    let printer = load_printer(&Library::new(Vec::new()), "resin").unwrap().printer;
    let mut text = String::new();
    let readings = Plate::new(&printer).readings();
    assert!(readings.iter().map(|r| r.times).sum::<usize>() >= 24);
    let mut next = readings.iter();
    for line in blank.lines() {
        if let Some((key, comment)) = line.split_once(" = []") {
            let reading = next.next().unwrap();
            // Invented: holes come out 0.14 smaller, pegs 0.08 larger, heights as they are.
            let off = match reading.kind {
                Measurand::Hole => -0.14,
                Measurand::Boss => 0.08,
                Measurand::Height => 0.0,
            };
            let value = format!("{:.2}", reading.in_file.as_mm() + off);
            let values = vec![value; reading.times].join(", ");
            text += &format!("{key} = [{values}]{comment}\n");
        } else {
            text += line;
            text += "\n";
        }
    }
    fs::write(&path, &text).unwrap();
    let done = run(home.path(), &["print", "--readings", path.to_str().unwrap()]);
    assert_eq!(status(&done), 0, "{}", said(&done));
    let profile = path.with_file_name("resin-measured.toml");
    let new = load_printer(&Library::new(Vec::new()), profile.to_str().unwrap()).unwrap().printer;
    let at = |c: sectionwright::section::Compensation| c.at(crate::common::mm(8.0)).as_mm();
    assert!((at(new.hole) - 0.14).abs() < 1e-3 && (at(new.boss) + 0.08).abs() < 1e-3);
    // The plate is made again: the readings stay.
    assert_eq!(status(&run(home.path(), &calibrate)), 0);
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
    // One figure typed wrong: refused, named, the profile as it was.
    let before = fs::read(&profile).unwrap();
    let wrong = text.replacen("[3.86, 3.86", "[3.86, 4.86", 1);
    assert_ne!(wrong, text);
    fs::write(&path, wrong).unwrap();
    let refused = run(home.path(), &["print", "--readings", path.to_str().unwrap()]);
    assert_eq!(status(&refused), 2);
    assert!(said(&refused).contains("ring-1.lower"), "{}", said(&refused));
    assert_eq!(fs::read(&profile).unwrap(), before);
}
