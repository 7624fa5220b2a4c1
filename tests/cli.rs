//! The program as a person meets it: what it prints, what it writes, how it ends.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use sectionwright::archive::MADE_BY;
use sectionwright::design::{Library, load};
use sectionwright::size::SizeId;

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

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// A folder's files but the mark of the build that made them.
fn set(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let entries = entries.filter(|entry| entry.file_name() != MADE_BY);
    entries.map(|e| (e.file_name().into_string().unwrap(), fs::read(e.path()).unwrap())).collect()
}

const NAMES: [&str; 13] = [
    "drawing.dxf",
    "drawing.pdf",
    "drawing.svg",
    "half-section.dxf",
    "half-section.svg",
    "profile.dxf",
    "report.json",
    "section-plain.step",
    "section.step",
    "section.stl",
    "sheet.html",
    "sheet.pdf",
    "walls.svg",
];

fn json(bytes: &[u8]) -> serde_json::Value {
    serde_json::from_slice(bytes).unwrap()
}

fn fixture(name: &str) -> String {
    format!("{}/tests/fixtures/{name}", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn without_a_design_the_demo_is_made() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make"]);
    assert_eq!(status(&made), 0, "{}", err(&made));
    let files = set(&home.path().join("out/demo"));
    assert_eq!(files.keys().collect::<Vec<_>>(), NAMES);
    let table = out(&made);
    for word in ["holds", "close", "->", "section.stl", "no approval"] {
        assert!(table.contains(word), "{word}\n{table}");
    }
    // For a maker: no words of geometry.
    for word in ["mesh", "genus", "facet", "helix", "radius", "epsilon", "NaN"] {
        assert!(!table.contains(word), "{word}\n{table}");
    }
}

/// The sample in out/demo is what the program makes today.
#[test]
fn the_sample_is_current() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make"]);
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("out/demo");
    let (made, kept) = (set(&home.path().join("out/demo")), set(&sample));
    for (name, bytes) in &made {
        assert!(kept.get(name) == Some(bytes), "{name}: run `cargo run --release -- make`");
    }
    assert_eq!(kept.keys().collect::<Vec<_>>(), made.keys().collect::<Vec<_>>());
}

#[test]
fn the_demo_has_exactly_one_check_that_is_close_and_advice_that_helps() {
    let home = tempfile::tempdir().unwrap();
    let checked = run(home.path(), &["check", "demo", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out(&checked)).unwrap();
    let checks = json["checks"].as_array().unwrap();
    let close: Vec<_> = checks.iter().filter(|c| c["verdict"] == "close").collect();
    assert_eq!(close.len(), 1, "{close:?}");
    assert!(checks.iter().all(|c| c["verdict"] != "breaks"));
    assert!(close[0]["advice"].as_str().unwrap().contains("instead of"));
    assert_eq!(fs::read_dir(home.path()).unwrap().count(), 0, "check writes nothing");
}

/// Everything on the outside, and a thread for the cap, from the file to the files.
#[test]
fn a_shaped_grip_is_made() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", &fixture("outside.toml")]);
    assert_eq!(status(&made), 0, "{}", err(&made));
    let files = set(&home.path().join("out/outside"));
    let svg = String::from_utf8_lossy(&files["half-section.svg"]);
    assert!(svg.contains("<path d=\"M") && svg.contains(" A"), "arcs are drawn as arcs");
    let report: serde_json::Value = serde_json::from_slice(&files["report.json"]).unwrap();
    let checks = report["checks"].as_array().unwrap();
    let cap = checks.iter().find(|check| check["code"] == "wall.cap-thread").unwrap();
    assert!(cap["where"]["outer"]["feature"].as_str().unwrap().starts_with("cap-thread"));
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let home = tempfile::tempdir().unwrap();
    let design = fixture("r1.toml");
    for folder in ["a", "b"] {
        run(home.path(), &["make", &design, "--out", folder, "--quiet"]);
    }
    assert!(set(&home.path().join("a/R1")) == set(&home.path().join("b/R1")));
}

#[test]
fn a_design_that_breaks_is_made_and_says_so() {
    let home = tempfile::tempdir().unwrap();
    fs::write(
        home.path().join("thin.toml"),
        "format = 1\nlike = \"demo\"\nname = \"thin\"\n[grip]\nfront = 9.5\n",
    )
    .unwrap();
    let made = run(home.path(), &["make", "thin.toml"]);
    assert_eq!(status(&made), 1, "{}", err(&made));
    assert_eq!(set(&home.path().join("out/thin")).len(), NAMES.len());
    assert!(out(&made).contains("breaks"));
}

#[test]
fn wrong_input_is_said_and_an_earlier_set_stays() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make", "--quiet"]);
    let before = set(&home.path().join("out/demo"));
    fs::write(
        home.path().join("demo.toml"),
        "format = 1\nlike = \"demo\"\n[grip]\nlenght = 3\n[bores.through]\ndiameter = \"#81\"\n",
    )
    .unwrap();
    let made = run(home.path(), &["make", "demo.toml"]);
    assert_eq!(status(&made), 2);
    assert_eq!(err(&made).matches("error[").count(), 2, "{}", err(&made));
    assert!(set(&home.path().join("out/demo")) == before);
}

#[test]
fn a_chord_that_cannot_be_made_is_refused() {
    let home = tempfile::tempdir().unwrap();
    for chord in ["0", "-1", "1e-9", "NaN", "inf", "50"] {
        let made = run(home.path(), &["make", &format!("--chord={chord}")]);
        assert_eq!(status(&made), 2, "{chord}: {}", err(&made));
        assert!(err(&made).contains("mesh.chord"), "{chord}: {}", err(&made));
    }
    let made = run(home.path(), &["make", "--chord=0", "--only", "svg"]);
    assert!(status(&made) == 2 && err(&made).contains("mesh.chord"), "{}", err(&made));
    assert!(!home.path().join("out").exists());
}

/// A chord that is too coarse for the part is tightened, and it is said, on the screen and in the
/// report; what is within it then has the finer chord's triangles.
#[test]
fn a_chord_too_coarse_for_the_part_is_tightened() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", "--chord", "0.5"]);
    assert_eq!(status(&made), 0, "{}", err(&made));
    assert!(out(&made).contains("0.5 mm was asked for"), "{}", out(&made));
    let report = |folder: &str| -> serde_json::Value {
        let text = fs::read_to_string(home.path().join(folder).join("demo/report.json")).unwrap();
        serde_json::from_str(&text).unwrap()
    };
    let chord = report("out")["mesh"]["chord"].clone();
    let (in_force, size) = (&chord["in_force_mm"], &chord["tightened_by"]["size_mm"]);
    assert_eq!(chord["asked_mm"], 0.5);
    assert!((in_force.as_f64().unwrap() - size.as_f64().unwrap() / 4.0).abs() < 1e-12);
    assert!(report("out")["mesh"]["chord_error_mm"].as_f64() <= in_force.as_f64());
    let fine = run(home.path(), &["make", "--out", "fine"]);
    assert!(!out(&fine).contains("asked for"));
    assert!(report("fine")["mesh"]["chord"]["tightened_by"].is_null());
}

/// Parts are written beside the section, or alone, in the kinds that are asked for; whatever is
/// of the same design stays, and the report tells of all of it.
#[test]
fn parts_are_made_by_name() {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("out/demo");
    let made = run(home.path(), &["make", "--part", "unit,blank-2", "--part=check-ring"]);
    assert_eq!(status(&made), 0, "{}", err(&made));
    assert!(out(&made).contains("blank-2.stl") && !out(&made).contains("section.stl"));
    let parts = set(&folder);
    let names: Vec<&String> = parts.keys().collect();
    let files = ["blank-2", "check-ring", "unit"].iter().flat_map(|part| {
        ["-drawing.dxf", "-drawing.pdf", "-drawing.svg", ".step", ".stl"]
            .map(|end| format!("{part}{end}"))
    });
    let mut expected: Vec<String> = files.chain(["report.json".to_owned()]).collect();
    expected.sort();
    assert_eq!(names, expected.iter().collect::<Vec<_>>());
    let report = json(&parts["report.json"]);
    assert!(report["mesh"].is_null(), "there is no section.stl");
    assert_eq!(report["files"].as_object().unwrap().len(), parts.len() - 1);
    let made = run(home.path(), &["make"]);
    assert!(out(&made).contains("Still true") && !out(&made).contains("Removed"));
    let both = set(&folder);
    assert_eq!(both.len(), parts.len() + NAMES.len() - 1);
    assert_eq!(json(&both["report.json"])["parts"], report["parts"]);
    // In whatever order parts and kinds are made, a whole set is the whole set.
    let orders = [
        "--part=blank-2,section --only=stl",
        "--part=section --only=step,dxf",
        "--part=check-ring",
        "--part=unit,blank-2 --only=step,drawing",
        "--part=section,unit --only=stl",
        "--only=svg,pdf,sheet",
    ];
    for order in orders {
        let arguments = ["make", "--out", "again", "--quiet"].into_iter();
        run(home.path(), &arguments.chain(order.split(' ')).collect::<Vec<_>>());
    }
    assert!(set(&home.path().join("again/demo")) == both);
}

/// Parts of another state of the design go, as the section's files do; somebody's own file of a
/// part's name does not.
#[test]
fn parts_that_no_longer_stand_go() {
    let home = tempfile::tempdir().unwrap();
    let (design, folder) = (home.path().join("pen.toml"), home.path().join("out/pen"));
    let text = "format = 1\nlike = \"demo\"\nname = \"pen\"\n";
    fs::write(&design, text).unwrap();
    run(home.path(), &["make", "pen.toml", "--part", "section,unit,barrel", "--quiet"]);
    fs::write(folder.join("unit.stl"), "changed").unwrap();
    fs::write(folder.join("check-plug.step"), "mine").unwrap();
    let said = out(&run(home.path(), &["make", "pen.toml", "--part", "barrel", "--only", "stl"]));
    let (_, removed) = said.split_once("Removed").unwrap();
    assert!(removed.contains("unit.stl") && removed.matches("out/pen").count() == 1, "{said}");
    let report = json(&set(&folder)["report.json"]);
    let names: Vec<_> = report["parts"].as_array().unwrap().iter().map(|p| &p["name"]).collect();
    assert_eq!(names, ["unit", "barrel"]);
    assert!(report["parts"][0]["mesh"].is_null() && report["parts"][1]["mesh"].is_object());
    fs::write(&design, format!("{text}[grip]\nfront = 10.3\n")).unwrap();
    let said = out(&run(home.path(), &["make", "pen.toml", "--part", "barrel", "--only", "stl"]));
    assert!(said.contains("Removed") && !said.contains("Still true"), "{said}");
    let left = set(&folder);
    let names: Vec<&String> = left.keys().collect();
    assert_eq!(names, ["barrel.stl", "check-plug.step", "report.json"]);
    // Where a part takes the name of a file that is not ours, neither is lost.
    run(home.path(), &["make", "pen.toml", "--part", "check-plug", "--only", "step", "--quiet"]);
    let left = set(&folder);
    assert!(left["check-plug.step.kept"] == b"mine" && left["check-plug.step"].len() > 100);
}

#[test]
fn a_part_without_a_file_of_the_kinds_is_refused_with_all_else_that_is_wrong() {
    let home = tempfile::tempdir().unwrap();
    let arguments = ["make", "--only", "report", "--part", "section,unit,lid", "--chord", "0"];
    let made = run(home.path(), &arguments);
    assert_eq!(status(&made), 2);
    let words = [
        "error[mesh.chord]",
        "error[make.no-file]",
        "of it there are stl, step, dxf, svg, pdf, drawing: --only stl",
        "error[make.part]",
    ];
    for word in words {
        assert_eq!(err(&made).matches(word).count(), 1, "{word}: {}", err(&made));
    }
    assert!(!home.path().join("out").exists());
}

#[test]
fn a_part_that_is_not_there_is_refused_and_all_are_named() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", "--part", "section,lid,blank-0"]);
    assert_eq!(status(&made), 2);
    assert_eq!(err(&made).matches("error[make.part]").count(), 2, "{}", err(&made));
    for name in ["check-plug", "barrel-plug", "blank-1 (the blank: squared to length)"] {
        assert!(err(&made).contains(name), "{name}: {}", err(&made));
    }
    assert!(!home.path().join("out").exists());
}

#[test]
fn a_place_that_cannot_be_written_is_the_machines_fault() {
    let home = tempfile::tempdir().unwrap();
    fs::write(home.path().join("out"), "a file where the folder should be").unwrap();
    let made = run(home.path(), &["make"]);
    assert_eq!(status(&made), 3, "{}", err(&made));
    assert!(err(&made).contains("archive.not-written"), "{}", err(&made));
}

#[test]
fn quiet_prints_nothing_where_nothing_is_wrong() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", "--quiet"]);
    assert_eq!((out(&made), err(&made)), (String::new(), String::new()));
}

#[test]
fn colour_comes_only_when_asked_for_through_a_pipe() {
    let home = tempfile::tempdir().unwrap();
    let escape = '\u{1b}';
    let coloured = |arguments: &[&str]| out(&run(home.path(), arguments)).contains(escape);
    assert!(!coloured(&["check", "demo"]));
    assert!(coloured(&["check", "demo", "--color", "always"]));
    assert!(!coloured(&["check", "demo", "--color", "never"]));
}

#[test]
fn a_new_design_can_be_made_at_once_and_is_never_overwritten() {
    let home = tempfile::tempdir().unwrap();
    let new = run(home.path(), &["new", "Pen 7"]);
    assert_eq!(status(&new), 0, "{}", err(&new));
    let made = run(home.path(), &["make", "Pen 7.toml"]);
    assert_eq!(status(&made), 0, "{}\n{}", out(&made), err(&made));
    assert_eq!(set(&home.path().join("out/Pen 7")).len(), NAMES.len());
    fs::write(home.path().join("Pen 7.toml"), "mine").unwrap();
    assert_eq!(status(&run(home.path(), &["new", "Pen 7"])), 2);
    assert_eq!(fs::read_to_string(home.path().join("Pen 7.toml")).unwrap(), "mine");
    assert_eq!(status(&run(home.path(), &["new", "../up"])), 2);
}

#[test]
fn profiles_are_listed_and_shown_and_a_folder_goes_before_them() {
    let home = tempfile::tempdir().unwrap();
    let list = out(&run(home.path(), &["profiles"]));
    for name in ["demo", "demo-unit", "cast-resin", "acrylic", "ebonite", "acetal", "brass"] {
        assert!(list.contains(name), "{name}\n{list}");
    }
    assert!(out(&run(home.path(), &["profiles", "ebonite"])).contains("common practice"));
    let missing = run(home.path(), &["profiles", "unobtainium"]);
    assert_eq!(status(&missing), 2);
    assert!(err(&missing).contains("cast-resin"));
    let designs = home.path().join("mine/designs");
    fs::create_dir_all(&designs).unwrap();
    fs::write(designs.join("demo.toml"), "# my own\n").unwrap();
    let shown = out(&run(home.path(), &["profiles", "demo", "--profiles", "mine"]));
    assert_eq!(shown, "# my own\n");
}

#[test]
fn only_what_is_asked_for_is_written() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", "--only", "stl"]);
    assert_eq!(status(&made), 0, "{}", err(&made));
    let files = set(&home.path().join("out/demo"));
    assert_eq!(files.keys().collect::<Vec<_>>(), ["report.json", "section.stl"]);
    let report: serde_json::Value = serde_json::from_slice(&files["report.json"]).unwrap();
    assert_eq!(report["files"].as_object().unwrap().keys().collect::<Vec<_>>(), ["section.stl"]);
    assert!(!out(&made).contains("section.step"));
    let made = run(home.path(), &["make", "--only", "report", "--out", "other"]);
    let report: serde_json::Value =
        serde_json::from_slice(&set(&home.path().join("other/demo"))["report.json"]).unwrap();
    assert!(report["mesh"].is_null() && !out(&made).contains("triangles"), "nothing was cut");
}

/// In whatever order its kinds are made, a whole set is the whole set.
#[test]
fn what_still_stands_is_kept_and_reported() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make", "--quiet"]);
    for kinds in ["svg,dxf,pdf", "stl", "sheet", "step", "report"] {
        let made = run(home.path(), &["make", "--only", kinds, "--out", "parts"]);
        assert_eq!(out(&made).contains("Still true"), kinds != "svg,dxf,pdf", "{}", out(&made));
    }
    assert!(set(&home.path().join("out/demo")) == set(&home.path().join("parts/demo")));
}

/// Two builds of one version may make two files of one section: only what this build made stays.
#[test]
fn what_another_build_made_goes() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make", "--quiet", "--only", "dxf"]);
    let folder = home.path().join("out/demo");
    let again = || out(&run(home.path(), &["make", "--only", "svg"]));
    let said = again();
    assert!(said.contains("Still true") && !said.contains("Removed"), "{said}");
    let mark = fs::read(folder.join(MADE_BY)).unwrap();
    for other in [Some("another build\n"), None] {
        run(home.path(), &["make", "--quiet", "--only", "dxf"]);
        match other {
            Some(text) => fs::write(folder.join(MADE_BY), text).unwrap(),
            None => fs::remove_file(folder.join(MADE_BY)).unwrap(),
        }
        let said = again();
        let (_, removed) = said.split_once("Removed").unwrap();
        assert!(removed.contains("half-section.dxf") && !said.contains("Still true"), "{said}");
        assert_ne!(fs::read(folder.join(MADE_BY)).unwrap(), mark, "another set, another mark");
    }
}

/// Every size of the report is known by its name; the words beside it are for people.
#[test]
fn sizes_of_the_report_have_names() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make", "--quiet", "--only", "report"]);
    let report = json(&set(&home.path().join("out/demo"))["report.json"]);
    let section = load(&Library::default(), "demo").unwrap().section;
    let rooms = report["room"].as_array().unwrap();
    let changes = report["checks"].as_array().unwrap().iter().map(|check| &check["change"]);
    let changes = changes.filter(|change| !change.is_null());
    let mut named = 0;
    for size in rooms.iter().chain(changes).map(|part| part["size"].as_str().unwrap()) {
        assert!(SizeId::read(size, &section).is_some(), "{size}");
        named += 1;
    }
    assert!(named > rooms.len() && rooms.len() > 20, "{named}");
}

/// A folder never mixes two designs: what is of another state of it goes, and is named.
#[test]
fn what_no_longer_stands_goes() {
    let home = tempfile::tempdir().unwrap();
    let design = home.path().join("pen.toml");
    let text = "format = 1\nlike = \"demo\"\nname = \"pen\"\n";
    fs::write(&design, text).unwrap();
    run(home.path(), &["make", "pen.toml", "--quiet"]);
    let folder = home.path().join("out/pen");
    fs::write(folder.join("notes.md"), "mine").unwrap();
    // Somebody changed one file: the report does not vouch for it any longer.
    fs::write(folder.join("half-section.svg"), "changed").unwrap();
    let said = out(&run(home.path(), &["make", "pen.toml", "--only", "stl"]));
    let (_, removed) = said.split_once("Removed").unwrap();
    assert!(removed.contains("half-section.svg"), "{said}");
    assert!(!removed.contains("half-section.dxf"), "{said}");
    fs::write(&design, format!("{text}[grip]\nfront = 10.3\n")).unwrap();
    let said = out(&run(home.path(), &["make", "pen.toml", "--only", "stl"]));
    assert!(said.contains("Removed") && !said.contains("Still true"), "{said}");
    let left = set(&folder);
    assert_eq!(left.keys().collect::<Vec<_>>(), ["notes.md", "report.json", "section.stl"]);
}

#[test]
fn unknown_kinds_are_refused_with_those_there_are() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["make", "--only", "stl,obj"]);
    assert_eq!(status(&made), 2);
    for word in ["export.unknown-kind", "`obj`", "stl, step, dxf, svg, pdf, drawing, sheet, report"]
    {
        assert!(err(&made).contains(word), "{word}: {}", err(&made));
    }
    assert!(!home.path().join("out").exists());
}

/// Drawings alone, of the section and of what is made for it; the sheet, scale and unit are those
/// that are asked for.
#[test]
fn parts_are_drawn_by_name() {
    let home = tempfile::tempdir().unwrap();
    let asked = ["draw", "demo", "--part", "section,bushing,tap-order", "--sheet", "A4"];
    let drawn = run(home.path(), &[&asked[..], &["--units", "inch", "--scale", "2:1"]].concat());
    assert_eq!(status(&drawn), 0, "{}", err(&drawn));
    let files = set(&home.path().join("out/demo"));
    let stems = ["bushing-drawing", "drawing", "tap-order"];
    let mut names: Vec<String> = stems
        .iter()
        .flat_map(|stem| ["dxf", "pdf", "svg"].map(|e| format!("{stem}.{e}")))
        .collect();
    names.push("report.json".to_owned());
    names.sort();
    assert_eq!(files.keys().cloned().collect::<Vec<_>>(), names);
    let svg = String::from_utf8_lossy(&files["drawing.svg"]);
    // 22 mm is 0.8661 in; ISO 5457: A4 is 297 mm wide.
    for word in [">0.8661<", ">2:1<", ">A4<", "width=\"297mm\"", ">inches<"] {
        assert!(svg.contains(word), "{word}");
    }
}

#[test]
fn a_drawing_that_can_not_be_made_is_refused_with_all_that_is_wrong() {
    let home = tempfile::tempdir().unwrap();
    let arguments = ["draw", "demo", "--sheet", "B5", "--scale", "3:1", "--units", "ell"];
    let drawn = run(home.path(), &arguments);
    assert_eq!(status(&drawn), 2);
    let codes = ["export.unknown-paper-size", "export.unknown-scale", "drawing.units"];
    for code in codes {
        assert_eq!(err(&drawn).matches(&format!("error[{code}]")).count(), 1, "{code}");
    }
    let large = run(home.path(), &["draw", "demo", "--sheet", "A4", "--scale", "50:1"]);
    assert_eq!(status(&large), 2);
    assert!(err(&large).contains("error[drawing.no-room]"), "{}", err(&large));
    assert!(!home.path().join("out").exists());
}

/// Codes, limits and meanings at the command line.
#[test]
fn checks_are_listed_explained_and_picked() {
    let folder = tempfile::tempdir().unwrap();
    let check = |arguments: &[&str]| run(folder.path(), &[&["check"], arguments].concat());
    let listed = out(&check(&["--list"]));
    let meaning = check(&["--explain", "wall.lip"]);
    assert_eq!(status(&meaning), 0);
    assert!(out(&meaning).starts_with("wall.lip: "));
    let found = out(&check(&["demo", "--explain", "wall.lip"]));
    assert!(found.contains("limit") && found.contains("common practice"));
    let picked = json(&check(&["demo", "--json", "--only", "wall.*,clear.seat"]).stdout);
    let codes: Vec<&str> = ["checks", "information"]
        .iter()
        .flat_map(|kind| picked[kind].as_array().unwrap())
        .map(|check| check["code"].as_str().unwrap())
        .collect();
    assert!(codes.contains(&"wall.lip") && codes.contains(&"clear.seat"));
    assert!(codes.iter().all(|code| code.starts_with("wall.") || *code == "clear.seat"));
    assert!(codes.iter().all(|code| listed.contains(&format!("{code} "))));
    let unknown = check(&["demo", "--only", "wall.lipp"]);
    assert_eq!(status(&unknown), 2);
    assert!(err(&unknown).contains("did you mean wall.lip?"), "{}", err(&unknown));
    assert_eq!(status(&check(&[])), 2);
}

/// Material, design, command line: the later goes over the earlier, and each says so.
#[test]
fn limits_come_from_three_places() {
    let folder = tempfile::tempdir().unwrap();
    let source = |arguments: &[&str]| {
        let output =
            run(folder.path(), &[&["check", "--json", "--only", "wall.lip"], arguments].concat());
        let found = json(&output.stdout);
        let of = |key: &str| found["checks"][0][key].clone();
        (
            of("limit").as_f64().unwrap(),
            of("limit_source").as_str().unwrap().to_owned(),
            status(&output),
        )
    };
    assert_eq!(source(&["demo"]), (0.4, "cast-resin: common practice".into(), 0));
    let design = "format = 1\nlike = \"demo\"\nname = \"own\"\n[limits.walls]\nlip = 0.45\n";
    std::fs::write(folder.path().join("own.toml"), design).unwrap();
    assert_eq!(source(&["own.toml"]), (0.45, "this design".into(), 1));
    let typed = source(&["own.toml", "--limit", "walls.lip=0.35"]);
    assert_eq!(typed, (0.35, "command line".into(), 0));
    let both = ["demo", "--limit", "wals.lip=0.3", "--limit", "walls.lip=true"];
    let wrong = run(folder.path(), &[&["check"], &both[..]].concat());
    assert_eq!(status(&wrong), 2);
    assert!(
        err(&wrong).contains("the command line:1:1")
            && err(&wrong).contains("the command line:2:11")
    );
}

/// The same picture as `make`'s, over an earlier one, and never over what is none.
#[test]
fn a_check_draws_its_walls_where_it_is_asked_to() {
    let home = tempfile::tempdir().unwrap();
    run(home.path(), &["make", "--only", "svg", "--quiet"]);
    let made = fs::read(home.path().join("out/demo/walls.svg")).unwrap();
    for _ in 0..2 {
        let checked = run(home.path(), &["check", "demo", "--picture", "here.svg"]);
        assert_eq!(status(&checked), 0, "{}", err(&checked));
        assert_eq!(fs::read(home.path().join("here.svg")).unwrap(), made);
    }
    fs::write(home.path().join("pen.toml"), "format = 1\nlike = \"demo\"\n").unwrap();
    let refused = run(home.path(), &["check", "pen.toml", "--picture", "pen.toml"]);
    assert_eq!(status(&refused), 2);
    assert!(err(&refused).contains("picture.exists"), "{}", err(&refused));
    assert!(fs::read_to_string(home.path().join("pen.toml")).unwrap().starts_with("format"));
    let nowhere = run(home.path(), &["check", "demo", "--picture", "no/such/folder/walls.svg"]);
    assert_eq!(status(&nowhere), 3, "{}", err(&nowhere));
}

/// `sheet` alone: the two files and the report; a rack of one's own; inches.
#[test]
fn the_sheet_alone() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["sheet", "demo"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    let folder = home.path().join("out/demo");
    let names: Vec<String> = set(&folder).into_keys().collect();
    assert_eq!(names, ["report.json", "sheet.html", "sheet.pdf"]);
    let said = out(&made);
    assert!(said.contains("Tools for the holes, from the rack \"bench\""), "{said}");
    assert!(said.contains("drill 7.3 mm, leaves 7.30"), "{said}");
    assert!(said.contains("not drill 7.2 mm: depth of the unit's thread (breaks"), "{said}");
    // Another rack, and the sheet is made anew; what was made with it is not true of the first.
    let before = set(&folder);
    let made = run(home.path(), &["sheet", "--rack", "inch-fractions"]);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    assert!(out(&made).contains("nothing at hand serves: buy a drill 7.3 mm"), "{}", out(&made));
    assert_ne!(set(&folder)["sheet.html"], before["sheet.html"]);
    let made = run(home.path(), &["make", "--only", "svg"]);
    assert!(out(&made).contains("Removed, not of the design as it is now"), "{}", out(&made));
    assert!(!folder.join("sheet.html").exists());
    // The same rack: it stands.
    run(home.path(), &["sheet"]);
    let made = run(home.path(), &["make", "--only", "svg"]);
    assert!(out(&made).contains("Still true from an earlier run"), "{}", out(&made));
    assert_eq!(set(&folder)["sheet.html"], before["sheet.html"]);
    let made = run(home.path(), &["sheet", "--units", "inch"]);
    assert_eq!(made.status.code(), Some(0));
    assert!(String::from_utf8_lossy(&set(&folder)["sheet.html"]).contains("All lengths in inches"));
}

/// A rack that there is not, and a unit that there is not: both are said, nothing is written.
#[test]
fn a_sheet_of_nothing_is_refused() {
    let home = tempfile::tempdir().unwrap();
    let made = run(home.path(), &["sheet", "demo", "--rack", "none-such", "--units", "cubit"]);
    assert_eq!(made.status.code(), Some(2));
    let said = err(&made);
    assert!(said.contains("there is no rack `none-such`"), "{said}");
    assert!(said.contains("`cubit` is no unit"), "{said}");
    assert!(!home.path().join("out").exists());
}

/// Names and texts of a stranger's files are said, and command no terminal.
#[test]
fn a_strangers_name_and_text_command_nothing() {
    let home = tempfile::tempdir().unwrap();
    let unit = "format = 1\nlike = \"demo-unit\"\nname = \"u\\u001b[2J\\u202e\\u0085\"\n";
    fs::write(home.path().join("unit.toml"), unit).unwrap();
    let head = "format = 1\nlike = \"demo\"\nunit = \"unit.toml\"\n";
    let name = "a\u{1b}]0;b\u{7}\u{9b}c\u{2066}.toml";
    for (text, ends) in [
        (head.to_owned(), 0),
        (format!("{head}[grip]\n\"len\u{202e}ght\" = 3 # \u{9b}\u{2067}\n"), 2),
        (format!("{head}[grip]\nlength = \u{1b}[2J\n"), 2),
    ] {
        fs::write(home.path().join(name), text).unwrap();
        for arguments in [["check", name], ["make", name]] {
            let run = run(home.path(), &arguments);
            assert_eq!(status(&run), ends, "{}", err(&run));
            let said = out(&run) + &err(&run);
            let commands = |c: char| {
                (c.is_control() && c != '\n')
                    || ('\u{202a}'..='\u{202e}').contains(&c)
                    || ('\u{2066}'..='\u{2069}').contains(&c)
            };
            assert!(!said.contains(commands), "{said:?}");
            assert!(ends == 0 || said.contains("\\u{1b}]0;b\\u{7}\\u{9b}c"), "{said}");
        }
    }
}
