//! `asmade` as a person meets it.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_sectionwright"));
    program.args(arguments).current_dir(folder).output().unwrap()
}

fn status(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

#[test]
fn a_mistake_is_told_with_what_saves_it_and_what_is_left() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["asmade", "demo", "--set", "bores.recess.diameter=9.3"]);
    assert_eq!(status(&made), 1);
    let text = out(&made);
    for word in [
        "bores.recess.diameter",
        "+0.17",
        "breaks  Wall of the lip",
        "(was: close)",
        "diameter at the front face: 10.40 mm instead of 10.20 mm (grip.front)",
        "numbered as on the sheet",
        "  12  C: tap the unit thread, M7.9x0.6-6H",
        "  15  Turn the outside\n      set: Ø10.40 at the front",
        "no approval",
    ] {
        assert!(text.contains(word), "{word}\n{text}");
    }
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 0, "it writes nothing");
    let harmless = run(home.path(), &["asmade", "demo", "--set", "bores.clearance.depth=4.6 mm"]);
    assert_eq!(status(&harmless), 0);
    assert!(out(&harmless).contains("No verdict is worse than as drawn."));
    assert!(!text.contains("drill the tap-drill bore"), "what is done is not told again");
    // As it stands in a box of the sheet: the pin reads 4.38 at 4.30.
    let boxed = run(home.path(), &["asmade", "demo", "--set", "bores.clearance.pin=4.68"]);
    assert!(out(&boxed).contains("4.30    4.60   +0.30"), "{}", out(&boxed));
    let lost = run(home.path(), &["asmade", "demo", "--set", "bores.tap_drill.diameter=7.45"]);
    assert_eq!(status(&lost), 1);
    assert!(out(&lost).contains("No change of one size that is still to be cut saves it."));
}

#[test]
fn the_table_of_a_design_is_read_and_what_is_typed_goes_over_it() {
    let home = tempfile::tempdir().unwrap();
    let text = "format = 1\nlike = \"demo\"\nname = \"seven\"\n[made]\nrecess.diameter = 9.3\n";
    fs::write(home.path().join("pen.toml"), text).unwrap();
    let json = |arguments: &[&str]| -> serde_json::Value {
        let run = run(home.path(), &[&["asmade", "pen.toml", "--json", "-q"], arguments].concat());
        serde_json::from_str(&out(&run)).unwrap()
    };
    let made = json(&[]);
    assert_eq!(made["breaks"], true);
    assert_eq!(made["set"][0]["made_mm"], 9.3);
    assert_eq!(made["rescues"][0]["key"], "grip.front");
    assert!(made["rescues"][0]["remaining"].as_array().unwrap().len() >= 3);
    let over = json(&["--set", "bores.recess.diameter=9.13", "--after", "tapped"]);
    assert_eq!((&over["breaks"], &over["set"][0]["made_mm"]), (&false.into(), &9.13.into()));
    assert_eq!(over["done"].as_array().unwrap().last().unwrap(), "tapped");
    // The design is the same with and without it.
    let checked = run(home.path(), &["check", "pen.toml"]);
    assert_eq!(status(&checked), 0);
}

#[test]
fn everything_wrong_is_said_at_once() {
    let home = tempfile::tempdir().unwrap();
    let typed = [
        "asmade",
        "demo",
        "--set",
        "recess.dpeth=1",
        "--set",
        "bores.tap_drill.depth=-1",
        "--set",
        "grip.length=x",
        "--set",
        "grip.length=22",
        "--set",
        "tenon.length=900",
        "--set",
        "none",
        "--after",
        "nothing",
    ];
    let made = run(home.path(), &typed);
    assert_eq!(status(&made), 2);
    assert!(made.stdout.is_empty());
    let said = String::from_utf8(made.stderr).unwrap();
    for code in [
        "made.unknown-key",
        "made.negative",
        "made.length",
        "made.twice",
        "made.huge",
        "made.form",
        "made.unknown-step",
    ] {
        assert!(said.contains(&format!("error[{code}]")), "{code}\n{said}");
    }
    assert!(said.contains("the command line:1:1"), "{said}");
    let missing = run(home.path(), &["asmade", "demo"]);
    assert_eq!(status(&missing), 2);
    assert!(String::from_utf8(missing.stderr).unwrap().contains("made.nothing"));
}
