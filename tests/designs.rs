//! Designs, units and materials: those that are shipped, those that tests stand on, and whatever
//! somebody may type.

use std::fs;
use std::path::{Path, PathBuf};

use sectionwright::design::{Failure, Kind, Library, Resolved, load, load_readings, template};
use sectionwright::diagnostic::{Severity, Style, render};
use sectionwright::quantity::{Length, Limits};
use sectionwright::section::{
    Corner, Curve, Depth, Item, LeadChamfer, Point, RingForm, RunOut, Station, Zone,
};
use sectionwright::solid::build;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn said(failure: &Failure) -> String {
    render(&failure.diagnostics, &failure.sources, Style::Plain)
}

fn sound(library: &Library, design: &str) -> Resolved {
    load(library, design).unwrap_or_else(|failure| panic!("{design}:\n{}", said(&failure)))
}

/// A folder with files in it.
fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("made");
        fs::write(path, text).expect("written");
    }
    folder
}

fn path(folder: &tempfile::TempDir, name: &str) -> String {
    folder.path().join(name).display().to_string()
}

const UNIT: &str = include_str!("diagnostics/parts/good-unit.toml");
const DESIGN: &str = include_str!("diagnostics/parts/good.toml");

#[test]
fn every_shipped_design_resolves() {
    let library = Library::default();
    let designs = library.list(Kind::Design);
    assert!(!designs.is_empty());
    for design in designs {
        sound(&library, &design.name);
    }
}

#[test]
fn every_shipped_unit_and_material_can_be_designed_with() {
    let library = Library::default();
    let (units, materials) = (library.list(Kind::Unit), library.list(Kind::Material));
    assert!(!units.is_empty() && materials.len() >= 5);
    let uses = |key: &str, name: &str| {
        let text = format!("format = 1\nlike = \"demo\"\n{key} = \"{name}\"\n");
        let files = folder(&[("pen.toml", &text)]);
        sound(&library, &path(&files, "pen.toml"))
    };
    for unit in units {
        assert!(!uses("unit", &unit.name).section.unit.name.is_empty());
    }
    for material in materials {
        assert_eq!(uses("material", &material.name).section.material, material.name);
    }
}

/// The template is sound as it is, whatever its name, and has no line that is there for nothing:
/// every line that is commented out may be put to use.
#[test]
fn a_new_design_resolves_as_it_is() {
    for name in ["pen 7", "it's", "Füller"] {
        let (design, unit) = template(name);
        let unit_file = format!("{name}-unit.toml");
        let files = folder(&[("pen.toml", &design), (&unit_file, &unit)]);
        let resolved = sound(&Library::default(), &path(&files, "pen.toml"));
        assert_eq!(resolved.section.name, name);
    }
    // A name that no folder can have is refused, and not as a fault of the file's syntax.
    let (design, unit) = template("quo\"te\\");
    let design = design.replace("quo\\\"te\\\\-unit", "a-unit");
    let files = folder(&[("pen.toml", &design), ("a-unit.toml", &unit)]);
    let failure = load(&Library::default(), &path(&files, "pen.toml")).expect_err("no name");
    assert_eq!(
        failure.diagnostics.last().map(|d| d.code),
        Some("value.name"),
        "{}",
        said(&failure)
    );
}

#[test]
fn every_line_of_the_template_may_be_put_to_use() {
    let (design, unit) = template("pen");
    let is_key = |line: &str| {
        let line = line.strip_prefix("# ").unwrap_or("");
        let key = line.split_once(" = ").map(|(key, _)| key);
        let is_word = |key: &str| key.chars().all(|c| c.is_ascii_lowercase() || c == '_');
        key.is_some_and(is_word) || (line.starts_with('[') && line.ends_with(']'))
    };
    let mut lines: Vec<String> = design.lines().map(str::to_owned).collect();
    let mut used = 0;
    for line in &mut lines {
        if is_key(line) {
            *line = line.trim_start_matches("# ").to_owned();
            used += 1;
        }
    }
    assert!(used >= 15, "{used}");
    let files = folder(&[("pen.toml", &lines.join("\n")), ("pen-unit.toml", &unit)]);
    let resolved = sound(&Library::default(), &path(&files, "pen.toml"));
    // `beyond` stands for a depth, and is the only key that leaves something to be worked out.
    let derived: Vec<&str> = resolved.derived.iter().map(|d| d.key.as_str()).collect();
    assert_eq!(derived, ["bores.tap_drill.depth"]);
    assert_eq!(resolved.section.criteria.walls.of(Zone::Lip).source, "this design");
}

/// Every number of the reference part as it is written down beside its measured volume and walls.
#[test]
fn the_reference_part_is_as_described() {
    let resolved = sound(&Library::default(), "tests/fixtures/r1.toml");
    let section = &resolved.section;
    assert_eq!(section.length(), mm(32.0));
    assert_eq!((section.grip.front, section.grip.back()), (mm(9.7), mm(11.4)));
    let tenon = &section.tenon;
    assert_eq!((tenon.thread.from, tenon.thread.to), (mm(21.0), mm(32.0)));
    assert_eq!(
        (tenon.chamfer, tenon.relief, tenon.pilot),
        (LeadChamfer::at_45(mm(0.5)), None, None)
    );
    assert_eq!(tenon.thread.form.crest, mm(10.0));
    let near = |a: Length, b: f64| assert!((a - mm(b)).abs() < mm(1e-9), "{a} {b}");
    let height = 0.75 * 3.0_f64.sqrt() / 2.0;
    near(tenon.thread.form.root, 10.0 - 1.25 * height);
    near(tenon.thread.form.crest_flat(), 0.75 / 8.0);
    near(tenon.thread.form.root_flat(), 0.75 / 4.0);
    let minor = 8.05 - 1.25 * (0.55 * 3.0_f64.sqrt() / 2.0);
    let expected = [
        (Item::Recess, 8.9, Depth::To(mm(1.2))),
        (Item::ClearanceBore, 8.3, Depth::To(mm(4.6))),
        (Item::TapDrill, minor, Depth::To(mm(13.5))),
        (Item::ThroughBore, 6.9, Depth::Through),
    ];
    for (bore, (item, diameter, depth)) in section.bores.iter().zip(expected) {
        assert_eq!((bore.item, bore.depth), (item, depth));
        near(bore.diameter, diameter);
        assert!(bore.point == Point::Flat || item == Item::ThroughBore);
    }
    let thread = &section.unit_thread;
    assert_eq!((thread.from, thread.to, thread.phase), (mm(4.6), mm(11.75), Length::ZERO));
    near(thread.form.root, 8.05);
    near(thread.form.crest_flat(), 0.55 / 4.0);
    // The unit's whole basic profile, 0.025 smaller in radius.
    let unit = &section.unit.thread.form;
    near(unit.crest, 8.0);
    near(thread.form.pitch_diameter - unit.pitch_diameter, 0.05);
    near(thread.form.crest - unit.root, 0.05);
    // 7.15 mm engaged: 13 turns.
    let from = thread.from.max(section.seat() + section.unit.thread.from);
    let to = thread.to.min(section.seat() + section.unit.thread.to);
    near(to - from, 7.15);
}

#[test]
fn every_coincidence_resolves() {
    let files = fs::read_dir("tests/fixtures/coincidence").expect("the folder is there");
    let mut count = 0;
    for file in files {
        sound(&Library::default(), file.expect("a file").path().to_str().expect("ASCII"));
        count += 1;
    }
    assert!(count >= 10);
}

/// The grip of the fixture as it is written there.
#[test]
fn the_outside_is_as_described() {
    let resolved = sound(&Library::default(), "tests/fixtures/outside.toml");
    let grip = &resolved.section.grip;
    assert_eq!(grip.rim, Corner::Fillet(mm(0.3)));
    let curves: Vec<Curve> = grip.runs.iter().map(|run| run.curve).collect();
    assert_eq!(curves[0], Curve::TangentAfter);
    assert_eq!(curves[1], Curve::Concave(mm(60.0)));
    assert_eq!(curves[3], Curve::Through(Station::new(mm(11.4), mm(17.0))));
    assert_eq!(curves[8..], [Curve::TangentBefore, Curve::Convex(mm(8.0))]);
    let legs = Corner::Chamfer { before: mm(0.6), after: mm(0.4) };
    assert_eq!((grip.runs[5].corner, grip.runs[6].corner), (legs, Corner::Fillet(mm(0.2))));
    let cap = grip.thread.as_ref().expect("a thread");
    assert_eq!((cap.run, cap.thread.from, cap.thread.to), (5, mm(18.0), mm(23.0)));
    assert_eq!(grip.runs[5].to.diameter, mm(13.0));
    assert_eq!(cap.thread.designation.to_string(), "M13xPh2.4P0.8-6g");
    let items: Vec<String> = grip.rings.iter().map(|ring| ring.item.to_string()).collect();
    assert_eq!(items, ["bead-1", "groove-1", "groove-2", "groove-3"]);
    assert_eq!(grip.rings[1].form, RingForm::RoundGroove);
    // tan 30 = 0.7 / length.
    let lead = resolved.section.tenon.chamfer;
    assert!((lead.length - mm(0.7 * 3.0_f64.sqrt())).abs() < mm(1e-12));
    let derived = |key: &str| resolved.derived.iter().any(|derived| derived.key == key);
    assert!(derived("grip.run.6.diameter") && !derived("tenon.chamfer"));
}

/// A material without a limit for the cap's thread takes that of the unit's.
#[test]
fn a_cap_thread_is_judged_as_the_units() {
    let material = fs::read_to_string("profiles/materials/cast-resin.toml").expect("there");
    let own: String = material
        .lines()
        .filter(|line| !line.starts_with("cap_thread"))
        .fold(String::new(), |text, line| text + line + "\n");
    let own = own.replace("unit_thread = { value = 0.80", "unit_thread = { value = 0.70");
    let design = "format = 1\nlike = \"demo\"\nmaterial = \"own.toml\"\n";
    let files = folder(&[("pen.toml", design), ("own.toml", &own)]);
    let walls = sound(&Library::default(), &path(&files, "pen.toml")).section.criteria.walls;
    assert_eq!(walls.of(Zone::CapThread).value, mm(0.7));
    assert_eq!(walls.of(Zone::CapThread).source, walls.of(Zone::UnitThread).source);
}

/// One without a limit for the shoulder's corner takes that of the tenon; a limit of its own goes
/// before it, wherever it is given.
#[test]
fn a_shoulders_corner_is_judged_as_the_tenon() {
    let walls = |limits: &str| {
        let design = format!("format = 1\nlike = \"demo\"\nmaterial = \"acrylic\"\n{limits}");
        let files = folder(&[("pen.toml", &design)]);
        sound(&Library::default(), &path(&files, "pen.toml")).section.criteria.walls
    };
    let plain = walls("");
    assert_eq!(plain.of(Zone::ShoulderCorner).value, mm(0.7));
    assert_eq!(plain.of(Zone::ShoulderCorner).source, plain.of(Zone::Tenon).source);
    let own = walls("[limits.walls]\nshoulder_corner = 0.5\n");
    assert_eq!(own.of(Zone::ShoulderCorner).value, mm(0.5));
    assert_eq!(
        (own.of(Zone::Tenon).value, own.of(Zone::ShoulderCorner).source.as_str()),
        (mm(0.7), "this design")
    );
}

/// What is left out is derived as profiles/README.md says, and said.
#[test]
fn what_is_left_out_is_derived() {
    let resolved = sound(&Library::default(), "demo");
    let derived = |key: &str| {
        let found = resolved.derived.iter().find(|derived| derived.key == key);
        found.expect(key).value.as_str()
    };
    // By hand: collar 8.8 + 0.33; seat 1.1 + 3.2; 7.84 + 0.3; 10.9 + 4 x 0.6; 6.3 + 0.2.
    assert_eq!(derived("bores.recess.diameter"), "9.13 mm");
    assert_eq!(derived("bores.recess.depth"), "1.1 mm");
    assert_eq!(derived("bores.clearance.depth"), "4.3 mm");
    assert_eq!(derived("bores.clearance.diameter"), "8.14 mm");
    assert_eq!(derived("bores.tap_drill.depth"), "13.3 mm");
    assert_eq!(derived("bores.through.diameter"), "6.5 mm");
    assert_eq!(derived("barrel.outside"), "12.4 mm");
    // 12.4 + 1 rounded up; 22 + 9 + 0.35 to come off.
    assert_eq!(derived("blank.diameter"), "14 mm");
    assert_eq!(derived("blank.length"), "31.35 mm");
    let how = resolved.readings.iter().find(|reading| reading.key == "thread.diameter");
    assert!(how.is_some_and(|reading| reading.how.starts_with("caliper")));
}

/// A collar on a cone of 60 degrees sits where the cone is as wide as it: (9.3 - 9.0) / 2 / tan 30
/// = 0.2598 below the end of the full diameter (plane geometry).
#[test]
fn a_cone_seat_takes_the_collar_where_it_is_as_wide() {
    let seat = |bores: &str| {
        let design = DESIGN.replace("[bores.recess]\ndiameter = 9.3\ndepth = 1.2", bores);
        let files = folder(&[("pen.toml", &design), ("good-unit.toml", UNIT)]);
        sound(&Library::default(), &path(&files, "pen.toml")).section
    };
    let below = 0.15 * 3.0_f64.sqrt();
    let given = seat("[bores.recess]\ndiameter = 9.3\ndepth = 1.0\nseat = { cone = 60 }");
    assert!((given.seat() - mm(1.0 + below)).abs() < mm(1e-12));
    // Flush: the collar is 1.2 thick, so the cone begins that much less deep.
    let flush = seat("[bores.recess]\ndiameter = 9.3\nseat = { cone = 60 }");
    assert!((flush.seat() - mm(1.2)).abs() < mm(1e-12));
    let proud = seat("[bores.recess]\ndiameter = 9.3\nproud = 0.2");
    assert!((proud.seat() - mm(1.0)).abs() < mm(1e-12));
}

#[test]
fn drills_are_taken_by_name() {
    let design = DESIGN.replace("diameter = 7.5", "diameter = \"19/64 in\"");
    let files = folder(&[("pen.toml", &design), ("good-unit.toml", UNIT)]);
    let resolved = sound(&Library::default(), &path(&files, "pen.toml"));
    let drill = resolved.section.bore(Item::TapDrill).expect("there is one");
    // 19/64 in = 7.541 mm: the inch is 25.4 mm.
    assert!((drill.diameter - mm(25.4 * 19.0 / 64.0)).abs() < mm(1e-12));
    assert_eq!(drill.tool.as_deref(), Some("19/64 in"));
    assert_eq!(resolved.section.unit_thread.form.crest, drill.diameter);
    assert_eq!(drill.limits.max(), drill.diameter + mm(0.15));
}

/// A folder's profile goes before the built-in one of its name, and may be like it.
#[test]
fn folders_come_before_what_is_built_in() {
    let own = "format = 1\nlike = \"brass\"\nname = \"soft\"\n[walls]\nlip = 0.9\n";
    let files = folder(&[("materials/cast-resin.toml", own), ("units/mine.toml", UNIT)]);
    let library = Library::new(vec![files.path().to_owned()]);
    let resolved = sound(&library, "demo");
    let walls = &resolved.section.criteria.walls;
    assert_eq!(resolved.section.material, "soft");
    assert_eq!(walls.of(Zone::Lip).value, mm(0.9));
    assert_eq!(walls.of(Zone::Lip).source, "soft: no source given");
    let units: Vec<String> = library.list(Kind::Unit).into_iter().map(|entry| entry.name).collect();
    assert_eq!(units, ["demo-second-unit", "demo-unit", "mine"]);
    assert!(library.text(Kind::Unit, "mine").is_some_and(|text| text == UNIT));
    assert!(library.text(Kind::Unit, "no such").is_none());
    let more = "format = 1\nlike = \"cast-resin\"\n[walls]\nlip = 0.7\n";
    let files = folder(&[("materials/cast-resin.toml", more)]);
    let library = Library::new(vec![files.path().to_owned()]);
    let walls = sound(&library, "demo").section.criteria.walls;
    assert_eq!((walls.of(Zone::Lip).value, walls.of(Zone::Recess).value), (mm(0.7), mm(0.45)));
}

/// A file has an end: what is larger than the limit is refused by its name, to the byte.
#[test]
fn a_file_is_read_up_to_its_limit() {
    let padded = |bytes: usize| format!("{DESIGN}#{}", " ".repeat(bytes - DESIGN.len() - 1));
    let files = |bytes| folder(&[("pen.toml", &padded(bytes)), ("good-unit.toml", UNIT)]);
    let fits = files(64 * 1024);
    sound(&Library::default(), &path(&fits, "pen.toml"));
    let larger = files(64 * 1024 + 1);
    let failure = load(&Library::default(), &path(&larger, "pen.toml")).expect_err("too large");
    let [error] = &failure.diagnostics[..] else { panic!("{}", said(&failure)) };
    assert_eq!(error.code, "file.unreadable");
    assert!(error.message.contains("64 KiB"), "{}", error.message);
}

/// A key that says a measure in another way takes the place of the one below it.
#[test]
fn like_is_laid_over_key_by_key() {
    let over = "format = 1\nlike = \"good.toml\"\nname = \"Over\"\n[bores.recess]\nover = 0.4\n\
                [bores.tap_drill]\nbeyond = 1\n[tenon]\nrelief = \"none\"\n";
    let files = folder(&[("over.toml", over), ("good.toml", DESIGN), ("good-unit.toml", UNIT)]);
    let section = sound(&Library::default(), &path(&files, "over.toml")).section;
    assert_eq!(section.name, "Over");
    let recess = section.bore(Item::Recess).expect("there is one");
    assert_eq!((recess.diameter, recess.depth), (mm(9.4), Depth::To(mm(1.2))));
    let drill = section.bore(Item::TapDrill).expect("there is one");
    assert_eq!(drill.depth, Depth::To(mm(11.8)));
    assert!(section.tenon.relief.is_none());
    assert_eq!(section.tenon.chamfer.depth, mm(0.5));
}

/// A byte order mark and DOS line ends change nothing.
#[test]
fn other_editors_files_are_read() {
    let dos = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let files = folder(&[("pen.toml", &dos(DESIGN)), ("good-unit.toml", &dos(UNIT))]);
    sound(&Library::default(), &path(&files, "pen.toml"));
}

/// What somebody might write behind a key.
const VALUES: [&str; 24] = [
    "-1",
    "0",
    "-0.0",
    "1e-9",
    "0.00005",
    "299",
    "1e300",
    "nan",
    "-inf",
    "true",
    "\"\"",
    "\"none\"",
    "\"basic\"",
    "\"flat\"",
    "\"5/16 in\"",
    "\"1e5 mm\"",
    "\"M1x0.25\"",
    "[]",
    "{}",
    "[0, 0]",
    "[{}]",
    "99999999999999999999",
    "1979-05-27",
    "{ value = 3 }",
];

/// Whatever stands behind a key, the answer is a section or an error with its text.
#[test]
fn any_value_of_any_key_gets_an_answer() {
    let (design, unit) = template("pen");
    let texts = [("pen.toml", design.as_str()), ("pen-unit.toml", unit.as_str())];
    let (mut sections, mut failures) = (0, 0);
    for (name, text) in texts {
        let files = folder(&texts);
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let Some((key, _)) = line.trim_start_matches("# ").split_once(" = ") else { continue };
            for value in VALUES {
                let mut changed = lines.clone();
                let line = format!("{key} = {value}");
                changed[at] = &line;
                fs::write(files.path().join(name), changed.join("\n")).expect("written");
                let answer = answered(&path(&files, "pen.toml"));
                *(if answer { &mut sections } else { &mut failures }) += 1;
            }
        }
    }
    // Both happen, or the values were no trial.
    assert!(sections > 20 && failures > 500, "{sections} sections, {failures} failures");
}

/// The same for the tools beyond the unit's stack.
#[test]
fn any_value_of_any_tool_gets_an_answer() {
    let tools = "\n[[bores.step]]\nfrom = \"back\"\ndiameter = 7.2\ndepth = 6\npoint = 118\n\
                 cuts_over = [0, 0.1]\n[[bores.step]]\nfrom = \"front\"\ndiameter = 8.7\n\
                 depth = 2\npoint = \"flat\"\n[bores.countersink.back]\nmouth = 7.8\nangle = 90\n\
                 [bores.countersink.front]\nmouth = 9.6\n[[bores.relief]]\nfrom = 15\nto = 17\n\
                 diameter = 7.4\nwalls = 90\n[blank]\ndiameter = 14\nlength = 40\n";
    let through = ["[bores.through]\ndiameter = 6.6", "[bores]\nthrough = \"none\""];
    let (mut sections, mut failures) = (0, 0);
    for text in through.map(|other| format!("{}{tools}", DESIGN.replace(through[0], other))) {
        let files = folder(&[("pen.toml", &text), ("good-unit.toml", UNIT)]);
        let lines: Vec<&str> = text.lines().collect();
        let first = lines.iter().position(|line| *line == "[[bores.step]]").expect("it is there");
        for (at, line) in lines.iter().enumerate().skip(first) {
            let Some((key, _)) = line.split_once(" = ") else { continue };
            for value in VALUES.into_iter().chain(["5", "7.5", "12", "20", "31", "60", "\"front\""])
            {
                let mut changed = lines.clone();
                let line = format!("{key} = {value}");
                changed[at] = &line;
                fs::write(files.path().join("pen.toml"), changed.join("\n")).expect("written");
                let answer = answered(&path(&files, "pen.toml"));
                *(if answer { &mut sections } else { &mut failures }) += 1;
                if answer {
                    can_be_built(&path(&files, "pen.toml"));
                }
            }
        }
    }
    assert!(sections > 40 && failures > 500, "{sections} sections, {failures} failures");
}

/// Wherever a file is cut off, the answer is a section or an error with its text.
#[test]
fn a_file_that_is_cut_off_gets_an_answer() {
    let text = DESIGN;
    let files = folder(&[("pen.toml", text), ("good-unit.toml", UNIT)]);
    for end in 0..text.len() {
        fs::write(files.path().join("pen.toml"), &text[..end]).expect("written");
        answered(&path(&files, "pen.toml"));
    }
}

/// Asks for a design and holds the answer to its form; true where it is a section.
fn answered(design: &str) -> bool {
    match load(&Library::default(), design) {
        Ok(resolved) => {
            let _ = render(&resolved.notes, &resolved.sources, Style::Plain);
            let part = resolved.section.part();
            assert!(part.runs.iter().all(|run| run.from.z.is_finite() && run.to.z.is_finite()));
            // Whatever is taken for sound has stages, each of them a part.
            assert!(resolved.section.stages().iter().all(|(_, part)| part.runs.len() > 2));
            true
        }
        Err(failure) => {
            let errors = failure.diagnostics.iter().filter(|d| d.severity == Severity::Error);
            assert!(
                errors.count() > 0,
                "{}",
                fs::read_to_string(Path::new(design)).expect("there")
            );
            assert!(said(&failure).contains("error["));
            false
        }
    }
}

/// Whatever is taken for sound can be built, at its least material and at every stage too.
fn can_be_built(design: &str) {
    let section = sound(&Library::default(), design).section;
    let worst = ("least material".to_owned(), section.at_least_material().part());
    let stages = section.stages().into_iter().map(|(stage, part)| (stage.to_string(), part));
    let mut before = f64::INFINITY;
    for (what, part) in stages.chain([worst]) {
        let text = || fs::read_to_string(design).expect("there");
        let body = build(&part).unwrap_or_else(|e| panic!("{what}: {e}\n{}", text()));
        let volume = body.measures().volume;
        assert!(volume < before, "{what}: {volume} after {before}\n{}", text());
        before = volume;
    }
}

/// A circle of one, of two, and one that the file only leads into.
#[test]
fn circles_end() {
    let like = |name: &str| format!("format = 1\nlike = \"{name}\"\n");
    let files = folder(&[
        ("a.toml", &like("a.toml")),
        ("b.toml", &like("c.toml")),
        ("c.toml", &like("./b.toml")),
        ("d.toml", &like("b.toml")),
    ]);
    for name in ["a", "b", "d"] {
        let file = path(&files, &format!("{name}.toml"));
        let failure = load(&Library::default(), &file).expect_err("a circle");
        let codes: Vec<&str> = failure.diagnostics.iter().map(|d| d.code).collect();
        assert_eq!(codes, ["profile.cycle"], "{name}");
    }
    let folders = vec![PathBuf::from("no such folder")];
    let failure = load(&Library::new(folders), "no such design").expect_err("none");
    assert_eq!(failure.diagnostics[0].code, "profile.missing");
}

/// The files in profiles/README.md are files: each of them is read, with the shipped ones beside.
#[test]
fn the_files_in_the_guide_resolve() {
    let guide = include_str!("../profiles/README.md");
    let blocks: Vec<&str> =
        guide.split("```toml\n").skip(1).filter_map(|rest| rest.split("```").next()).collect();
    let [unit, design, material, maker, rack, printer, readings] = blocks[..] else {
        panic!("{} files", blocks.len())
    };
    let design = design
        .replace("\"demo-unit\"", "\"u.toml\"")
        .replace("\"cast-resin\"", "\"m.toml\"")
        .replace("maker = \"bench\"", "maker = \"k.toml\"")
        .replace("rack = \"bench\"", "rack = \"r.toml\"");
    let files = folder(&[
        ("d.toml", &design),
        ("u.toml", unit),
        ("m.toml", material),
        ("k.toml", maker),
        ("r.toml", rack),
        ("p.toml", printer),
        ("readings.toml", &readings.replace("\"resin\"", "\"p.toml\"")),
    ]);
    let form = files.path().join("readings.toml");
    let loaded =
        load_readings(&Library::default(), &form).unwrap_or_else(|f| panic!("{}", said(&f)));
    assert_eq!((loaded.printer.name.as_str(), loaded.taken.len()), ("our printer", 5));
    // It shows keys that shut each other out only in their comments, and sets all the others.
    let resolved = sound(&Library::default(), &path(&files, "d.toml"));
    assert!(resolved.derived.is_empty(), "{:?}", resolved.derived);
    assert!(resolved.section.criteria.shear.is_some());
    let workshop = &resolved.workshop;
    assert_eq!(workshop.name, "Our rack");
    assert!(workshop.tools.len() > 121 && workshop.taps.len() == 1);
    assert_eq!(workshop.cutting.notes.len(), 1);
}

/// A through bore as wide as the tap drill's hole may cut wider than it, and is the crest then.
#[test]
fn at_the_worst_the_wider_of_two_holes_is_the_threads_crest() {
    let fixture = "tests/fixtures/coincidence/through-at-minor.toml";
    let mut section = sound(&Library::default(), fixture).section;
    let drilled = section.at_least_material();
    assert_eq!(drilled.unit_thread.form.crest, section.unit_thread.form.crest + mm(0.15));
    let through = section.bores.iter_mut().find(|bore| bore.item == Item::ThroughBore);
    let through = through.expect("there is one");
    through.limits =
        Limits::new(through.diameter, through.diameter + mm(0.2)).expect("in this order");
    let worst = section.at_least_material();
    assert_eq!(worst.unit_thread.form.crest, section.unit_thread.form.crest + mm(0.2));
}

/// A trapezoidal thread has the sizes of ISO 2904 (row Tr 8x1.5, from memory, moved to 10.4), the
/// barrel's those of its mate; leads and phases are where they are asked for.
#[test]
fn threads_are_cut_as_asked() {
    let section = sound(&Library::default(), "tests/fixtures/threads.toml").section;
    let near = |a: Length, b: f64| assert!((a - mm(b)).abs() < mm(1e-9), "{a} {b}");
    let tenon = &section.tenon.thread;
    assert_eq!((tenon.form.starts, tenon.phase), (2, mm(0.3)));
    near(tenon.form.pitch_diameter, 10.4 - 0.75);
    near(tenon.form.root, 10.4 - 1.8);
    near(section.barrel.thread.form.root, 10.4 + 0.3);
    near(section.barrel.thread.form.pitch_diameter, 10.4 - 0.75);
    assert_eq!(tenon.run_outs, [RunOut::Withdrawal { turns: 0.25 }, RunOut::Wall]);
    let unit = &section.unit_thread;
    near(unit.to, 11.75 + 4.0 * 0.55);
    let RunOut::Lead(lead) = unit.run_outs[1] else { panic!("{:?}", unit.run_outs) };
    near(lead, 4.0 * 0.55);
}

/// The unit of the demo with another reading of its pitch.
fn with_pitch(pitch: &str) -> Result<Resolved, sectionwright::design::Failure> {
    let unit = format!("format = 1\nlike = \"demo-unit\"\n[thread]\npitch = {pitch}\n");
    let design = "format = 1\nlike = \"demo\"\nunit = \"u.toml\"\n";
    let files = folder(&[("d.toml", design), ("u.toml", &unit)]);
    load(&Library::default(), &path(&files, "d.toml"))
}

/// A gauge leaves no other pitch, and none but the name's.
#[test]
fn a_gauge_decides_between_pitches() {
    let pitches = |pitch: &str| {
        let unit = with_pitch(pitch).unwrap().section.unit;
        let others: Vec<f64> = unit.other_pitches.iter().map(|p| p.as_mm()).collect();
        (unit.thread.form.pitch.as_mm(), others)
    };
    // Keys of a pitch are laid over the demo's, its gauge with them.
    let (pitch, others) = pitches("{ over = 3.60, turns = 6, uncertainty = 0.03 }");
    assert_eq!((pitch, others.len()), (0.6, 0));
    let (pitch, others) =
        pitches("{ over = 3.60, turns = 6, uncertainty = 0.03, gauge = \"0.6 mm\" }");
    assert_eq!((pitch, others.len()), (0.6, 0));
    assert!(with_pitch("{ over = 3.60, turns = 6, gauge = 0.605 }").is_err());
}

/// By hand: without a gauge 42 TPI is left beside 0.6; 6.03 over 10 turns, to 0.005, is 0.603,
/// which no pitch in use is; 7.2 over 10 is another thread.
#[test]
fn without_a_gauge_the_reading_decides() {
    let unit = |pitch: &str| {
        let text = include_str!("../profiles/units/demo-unit.toml");
        let line = text.lines().find(|line| line.starts_with("pitch")).unwrap();
        let design = "format = 1\nlike = \"demo\"\nunit = \"u.toml\"\n";
        let text = text.replace(line, &format!("pitch = {pitch}"));
        let files = folder(&[("d.toml", design), ("u.toml", &text)]);
        load(&Library::default(), &path(&files, "d.toml")).map(|resolved| resolved.section.unit)
    };
    let rival = unit("{ over = 3.60, turns = 6, uncertainty = 0.03 }").unwrap();
    assert_eq!(rival.thread.form.pitch, mm(0.6));
    assert_eq!(rival.other_pitches.len(), 1);
    assert!((rival.other_pitches[0].as_mm() - 25.4 / 42.0).abs() < 1e-12);
    let read = unit("{ over = 6.03, turns = 10, uncertainty = 0.005 }").unwrap();
    assert!((read.thread.form.pitch.as_mm() - 0.603).abs() < 1e-12);
    let ends: Vec<f64> = read.other_pitches.iter().map(|p| p.as_mm()).collect();
    assert!((ends[0] - 0.6025).abs() < 1e-12 && (ends[1] - 0.6035).abs() < 1e-12);
    assert!(unit("{ over = 7.2, turns = 10, uncertainty = 0.005 }").is_err());
}

/// By hand: the tap's sizes to within its uncertainty, less what the material springs back.
#[test]
fn a_tap_is_taken_as_measured_and_the_material_closes_in() {
    let design = "format = 1\nlike = \"demo\"\n[bores.thread]\n\
        tap = { major = 7.88, pitch_diameter = 7.5, uncertainty = 0.01 }\n\
        [limits.tapping]\nsprings_back = [0.01, 0.03]\n";
    let files = folder(&[("d.toml", design)]);
    let thread = sound(&Library::default(), &path(&files, "d.toml")).section.unit_thread;
    assert_eq!((thread.form.root, thread.form.pitch_diameter), (mm(7.88), mm(7.5)));
    let near = |found: Length, expected: f64| (found.as_mm() - expected).abs() < 1e-12;
    assert!(near(thread.limits.major.min(), 7.84) && near(thread.limits.major.max(), 7.88));
    assert!(near(thread.limits.pitch.min(), 7.46) && near(thread.limits.pitch.max(), 7.50));
}

/// What is left out of a cap follows from the section's thread: it stops where that ends, and its own
/// goes a turn of 2.4 beyond where that begins, 3 inside.
#[test]
fn a_cap_and_a_converter_are_as_described() {
    let resolved = sound(&Library::default(), "tests/fixtures/capped.toml");
    let section = &resolved.section;
    let cap = section.cap.as_ref().expect("a cap");
    let thread = cap.thread().expect("a thread");
    assert_eq!(cap.stops_at, mm(18.0));
    assert_eq!(thread.designation.to_string(), "M13xPh2.4P0.8-6H");
    assert_eq!((thread.from, thread.to), (mm(0.0), mm(5.4)));
    assert_eq!(cap.bores.iter().map(|bore| bore.to).collect::<Vec<_>>(), [mm(12.0), mm(44.0)]);
    assert_eq!((cap.inner_length.value, cap.inner_length.uncertainty), (mm(44.0), mm(0.1)));
    let made: Vec<&str> = resolved.derived.iter().map(|d| d.key.as_str()).collect();
    for key in ["cap.stops_at", "cap.thread", "cap.full_thread_to", "cap.bores.2.to"] {
        assert!(made.contains(&key), "{key}: {made:?}");
    }
    let read = |key: &str| resolved.readings.iter().find(|r| r.key == key).expect("a reading");
    assert_eq!(read("cap.length").how, "depth rod");
    assert_eq!(read("converter.onto_nipple").uncertainty, mm(0.2));
    let fits = &section.criteria.fits;
    assert_eq!(fits.nib_room.source, "this design: the customer's wish");
    assert_eq!(fits.joint_step.source, "built in: common practice");
    assert_eq!(fits.closing_turns.as_ref().map(|limit| limit.value), Some(2.0));
    let names: Vec<String> = section.parts().into_iter().map(|part| part.name).collect();
    assert_eq!(names[2..5], ["barrel", "cap", "converter"]);
    let verdicts = sectionwright::scene::verdicts(section).expect("it is built");
    let bad = verdicts
        .findings
        .iter()
        .find(|f| f.verdict() == Some(sectionwright::check::Verdict::Breaks));
    assert!(bad.is_none(), "{bad:?}");
}

/// By hand: a tap with a lead of 5 pitches, and one pitch for chips: 10.9 + 6 x 0.6; 14 - 6 x 0.75.
#[test]
fn holes_are_as_deep_as_the_taps_lead_asks() {
    let design = "format = 1\nlike = \"demo\"\n[limits.fit]\ntap_lead = 5\n";
    let files = folder(&[("d.toml", design)]);
    let section = sound(&Library::default(), &path(&files, "d.toml")).section;
    let drill = section.bore(Item::TapDrill).unwrap().full_depth(section.length());
    assert!((drill.as_mm() - 14.5).abs() < 1e-9, "{drill}");
    assert!((section.barrel.thread.to.as_mm() - 9.5).abs() < 1e-9, "{}", section.barrel.thread.to);
}
